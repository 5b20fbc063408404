//! The card made step by step, at the table.

mod cutting;
mod finishing;
mod folding;
mod pieces;
mod seen;
mod shaping;
mod trimming;

pub use cutting::sheets_needed;
pub(crate) use trimming::size_of;
pub use trimming::{Trim, Trims, steps_with, trim_words};

use seen::Seen;

use crate::card::Card;
use crate::care::Hazard;
use crate::draw::Drawing;
use crate::problem::sentence;
use crate::recipe::{LayerId, PieceId, Recipe, Side};
use crate::words::{piece_name, side_word};

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
}

impl Kind {
    /// As a word above the step.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Gather => "Gather",
            Self::Cut => "Cut",
            Self::Score => "Score",
            Self::Fold => "Fold",
            Self::Decorate => "Decorate",
            Self::Glue => "Glue",
            Self::Insert => "Insert",
            Self::Dry => "Dry",
            Self::Envelope => "Envelope",
        }
    }
}

/// A number of a step, large enough to read at arm's length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// What it is.
    pub label: String,
    /// Its value in the recipe's notation.
    pub value: String,
}

/// A picture of a step. It is drawn when it is looked at: a card of many parts
/// has hundreds of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// What it shows.
    pub caption: String,
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
    pub key: String,
    /// What it is about.
    pub kind: Kind,
    /// What to do, in a few words.
    pub title: String,
    /// What to do, sentence by sentence.
    pub does: Vec<String>,
    /// Its numbers.
    pub figures: Vec<Figure>,
    /// Its pictures.
    pub pictures: Vec<Picture>,
    /// What to have at hand.
    pub tools: Vec<&'static str>,
    /// What to be careful with.
    pub care: Vec<Hazard>,
    /// How often it is done for all cards of the batch.
    pub times: u32,
}

impl Step {
    fn new(key: impl Into<String>, kind: Kind, title: impl Into<String>, recipe: &Recipe) -> Self {
        Self {
            key: key.into(),
            kind,
            title: title.into(),
            does: Vec::new(),
            figures: Vec::new(),
            pictures: Vec::new(),
            tools: Vec::new(),
            care: Vec::new(),
            times: recipe.copies,
        }
    }

    fn figure(&mut self, label: impl Into<String>, value: impl Into<String>) {
        self.figures.push(Figure {
            label: label.into(),
            value: value.into(),
        });
    }

    fn picture(&mut self, caption: impl Into<String>, view: Seen) {
        self.pictures.push(Picture {
            caption: caption.into(),
            view,
        });
    }
}

/// Every step of the card in the order of the work. Work of one kind stands
/// together, so that a batch is made operation by operation.
pub fn steps(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let mut steps = vec![cutting::gather(recipe, card)];
    steps.extend(cutting::strips(recipe, card));
    steps.extend(cutting::layers(recipe, card));
    steps.extend(shaping::cutouts(recipe));
    steps.extend(folding::cuts(recipe));
    steps.extend(folding::scores(recipe, card));
    steps.extend(folding::creases(recipe));
    steps.extend(pieces::folds(recipe, card));
    steps.extend(folding::folds(recipe, card));
    steps.extend(finishing::decorate(recipe));
    steps.extend(finishing::put_on(recipe, card));
    steps.extend(pieces::glued(recipe, card));
    steps.extend(finishing::dry(recipe));
    steps.push(finishing::envelope(recipe, card));
    steps
}

fn layer_key(what: &str, id: LayerId) -> String {
    format!("{what}-layer-{}", id.0)
}

fn piece_key(what: &str, id: PieceId) -> String {
    format!("{what}-piece-{}", id.0)
}

/// The base, or a piece glued in, flat on the table, and what to call that.
fn side_up(recipe: &Recipe, of: Option<PieceId>, side: Side) -> (String, Seen) {
    let name = piece_name(recipe, of);
    let caption = sentence(format!("{name}, {} up", side_word(of, side)));
    (caption, Seen::Flat(of, side))
}
