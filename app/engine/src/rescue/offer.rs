//! The ways out, one by one.

use super::paper::{Paper, for_changes, for_pieces};
use super::progress::{after, goes_on, undone};
use super::solve::Solved;
use super::work::Part;
use super::{About, Bench, Done};
use crate::length::nearest;
use crate::paper::Envelope;
use crate::plane::Size;
use crate::recipe::{Layer, MeasureId, Recipe};
use crate::refit::{given_up_words, why_words};

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
    /// The envelope that took the card and no longer does.
    pub envelope_lost: Option<&'static Envelope>,
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
            self.envelope_lost.is_some(),
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
        let to = size_in(&solved.recipe, part);
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
            let smaller = fits_in(before, &solved.recipe, *part);
            let fate = match part {
                Part::Layer(_) if smaller => Fate::Trimmed(size_in(&solved.recipe, *part)),
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
            changes: told(before, solved),
            given_up: given_up_words(before, &solved.wish, &solved.refit),
            off_marks: solved.off_marks.clone(),
            envelope_lost: solved.envelope_lost,
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
            About::Cut(_) => false,
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
            envelope_lost: None,
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
pub(super) fn size_in(recipe: &Recipe, part: Part) -> Size {
    let measures = match part {
        Part::Strip(of) => recipe.strip(of).map(|strip| (strip.length, strip.height)),
        Part::Layer(id) => recipe.layer(id).map(|layer| (layer.width, layer.height)),
    };
    let [width, height] = measures.map_or_else(Default::default, |(width, height)| {
        [recipe.value(width), recipe.value(height)]
    });
    Size { width, height }
}

/// Whether a part can be cut down from what it was before to what it is after. A
/// layer that takes the shape of what carries it is cut again.
pub(super) fn fits_in(before: &Recipe, after: &Recipe, part: Part) -> bool {
    if let Part::Layer(id) = part
        && before.layer(id).is_some_and(Layer::follows)
    {
        return false;
    }
    let (was, is) = (size_in(before, part), size_in(after, part));
    is.width <= was.width && is.height <= was.height
}

fn told(before: &Recipe, solved: &Solved) -> Vec<Told> {
    let changes = solved.changes.iter();
    changes
        .map(|moved| {
            let measure = before.measure(moved.change.measure);
            let notation = before.notation;
            Told {
                name: measure.map_or_else(String::new, |measure| measure.name.clone()),
                from: if nearest(moved.change.from, notation.step).is_exact() {
                    notation.plain(moved.change.from)
                } else {
                    notation.exact(moved.change.from)
                },
                to: notation.exact(moved.change.to),
                why: moved.why.map_or_else(String::new, |why| {
                    why_words(before, &solved.wish, &solved.refit, why)
                }),
            }
        })
        .collect()
}
