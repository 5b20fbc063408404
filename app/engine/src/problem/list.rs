//! What contradicts itself in a list of measures.

use crate::length::Length;
use crate::paper::Envelope;
use crate::plane::Size;

/// What contradicts itself in a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trouble {
    /// A score beyond the edge of its piece.
    Beyond {
        /// Where the score is.
        at: Length,
        /// How long the piece is.
        length: Length,
    },
    /// The same score twice.
    Twice(Length),
    /// Panels that do not make up their piece.
    Sum {
        /// What they add up to.
        sum: Length,
        /// How long the piece is.
        length: Length,
    },
    /// A score without a piece.
    NoPiece,
    /// A closed card that is not as the list says.
    Finished {
        /// What the list says.
        told: Size,
        /// What it comes to.
        is: Size,
    },
    /// An envelope of no known size.
    NoEnvelope(Size),
    /// An envelope the card does not go into with room round it.
    Tight(&'static Envelope),
    /// A layer larger than every panel.
    TooLarge(Size),
    /// A layer that does not fit where the list says it goes.
    NotThere(Size, Spot),
    /// Round pieces and none that can be folded.
    NoBase,
    /// A border that no layer has.
    Border {
        /// What the list says.
        told: Length,
        /// What it comes to.
        is: Length,
    },
    /// A second piece with scores.
    SecondFolded,
    /// A base larger than a sheet of this size it is cut from.
    Sheet(Size),
    /// More pieces than can be worked with.
    TooMany,
    /// More lines than are looked at.
    TooLong,
}

/// Where a layer is said to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// On which side of the card.
    pub side: Where,
    /// On which panel there, by where it lies.
    pub hand: Option<Hand>,
    /// Or by its size.
    pub extent: Option<Extent>,
}

/// A side of the card that a layer is said to go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Where {
    /// On the front.
    Front,
    /// Inside.
    Inside,
    /// On the back.
    Back,
}

/// Which of several panels is meant, by where it lies in the open card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// The left one, or the one at the top.
    Left,
    /// The right one, or the one at the bottom.
    Right,
    /// One between others.
    Middle,
}

/// Which of several panels is meant, by its size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Extent {
    /// The widest.
    Large,
    /// The narrowest.
    Small,
}
