//! The ways out, one by one.

use super::paper::{Paper, for_changes, for_pieces};
use super::progress::{after, goes_on, undone};
use super::solve::{Solved, follows};
use super::work::Part;
use super::{About, Bench, Done};
use crate::card::Card;
use crate::length::nearest;
use crate::paper::Envelope;
use crate::plane::Size;
use crate::recipe::{MeasureId, Recipe};
use crate::refit::{Cause, given_up_words, why_words};

/// How the maker goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// The part is kept, and the rest of its card follows.
    Keep,
    /// The part is kept, and all cards of the batch become like it.
    KeepAll,
    /// The part is cut down.
    Trim,
    /// It is scored again in the right place.
    ScoreAgain,
    /// It is made again from new paper.
    Recut,
}

/// What becomes of a part that is cut already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It is cut down to this size.
    Trimmed(Size),
    /// It is cut again.
    Recut,
}

/// A measure that becomes another, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// What the maker calls it.
    pub name: String,
    /// What it was to be.
    pub from: String,
    /// What it becomes.
    pub to: String,
    /// Why, as the end of a sentence; empty where it only goes to its nearest
    /// mark.
    pub why: String,
}

/// The cards of a batch that go on as planned while others part from them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rest {
    /// Their recipe.
    pub recipe: Recipe,
    /// How far they have come.
    pub done: Done,
    /// The lasting name of the step they go on with.
    pub step: String,
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
    pub changes: Vec<Told>,
    /// The parts that can't stay as they are, besides nothing at all; the part
    /// in hand too.
    pub fates: Vec<(Part, Fate)>,
    /// What should hold and no longer does, in sentences.
    pub given_up: Vec<String>,
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
    /// The lasting name of the step they go on with.
    pub step: String,
    /// The other cards, where these part from them.
    pub rest: Option<Rest>,
}

impl Offer {
    /// How much is given up: less is better.
    pub(super) fn compromise(&self) -> (bool, bool, usize, bool, bool, usize) {
        let recut = self.fates.iter().filter(|(_, fate)| *fate == Fate::Recut);
        (
            self.way == Way::Recut,
            self.second_line,
            recut.count(),
            self.envelope.is_some_and(|(_, takes)| !takes),
            !self.off_marks.is_empty() || !self.given_up.is_empty(),
            self.changes.len(),
        )
    }
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

    /// The part is cut down to what the nearest card needs.
    pub(super) fn trim(&self, solved: &Solved) -> Offer {
        let part = self.miscut.about.part();
        let to = size_in(&solved.card, part);
        self.solved(
            Way::Trim,
            solved,
            self.cards,
            vec![(part, Fate::Trimmed(to))],
        )
    }

    fn solved(&self, way: Way, solved: &Solved, cards: u32, mut fates: Vec<(Part, Fate)>) -> Offer {
        let before = self.recipe();
        for part in &solved.given_up {
            let (was, is) = (size_in(self.card, *part), size_in(&solved.card, *part));
            let smaller = is.width <= was.width && is.height <= was.height;
            let fate = match part {
                Part::Layer(_) if smaller && !follows(before, *part) => Fate::Trimmed(is),
                Part::Layer(_) | Part::Strip(_) => Fate::Recut,
            };
            fates.push((*part, fate));
        }
        // What goes on as planned needs no recipe of its own.
        let parts_company = cards < self.all && solved.recipe.measures != before.measures;
        let mut recipe = solved.recipe.clone();
        let mut rest = None;
        if parts_company {
            recipe.copies = cards;
            let mut others = before.clone();
            others.copies = self.all - cards;
            let done = self.done_of_others(cards);
            let (step, done) = goes_on(self, &others, self.card, done, &Done::new());
            rest = Some(Rest {
                recipe: others,
                done,
                step,
            });
        }
        let recut = fates.iter().filter(|(_, fate)| *fate == Fate::Recut);
        let mut paper = for_changes(before, self.card, &recipe, &solved.card, self.plan.done);
        for (part, _) in recut {
            paper.extend(for_pieces(&recipe, &solved.card, *part, cards));
        }
        let had = if parts_company {
            self.done_of(cards)
        } else {
            self.plan.done.clone()
        };
        let done = after(self, &solved.recipe, &solved.card, &had, &fates, cards);
        let (step, done) = goes_on(self, &recipe, &solved.card, done, &had);
        Offer {
            way,
            cards,
            changes: self.told(solved),
            given_up: given_up_words(before, &solved.wish, &solved.refit),
            off_marks: solved.off_marks.clone(),
            envelope: solved
                .envelope
                .filter(|_| solved.card.finished != self.card.finished),
            second_line: false,
            recipe,
            fates,
            paper,
            done,
            step,
            rest,
        }
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
            let keys = [self.miscut.key.clone()];
            self.as_planned(Way::ScoreAgain, Vec::new(), &keys, Vec::new())
        })
    }

    /// Made again from new paper.
    pub(super) fn recut(&self) -> Offer {
        let part = self.miscut.about.part();
        let lost = undone(self.recipe(), self.card, self.plan.done, part);
        let mut paper = Vec::new();
        for part in std::iter::once(part).chain(lost.parts.iter().copied()) {
            paper.extend(for_pieces(self.recipe(), self.card, part, self.cards));
        }
        let fates = std::iter::once(part).chain(lost.parts);
        let fates = fates.map(|part| (part, Fate::Recut)).collect();
        self.as_planned(Way::Recut, fates, &lost.keys, paper)
    }

    /// The plan stays, and some steps are done again.
    fn as_planned(
        &self,
        way: Way,
        fates: Vec<(Part, Fate)>,
        again: &[String],
        paper: Vec<Paper>,
    ) -> Offer {
        let mut done = self.plan.done.clone();
        for key in again {
            if let Some(done) = done.get_mut(key) {
                *done = (*done).min(self.all - self.cards);
            }
        }
        let (step, done) = goes_on(self, self.recipe(), self.card, done, self.plan.done);
        Offer {
            way,
            cards: self.cards,
            recipe: self.recipe().clone(),
            changes: Vec::new(),
            second_line: way == Way::ScoreAgain,
            given_up: Vec::new(),
            off_marks: Vec::new(),
            envelope: None,
            rest: None,
            fates,
            paper,
            done,
            step,
        }
    }

    /// What is done of the cards that go on as planned.
    fn done_of_others(&self, cards: u32) -> Done {
        let others = self.all - cards;
        let done = self.plan.done.iter();
        done.map(|(key, done)| (key.clone(), (*done).min(others)))
            .collect()
    }

    /// What is done of those that part from them: what is left over.
    fn done_of(&self, cards: u32) -> Done {
        let others = self.all - cards;
        let done = self.plan.done.iter();
        done.map(|(key, done)| (key.clone(), done.saturating_sub(others).min(cards)))
            .collect()
    }
}

/// Width and height of a part as it is cut: length and height of a strip.
pub(super) fn size_in(card: &Card, part: Part) -> Size {
    match part {
        Part::Strip(of) => card.laid.piece(of).map(|piece| piece.size),
        Part::Layer(id) => card.laid.layer(id).map(|layer| layer.at.size()),
    }
    .unwrap_or_default()
}

impl Bench<'_> {
    fn told(&self, solved: &Solved) -> Vec<Told> {
        let before = self.recipe();
        let notation = before.notation;
        let changes = solved.changes.iter();
        changes
            .map(|moved| {
                let measure = before.measure(moved.change.measure);
                let from = moved.change.from;
                Told {
                    name: measure.map_or_else(String::new, |measure| measure.name.clone()),
                    from: if nearest(from, notation.step).is_exact() {
                        notation.plain(from)
                    } else {
                        notation.exact(from)
                    },
                    to: notation.exact(moved.change.to),
                    why: moved
                        .why
                        .map_or_else(String::new, |why| self.why(solved, why)),
                }
            })
            .collect()
    }

    fn why(&self, solved: &Solved, why: Cause) -> String {
        match (why, self.miscut.about) {
            (Cause::Made(place), about) if place < solved.in_hand => match about {
                About::Cut(_) => "by the size it came out",
                About::Scores(..) => "by where it is scored",
                About::Line(..) => "by where the line is",
                About::Cutout(..) => "by what is cut out",
            }
            .to_owned(),
            (Cause::Made(_), _) => "by what is made already".to_owned(),
            _ => why_words(self.recipe(), &solved.wish, &solved.refit, why),
        }
    }
}
