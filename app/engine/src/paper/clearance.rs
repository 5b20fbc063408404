//! Which envelopes take a card: the printed rules of thumb disagree, so each is
//! kept with its source and the maker picks one.

use super::envelopes::ENVELOPES;
use super::{Envelope, Source};
use crate::length::Length;
use crate::sorted::InOrder as _;

/// Which printed rule of thumb.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Clearance {
    /// 1/8 in on top and at each side.
    EighthRound,
    /// 1/4 in each way.
    QuarterInAll,
    /// As metric paper in its envelopes.
    IsoPairs,
    /// 1/2 in long and 1/4 in high, and more for a thick card.
    HalfAndQuarter,
    /// The same for booklets, and more where a machine puts them in.
    Booklet,
}

/// How much larger than the card an envelope has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ClearanceRule {
    /// Its lasting name in stored recipes.
    pub id: &'static str,
    /// Which it is.
    pub is: Clearance,
    /// By how much the envelope is longer than the card, both ends together.
    pub length: Length,
    /// By how much the envelope is higher than the card, top and bottom
    /// together.
    pub height: Length,
    /// Where the rule comes from.
    pub source: Source,
}

impl ClearanceRule {
    /// The rule of that name.
    pub fn by_id(id: &str) -> Option<&'static Self> {
        CLEARANCE_RULES.iter().find(|rule| rule.id == id)
    }
}

const EIGHTH: Length = Length::sixty_fourths(8);
const QUARTER: Length = Length::sixty_fourths(16);
const HALF: Length = Length::sixty_fourths(32);

/// The rules found in print, closest fit first.
pub const CLEARANCE_RULES: &[ClearanceRule] = &[
    ClearanceRule {
        id: "eighth-round",
        is: Clearance::EighthRound,
        length: QUARTER,
        height: EIGHTH,
        source: Source::EnvelopeTips,
    },
    ClearanceRule {
        id: "quarter-in-all",
        is: Clearance::QuarterInAll,
        length: QUARTER,
        height: QUARTER,
        source: Source::EnclosureChart,
    },
    ClearanceRule {
        id: "iso-pairs",
        is: Clearance::IsoPairs,
        length: Length::mm(10),
        height: Length::mm(9),
        source: Source::FromIso269,
    },
    ClearanceRule {
        id: "half-and-quarter",
        is: Clearance::HalfAndQuarter,
        length: HALF,
        height: QUARTER,
        source: Source::EnvelopeNewsletters,
    },
    ClearanceRule {
        id: "booklet",
        is: Clearance::Booklet,
        length: HALF,
        height: QUARTER,
        source: Source::MailCourse,
    },
];

/// How a card lies in its envelope.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lies {
    /// Its width along the envelope's longer side.
    Upright,
    /// Its height along the envelope's longer side.
    Turned,
}

/// An envelope that takes a card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EnvelopeFit {
    /// The envelope.
    pub envelope: &'static Envelope,
    /// Room left along its longer side.
    pub spare_length: Length,
    /// Room left along its shorter side.
    pub spare_height: Length,
    /// How the card lies in it.
    pub lies: Lies,
}

/// Why an envelope does not take a card, the way round that comes closest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Misfit {
    /// The envelope.
    pub envelope: &'static Envelope,
    /// What it lacks along its longer side; zero when that fits.
    pub lacking_length: Length,
    /// What it lacks along its shorter side; zero when that fits.
    pub lacking_height: Length,
    /// How the card would lie in it.
    pub lies: Lies,
}

/// The thickness from which a card may need more room than the rules name:
/// about 1/8 in. Printers ask for more for thick enclosures and say neither from
/// when nor how much (their newsletters and envelope specifications); this line
/// is common practice, and so it warns of the fit but never decides it.
pub const THICK: Length = Length::mm(3);

/// The envelopes that take a card of this finished width and height under a
/// rule, tightest first: least spare area, then by name.
pub fn envelopes_taking(finished: (Length, Length), rule: &ClearanceRule) -> Vec<EnvelopeFit> {
    let mut fits: Vec<EnvelopeFit> = ENVELOPES
        .iter()
        .filter_map(|envelope| {
            let (lies, spare) = better_way(envelope, finished, rule);
            spare.satisfies(rule).then_some(EnvelopeFit {
                envelope,
                spare_length: spare.length,
                spare_height: spare.height,
                lies,
            })
        })
        .collect();
    // All fits hold the same card, so the least envelope spares the least.
    fits.put_in_order_by_key(|fit| {
        let (length, height) = (fit.envelope.length, fit.envelope.height);
        (
            i128::from(length.units()) * i128::from(height.units()),
            fit.envelope.name,
        )
    });
    fits
}

/// Why an envelope does not take the card; `None` when it does.
pub fn why_not(
    envelope: &'static Envelope,
    finished: (Length, Length),
    rule: &ClearanceRule,
) -> Option<Misfit> {
    let (lies, spare) = better_way(envelope, finished, rule);
    (!spare.satisfies(rule)).then(|| Misfit {
        envelope,
        lacking_length: (rule.length - spare.length).max(Length::ZERO),
        lacking_height: (rule.height - spare.height).max(Length::ZERO),
        lies,
    })
}

/// Room round a card; negative where the card is larger.
#[derive(Clone, Copy)]
struct Spare {
    length: Length,
    height: Length,
}

impl Spare {
    fn satisfies(self, rule: &ClearanceRule) -> bool {
        self.length >= rule.length && self.height >= rule.height
    }
}

/// Upright if the card fits so; otherwise the way round whose worse side is
/// better off.
fn better_way(
    envelope: &Envelope,
    (width, height): (Length, Length),
    rule: &ClearanceRule,
) -> (Lies, Spare) {
    let spare = |along: Length, up: Length| Spare {
        length: envelope.length - along,
        height: envelope.height - up,
    };
    let slack = |spare: Spare| (spare.length - rule.length).min(spare.height - rule.height);
    let upright = spare(width, height);
    let turned = spare(height, width);
    if !upright.satisfies(rule) && slack(turned) > slack(upright) {
        (Lies::Turned, turned)
    } else {
        (Lies::Upright, upright)
    }
}
