//! Which envelopes take a card: the printed rules of thumb disagree, so each is
//! kept with its source and the maker picks one.

use super::Envelope;
use super::envelopes::ENVELOPES;
use crate::length::{Length, Notation};

/// How much larger than the card an envelope has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ClearanceRule {
    /// Its lasting name in stored recipes.
    pub id: &'static str,
    /// A short name for a choice.
    pub name: &'static str,
    /// The rule in a sentence.
    pub words: &'static str,
    /// By how much the envelope is longer than the card, both ends together.
    pub length: Length,
    /// By how much the envelope is higher than the card, top and bottom
    /// together.
    pub height: Length,
    /// Where the rule comes from.
    pub source: &'static str,
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
        name: "1/8 in on top and at each side",
        words: "The envelope is 1/4 in longer and 1/8 in higher than the card.",
        length: QUARTER,
        height: EIGHTH,
        source: "common practice, in a printer's tips for envelopes; it is how a 4 1/4 × 5 1/2 in \
                 card goes into A2",
    },
    ClearanceRule {
        id: "quarter-in-all",
        name: "1/4 in each way",
        words: "The envelope is 1/4 in longer and 1/4 in higher than the card.",
        length: QUARTER,
        height: QUARTER,
        source: "common practice, in a chart of envelopes and enclosures; also given for square \
                 envelopes",
    },
    ClearanceRule {
        id: "iso-pairs",
        name: "As metric paper in its envelopes",
        words: "The envelope is at least 10 mm longer and 9 mm higher than the card.",
        length: Length::mm(10),
        height: Length::mm(9),
        source: "worked out from ISO 269: the least room left by A6 in C6 and a third of A4 in DL",
    },
    ClearanceRule {
        id: "half-and-quarter",
        name: "1/2 in long, 1/4 in high",
        words: "The envelope is 1/2 in longer and 1/4 in higher than the card, and more for a \
                thick one.",
        length: HALF,
        height: QUARTER,
        source: "common practice, in printers' newsletters and envelope specifications",
    },
    ClearanceRule {
        id: "booklet",
        name: "Booklets: 1/2 in long, 1/4 in high",
        words: "The envelope is 1/2 in longer and 1/4 in higher than the booklet, and more where \
                a machine puts it in.",
        length: HALF,
        height: QUARTER,
        source: "common practice, in a course note on direct mail",
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

impl Misfit {
    /// What is wrong, in the maker's notation.
    pub fn words(&self, notation: Notation) -> String {
        let lacking = [
            (self.lacking_length, "length"),
            (self.lacking_height, "height"),
        ]
        .into_iter()
        .filter(|(lacking, _)| *lacking > Length::ZERO)
        .map(|(lacking, of)| format!("{} of {of}", notation.with_unit(lacking)))
        .collect::<Vec<_>>()
        .join(" and ");
        format!("{} lacks {lacking} for this card.", self.envelope.name)
    }
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
    fits.sort_by_key(|fit| {
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
