//! The card made step by step, at the table.

mod before;
mod cutting;
mod finishing;
mod folding;
mod key;
mod laying;
mod order;
mod pieces;
mod planned;
mod seen;
mod shaping;
mod stated;
mod trimming;

pub use before::{Because, Before};
pub use key::{Along, StepKey};
pub use laying::{between_passes, how_to_cut, how_to_glue, how_to_lay, score_label};
pub use order::{Stays, Way, back_to_usual, moved, named};
pub use planned::cut_by;
pub use stated::{
    AtFence, Caption, EdgeRuns, Falls, Form, Instruction, Label, Move, Off, Point, Runs, SheetLies,
    Taken, Title, Tool, Value,
};
pub use trimming::{Trim, Trims, steps_with, trimming};

use seen::{Bare, Seen};

use crate::card::Card;
use crate::care::Hazard;
use crate::cut_plan::CutPlan;
use crate::draw::Drawing;
use crate::length::Length;
use crate::recipe::{Recipe, Side, StripId};

/// What a step is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Taking out paper and tools.
    Gather,
    /// Cutting a piece.
    Cut,
    /// Scoring the strip.
    Score,
    /// Folding at a score.
    Fold,
    /// Decorating a piece before it is glued on.
    Decorate,
    /// Putting glue on the back of a layer, and the layer in its place.
    Glue,
    /// Slipping in a loose insert.
    Insert,
    /// Waiting for glue.
    Dry,
    /// Choosing an envelope.
    Envelope,
    /// Something of the maker's own.
    Own,
}

/// A number of a step, large enough to read at arm's length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure {
    /// What it is.
    pub label: Label,
    /// Its value.
    pub value: Value,
    /// Which of the letters in the step's picture it is at, the first of which is 0.
    pub letter: Option<usize>,
}

/// A picture of a step. It is drawn when it is looked at: a card of many parts
/// has hundreds of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// What it shows.
    pub caption: Caption,
    view: Seen,
}

impl Picture {
    /// The drawing, of the recipe and the card the step is of.
    pub fn drawing(&self, recipe: &Recipe, card: &Card) -> Drawing {
        self.view.drawing(recipe, card)
    }
}

/// One step: one screen at the bench.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Its lasting name, by which notes and progress are kept.
    pub key: StepKey,
    /// What it is about.
    pub kind: Kind,
    /// What to do, in a few words.
    pub title: Title,
    /// What to do, one thing at a time: where to measure from first.
    pub does: Vec<Instruction>,
    /// Its numbers.
    pub figures: Vec<Figure>,
    /// Its pictures.
    pub pictures: Vec<Picture>,
    /// What to have ready.
    pub tools: Vec<Tool>,
    /// What to be careful with.
    pub care: Vec<Hazard>,
    /// How often it is done for all cards of the batch.
    pub times: u32,
}

impl Step {
    fn new(key: StepKey, kind: Kind, title: Title, recipe: &Recipe) -> Self {
        Self {
            key,
            kind,
            title,
            does: Vec::new(),
            figures: Vec::new(),
            pictures: Vec::new(),
            tools: Vec::new(),
            care: Vec::new(),
            times: recipe.copies,
        }
    }

    fn figure(&mut self, label: Label, value: Value) {
        self.figures.push(Figure {
            label,
            value,
            letter: None,
        });
    }

    /// A length that has a letter in the picture.
    fn lettered(&mut self, letter: usize, label: Label, length: Length) {
        self.figures.push(Figure {
            label,
            value: Value::Length(length),
            letter: Some(letter),
        });
    }

    fn length(&mut self, label: Label, length: Length) {
        self.figure(label, Value::Length(length));
    }

    fn picture(&mut self, caption: Caption, view: Seen) {
        self.pictures.push(Picture { caption, view });
    }

    /// A strip flat on the table with its inside up, before anything is on it.
    fn flat(&mut self, of: StripId, view: Seen) {
        self.picture(Caption::SideUp(of, Side::A), view);
    }

    /// The same before any of its lines is scored.
    fn bare(&mut self, of: StripId) {
        self.flat(of, Seen::Bare(of));
    }
}

/// Every step of the card in the order of the work, each part cut from sheets of
/// its own. Work of one kind stands together, so that a batch is made operation by
/// operation, but where the recipe's maker takes it in another order.
pub fn steps(recipe: &Recipe, card: &Card) -> Vec<Step> {
    order::in_order(recipe, card, None, usual_steps(recipe, card, None))
}

/// The same with the parts cut from sheets that they share, as a plan says.
pub fn planned_steps(recipe: &Recipe, card: &Card, plan: &CutPlan) -> Vec<Step> {
    let usual = usual_steps(recipe, card, Some(plan));
    order::in_order(recipe, card, Some(plan), usual)
}

/// The steps as they are usually taken, without those of the maker's own.
fn usual_steps(recipe: &Recipe, card: &Card, plan: Option<&CutPlan>) -> Vec<Step> {
    let mut steps = cutting_steps(recipe, card, plan);
    steps.extend(after_cutting(recipe, card));
    steps
}

/// The steps of these until all parts are cut: from sheets that they share where there
/// is a plan.
pub fn cutting_steps(recipe: &Recipe, card: &Card, plan: Option<&CutPlan>) -> Vec<Step> {
    if let Some(plan) = plan {
        let mut steps = vec![planned::gather(recipe, card, plan)];
        steps.extend(planned::cuts(recipe, card, plan));
        return steps;
    }
    let mut steps = vec![cutting::gather(recipe, card)];
    steps.extend(cutting::strips(recipe, card));
    steps.extend(cutting::layers(recipe, card));
    steps
}

fn after_cutting(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let mut steps = Vec::new();
    steps.extend(shaping::cutouts(recipe));
    steps.extend(folding::cuts(recipe));
    steps.extend(folding::scores(recipe, card));
    steps.extend(folding::creases(recipe));
    steps.extend(pieces::folds(recipe, card));
    let bare = Bare::of(recipe);
    steps.extend(folding::folds(recipe, card, bare.as_ref()));
    steps.extend(finishing::decorate(recipe));
    steps.extend(finishing::put_on(recipe, card, bare.as_ref()));
    steps.extend(pieces::glued(recipe, card));
    steps.extend(finishing::dry(recipe));
    if !recipe.posting.is_envelope {
        steps.push(finishing::envelope(recipe, card));
    }
    steps
}
