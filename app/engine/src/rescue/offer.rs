//! The ways out, one by one.

use super::paper::{Paper, for_changes, for_pieces};
use super::progress::{Course, after, goes_on, undone};
use super::solve::{Solved, Why, owners};
use super::told::{Along, Forced, Reason};
use super::{About, Bench, Done};
use crate::length::Length;
use crate::paper::Envelope;
use crate::part::Part;
use crate::plane::Size;
use crate::recipe::{Change, MeasureId, Recipe};
use crate::refit::{Cause, Condition};
use crate::steps::{StepKey, Trim, Trims};

/// How the maker goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// The part is kept, and the rest of its card follows.
    Keep,
    /// The part is kept, and all cards of the batch become like it.
    KeepAll,
    /// The part is trimmed.
    Trim,
    /// It is scored again in the right place.
    ScoreAgain,
    /// It is made again from new paper.
    Recut,
}

/// What becomes of a part that is cut already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It is trimmed to this size, which takes no paper.
    Trimmed(Size),
    /// It is cut again.
    Recut,
}

/// A measure that becomes another, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Moved {
    /// What it was to be, and what it becomes.
    pub change: Change,
    /// Why; `None` where it only goes to its nearest mark.
    pub why: Option<Reason>,
}

/// The cards of a batch that go on as planned while others part from them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rest {
    /// Their recipe.
    pub recipe: Recipe,
    /// How far they have come.
    pub done: Done,
    /// What of them is to be trimmed.
    pub trims: Trims,
    /// The step they go on with; `None` where nothing is left to do.
    pub step: Option<StepKey>,
}

/// One way to go on.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// Which.
    pub way: Way,
    /// For how many cards.
    pub cards: u32,
    /// The recipe they go on with.
    pub recipe: Recipe,
    /// What changes besides what was measured.
    pub changes: Vec<Moved>,
    /// Which dimension that came out right is cut down, and what forces it.
    pub forced: Vec<Forced>,
    /// How large the closed card becomes, where that changes.
    pub finished: Option<Size>,
    /// The parts that can't stay as they are, besides nothing at all; the part
    /// in hand too.
    pub fates: Vec<(Part, Fate)>,
    /// What should hold and no longer does.
    pub given_up: Vec<Condition>,
    /// What must be set between the maker's marks.
    pub off_marks: Vec<MeasureId>,
    /// The envelope that took the card, where its size changes, and whether it
    /// still does.
    pub envelope: Option<(&'static Envelope, bool)>,
    /// Whether a score in the wrong place stays to be seen.
    pub second_line: bool,
    /// What it takes of new paper.
    pub paper: Vec<Paper>,
    /// How far these cards have come then.
    pub done: Done,
    /// What of them is to be trimmed.
    pub trims: Trims,
    /// The step they go on with; `None` where nothing is left to do.
    pub step: Option<StepKey>,
    /// The other cards, where these part from them.
    pub rest: Option<Rest>,
}

impl Offer {
    /// How much is given up, of the plan and of what is made: less is better.
    pub(super) fn compromise(
        &self,
    ) -> (
        bool,
        bool,
        usize,
        i64,
        bool,
        bool,
        bool,
        usize,
        usize,
        usize,
    ) {
        let recut = |(_, fate): &&(Part, Fate)| *fate == Fate::Recut;
        let recut = self.fates.iter().filter(recut).count();
        // A sheet more than can be had counts for many.
        let sheets = self.paper.iter().map(|paper| paper.more.unwrap_or(1_000));
        (
            self.way == Way::Recut,
            self.second_line,
            recut,
            sheets.map(|more| more.max(0)).sum(),
            self.envelope.is_some_and(|(_, takes)| !takes),
            !self.off_marks.is_empty() || !self.given_up.is_empty(),
            self.finished.is_some(),
            self.forced.len(),
            self.fates.len() - recut,
            self.changes.len(),
        )
    }
}

/// The same without those that come to the same as an earlier one.
pub(super) fn distinct(offers: Vec<Offer>) -> Vec<Offer> {
    let mut kept: Vec<Offer> = Vec::new();
    for offer in offers {
        let same = |other: &Offer| {
            other.recipe == offer.recipe
                && other.fates == offer.fates
                && other.done == offer.done
                && other.second_line == offer.second_line
        };
        if !kept.iter().any(same) {
            kept.push(offer);
        }
    }
    kept
}

impl Bench<'_> {
    /// The part stays as it came out.
    pub(super) fn keep(&self, solved: &Solved, cards: u32) -> Offer {
        let way = if cards > self.cards {
            Way::KeepAll
        } else {
            Way::Keep
        };
        self.solved(way, solved, cards, Vec::new())
    }

    /// The part is cut down to what the nearest card needs, and what forces that
    /// where it came out right.
    pub(super) fn trim(&self, solved: &Solved, why: Option<&Why>) -> Offer {
        let part = self.part();
        let to = solved.card.cut_list.size_of(part).unwrap_or_default();
        let fates = vec![(part, Fate::Trimmed(to))];
        let mut offer = self.solved(Way::Trim, solved, self.cards, fates);
        offer.forced = self.forced(to, why);
        offer
    }

    /// What forces each dimension that came out right to be cut down.
    fn forced(&self, to: Size, why: Option<&Why>) -> Vec<Forced> {
        let (wrong, is) = (self.wrong(), self.size_in_hand());
        let part = self.part();
        let first = match part {
            Part::Strip(_) => Along::Length,
            Part::Layer(_) => Along::Width,
        };
        let right = [
            (first, !wrong.width && to.width < is.width, is.width),
            (
                Along::Height,
                !wrong.height && to.height < is.height,
                is.height,
            ),
        ];
        let right = right.into_iter().filter(|(_, shrinks, _)| *shrinks);
        right
            .map(|(along, _, is)| Forced {
                part,
                along,
                is,
                against: why.map(|why| why.against(self.recipe())),
            })
            .collect()
    }

    fn solved(&self, way: Way, solved: &Solved, cards: u32, mut fates: Vec<(Part, Fate)>) -> Offer {
        let before = self.recipe();
        let trimmed = solved.trimmed.iter().map(|part| {
            let to = solved.card.cut_list.size_of(*part).unwrap_or_default();
            (*part, Fate::Trimmed(to))
        });
        fates.extend(trimmed);
        fates.extend(solved.recut.iter().map(|part| (*part, Fate::Recut)));
        // What goes on as planned needs no recipe of its own.
        let parts_company = cards < self.all && solved.recipe.measures != before.measures;
        let mut recipe = solved.recipe.clone();
        let mut rest = None;
        if parts_company {
            recipe.copies = cards;
            let mut others = before.clone();
            others.copies = self.all - cards;
            let course = Course {
                done: self.done_of_others(cards),
                trims: self.plan.trims.clone(),
            };
            let (step, course) = goes_on(self, &others, self.card, course, &Done::new());
            rest = Some(Rest {
                recipe: others,
                done: course.done,
                trims: course.trims,
                step,
            });
        }
        let recut = fates.iter().filter(|(_, fate)| *fate == Fate::Recut);
        let mut paper = for_changes(self.card, &recipe, &solved.card, self.plan.done);
        for (part, _) in recut {
            paper.extend(for_pieces(&recipe, &solved.card, *part, cards));
        }
        let had = if parts_company {
            self.done_of(cards)
        } else {
            self.plan.done.clone()
        };
        let course = Course {
            trims: self.trims(way, solved, &fates, &had, cards, parts_company),
            done: after(self, &solved.card, &had, &fates, cards),
        };
        let (step, course) = goes_on(self, &recipe, &solved.card, course, &had);
        let finished = solved.card.finished;
        Offer {
            way,
            cards,
            changes: self.moved(solved),
            forced: Vec::new(),
            finished: Some(finished).filter(|it| *it != self.card.finished),
            given_up: solved.refit.no_longer(before, &solved.wish).collect(),
            off_marks: solved.off_marks.clone(),
            envelope: solved.envelope.filter(|_| finished != self.card.finished),
            second_line: false,
            recipe,
            fates,
            paper,
            done: course.done,
            trims: course.trims,
            step,
            rest,
        }
    }

    /// What is to be trimmed of so many cards then.
    fn trims(
        &self,
        way: Way,
        solved: &Solved,
        fates: &[(Part, Fate)],
        had: &Done,
        cards: u32,
        parts_company: bool,
    ) -> Trims {
        let in_hand = self.part();
        let mut trims = self.plan.trims.clone();
        // It came out as it is, whatever was to be trimmed.
        let is_told = matches!(self.miscut.about, About::Cut(_)) && way != Way::Trim;
        if is_told && (parts_company || cards == self.all) {
            trims.remove(&in_hand);
        }
        for (part, fate) in fates {
            let made = solved.made.iter().find(|made| made.part == *part);
            let (Fate::Trimmed(_), Some(made)) = (fate, made) else {
                trims.remove(part);
                continue;
            };
            let first = match (part, made.scores.first_key_value()) {
                (Part::Strip(of), Some((score, at))) => {
                    let panels = solved.recipe.strip(*of).map(|strip| &strip.panels);
                    let panels = panels.into_iter().flatten().take(score + 1);
                    let now = panels.map(|panel| solved.recipe.value(panel.width));
                    *at - now.sum::<Length>()
                }
                _ => Length::ZERO,
            };
            let cut = had
                .get(&StepKey::Cut(*part))
                .copied()
                .unwrap_or(0)
                .min(cards);
            let mut trim = Trim {
                width: made.size.width,
                height: made.size.height,
                first,
                pieces: if *part == in_hand {
                    self.cards.min(cards)
                } else {
                    cut
                },
            };
            // Others of the batch that wait for the same.
            let waiting = trims.get(part).filter(|_| {
                let trimmed = had.get(&StepKey::Trim(*part)).is_some_and(|done| *done > 0);
                *part == in_hand && self.cards < self.all && !parts_company && !trimmed
            });
            if let Some(waiting) = waiting {
                trim.width = trim.width.max(waiting.width);
                trim.height = trim.height.max(waiting.height);
                trim.first = trim.first.max(waiting.first);
                trim.pieces = trim.pieces.saturating_add(waiting.pieces).min(self.all);
            }
            trims.insert(*part, trim);
        }
        trims
    }

    /// Scored once more where it should have been.
    pub(super) fn score_again(&self) -> Option<Offer> {
        let scored = match self.miscut.about {
            About::Scores(..) => true,
            About::Line(_, id) => {
                let line = self.recipe().line(id);
                line.is_some_and(|line| line.kind != crate::pattern::LineKind::Cut)
            }
            About::Cut(_) | About::Cutout(..) => false,
        };
        scored.then(|| {
            let keys = [self.miscut.key];
            self.as_planned(
                Way::ScoreAgain,
                Vec::new(),
                &keys,
                Vec::new(),
                self.others(),
            )
        })
    }

    /// Made again from new paper.
    pub(super) fn recut(&self) -> Offer {
        self.made_again(self.others())
    }

    /// The same where what is made again was counted as done.
    pub(super) fn spoiled(&self) -> Offer {
        self.made_again(|done| done.saturating_sub(self.cards))
    }

    /// How many of those that are done are of the other cards.
    fn others(&self) -> impl Fn(u32) -> u32 {
        let others = self.all - self.cards;
        move |done| done.min(others)
    }

    /// What is in hand is made again from new paper; `left` tells how many of each step
    /// then are done.
    fn made_again(&self, left: impl Fn(u32) -> u32) -> Offer {
        let part = self.part();
        let lost = undone(self.recipe(), self.card, self.plan.done, part);
        let mut paper = Vec::new();
        for part in std::iter::once(part).chain(lost.parts.iter().copied()) {
            paper.extend(for_pieces(self.recipe(), self.card, part, self.cards));
        }
        let fates = std::iter::once(part).chain(lost.parts);
        let fates = fates.map(|part| (part, Fate::Recut)).collect();
        self.as_planned(Way::Recut, fates, &lost.keys, paper, left)
    }

    /// The plan stays, and some steps are done again.
    fn as_planned(
        &self,
        way: Way,
        fates: Vec<(Part, Fate)>,
        again: &[StepKey],
        paper: Vec<Paper>,
        left: impl Fn(u32) -> u32,
    ) -> Offer {
        let mut done = self.plan.done.clone();
        for key in again {
            if let Some(done) = done.get_mut(key) {
                *done = left(*done);
            }
        }
        let mut trims = self.plan.trims.clone();
        if self.cards == self.all {
            for (part, _) in &fates {
                trims.remove(part);
            }
        }
        let course = Course { done, trims };
        let (step, course) = goes_on(self, self.recipe(), self.card, course, self.plan.done);
        Offer {
            way,
            cards: self.cards,
            recipe: self.recipe().clone(),
            changes: Vec::new(),
            forced: Vec::new(),
            finished: None,
            second_line: way == Way::ScoreAgain,
            given_up: Vec::new(),
            off_marks: Vec::new(),
            envelope: None,
            rest: None,
            fates,
            paper,
            done: course.done,
            trims: course.trims,
            step,
        }
    }

    /// What is done of the cards that go on as planned.
    fn done_of_others(&self, cards: u32) -> Done {
        let others = self.all - cards;
        let done = self.plan.done.iter();
        done.map(|(key, done)| (*key, (*done).min(others)))
            .collect()
    }

    /// What is done of those that part from them: what is left over.
    fn done_of(&self, cards: u32) -> Done {
        let others = self.all - cards;
        let done = self.plan.done.iter();
        done.map(|(key, done)| (*key, done.saturating_sub(others).min(cards)))
            .collect()
    }
}

impl Bench<'_> {
    fn moved(&self, solved: &Solved) -> Vec<Moved> {
        let changes = solved.changes.iter();
        changes
            .map(|moved| Moved {
                change: moved.change,
                why: moved.why.and_then(|why| self.why(solved, why)),
            })
            .collect()
    }

    fn why(&self, solved: &Solved, why: Cause) -> Option<Reason> {
        let owners = owners(&solved.made, why);
        let in_hand = owners.contains(&self.part());
        match why {
            Cause::Made(_) if in_hand => Some(Reason::InHand(self.miscut.about)),
            Cause::Made(_) | Cause::Asked(_) if !in_hand => {
                let mut made = solved.made.iter();
                let made = made.find(|made| owners.contains(&made.part));
                made.map(|made| Reason::Ready(made.ready()))
            }
            _ => {
                let holds = why.condition(self.recipe(), &solved.wish);
                holds.map(Reason::Holds)
            }
        }
    }
}
