//! How long a session at the bench takes, learnt from how long this maker took before.

use crate::sorted::InOrder as _;
use crate::steps::{Kind, Step};

/// From how many times on something is told of them. With five, one that was far too
/// long lies outside [`Spread`]'s fences, however long it was. Our own choice.
pub const ENOUGH: usize = 5;

/// Which times of a kind of work are worth keeping: the last ones. Our own bound.
pub const MOST_KEPT: usize = 24;

/// What a maker took before for one card of a kind of work, in tenths of a second: the
/// middle, and what half of all times lie between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spread {
    /// The first quartile.
    pub low: u32,
    /// The median.
    pub middle: u32,
    /// The third quartile.
    pub high: u32,
}

impl Spread {
    /// Of these times, without those that lie far outside; nothing of fewer than
    /// [`ENOUGH`].
    ///
    /// Far outside is what lies beyond the quartiles by more than one and a half times
    /// their distance (Tukey, "Exploratory Data Analysis", 1977), such as a step at which
    /// the maker was called away.
    pub fn of(times: &[u32]) -> Option<Self> {
        if times.len() < ENOUGH {
            return None;
        }
        let mut times = times.to_vec();
        times.put_in_order();
        let all = Self::of_sorted(&times)?;
        let fence = (all.high - all.low).saturating_mul(3) / 2;
        let within = all.low.saturating_sub(fence)..=all.high.saturating_add(fence);
        times.retain(|time| within.contains(time));
        Self::of_sorted(&times)
    }

    fn of_sorted(times: &[u32]) -> Option<Self> {
        Some(Self {
            low: quantile(times, 1)?,
            middle: quantile(times, 2)?,
            high: quantile(times, 3)?,
        })
    }
}

/// A quartile of times in order, between two of them in proportion (Hyndman and Fan,
/// "Sample quantiles in statistical packages", 1996, definition 7), and a half up.
fn quantile(times: &[u32], quarters: usize) -> Option<u32> {
    let steps = times.len().checked_sub(1)?.saturating_mul(quarters);
    let (at, part) = (steps / 4, u64::try_from(steps % 4).ok()?);
    let low = u64::from(*times.get(at)?);
    let high = u64::from(*times.get(at + 1).or_else(|| times.get(at))?);
    u32::try_from((low * (4 - part) + high * part + 2) / 4).ok()
}

/// How long work takes, without what has to dry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Session {
    /// At least so many minutes, as far as that can be told.
    pub least: u32,
    /// At most so many.
    pub most: u32,
    /// Whether glue has to dry besides.
    pub dries: bool,
}

/// How long it takes to do what is left: each step so many times more, by what each kind
/// of work took before. Nothing where nothing is left, or where too little is known of a
/// kind that is.
pub fn session<'a>(
    left: impl Iterator<Item = (&'a Step, u32)>,
    spread: impl Fn(Kind) -> Option<Spread>,
) -> Option<Session> {
    let (mut least, mut most) = (0_u64, 0_u64);
    let mut dries = false;
    for (step, times) in left.filter(|(_, times)| *times > 0) {
        // How long glue takes is said by its maker.
        if step.kind == Kind::Dry {
            dries = true;
            continue;
        }
        let Spread { low, high, .. } = spread(step.kind)?;
        least = least.saturating_add(u64::from(low) * u64::from(times));
        most = most.saturating_add(u64::from(high) * u64::from(times));
    }
    (most > 0).then(|| {
        // Beyond a quarter of an hour nobody plans by single minutes.
        let coarse = if most > 15 * MINUTE { 5 } else { 1 };
        let minutes = |tenths: u64| u32::try_from(tenths).unwrap_or(u32::MAX);
        Session {
            least: minutes(least / (coarse * MINUTE) * coarse).max(1),
            most: minutes(most.div_ceil(coarse * MINUTE) * coarse),
            dries,
        }
    })
}

/// In tenths of a second.
const MINUTE: u64 = 600;
