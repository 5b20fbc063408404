//! What the own authority may sign for. A device that trusts an authority
//! would believe it about any site, so its certificate itself says that it is
//! good only for what can be at home (RFC 5280, §4.2.1.10). Whoever steals the
//! key cannot pose as a bank.

use std::net::{IpAddr, Ipv4Addr, Ipv6Addr};

use rcgen::{CidrSubnet, GeneralSubtree, NameConstraints};
use x509_parser::certificate::X509Certificate;
use x509_parser::extensions::GeneralName;

use crate::names::Names;

/// Endings that no site on the internet has: RFC 6761, 6762, 8375, and those
/// that routers give out and that are reserved or left to private use.
const HOME_NAMES: [&str; 6] = ["localhost", "local", "home.arpa", "internal", "lan", "home"];

/// Addresses of one's own machine and of home networks: RFC 1122, 1918, 3927,
/// 4193, 4291, and the addresses shared behind a provider (RFC 6598), which
/// private networks across the internet use as well.
const HOME_NETS: [(IpAddr, u8); 8] = [
    (IpAddr::V4(Ipv4Addr::new(127, 0, 0, 0)), 8),
    (IpAddr::V4(Ipv4Addr::new(10, 0, 0, 0)), 8),
    (IpAddr::V4(Ipv4Addr::new(172, 16, 0, 0)), 12),
    (IpAddr::V4(Ipv4Addr::new(192, 168, 0, 0)), 16),
    (IpAddr::V4(Ipv4Addr::new(169, 254, 0, 0)), 16),
    (IpAddr::V4(Ipv4Addr::new(100, 64, 0, 0)), 10),
    (IpAddr::V6(Ipv6Addr::LOCALHOST), 128),
    (IpAddr::V6(Ipv6Addr::new(0xfc00, 0, 0, 0, 0, 0, 0, 0)), 7),
];

/// The limits of a new authority: what can be at home, and what of `names`
/// is not.
pub(crate) fn around(names: &Names) -> NameConstraints {
    let home = Scope {
        dns: HOME_NAMES.map(String::from).to_vec(),
        nets: HOME_NETS
            .iter()
            .map(|(ip, prefix)| net(*ip, *prefix))
            .collect(),
    };
    let other_names = names.dns.iter().filter(|name| !home.has_name(name));
    // A machine's public IPv6 addresses come and go within its network.
    let other_nets = names
        .ips
        .iter()
        .filter(|ip| !home.has_ip(**ip))
        .map(|ip| net(*ip, if ip.is_ipv4() { 32 } else { 64 }));
    let permitted_subtrees = home
        .dns
        .iter()
        .chain(other_names)
        .map(|name| GeneralSubtree::DnsName(name.clone()))
        .chain(
            home.nets
                .iter()
                .copied()
                .chain(other_nets)
                .map(|net| GeneralSubtree::IpAddress(net.subnet())),
        )
        .collect();
    NameConstraints {
        permitted_subtrees,
        excluded_subtrees: Vec::new(),
    }
}

/// What an authority may sign for; of a kind that it does not limit, anything.
#[derive(Debug)]
pub(crate) struct Scope {
    dns: Vec<String>,
    nets: Vec<Net>,
}

/// A block of addresses as bits, and which of them count.
#[derive(Clone, Copy, Debug)]
struct Net {
    first: IpAddr,
    mask: u128,
}

fn net(ip: IpAddr, prefix: u8) -> Net {
    let width: u32 = if ip.is_ipv4() { 32 } else { 128 };
    let free = width.saturating_sub(prefix.into());
    let mask = u128::MAX.checked_shl(free).unwrap_or(0);
    Net { first: ip, mask }
}

fn bits(ip: IpAddr) -> u128 {
    match ip {
        IpAddr::V4(ip) => ip.to_bits().into(),
        IpAddr::V6(ip) => ip.to_bits(),
    }
}

impl Net {
    fn has(self, ip: IpAddr) -> bool {
        self.first.is_ipv4() == ip.is_ipv4() && (bits(self.first) ^ bits(ip)) & self.mask == 0
    }

    fn subnet(self) -> CidrSubnet {
        match self.first {
            IpAddr::V4(ip) => {
                let [.., a, b, c, d] = self.mask.to_be_bytes();
                let mask = [a, b, c, d];
                let first = ip & Ipv4Addr::from(mask);
                CidrSubnet::V4(first.octets(), mask)
            }
            IpAddr::V6(ip) => {
                let first = ip & Ipv6Addr::from(self.mask);
                CidrSubnet::V6(first.octets(), self.mask.to_be_bytes())
            }
        }
    }

    /// Reads address and mask one after the other, as certificates hold them.
    fn read(bytes: &[u8]) -> Option<Self> {
        let (first, mask) = bytes.split_at(bytes.len() / 2);
        if let (Ok(first), Ok(mask)) = (<[u8; 4]>::try_from(first), <[u8; 4]>::try_from(mask)) {
            return Some(Self {
                first: first.into(),
                mask: u32::from_be_bytes(mask).into(),
            });
        }
        Some(Self {
            first: <[u8; 16]>::try_from(first).ok()?.into(),
            mask: u128::from_be_bytes(mask.try_into().ok()?),
        })
    }
}

impl Scope {
    /// The limits that stand in an authority's certificate.
    pub(crate) fn of(certificate: &X509Certificate<'_>) -> Self {
        let mut scope = Self {
            dns: Vec::new(),
            nets: Vec::new(),
        };
        let limits = certificate.name_constraints().ok().flatten();
        let permitted = limits.and_then(|limits| limits.value.permitted_subtrees.as_ref());
        for subtree in permitted.into_iter().flatten() {
            match &subtree.base {
                GeneralName::DNSName(name) => scope.dns.push((*name).to_owned()),
                GeneralName::IPAddress(bytes) => scope.nets.extend(Net::read(bytes)),
                _ => {}
            }
        }
        scope
    }

    fn has_name(&self, name: &str) -> bool {
        let below = |tree: &String| {
            name.strip_suffix(tree.as_str())
                .is_some_and(|rest| rest.is_empty() || rest.ends_with('.'))
        };
        self.dns.is_empty() || self.dns.iter().any(below)
    }

    fn has_ip(&self, ip: IpAddr) -> bool {
        self.nets.is_empty() || self.nets.iter().any(|net| net.has(ip))
    }

    /// Those of `names` that lie within: one name outside would make devices
    /// refuse the whole certificate.
    pub(crate) fn within(&self, names: &Names) -> Names {
        let (dns, ips) = (names.dns.iter(), names.ips.iter());
        Names {
            dns: dns.filter(|name| self.has_name(name)).cloned().collect(),
            ips: ips.filter(|ip| self.has_ip(**ip)).copied().collect(),
        }
    }
}
