//! The names a certificate is for.

use std::collections::BTreeSet;
use std::io;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, UdpSocket};

use axum::http::uri::Authority;
use url::Host;

use crate::origin::{self, Origin};

/// What a server can be called by: names and numbers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Names {
    /// Valid, in lower case; those in certificate files may have `*.` before.
    pub(crate) dns: BTreeSet<String>,
    pub(crate) ips: BTreeSet<IpAddr>,
}

impl Names {
    /// Those of this machine: `localhost`, its host name, that name ending in
    /// `.local` as it announces itself at home, and every address it has that
    /// a browser can be given.
    ///
    /// # Errors
    ///
    /// Where the system does not tell the addresses.
    pub fn of_this_machine() -> io::Result<Self> {
        let host = gethostname::gethostname().to_string_lossy().to_lowercase();
        let addresses = if_addrs::get_if_addrs()?;
        Ok(Self::new(
            &host,
            addresses.iter().map(if_addrs::Interface::ip),
        ))
    }

    /// Those of a machine with this host name and these addresses.
    pub fn new(host: &str, addresses: impl IntoIterator<Item = IpAddr>) -> Self {
        let mut names = Self::default();
        names.dns.insert(String::from("localhost"));
        let host = host.trim_end_matches('.');
        if is_dns_name(host) {
            names.dns.insert(host.to_owned());
            let label = host.split('.').next().unwrap_or(host);
            if label != "localhost" {
                names.dns.insert(format!("{label}.local"));
            }
        }
        let home: [IpAddr; 2] = [Ipv4Addr::LOCALHOST.into(), Ipv6Addr::LOCALHOST.into()];
        let addresses = addresses.into_iter().filter(|ip| can_be_asked(*ip));
        names.ips = home.into_iter().chain(addresses).collect();
        names
    }

    /// These and the host of an address.
    #[must_use]
    pub(crate) fn and(mut self, origin: Option<&Origin>) -> Self {
        match origin.map(Origin::host) {
            Some(Host::Ipv4(ip)) => self.ips.insert((*ip).into()),
            Some(Host::Ipv6(ip)) => self.ips.insert((*ip).into()),
            Some(Host::Domain(name)) => self.dns.insert(name.clone()),
            None => false,
        };
        self
    }

    /// Whether the host is one of these.
    pub(crate) fn has(&self, host: &Host) -> bool {
        match host {
            Host::Ipv4(ip) => self.ips.contains(&(*ip).into()),
            Host::Ipv6(ip) => self.ips.contains(&(*ip).into()),
            Host::Domain(name) => {
                let parent = name.split_once('.').map(|(_, parent)| parent);
                self.dns.contains(name)
                    || parent.is_some_and(|parent| self.dns.contains(&format!("*.{parent}")))
            }
        }
    }

    /// The host that the `Host` header of a request names, if it is one of
    /// these.
    pub(crate) fn find(&self, header: &str) -> Option<Host> {
        let authority: Authority = header.parse().ok()?;
        let host = Host::parse(authority.host().trim_end_matches('.')).ok()?;
        let valid = !matches!(&host, Host::Domain(name) if !is_dns_name(name));
        (valid && self.has(&host)).then_some(host)
    }

    /// What to call the machine in front of people.
    pub(crate) fn machine(&self) -> &str {
        let label = self.dns.iter().find_map(|name| name.strip_suffix(".local"));
        label.unwrap_or("this computer")
    }

    /// The best host to give to other devices: the name that certificate
    /// files are for first of all, as it stays when addresses change.
    pub(crate) fn best(&self) -> Option<Host> {
        let name = self.dns.iter().find(|name| !name.starts_with('*'));
        let ip = || self.ips.first().map(|ip| origin::host(*ip));
        name.cloned().map(Host::Domain).or_else(ip)
    }

    /// Whether one of the names is of a domain of its own, rather than good on
    /// this machine or at home only (RFC 6762, §3; RFC 6761, §6.3; RFC 8375).
    pub(crate) fn has_domain(&self) -> bool {
        let at_home = |name: &str| {
            let ends = ["local", "localhost", "home.arpa"];
            ends.iter().any(|end| {
                let before = name.strip_suffix(end);
                before.is_some_and(|before| before.is_empty() || before.ends_with('.'))
            })
        };
        let mut names = self.dns.iter();
        names.any(|name| name.contains('.') && !at_home(name))
    }

    /// The one number by which other devices most likely reach this machine:
    /// that from which it would itself go out, or the first of a home network.
    pub fn lan(&self) -> Option<IpAddr> {
        let others = || self.ips.iter().filter(|ip| !ip.is_loopback());
        way_out()
            .filter(|ip| others().any(|own| own == ip))
            .or_else(|| {
                others()
                    .find(|ip| matches!(ip, IpAddr::V4(ip) if ip.is_private()))
                    .copied()
            })
            .or_else(|| others().find(|ip| ip.is_ipv4()).copied())
    }
}

/// The address from which packets to other networks would leave. Nothing is
/// sent: connecting such a socket only looks up the way, here to a block that
/// is set aside for documentation (RFC 5737).
fn way_out() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    socket.local_addr().ok().map(|own| own.ip())
}

/// Whether an address can stand in a browser's address line: link-local IPv6
/// would need the name of an interface beside it.
fn can_be_asked(ip: IpAddr) -> bool {
    match ip {
        IpAddr::V4(ip) => !ip.is_unspecified() && !ip.is_multicast(),
        IpAddr::V6(ip) => !ip.is_unspecified() && !ip.is_multicast() && !ip.is_unicast_link_local(),
    }
}

/// RFC 1123, §2.1: letters, digits and hyphens, dots between labels.
pub(crate) fn is_dns_name(name: &str) -> bool {
    let label = |label: &str| {
        (1..=63).contains(&label.len())
            && label
                .bytes()
                .all(|byte| byte.is_ascii_alphanumeric() || byte == b'-')
            && !label.starts_with('-')
            && !label.ends_with('-')
    };
    name.len() <= 253 && name.split('.').all(label)
}

#[cfg(test)]
mod tests {
    use super::Names;

    fn names() -> Names {
        let addresses = ["192.168.1.5", "fe80::1", "fd00::5"].map(|ip| ip.parse().expect(ip));
        Names::new("laptop", addresses)
    }

    #[test]
    fn a_machine_is_called_by_its_names_and_numbers() {
        let names = names();
        let dns: Vec<&str> = names.dns.iter().map(String::as_str).collect();
        assert_eq!(dns, ["laptop", "laptop.local", "localhost"]);
        let ips: Vec<String> = names.ips.iter().map(ToString::to_string).collect();
        assert_eq!(ips, ["127.0.0.1", "192.168.1.5", "::1", "fd00::5"]);
    }

    #[test]
    fn host_names_that_no_certificate_may_hold_are_left_out() {
        for host in ["", "my_laptop", "-a", "a..b", "<b>", &"a".repeat(64)] {
            let dns = Names::new(host, []).dns;
            assert_eq!(dns.into_iter().collect::<Vec<_>>(), ["localhost"], "{host}");
        }
        assert!(Names::new("maria.local", []).dns.contains("maria.local"));
        let full = Names::new("desk.example.org", []).dns;
        assert!(full.contains("desk.example.org") && full.contains("desk.local"));
    }

    #[test]
    fn a_host_header_is_found_in_any_spelling() {
        for (header, host) in [
            ("laptop.local", "laptop.local"),
            ("LAPTOP.local.:4748", "laptop.local"),
            ("192.168.1.5:80", "192.168.1.5"),
            ("[FD00:0::5]:4748", "[fd00::5]"),
            ("[::1]", "[::1]"),
        ] {
            let found = names().find(header).map(|host| host.to_string());
            assert_eq!(found.as_deref(), Some(host), "{header}");
        }
        for header in [
            "",
            "example.org",
            "localhost.example.org",
            "localhost@example.org",
            "laptop.local/x",
            "192.168.1.50",
            "*.local",
            "[::2]",
        ] {
            assert_eq!(names().find(header), None, "{header}");
        }
    }

    #[test]
    fn others_reach_a_machine_by_its_home_address_first() {
        let lan = |addresses: &[&str]| {
            let addresses = addresses.iter().map(|ip| ip.parse().expect(ip));
            Names::new("laptop", addresses)
                .lan()
                .map(|ip| ip.to_string())
        };
        // Of blocks set aside for documentation, which no machine has.
        assert_eq!(
            lan(&["198.51.100.7", "10.255.254.253"]).as_deref(),
            Some("10.255.254.253")
        );
        assert_eq!(
            lan(&["198.51.100.7", "fd00::5"]).as_deref(),
            Some("198.51.100.7")
        );
        assert_eq!(lan(&["fd00::5"]), None);
    }

    #[test]
    fn a_wildcard_stands_for_one_label() {
        let mut names = names();
        names.dns.insert(String::from("*.example.org"));
        assert!(names.find("a.example.org").is_some());
        for header in ["a.b.example.org", "example.org", "*.example.org"] {
            assert_eq!(names.find(header), None, "{header}");
        }
    }
}
