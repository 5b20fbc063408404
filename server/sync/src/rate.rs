//! How often codes may be tried.

use std::collections::HashMap;
use std::net::{IpAddr, Ipv6Addr};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// The span that is counted over.
const SPAN: Duration = Duration::from_mins(1);
/// Tries from one address in a span. Our own bound: a person types a code a
/// few times.
const FROM_ONE: u32 = 10;
/// Tries from all addresses in a span. Our own bound.
const FROM_ALL: u32 = 120;

/// Counts tries by address.
#[derive(Debug, Default)]
pub(crate) struct Rate(Mutex<Counts>);

#[derive(Debug, Default)]
struct Counts {
    since: Option<Instant>,
    all: u32,
    by: HashMap<IpAddr, u32>,
}

impl Rate {
    /// Counts a try and says whether it may go on.
    pub(crate) fn allows(&self, from: IpAddr, now: Instant) -> bool {
        // Counts are whole after each call, whoever panicked.
        let mut counts = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let over = counts
            .since
            .is_none_or(|since| now.saturating_duration_since(since) >= SPAN);
        if over {
            *counts = Counts {
                since: Some(now),
                ..Counts::default()
            };
        }
        if counts.all >= FROM_ALL {
            return false;
        }
        let by = counts.by.entry(whose(from)).or_default();
        if *by >= FROM_ONE {
            return false;
        }
        *by += 1;
        counts.all += 1;
        true
    }
}

/// The address by which somebody is known: of IPv6 the part that a network is
/// given, which has more addresses than can be counted (RFC 6177, §2).
fn whose(from: IpAddr) -> IpAddr {
    match from.to_canonical() {
        IpAddr::V6(address) => {
            let network = address.to_bits() >> 64 << 64;
            Ipv6Addr::from_bits(network).into()
        }
        v4 @ IpAddr::V4(_) => v4,
    }
}

#[cfg(test)]
mod tests {
    use std::net::{IpAddr, Ipv4Addr};
    use std::time::Instant;

    use super::{FROM_ALL, FROM_ONE, Rate, SPAN};

    #[test]
    fn tries_run_out_and_come_back() {
        let rate = Rate::default();
        let now = Instant::now();
        let from = |last| IpAddr::from(Ipv4Addr::new(10, 0, 0, last));
        for _ in 0..FROM_ONE {
            assert!(rate.allows(from(1), now));
        }
        assert!(!rate.allows(from(1), now));
        assert!(rate.allows(from(2), now));
        let more = (3..=200)
            .filter(|last| rate.allows(from(*last), now))
            .count();
        assert_eq!(u32::try_from(more), Ok(FROM_ALL - FROM_ONE - 1));
        assert!(rate.allows(from(1), now + SPAN));
    }

    #[test]
    fn a_network_counts_as_one() {
        let rate = Rate::default();
        let now = Instant::now();
        let from = |text: &str| text.parse::<IpAddr>().unwrap();
        for last in 0..FROM_ONE {
            assert!(rate.allows(from(&format!("2001:db8::{last:x}")), now));
        }
        assert!(!rate.allows(from("2001:db8::ffff"), now));
        assert!(rate.allows(from("2001:db8:0:1::1"), now));
        // An IPv4 address is the same however it is written.
        for _ in 0..FROM_ONE {
            assert!(rate.allows(from("::ffff:10.0.0.1"), now));
        }
        assert!(!rate.allows(from("10.0.0.1"), now));
        assert!(rate.allows(from("::ffff:10.0.0.2"), now));
    }
}
