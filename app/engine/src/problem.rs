//! What is wrong with a card, where, why, and what to do about it.

use crate::pattern::LineId;
use crate::recipe::{CutoutId, Face, LayerId, MeasureId, PanelId, PieceId};

/// Where a problem lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Place {
    /// The recipe as a whole.
    Recipe,
    /// A measure.
    Measure(MeasureId),
    /// A panel.
    Panel(PanelId),
    /// A face of a panel.
    Face(Face),
    /// A score across a strip, by its name in the pattern.
    Score(LineId),
    /// A crease or a cut besides the scores.
    Line(LineId),
    /// A window, rounded corners or a shaped edge.
    Cutout(CutoutId),
    /// A part that falls off the base or a piece glued in.
    Fallen {
        /// What it falls off; `None` for the base.
        of: Option<PieceId>,
        /// Which of the parts that fall off.
        part: usize,
    },
    /// A layer.
    Layer(LayerId),
    /// A piece glued in.
    Piece(PieceId),
    /// The paper.
    Paper,
    /// The envelope.
    Envelope,
}

impl Place {
    /// Where a line of a pattern lies: one of the scores, or another line.
    pub fn of_line(line: LineId) -> Self {
        line.line().map_or(Self::Score(line), Self::Line)
    }
}

/// How much a problem matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// The card can be made; the maker should know.
    Note,
    /// The card can be made, but will disappoint.
    Warning,
    /// The card cannot be made so.
    Stop,
}

/// A problem in the maker's words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Where it lies.
    pub place: Place,
    /// How much it matters.
    pub weight: Weight,
    /// What is wrong, in a sentence.
    pub what: String,
    /// Why, in a sentence.
    pub why: String,
    /// What to do, in a sentence.
    pub remedy: String,
}

/// The same beginning with a capital.
pub fn sentence(words: String) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => words,
    }
}

impl Problem {
    /// The same with every sentence beginning with a capital, whatever name it
    /// begins with.
    #[must_use]
    pub(crate) fn capitalised(self) -> Self {
        Self {
            what: sentence(self.what),
            why: sentence(self.why),
            remedy: sentence(self.remedy),
            ..self
        }
    }
}
