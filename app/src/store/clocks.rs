//! The clocks that run at the bench of this device.
//!
//! A device has two counts of time. Its clock says when it is, goes on while the
//! device sleeps and is there after a reload, but may be put forward or back. The
//! count of the page that is open goes steadily, but begins anew with each page,
//! and on many devices stands still while they sleep. Which of them is right is
//! told by what else is known.

use serde::{Deserialize, Serialize};

use super::versioned;

pub(super) const KEY: &str = "foldwright/clocks";

/// How far the two counts of time may come apart of themselves between two looks,
/// in milliseconds. Our own bound: far more than a clock is put right by in so short
/// a time.
const APART: u64 = 5_000;

/// A clock that somebody has set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Clock {
    /// Tells it from the others.
    pub id: u32,
    /// The step it was set at and its card, as they were called then.
    pub of: String,
    /// How long it has still to run, in milliseconds, counted from `seen`.
    pub left: u64,
    /// When it was looked at last, in milliseconds since 1970 by the clock of this
    /// device.
    pub seen: u64,
    /// Whether the device's time was changed in a way that leaves open how long it has
    /// run.
    #[serde(default)]
    pub is_uncertain: bool,
    /// Whether its end has been told.
    #[serde(default)]
    pub is_told: bool,
}

/// What is known of the time since clocks were looked at last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Now, in milliseconds since 1970 by the clock of this device.
    pub now: u64,
    /// How much the steady count of the page has gone on, in milliseconds; `None`
    /// where it was another page, or none.
    pub steady: Option<u64>,
    /// Whether the page was out of sight, and so the device may have slept.
    pub may_have_slept: bool,
}

impl Clock {
    /// Whether it has run down.
    pub fn is_up(&self) -> bool {
        self.left == 0
    }

    /// Looks at it again.
    pub fn look(&mut self, look: Look) {
        let by_clock = look.now.checked_sub(self.seen);
        let passed = match (look.steady, by_clock) {
            (Some(steady), Some(by_clock)) if by_clock > steady.saturating_add(APART) => {
                if look.may_have_slept {
                    by_clock
                } else {
                    self.is_uncertain |= !self.is_up();
                    steady
                }
            }
            (Some(steady), _) => steady,
            (None, Some(by_clock)) => by_clock,
            (None, None) => {
                self.is_uncertain |= !self.is_up();
                0
            }
        };
        self.left = self.left.saturating_sub(passed);
        self.seen = look.now;
    }
}

pub(super) fn parse(text: &str) -> Option<Vec<Clock>> {
    Vec::deserialize(versioned::body(text)?).ok()
}

pub(super) fn text(clocks: &[Clock]) -> String {
    versioned::text(&clocks)
}

#[cfg(test)]
mod tests {
    use super::{Clock, Look, parse, text};

    const MINUTE: u64 = 60_000;
    const NOON: u64 = 1_790_000_000_000;

    /// A clock set for ten minutes at noon.
    fn ten_minutes() -> Clock {
        Clock {
            id: 7,
            of: "Let it dry (Gate card)".to_owned(),
            left: 10 * MINUTE,
            seen: NOON,
            is_uncertain: false,
            is_told: false,
        }
    }

    /// What is left in minutes after a look, and whether that is certain.
    fn looked(now: u64, steady: Option<u64>, may_have_slept: bool) -> (u64, bool) {
        let mut clock = ten_minutes();
        clock.look(Look {
            now,
            steady,
            may_have_slept,
        });
        (clock.left / MINUTE, !clock.is_uncertain)
    }

    #[test]
    fn a_clock_runs_down_as_time_goes_on() {
        let later = NOON + 4 * MINUTE;
        assert_eq!(looked(later, Some(4 * MINUTE), false), (6, true));
        assert_eq!(looked(later, None, false), (6, true));
        assert_eq!(looked(NOON + 30 * MINUTE, None, false), (0, true));
    }

    #[test]
    fn a_device_that_slept_is_told_by_its_clock() {
        assert_eq!(looked(NOON + 9 * MINUTE, Some(MINUTE), true), (1, true));
    }

    #[test]
    fn a_clock_put_back_or_forward_changes_nothing_while_the_page_is_open() {
        let hour = 60 * MINUTE;
        assert_eq!(looked(NOON - hour, Some(4 * MINUTE), false), (6, true));
        assert_eq!(looked(NOON - hour, Some(4 * MINUTE), true), (6, true));
        // It may have slept unnoticed: what is counted may be too little.
        assert_eq!(looked(NOON + hour, Some(4 * MINUTE), false), (6, false));
        // And goes on from there.
        let mut clock = ten_minutes();
        for minute in 1..=10 {
            clock.look(Look {
                now: NOON - hour + minute * MINUTE,
                steady: Some(MINUTE),
                may_have_slept: false,
            });
        }
        assert!(clock.is_up() && !clock.is_uncertain);
    }

    #[test]
    fn a_clock_put_back_while_no_page_was_open_leaves_it_uncertain() {
        assert_eq!(looked(NOON - 1, None, false), (10, false));
        let mut clock = ten_minutes();
        clock.left = 0;
        clock.look(Look {
            now: NOON - 1,
            steady: None,
            may_have_slept: false,
        });
        assert!(clock.is_up() && !clock.is_uncertain, "its end has come");
    }

    #[test]
    fn clocks_come_back() {
        let clocks = [ten_minutes()];
        assert_eq!(parse(&text(&clocks)), Some(clocks.to_vec()));
        assert_eq!(parse("{}"), None);
    }
}
