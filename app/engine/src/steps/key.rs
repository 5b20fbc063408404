//! The lasting names of steps, by which notes and progress are kept.

use std::fmt;

use crate::part::Part;
use crate::pattern::LineId;
use crate::recipe::{CutoutId, DrawnLineId, LayerId, OwnStepId, PanelId, PieceId, StripId};

/// The lasting name of a step. It is kept as text, in the form that
/// [`fmt::Display`] writes, [`StepKey::of_text`] reads and that can never change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StepKey {
    /// Taking out paper and tools.
    Gather,
    /// Cutting at a setting of the fence.
    CutAt {
        /// The plan, by its number.
        plan: u32,
        /// Which setting of it, counted from 0.
        setting: usize,
    },
    /// Cutting a part from its sheet, or making sure of it once it is cut.
    Cut(Part),
    /// Trimming a part that is cut already.
    Trim(Part),
    /// Cutting something out of a strip.
    CutOut(CutoutId),
    /// Cutting along a line, by its name in the recipe.
    CutLine(DrawnLineId),
    /// A pass of scoring a strip, counted from 0.
    Score(StripId, usize),
    /// Scoring a crease besides the scores, by its name in the recipe.
    ScoreLine(DrawnLineId),
    /// Folding a piece before it is glued in.
    FoldPiece(PieceId),
    /// Folding the base, for the first time along this or for a later one,
    /// counted from 1.
    Fold(Along, usize),
    /// Decorating a layer.
    Decorate(LayerId),
    /// Putting a layer in its place.
    PutOn(LayerId),
    /// Gluing a panel of a piece.
    GlueIn(PieceId, PanelId),
    /// Waiting for glue.
    Dry,
    /// Choosing an envelope.
    Envelope,
    /// A step of the maker's own.
    Own(OwnStepId),
}

/// What the base is folded along.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Along {
    /// A score, by its index along the base.
    Score(usize),
    /// A crease besides the scores, by its name in the pattern.
    Line(LineId),
    /// All creases at once.
    Together,
}

impl fmt::Display for StepKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gather => f.write_str("gather"),
            Self::CutAt { plan, setting } => write!(f, "cut-at-{plan}-{setting}"),
            Self::Cut(part) => write_part(f, "cut", *part),
            Self::Trim(part) => write_part(f, "trim", *part),
            Self::CutOut(id) => write!(f, "cut-out-{}", id.0),
            Self::CutLine(id) => write!(f, "cut-line-{}", id.0),
            Self::Score(StripId::Base, pass) => write!(f, "score-{pass}"),
            Self::Score(StripId::Piece(id), pass) => write!(f, "score-piece-{}-{pass}", id.0),
            Self::ScoreLine(id) => write!(f, "score-line-{}", id.0),
            Self::FoldPiece(id) => write!(f, "fold-piece-{}", id.0),
            Self::Fold(along, time) => {
                match along {
                    Along::Score(score) => write!(f, "fold-{score}")?,
                    Along::Line(id) => write!(f, "fold-line-{}", id.0)?,
                    Along::Together => f.write_str("fold-together")?,
                }
                match time {
                    0 | 1 => Ok(()),
                    time => write!(f, "-{time}"),
                }
            }
            Self::Decorate(id) => write!(f, "decorate-layer-{}", id.0),
            Self::PutOn(id) => write!(f, "put-on-layer-{}", id.0),
            Self::GlueIn(id, panel) => write!(f, "glue-piece-{}-{}", id.0, panel.0),
            Self::Dry => f.write_str("dry"),
            Self::Envelope => f.write_str("envelope"),
            Self::Own(id) => write!(f, "own-{}", id.0),
        }
    }
}

fn write_part(f: &mut fmt::Formatter<'_>, what: &str, part: Part) -> fmt::Result {
    match part {
        Part::Strip(StripId::Base) => write!(f, "{what}-strip"),
        Part::Strip(StripId::Piece(id)) => write!(f, "{what}-piece-{}", id.0),
        Part::Layer(id) => write!(f, "{what}-layer-{}", id.0),
    }
}

impl StepKey {
    /// The name that is kept as this text; `None` where no name is.
    pub fn of_text(text: &str) -> Option<Self> {
        let words: Vec<_> = text.split('-').collect();
        let key = Self::of_words(&words)?;
        // A number can be written in other ways, which are no names.
        (key.to_string() == text).then_some(key)
    }

    fn of_words(words: &[&str]) -> Option<Self> {
        Some(match *words {
            ["gather"] => Self::Gather,
            ["cut", "out", id] => Self::CutOut(CutoutId(id.parse().ok()?)),
            ["cut", "line", id] => Self::CutLine(DrawnLineId(id.parse().ok()?)),
            ["cut", "at", plan, setting] => Self::CutAt {
                plan: plan.parse().ok()?,
                setting: setting.parse().ok()?,
            },
            ["cut", ref part @ ..] => Self::Cut(part_of(part)?),
            ["trim", ref part @ ..] => Self::Trim(part_of(part)?),
            ["score", "piece", id, pass] => Self::Score(
                StripId::Piece(PieceId(id.parse().ok()?)),
                pass.parse().ok()?,
            ),
            ["score", "line", id] => Self::ScoreLine(DrawnLineId(id.parse().ok()?)),
            ["score", pass] => Self::Score(StripId::Base, pass.parse().ok()?),
            ["fold", "piece", id] => Self::FoldPiece(PieceId(id.parse().ok()?)),
            ["fold", "line", id, ref time @ ..] => {
                Self::Fold(Along::Line(LineId(id.parse().ok()?)), time_of(time)?)
            }
            ["fold", "together", ref time @ ..] => Self::Fold(Along::Together, time_of(time)?),
            ["fold", score, ref time @ ..] => {
                Self::Fold(Along::Score(score.parse().ok()?), time_of(time)?)
            }
            ["decorate", "layer", id] => Self::Decorate(LayerId(id.parse().ok()?)),
            ["put", "on", "layer", id] => Self::PutOn(LayerId(id.parse().ok()?)),
            ["glue", "piece", id, panel] => {
                Self::GlueIn(PieceId(id.parse().ok()?), PanelId(panel.parse().ok()?))
            }
            ["dry"] => Self::Dry,
            ["envelope"] => Self::Envelope,
            ["own", id] => Self::Own(OwnStepId(id.parse().ok()?)),
            _ => return None,
        })
    }
}

fn part_of(words: &[&str]) -> Option<Part> {
    Some(match *words {
        ["strip"] => Part::Strip(StripId::Base),
        ["piece", id] => Part::Strip(StripId::Piece(PieceId(id.parse().ok()?))),
        ["layer", id] => Part::Layer(LayerId(id.parse().ok()?)),
        _ => return None,
    })
}

/// The first time is not written.
fn time_of(words: &[&str]) -> Option<usize> {
    match *words {
        [] => Some(1),
        [time] => time.parse().ok(),
        _ => None,
    }
}
