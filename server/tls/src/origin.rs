//! Where browsers find the server.

use std::fmt;
use std::net::IpAddr;
use std::str::FromStr;

use url::{Host, Url};

use crate::names::is_dns_name;

/// Scheme, host and port of a server, and nothing else.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    secure: bool,
    host: Host,
    port: u16,
}

impl Origin {
    /// The address over plain HTTP.
    pub fn http(ip: IpAddr, port: u16) -> Self {
        Self {
            secure: false,
            host: host(ip),
            port,
        }
    }

    /// The address over HTTPS.
    pub(crate) fn https(host: Host, port: u16) -> Self {
        Self {
            secure: true,
            host,
            port,
        }
    }

    /// The same host over plain HTTP at another port.
    #[must_use]
    pub fn plain(&self, port: u16) -> Self {
        Self {
            secure: false,
            host: self.host.clone(),
            port,
        }
    }

    /// Whether browsers come over HTTPS.
    pub fn is_secure(&self) -> bool {
        self.secure
    }

    /// A name in lower case, as certificates spell it, or a number.
    pub(crate) fn host(&self) -> &Host {
        &self.host
    }
}

/// A number as a host.
pub(crate) fn host(ip: IpAddr) -> Host {
    match ip {
        IpAddr::V4(ip) => Host::Ipv4(ip),
        IpAddr::V6(ip) => Host::Ipv6(ip),
    }
}

impl FromStr for Origin {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let url = Url::parse(text).map_err(|why| {
            format!("{why}; write it as in https://cards.example.org or https://192.168.1.5:4747")
        })?;
        let (Some(host), Some(port), "https" | "http") =
            (url.host(), url.port_or_known_default(), url.scheme())
        else {
            return Err(String::from("it has to begin with https:// or http://"));
        };
        let bare = url.username().is_empty()
            && url.password().is_none()
            && url.path() == "/"
            && url.query().is_none()
            && url.fragment().is_none();
        if !bare {
            return Err(String::from(
                "it may name a host and a port, and nothing beside them",
            ));
        }
        if let Host::Domain(name) = host
            && !is_dns_name(name)
        {
            return Err(format!("{name} is not the name of a host"));
        }
        Ok(Self {
            secure: url.scheme() == "https",
            host: host.to_owned(),
            port,
        })
    }
}

/// Without a slash at the end, so that a path can follow.
impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (scheme, usual) = if self.secure {
            ("https", 443)
        } else {
            ("http", 80)
        };
        write!(f, "{scheme}://{}", self.host)?;
        if self.port != usual {
            write!(f, ":{}", self.port)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::Origin;

    #[test]
    fn a_scheme_a_host_and_perhaps_a_port() {
        for (text, read) in [
            ("https://cards.example.org", "https://cards.example.org"),
            ("https://cards.example.org/", "https://cards.example.org"),
            ("https://Laptop.local:4747", "https://laptop.local:4747"),
            ("https://192.168.1.5:443", "https://192.168.1.5"),
            ("http://[::1]:80", "http://[::1]"),
            ("https://bücher.example", "https://xn--bcher-kva.example"),
        ] {
            let origin: Origin = text.parse().expect(text);
            assert_eq!(origin.to_string(), read, "{text}");
        }
    }

    #[test]
    fn nothing_else() {
        for text in [
            "",
            "cards.example.org",
            "cards.example.org:4747",
            "ftp://cards.example.org",
            "https://",
            "https://me@cards.example.org",
            "https://cards.example.org/recipes",
            "https://cards.example.org?a",
            "https://cards.example.org#a",
            "https://cards.example.org:99999",
            "https://my_laptop",
            "https://-laptop",
        ] {
            assert!(text.parse::<Origin>().is_err(), "{text}");
        }
    }
}
