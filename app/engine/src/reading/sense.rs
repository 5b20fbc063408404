//! What a word may tell.

use crate::problem::{Extent, Hand, Where};

/// What kind of piece a word names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// The folded piece.
    Base,
    /// Card: the folded piece where nothing else is, or only the paper.
    Card,
    /// A strip.
    Strip,
    /// A mat.
    Mat,
    /// A focal piece.
    Focal,
    /// A loose sheet inside.
    Insert,
}

/// The outline a word names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// Round, its size given by one number.
    Round,
    /// Oval, its size given by two.
    Oval,
    /// As wide as it is high, its size given by one number.
    Square,
}

/// What is said of how a piece lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Lie {
    /// A quarter round from how its size is written.
    Turned,
    /// Higher than it is wide.
    Upright,
    /// Wider than it is high.
    Wide,
}

/// A way of folding that has a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// To and fro.
    Zigzag,
    /// Each panel into the one before.
    Roll,
    /// Two leaves over a middle.
    Gate,
    /// In half and in half again, both creases one way.
    DoubleParallel,
}

/// What a number measures by the word beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Axis {
    /// From side to side.
    Width,
    /// From foot to head.
    Height,
    /// Along the longer side, whichever way that lies.
    Length,
}

/// What a number beside a word is, when it is no measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aside {
    /// Money.
    Price,
    /// The number of a step, a page, a line.
    Numbering,
    /// So many of something.
    Count,
    /// The weight of paper.
    Weight,
    /// A day or a year.
    Date,
    /// A time.
    Time,
    /// Something measured otherwise: percent, degrees, dots.
    Other,
}

/// What a word tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sense {
    /// A piece.
    Piece(Kind),
    /// To score or to fold.
    Score,
    /// Folded: what follows is a score, or the size of the closed card.
    Folded,
    /// In the middle.
    Half,
    /// Every so far.
    Every,
    /// Between the two numbers of a size.
    By,
    /// Before a place.
    At,
    /// Before what something is cut from.
    From,
    /// Between two of a list.
    And,
    /// On something.
    On,
    /// The longer side.
    Long,
    /// The shorter side.
    Short,
    /// A mountain fold.
    Mountain,
    /// A valley fold.
    Valley,
    /// Panels, by their widths.
    Panel,
    /// A border.
    Border,
    /// The closed card.
    Finished,
    /// An envelope.
    Envelope,
    /// A sheet.
    Sheet,
    /// The side of the card a layer goes on.
    Spot(Where),
    /// The panel a layer goes on, by where it lies.
    Hand(Hand),
    /// The panel a layer goes on, by its size.
    Extent(Extent),
    /// An outline.
    Shape(Form),
    /// Several pieces of an outline.
    Shapes(Form),
    /// How a piece lies.
    Lie(Lie),
    /// How the base folds, by name.
    Way(Way),
    /// To cut: a bare number behind it is how many.
    Cut,
    /// To go into: an envelope follows.
    Fits,
    /// What is round about a rectangle with round corners.
    Corners,
    /// A number in words.
    Many(u32),
    /// Pieces, behind how many.
    Pieces,
    /// The card stands like a tent.
    Tent,
    /// The number beside it is no measure.
    Behind(Aside),
    /// The number after it is no measure.
    Before(Aside),
    /// Says nothing that matters here.
    Filler,
}

/// A language of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Language {
    English,
    German,
    French,
    Dutch,
    Spanish,
}
