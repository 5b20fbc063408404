//! Takes connections for a service that is open to anybody: so many at a time,
//! and each for no longer than it is used. Who asks through a proxy is known
//! where the proxy is.

mod behind;
mod guest;
mod room;
mod serve;

pub use behind::{Behind, Proxy};
pub use guest::{Bounded, Guest};
pub use room::{Peer, Room};
pub use serve::serve;

use std::time::Duration;

/// How long anybody may take to ask: to send the head of a request, its body,
/// and the next one over the same connection. Our own bound: a phone on a poor
/// network sends these few bytes in less. A body that is said to be large has longer.
pub const TO_ASK: Duration = Duration::from_secs(15);

/// How many bytes of a body give it a second more to come. Our own bound: a poor
/// network takes them.
const IN_A_SECOND: u64 = 16_000;

/// How long it has at most, however large it is said to be. Our own bound.
const LONGEST_TO_ASK: Duration = Duration::from_mins(2);

/// How long an answer may lie here without the other side taking any more of
/// it. Our own bound.
pub const TO_LISTEN: Duration = Duration::from_secs(30);
