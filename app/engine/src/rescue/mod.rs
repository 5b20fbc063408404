//! Something came out different at the table: what can still be saved.
//!
//! What is cut and scored already stays as it is, what was measured is taken as
//! it came out, and [`crate::refit`] finds the nearest card for the rest. Where
//! that can't be, what is too large is trimmed, as few edges as possible, and
//! only then is something cut again. A dimension of the part in hand that came
//! out right is cut down only where nothing without new paper keeps it. Each
//! way says what it changes, what forces that, what it costs in paper, and where
//! the work goes on.

mod behind;
mod edges;
mod made;
mod offer;
mod paper;
mod progress;
mod solve;
mod told;
mod work;

use std::collections::BTreeMap;

use crate::card::{Card, Tools, work_out};
use crate::length::Length;
pub use crate::part::Part;
use crate::plane::Size;
use crate::recipe::{Recipe, StripId};
use crate::sorted::InOrder as _;
use crate::steps::{StepKey, Trims};

pub use behind::measures;
pub use offer::{Fate, Moved, Offer, Rest, Way};
pub use paper::Paper;
pub use told::{Against, Along, Does, Forced, Heading, Hurdle, Note, Ready, Reason, Remark};
pub use work::{About, Planned, Work, work};

use edges::{Edges, trimmable};
use made::{Made, Progress, in_hand};
use solve::{Reach, Search, Searched, Solved, Why, follows};

/// For how many cards each step is done, by the step's lasting name.
pub type Done = BTreeMap<StepKey, u32>;

/// The work as it was to be, and how far it has come.
#[derive(Debug, Clone, Copy)]
pub struct Plan<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// The maker's tools.
    pub tools: &'a Tools,
    /// How far each step has come.
    pub done: &'a Done,
    /// What is still to be trimmed, or was.
    pub trims: &'a Trims,
    /// The step the maker is at; `None` after the last.
    pub at: Option<StepKey>,
}

/// What came out different.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Miscut {
    /// The lasting name of its step.
    pub key: StepKey,
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
    /// The ways, the best first: nothing or little cut again, little paper, the
    /// closed card as large as it was to be, little trimmed. None where
    /// everything is as planned.
    pub offers: Vec<Offer>,
    /// Why the part can't stay as it is, where it can't: what is made or must
    /// hold against it.
    pub not_kept: Option<Against>,
}

/// What was measured can't be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CannotBe {
    /// The recipe has no such step.
    NoStep,
    /// A size is nothing, or scores lie off the strip or in another order.
    Nonsense,
}

/// Everything that can be done about a miscut.
///
/// # Errors
///
/// Where what was measured can't be.
pub fn rescue(plan: &Plan<'_>, miscut: &Miscut) -> Result<Rescue, CannotBe> {
    let card = work_out(plan.recipe, plan.tools);
    let work = work(plan.recipe, &card, miscut.key).ok_or(CannotBe::NoStep)?;
    let bench = Bench {
        plan: *plan,
        card: &card,
        miscut,
        all: plan.recipe.copies.max(1),
        cards: miscut.cards.clamp(1, plan.recipe.copies.max(1)),
    };
    // Nonsense is refused before anything is offered.
    bench.hand(bench.cards, Edges::STAY)?;
    let planned = work.planned.iter().map(|planned| Some(planned.length));
    if planned.eq(miscut.measured.iter().copied()) {
        return Ok(Rescue {
            offers: Vec::new(),
            not_kept: None,
        });
    }
    let mut offers = Vec::new();
    let kept = bench.keeping(&mut offers)?;
    let is_kept = !offers.is_empty();
    bench.trimming(&kept, &mut offers)?;
    offers.extend(bench.score_again());
    offers.push(bench.recut());
    // Equals stay in the order they were found in.
    offers.put_in_order_by_key(Offer::compromise);
    let not_kept = kept.stuck.filter(|_| !is_kept);
    Ok(Rescue {
        offers: offer::distinct(offers),
        not_kept: not_kept.map(|why| why.against(plan.recipe)),
    })
}

/// What is made again where pieces came out as they were to be and were spoiled since,
/// torn or stained: the miscut that it comes to, and the way. They count as done by then.
///
/// `None` where no part is cut or scored at that step.
pub fn spoiled(plan: &Plan<'_>, key: StepKey, cards: u32) -> Option<(Miscut, Offer)> {
    let card = work_out(plan.recipe, plan.tools);
    let work = work(plan.recipe, &card, key)?;
    let all = plan.recipe.copies.max(1);
    let miscut = Miscut {
        key,
        about: work.about,
        measured: work.planned.iter().map(|it| Some(it.length)).collect(),
        cards: cards.clamp(1, all),
    };
    let offer = Bench {
        plan: *plan,
        card: &card,
        miscut: &miscut,
        all,
        cards: miscut.cards,
    }
    .spoiled();
    Some((miscut, offer))
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
            trims: self.plan.trims,
            others: self.all - cards,
        }
    }

    /// The ways in which the part in hand stays as it came out.
    fn keeping(&self, offers: &mut Vec<Offer>) -> Result<Searched, CannotBe> {
        let kept = self.search(self.cards, self.pending(), Reach::Lesser, true)?;
        offers.extend(kept.solved.iter().map(|it| self.keep(it, self.cards)));
        let is_base = self.part() == Part::Strip(StripId::Base);
        if !is_base && !kept.solved.iter().any(Solved::is_free) {
            // The card itself may give way to what lies on it.
            let all = self.search(self.cards, self.pending(), Reach::All, false)?;
            offers.extend(all.solved.iter().map(|it| self.keep(it, self.cards)));
        }
        if self.cards < self.all && self.is_first() {
            let all = self.search(self.all, self.pending(), Reach::Lesser, true)?;
            offers.extend(all.solved.iter().map(|it| self.keep(it, self.all)));
        }
        Ok(kept)
    }

    /// The ways in which it is cut down: what came out wrong back to the plan or
    /// where keeping it costs something, and what came out right where nothing
    /// without new paper keeps it.
    fn trimming(&self, kept: &Searched, offers: &mut Vec<Offer>) -> Result<(), CannotBe> {
        let may = match self.miscut.about {
            About::Cut(_) | About::Scores(..) => {
                trimmable(self.recipe(), &self.progress(self.cards), self.part())
            }
            // Lines are measured from edges that then stay.
            About::Line(..) | About::Cutout(..) => Edges::STAY,
        };
        let wrong = self.wrong().and(may);
        let is_free = |searched: &Searched| searched.solved.iter().any(Solved::is_free);
        let is_clean = kept.solved.iter().any(Solved::is_clean);
        let mut stuck = kept.stuck.as_ref();
        // What is too small already gets no smaller where it is as good as it is.
        let is_good = kept.solved.iter().any(Solved::is_good);
        let narrow = if wrong.any() && !(is_good && self.is_short()) {
            let edges = wrong.or(self.pending());
            let again = kept.solved.is_empty();
            Some(self.search(self.cards, edges, Reach::Lesser, again)?)
        } else {
            None
        };
        if let Some(narrow) = &narrow {
            let worth = narrow.solved.iter().filter(|solved| {
                self.is_trimmed(solved) && (solved.changes.is_empty() || !is_clean)
            });
            offers.extend(worth.map(|solved| self.trim(solved, None)));
            stuck = narrow.stuck.as_ref().or(stuck);
        }
        if is_free(kept) || narrow.as_ref().is_some_and(is_free) {
            return Ok(());
        }
        // Scores in the wrong place are put right along the strip first.
        let along = Edges {
            width: true,
            height: false,
        };
        let steps = match self.miscut.about {
            About::Scores(..) => vec![along.and(may), may],
            _ => vec![may],
        };
        for edges in steps.into_iter().filter(|edges| *edges != wrong) {
            let nothing = kept.solved.is_empty() && narrow.as_ref().is_none_or(Searched::is_empty);
            let edges = edges.or(self.pending());
            let wide = self.search(self.cards, edges, Reach::Lesser, nothing)?;
            let found = wide.solved.iter().filter(|solved| self.is_trimmed(solved));
            offers.extend(found.map(|solved| self.trim(solved, stuck)));
            if !wide.is_empty() {
                break;
            }
        }
        Ok(())
    }

    fn is_trimmed(&self, solved: &Solved) -> bool {
        solved.card.cut_list.size_of(self.part()) != Some(self.size_in_hand())
    }

    const fn part(&self) -> Part {
        self.miscut.about.part()
    }

    /// The size of the part in hand as it was measured.
    fn size_in_hand(&self) -> Size {
        let planned = self.card.cut_list.size_of(self.part()).unwrap_or_default();
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

    /// Along which directions it came out in another size.
    fn wrong(&self) -> Edges {
        let planned = self.card.cut_list.size_of(self.part()).unwrap_or_default();
        let is = self.size_in_hand();
        Edges {
            width: is.width != planned.width,
            height: is.height != planned.height,
        }
    }

    /// Whether it came out smaller than it was to be, along any direction.
    fn is_short(&self) -> bool {
        let planned = self.card.cut_list.size_of(self.part()).unwrap_or_default();
        let is = self.size_in_hand();
        is.width < planned.width || is.height < planned.height
    }

    /// Along which directions it is to be trimmed and is not yet.
    fn pending(&self) -> Edges {
        let progress = self.progress(self.cards);
        let trim = progress.untrimmed(self.part());
        let size = self.card.cut_list.size_of(self.part());
        match (self.miscut.about, trim, size) {
            (About::Cut(_), ..) | (_, None, _) | (.., None) => Edges::STAY,
            (_, Some(trim), Some(size)) => Edges {
                width: trim.width > size.width,
                height: trim.height > size.height,
            },
        }
    }

    fn done(&self, key: StepKey) -> u32 {
        self.plan.done.get(&key).copied().unwrap_or(0).min(self.all)
    }

    /// Whether no more of this part have been made than came out different.
    fn is_first(&self) -> bool {
        self.done(self.miscut.key) <= self.cards
    }

    fn hand(&self, cards: u32, edges: Edges) -> Result<Made, CannotBe> {
        let progress = self.progress(cards);
        in_hand(self.recipe(), self.card, &progress, self.miscut, edges).ok_or(CannotBe::Nonsense)
    }

    /// The nearest cards for so many with the part as it came out, or cut down
    /// along these directions.
    fn search(
        &self,
        cards: u32,
        edges: Edges,
        reach: Reach,
        recut: bool,
    ) -> Result<Searched, CannotBe> {
        let hand = self.hand(cards, edges)?;
        if follows(self.recipe(), self.part()) {
            return Ok(Searched::none(Why::Shape));
        }
        let search = Search {
            plan: &self.plan,
            card: self.card,
            progress: self.progress(cards),
            hand,
            reach,
            recut,
            cards,
            hand_is_cut: cards == self.cards,
        };
        Ok(search.run())
    }
}
