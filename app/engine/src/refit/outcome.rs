//! What a refit comes to besides its lengths.

use super::{Loss, Refit};
use crate::card::{Card, closed_size};
use crate::length::Length;
use crate::paper::Envelope;
use crate::plane::Size;
use crate::recipe::{MeasureId, Recipe, Relation};

/// Something to know of a refit besides the lengths it moves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// It starts from the card as designed, which is so large when it is closed,
    /// and not from its last size.
    FromDesign(Size),
    /// These lengths fall between marks.
    OffMarks(Vec<(MeasureId, Length)>),
    /// The card goes into an envelope.
    Goes {
        /// The envelope: the one chosen, or the closest that takes it.
        envelope: &'static Envelope,
        /// Whether it was chosen.
        chosen: bool,
    },
    /// The card no longer goes into an envelope.
    GoesNot {
        /// The envelope: the one chosen, or the closest that took it.
        envelope: &'static Envelope,
        /// Whether it was chosen.
        chosen: bool,
        /// The closest that takes it now; `None` where no standard one does.
        closest: Option<&'static Envelope>,
    },
    /// The room at the folds becomes another.
    Room {
        /// What it was.
        from: Length,
        /// What it becomes.
        to: Length,
        /// Whether it moved to a mark from between marks.
        to_mark: bool,
    },
    /// A rule that the program gave takes a length that is round in the new unit,
    /// and is this from then on.
    Rule(Relation),
    /// Limits of measures that the program gave take lengths that are round in the
    /// new unit, and are these from then on.
    Limits {
        /// The measures, which all have the same.
        of: Vec<MeasureId>,
        /// Those of their limits that are other ones now.
        limits: Limits,
    },
    /// Glue stays away from edges and creases by another length, round in the new
    /// unit.
    GlueMargin(Length),
    /// Something is lost.
    Lost(Loss),
    /// Print that is to be upright makes the base run the short way of its sheet.
    /// Turned, the closed card would be larger.
    ShortWay {
        /// The short way.
        short: Length,
        /// The closed card with the base turned.
        turned: Size,
    },
    /// The search was cut short, so that there may be a nearer card.
    CutShort,
}

/// Within which lengths a measure stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limits {
    /// It is no less than this.
    AtLeast(Length),
    /// It is no more than this.
    AtMost(Length),
    /// It is no less than the first and no more than the second.
    Between(Length, Length),
}

/// What a refit starts from, where that is not the card as it is.
pub fn from_design(recipe: &Recipe) -> Option<Outcome> {
    recipe
        .is_fitted()
        .then(|| Outcome::FromDesign(closed_size(&recipe.as_designed())))
}

/// What falls between marks.
pub fn off_marks(refit: &Refit) -> Option<Outcome> {
    let off = refit.off_marks.iter();
    let off: Vec<_> = off.map(|id| (*id, refit.recipe.value(*id))).collect();
    (!off.is_empty()).then_some(Outcome::OffMarks(off))
}

/// What becomes of the envelope; and of the room at the folds and of what the program
/// gave, where that changes. `was` and `is` are the card before and after.
pub fn follows(before: &Recipe, was: &Card, refit: &Refit, is: &Card) -> Vec<Outcome> {
    let after = &refit.recipe;
    let takes = |card: &Card, id: &str| card.envelopes.iter().any(|fit| fit.envelope.id == id);
    let chosen = after.posting.envelope.as_deref().and_then(Envelope::by_id);
    let closest = is.envelopes.first().map(|fit| fit.envelope);
    let posted = match (chosen, was.envelopes.first().map(|fit| fit.envelope)) {
        (Some(envelope), _) if takes(is, envelope.id) => Some(Outcome::Goes {
            envelope,
            chosen: true,
        }),
        (Some(envelope), _) => Some(Outcome::GoesNot {
            envelope,
            chosen: true,
            closest,
        }),
        (None, Some(envelope)) if closest != Some(envelope) => Some(Outcome::GoesNot {
            envelope,
            chosen: false,
            closest,
        }),
        (None, _) => closest.map(|envelope| Outcome::Goes {
            envelope,
            chosen: false,
        }),
    };
    let allowance = after.folding_in.allowance;
    let (from, to) = (before.value(allowance), after.value(allowance));
    let step = after.notation.step.length().units();
    let room = (from != to).then(|| Outcome::Room {
        from,
        to,
        to_mark: from.units() % step != 0,
    });
    let given = rounded(before, refit).chain(limited(before, refit));
    posted.into_iter().chain(room).chain(given).collect()
}

/// The limits that became round in the unit asked for, those alike together.
pub fn limited(before: &Recipe, refit: &Refit) -> Vec<Outcome> {
    let mut all: Vec<(Limits, Vec<MeasureId>)> = Vec::new();
    for (was, is) in before.measures.iter().zip(&refit.recipe.measures) {
        let least = is.least.filter(|_| is.least != was.least);
        let most = is.most.filter(|_| is.most != was.most);
        let limits = match (least, most) {
            (Some(least), Some(most)) => Limits::Between(least, most),
            (Some(least), None) => Limits::AtLeast(least),
            (None, Some(most)) => Limits::AtMost(most),
            (None, None) => continue,
        };
        match all.iter_mut().find(|(alike, _)| *alike == limits) {
            Some((_, of)) => of.push(is.id),
            None => all.push((limits, vec![is.id])),
        }
    }
    let all = all.into_iter();
    all.map(|(limits, of)| Outcome::Limits { of, limits })
        .collect()
}

/// What the program gave for the card, rules and how far glue stays from edges, and
/// took to a round length of the unit asked for.
pub fn rounded(before: &Recipe, refit: &Refit) -> impl Iterator<Item = Outcome> {
    let after = &refit.recipe;
    let rules = after.relations.iter();
    let rules = rules.filter(|rule| !before.relations.contains(rule));
    let rules = rules.map(|rule| Outcome::Rule(rule.clone()));
    let margin = after.glue_margin;
    let margin = (before.glue_margin != margin).then_some(Outcome::GlueMargin(margin));
    rules.chain(margin)
}
