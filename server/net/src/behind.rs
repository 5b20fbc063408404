//! Who asks, where a proxy asks for others.

use std::net::{IpAddr, SocketAddr};
use std::str::FromStr;
use std::sync::Once;

use axum::http::HeaderMap;
use ipnet::IpNet;

/// What proxies add the address to from which they were asked.
const FORWARDED_FOR: &str = "x-forwarded-for";

/// A proxy, or a network of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proxy(IpNet);

impl FromStr for Proxy {
    type Err = String;

    /// Reads an address, or a network as in `10.0.0.0/8`.
    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let one = text.parse::<IpAddr>().map(IpNet::from);
        one.or_else(|_| text.parse()).map(Self).map_err(|_| {
            String::from(
                "name the address of the proxy, or its network, as in: --behind 127.0.0.1 or \
                 --behind 10.0.0.0/8",
            )
        })
    }
}

/// The proxies whose word is taken for whom they ask.
#[derive(Debug)]
pub struct Behind {
    proxies: Vec<Proxy>,
    told: Once,
}

impl Behind {
    /// Takes the word of these and of nobody else.
    pub fn these(proxies: Vec<Proxy>) -> Self {
        Self {
            proxies,
            told: Once::new(),
        }
    }

    /// Who asks, over a connection from `peer`. Each proxy adds on the right
    /// whom it was asked by; what stands left of the first who is no proxy of
    /// ours may be made up.
    pub(crate) fn asker(&self, peer: SocketAddr, headers: &HeaderMap) -> IpAddr {
        let peer = peer.ip().to_canonical();
        if !self.is_ours(peer) {
            if headers.contains_key(FORWARDED_FOR) {
                self.told.call_once(|| {
                    tracing::warn!(
                        "{peer} says that it asks for others. If it is a proxy in front of this \
                         server, start with --behind {peer}; until then all who come through it \
                         count as one."
                    );
                });
            }
            return peer;
        }
        let lines = headers.get_all(FORWARDED_FOR).iter();
        let named: Vec<_> = lines
            .flat_map(|line| line.to_str().unwrap_or("unreadable").split(','))
            .map(address)
            .collect();
        let mut asker = peer;
        for named in named.into_iter().rev() {
            // Whoever asked a proxy that cannot name them counts as the proxy.
            let Some(named) = named else { break };
            asker = named;
            if !self.is_ours(asker) {
                break;
            }
        }
        asker
    }

    fn is_ours(&self, address: IpAddr) -> bool {
        self.proxies.iter().any(|proxy| proxy.0.contains(&address))
    }
}

/// An address as proxies write it: some add the port.
fn address(text: &str) -> Option<IpAddr> {
    let text = text.trim();
    let alone = text.parse::<IpAddr>();
    let alone = alone.or_else(|_| text.parse::<SocketAddr>().map(|both| both.ip()));
    alone.ok().map(|address| address.to_canonical())
}

#[cfg(test)]
mod tests {
    use std::net::{IpAddr, SocketAddr};

    use axum::http::{HeaderMap, HeaderValue};

    use super::{Behind, Proxy};

    fn proxies(named: &[&str]) -> Behind {
        let read = named.iter().map(|name| name.parse::<Proxy>());
        Behind::these(read.map(|proxy| proxy.expect("a proxy")).collect())
    }

    /// Application Security Verification Standard 5.0, 4.1.3 and 15.3.4: what
    /// a proxy says of whom it asks for cannot be said by anybody else.
    #[test]
    fn the_word_of_named_proxies_is_taken_and_nobody_elses() {
        for (named, peer, lines, asker) in [
            (&[][..], "10.0.0.2:99", &["203.0.113.7"][..], "10.0.0.2"),
            (&["10.0.0.2"], "10.0.0.3:99", &["203.0.113.7"], "10.0.0.3"),
            (
                &["10.0.0.2"],
                "10.0.0.2:99",
                &["203.0.113.7"],
                "203.0.113.7",
            ),
            (
                &["10.0.0.0/8"],
                "10.0.0.2:99",
                &["203.0.113.7:5"],
                "203.0.113.7",
            ),
            // What the asker wrote before the proxy added where it came from.
            (
                &["10.0.0.2"],
                "10.0.0.2:99",
                &["198.51.100.1, 203.0.113.7"],
                "203.0.113.7",
            ),
            (
                &["10.0.0.2"],
                "10.0.0.2:99",
                &["10.0.0.2", "203.0.113.7"],
                "203.0.113.7",
            ),
            // Through two proxies of ours.
            (
                &["10.0.0.2", "10.0.0.3"],
                "10.0.0.2:99",
                &["198.51.100.1, 203.0.113.7, 10.0.0.3"],
                "203.0.113.7",
            ),
            (&["10.0.0.2"], "10.0.0.2:99", &[], "10.0.0.2"),
            (&["10.0.0.2"], "10.0.0.2:99", &["unknown"], "10.0.0.2"),
            (
                &["10.0.0.2"],
                "10.0.0.2:99",
                &["203.0.113.7, unknown"],
                "10.0.0.2",
            ),
            (&["::1"], "[::1]:99", &["[2001:db8::7]:80"], "2001:db8::7"),
            // An IPv4 address as a port for both kinds tells it.
            (
                &["10.0.0.2"],
                "[::ffff:10.0.0.2]:99",
                &["203.0.113.7"],
                "203.0.113.7",
            ),
        ] {
            let mut headers = HeaderMap::new();
            for line in lines {
                headers.append("x-forwarded-for", HeaderValue::from_static(line));
            }
            let peer: SocketAddr = peer.parse().expect("an address");
            let asker: IpAddr = asker.parse().expect("an address");
            let said = proxies(named).asker(peer, &headers);
            assert_eq!(said, asker, "{named:?} {peer} {lines:?}");
        }
    }

    #[test]
    fn what_is_no_proxy_is_explained() {
        for text in ["", "proxy.example", "10.0.0.0/99", "10.0.0"] {
            let why = text.parse::<Proxy>().expect_err(text);
            assert!(why.contains("--behind 10.0.0.0/8"), "{text}: {why}");
        }
    }
}
