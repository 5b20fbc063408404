//! What there is to say of a rescue.

use super::made::Made;
use super::offer::{Fate, Offer, Way};
use super::solve::{Why, owners};
use super::{About, Miscut, Plan};
use crate::card::work_out;
use crate::length::Length;
use crate::paper::Envelope;
use crate::part::Part;
use crate::plane::Size;
use crate::problem::Problem;
use crate::recipe::{LayerId, Placing, Recipe};
use crate::refit::{Cause, Clash, Condition, Outcome, Wish};
use crate::steps::{Instruction, trimming};

/// A part that is made already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ready {
    /// Which.
    pub part: Part,
    /// How large it is.
    pub size: Size,
    /// Whether it is scored, too.
    pub scored: bool,
}

/// Something that stands against a way out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Hurdle {
    /// A part is made already.
    Ready(Ready),
    /// A layer has an even border.
    Border(LayerId),
    /// This holds.
    Holds(Condition),
}

/// What stands against a way out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Against {
    /// These do; where there are none, what was measured can't be together.
    Hurdles(Vec<Hurdle>),
    /// What is cut to the shape of another part would not fit it.
    Shape,
    /// This would be wrong with the card.
    Problem(Problem),
    /// No card was found.
    Clash(Clash),
}

/// A direction of a part that is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// The length of a strip.
    Length,
    /// The width of a layer.
    Width,
    /// The height of either.
    Height,
}

/// A dimension that came out right and is cut down all the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Forced {
    /// The part in hand.
    pub part: Part,
    /// Which of its dimensions.
    pub along: Along,
    /// What it came out as.
    pub is: Length,
    /// What forces it.
    pub against: Option<Against>,
}

/// Why a measure becomes another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// The part in hand came out as it is.
    InHand(About),
    /// Another part is made already.
    Ready(Ready),
    /// This holds.
    Holds(Condition),
}

/// What is done in a way out, in short.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Does {
    /// The part is kept and nothing else changes.
    Nothing,
    /// The part is kept, and the rest of its card follows.
    Keep,
    /// All cards of the batch become like it.
    KeepAll,
    /// The part is trimmed to this size.
    Trim(Size),
    /// The part is scored again in the right place.
    ScoreAgain,
    /// The part is cut again.
    Recut,
}

/// What a way out is, in short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heading {
    /// What is done.
    pub does: Does,
    /// The part in hand.
    pub part: Part,
    /// For how many cards.
    pub cards: u32,
    /// The other parts that are trimmed.
    pub trimmed: Vec<Part>,
    /// The other parts that are cut again.
    pub recut: Vec<Part>,
}

/// What a way out means for the work, besides what it changes and what paper it
/// takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Note {
    /// The card stays as planned.
    AsPlanned,
    /// Nothing else has to change.
    NothingElse,
    /// A dimension of the part in hand that came out right can't stay this.
    CutDown {
        /// The part in hand.
        part: Part,
        /// Which of its dimensions.
        along: Along,
        /// What it came out as.
        is: Length,
    },
    /// This part is glued to the one in hand and has to be cut again with it.
    GluedOn {
        /// What is glued on.
        part: Part,
        /// The part in hand.
        to: Part,
    },
    /// This part is cut already and is trimmed to this size.
    TrimTo(Part, Size),
    /// This part is cut already and has to be cut again.
    CutAgain(Part),
    /// A score in the wrong place stays to be seen.
    SecondLine,
    /// The closed card becomes so large.
    Closed(Size),
    /// Whether the card still goes into this envelope.
    Goes(&'static Envelope, bool),
    /// This no longer holds.
    NoLonger(Condition),
    /// What the refit comes to.
    Refit(Outcome),
    /// Some cards go on as a recipe of their own, the others as planned.
    Apart {
        /// How many go on by themselves.
        these: u32,
        /// How many stay as planned.
        others: u32,
    },
}

/// Something to say of a way out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remark {
    /// What it means for the work.
    Note(Note),
    /// What stands against another way.
    Against(Against),
    /// What to do at the table.
    Do(Instruction),
}

impl Offer {
    /// What it is, in short.
    pub fn heading(&self, miscut: &Miscut) -> Heading {
        let part = miscut.about.part();
        let others = |is: fn(&Fate) -> bool| {
            let others = self.fates.iter();
            let others = others.filter(|(other, fate)| *other != part && is(fate));
            others.map(|(other, _)| *other).collect()
        };
        let to = || {
            let mut fates = self.fates.iter();
            fates.find_map(|(other, fate)| match fate {
                Fate::Trimmed(to) if *other == part => Some(*to),
                Fate::Trimmed(_) | Fate::Recut => None,
            })
        };
        Heading {
            does: match self.way {
                Way::Keep if self.fates.is_empty() && self.changes.is_empty() => Does::Nothing,
                Way::Keep => Does::Keep,
                Way::KeepAll => Does::KeepAll,
                Way::Trim => Does::Trim(to().unwrap_or_default()),
                Way::ScoreAgain => Does::ScoreAgain,
                Way::Recut => Does::Recut,
            },
            part,
            cards: self.cards,
            trimmed: others(|fate| matches!(fate, Fate::Trimmed(_))),
            recut: others(|fate| *fate == Fate::Recut),
        }
    }

    /// What it means for the work.
    pub fn remarks(&self, plan: &Plan<'_>, miscut: &Miscut) -> Vec<Remark> {
        let mut remarks = Vec::new();
        if self.changes.is_empty() {
            let stays = self.recipe.measures == plan.recipe.measures;
            remarks.push(Remark::Note(if stays {
                Note::AsPlanned
            } else {
                Note::NothingElse
            }));
        }
        for forced in &self.forced {
            let Forced {
                part, along, is, ..
            } = *forced;
            remarks.push(Remark::Note(Note::CutDown { part, along, is }));
            remarks.extend(forced.against.clone().map(Remark::Against));
        }
        let in_hand = miscut.about.part();
        for (part, fate) in &self.fates {
            let note = match (self.way, fate) {
                (Way::Recut, _) if *part == in_hand => None,
                (Way::Recut, _) => Some(Note::GluedOn {
                    part: *part,
                    to: in_hand,
                }),
                (_, Fate::Trimmed(_)) if *part == in_hand => None,
                (_, Fate::Trimmed(to)) => Some(Note::TrimTo(*part, *to)),
                (_, Fate::Recut) => Some(Note::CutAgain(*part)),
            };
            remarks.extend(note.map(Remark::Note));
            if matches!(fate, Fate::Trimmed(_)) {
                let does = self.trimming(plan, *part).into_iter();
                remarks.extend(does.map(Remark::Do));
            }
        }
        let off: Vec<_> = self
            .off_marks
            .iter()
            .map(|id| (*id, self.recipe.value(*id)))
            .collect();
        let last = self.second_line.then_some(Note::SecondLine).into_iter();
        let last = last
            .chain(self.finished.map(Note::Closed))
            .chain(self.envelope.map(|(it, takes)| Note::Goes(it, takes)))
            .chain(self.given_up.iter().cloned().map(Note::NoLonger))
            .chain((!off.is_empty()).then_some(Note::Refit(Outcome::OffMarks(off))))
            .chain(self.rest.as_ref().map(|rest| Note::Apart {
                these: self.cards,
                others: rest.recipe.copies,
            }));
        remarks.extend(last.map(Remark::Note));
        remarks
    }

    /// What is cut off a part where: that is measured on the card as it becomes.
    fn trimming(&self, plan: &Plan<'_>, part: Part) -> Vec<Instruction> {
        let trim = self.trims.get(&part);
        trim.map_or_else(Vec::new, |trim| {
            let then = work_out(&self.recipe, plan.tools);
            trimming(&self.recipe, &then, part, trim)
        })
    }
}

impl Made {
    pub(super) fn ready(&self) -> Ready {
        Ready {
            part: self.part,
            size: self.size,
            scored: !self.scores.is_empty(),
        }
    }
}

impl Why {
    /// What is made already, and what must hold.
    pub(super) fn against(&self, recipe: &Recipe) -> Against {
        match self {
            Self::Problem(problem) => Against::Problem(problem.clone()),
            Self::Shape => Against::Shape,
            Self::Clash(Clash::Between { causes, .. }, wish, made) => {
                let mut hurdles: Vec<Hurdle> = Vec::new();
                for cause in causes {
                    for hurdle in hurdles_of(recipe, wish, made, *cause) {
                        if !hurdles.contains(&hurdle) {
                            hurdles.push(hurdle);
                        }
                    }
                }
                Against::Hurdles(hurdles)
            }
            Self::Clash(clash, ..) => Against::Clash(clash.clone()),
        }
    }
}

/// What a cause is to the maker: whose making it is, or what holds; nothing for
/// the part in hand itself.
fn hurdles_of(recipe: &Recipe, wish: &Wish, made: &[Made], cause: Cause) -> Vec<Hurdle> {
    match cause {
        Cause::Asked(_) | Cause::Made(_) => {
            let owners = owners(made, cause);
            let others = made.iter().skip(1);
            let others = others.filter(|made| owners.contains(&made.part));
            others.map(|made| Hurdle::Ready(made.ready())).collect()
        }
        Cause::Layer(id)
            if recipe
                .layer(id)
                .is_some_and(|layer| matches!(layer.place, Placing::Border(_))) =>
        {
            vec![Hurdle::Border(id)]
        }
        _ => {
            let holds = cause.condition(recipe, wish).map(Hurdle::Holds);
            holds.into_iter().collect()
        }
    }
}
