//! Something came out different at the table: what can still be saved.
//!
//! What is cut and scored already stays as it is, what was measured is taken as
//! it came out, and [`crate::refit`] finds the nearest card for the rest. Where
//! that can't be, parts are cut down or cut again, as few as possible. Each way
//! says what it changes, what it costs in paper, and where the work goes on.

mod made;
mod offer;
mod paper;
mod progress;
mod solve;
mod words;
mod work;

use std::collections::BTreeMap;

use crate::card::{Card, Tools, work_out};
use crate::length::Length;
use crate::plane::Size;
use crate::recipe::Recipe;

pub use offer::{Fate, Offer, Rest, Told, Way};
pub use paper::Paper;
pub use words::{offer_notes, offer_title, paper_words};
pub use work::{About, Part, Planned, Work, work};

use made::{Edges, Progress, in_hand, is_glued, others};
use offer::size_in;
use solve::{Solved, Why, follows, solve};

/// For how many cards each step is done, by the step's lasting name.
pub type Done = BTreeMap<String, u32>;

/// The work as it was to be, and how far it has come.
#[derive(Debug, Clone, Copy)]
pub struct Plan<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// The maker's tools.
    pub tools: &'a Tools,
    /// How far each step has come.
    pub done: &'a Done,
    /// The lasting name of the step the maker is at.
    pub at: &'a str,
}

/// What came out different.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Miscut {
    /// The lasting name of its step.
    pub key: String,
    /// What it is about.
    pub about: About,
    /// What was measured, in the order of [`Work::planned`]. Scores that are
    /// not made yet have no length.
    pub measured: Vec<Option<Length>>,
    /// Of how many cards.
    pub cards: u32,
}

/// What can be done about a miscut.
#[derive(Debug, Clone, PartialEq)]
pub struct Rescue {
    /// The ways, the one that costs least first. None where everything is as
    /// planned.
    pub offers: Vec<Offer>,
    /// Why the part can't stay as it is, where it can't.
    pub not_kept: Option<String>,
}

/// What was measured can't be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CannotBe {
    /// The recipe has no such step.
    NoStep,
    /// A size is nothing, or scores lie off the strip or in another order.
    Nonsense,
}

impl CannotBe {
    /// What to do, in a sentence.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NoStep => "This step is no longer part of the recipe.",
            Self::Nonsense => {
                "That can't be measured on this piece: a score must lie on it, and in its order. \
                 Measure again."
            }
        }
    }
}

/// Everything that can be done about a miscut.
///
/// # Errors
///
/// Where what was measured can't be.
pub fn rescue(plan: &Plan<'_>, miscut: &Miscut) -> Result<Rescue, CannotBe> {
    let card = work_out(plan.recipe, plan.tools);
    let work = work(plan.recipe, &card, &miscut.key).ok_or(CannotBe::NoStep)?;
    let bench = Bench {
        plan: *plan,
        card: &card,
        miscut,
        all: plan.recipe.copies.max(1),
        cards: miscut.cards.clamp(1, plan.recipe.copies.max(1)),
    };
    // Nonsense is refused before anything is offered.
    bench.hand(bench.cards, Edges::Stay)?;
    let planned = work.planned.iter().map(|planned| Some(planned.length));
    if planned.eq(miscut.measured.iter().copied()) {
        return Ok(Rescue {
            offers: Vec::new(),
            not_kept: None,
        });
    }
    let kept = bench.kept(bench.cards, Edges::Stay)?;
    let mut offers = Vec::new();
    let mut not_kept = None;
    match &kept {
        Ok(solved) => offers.push(bench.keep(solved, bench.cards)),
        Err(why) => not_kept = Some(words::not_kept(plan.recipe, why)),
    }
    if bench.cards < bench.all
        && bench.is_first()
        && let Ok(solved) = bench.kept(bench.all, Edges::Stay)?
    {
        offers.push(bench.keep(&solved, bench.all));
    }
    let part = miscut.about.part();
    if bench.may_be_trimmed() {
        let kept_as_well = kept.as_ref().is_ok_and(Solved::is_clean);
        let trimmed = bench.kept(bench.cards, Edges::MayBeTrimmed)?;
        if let Ok(solved) = trimmed
            && (solved.changes.is_empty() || !kept_as_well)
            && size_in(&solved.card, part) != bench.size_in_hand()
        {
            offers.push(bench.trim(&solved));
        }
    }
    offers.extend(bench.score_again());
    offers.push(bench.recut());
    // Equals stay in the order they were found in.
    offers.sort_by_key(Offer::compromise);
    Ok(Rescue { offers, not_kept })
}

/// A miscut on the bench.
#[derive(Clone, Copy)]
struct Bench<'a> {
    plan: Plan<'a>,
    card: &'a Card,
    miscut: &'a Miscut,
    /// How many cards there are.
    all: u32,
    /// How many of them came out different.
    cards: u32,
}

impl Bench<'_> {
    fn recipe(&self) -> &Recipe {
        self.plan.recipe
    }

    /// How far so many cards have come: the others of the batch take what is
    /// done first.
    fn progress(&self, cards: u32) -> Progress<'_> {
        Progress {
            done: self.plan.done,
            others: self.all - cards,
        }
    }

    /// The size of the part in hand as it was measured.
    fn size_in_hand(&self) -> Size {
        let planned = size_in(self.card, self.miscut.about.part());
        let measured = |number: usize, planned| {
            let measured = self.miscut.measured.get(number).copied().flatten();
            measured.unwrap_or(planned)
        };
        match self.miscut.about {
            About::Cut(_) => Size {
                width: measured(0, planned.width),
                height: measured(1, planned.height),
            },
            About::Scores(..) | About::Line(..) | About::Cutout(..) => planned,
        }
    }

    fn done(&self, key: &str) -> u32 {
        self.plan.done.get(key).copied().unwrap_or(0).min(self.all)
    }

    /// Whether no more of this part have been made than came out different.
    fn is_first(&self) -> bool {
        self.done(&self.miscut.key) <= self.cards
    }

    fn hand(&self, cards: u32, edges: Edges) -> Result<made::Made, CannotBe> {
        let progress = self.progress(cards);
        in_hand(self.recipe(), self.card, &progress, self.miscut, edges).ok_or(CannotBe::Nonsense)
    }

    /// The nearest card for so many with the part as it came out.
    fn kept(&self, cards: u32, edges: Edges) -> Result<Result<Solved, Why>, CannotBe> {
        let hand = self.hand(cards, edges)?;
        let part = self.miscut.about.part();
        if follows(self.recipe(), part) {
            return Ok(Err(Why::Shape));
        }
        let others = others(self.recipe(), self.card, &self.progress(cards), part);
        Ok(solve(&self.plan, self.card, &hand, others))
    }

    /// A part is cut down only while nothing is glued to it, and a line drawn
    /// on it is measured from edges that then stay.
    fn may_be_trimmed(&self) -> bool {
        let part = self.miscut.about.part();
        let glued = is_glued(self.recipe(), &self.progress(self.cards), part);
        !glued && matches!(self.miscut.about, About::Cut(_) | About::Scores(..))
    }
}
