//! What is wrong with a card and where. Why, and what to do about it, follows
//! from what it is; the sentences that say so stand above the engine.

mod fit;
mod flat;
mod folded;
mod list;
mod reach;

pub use fit::FitFinding;
pub use flat::{CutoutFinding, LaidFinding, OutlineFinding, PatternFinding};
pub use folded::{
    Contents, Cramped, FoldingFinding, GlueFinding, JoinFinding, OpeningFinding, Unclosed,
};
pub use list::{Extent, Hand, Spot, Trouble, Where};
pub use reach::{Past, Reach, ReachFinding, Reacher};

use crate::pattern::LineId;
use crate::recipe::{
    CutoutId, DrawnLineId, Face, LayerId, MeasureId, PanelId, Parts, PieceId, Relation, StripId,
};

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
    Line(DrawnLineId),
    /// A window, rounded corners or a shaped edge.
    Cutout(CutoutId),
    /// A part that falls off the base or a piece glued in.
    Fallen {
        /// What it falls off.
        of: StripId,
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

/// What was found, with lengths as they are and parts by their lasting names.
/// Each area states its own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Finding {
    /// A relation does not hold between the measures as they are.
    Broken(Relation),
    /// A recipe kept from before has more of something than one can have now.
    TooMany {
        /// Of what.
        parts: Parts,
        /// How many there are.
        number: usize,
    },
    /// How the flat pieces lie.
    Laid(LaidFinding),
    /// The outline of a layer or a window.
    Outline(OutlineFinding),
    /// A window, rounded corners or a shaped edge.
    Cutout {
        /// Which.
        cutout: CutoutId,
        /// What of it.
        is: CutoutFinding,
    },
    /// The creases and cuts of a strip.
    Pattern {
        /// Which strip.
        of: StripId,
        /// What of them.
        is: PatternFinding,
    },
    /// How the card folds shut.
    Folding(FoldingFinding),
    /// How the card opens.
    Opening(OpeningFinding),
    /// Paper, print, marks and envelope.
    Fit(FitFinding),
    /// Where a panel of a piece is glued.
    Join {
        /// The piece.
        piece: PieceId,
        /// Its panel.
        part: PanelId,
        /// What that is glued to.
        on: Face,
        /// What of it.
        is: JoinFinding,
    },
    /// What reaches past what should hold it.
    Reach(Box<ReachFinding>),
    /// The glue of a layer.
    Glue {
        /// The layer.
        layer: LayerId,
        /// What of it.
        is: GlueFinding,
    },
    /// What has too little room in a fold.
    Room(Cramped),
    /// What contradicts itself in a list of measures.
    List(Trouble),
}

/// A problem of a card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Where it lies.
    pub place: Place,
    /// How much it matters.
    pub weight: Weight,
    /// What it is.
    pub finding: Finding,
}

impl Problem {
    /// What reaches too far, where that is the problem.
    pub fn reach(&self) -> Option<&Reach> {
        match &self.finding {
            Finding::Reach(found) => Some(&found.reach),
            _ => None,
        }
    }

    pub(crate) const fn note(place: Place, finding: Finding) -> Self {
        Self::of(place, Weight::Note, finding)
    }

    pub(crate) const fn warning(place: Place, finding: Finding) -> Self {
        Self::of(place, Weight::Warning, finding)
    }

    pub(crate) const fn stop(place: Place, finding: Finding) -> Self {
        Self::of(place, Weight::Stop, finding)
    }

    const fn of(place: Place, weight: Weight, finding: Finding) -> Self {
        Self {
            place,
            weight,
            finding,
        }
    }
}
