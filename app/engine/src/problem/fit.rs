//! What does not fit its paper, its marks or its envelope.

use crate::length::Length;
use crate::paper::{Misfit, StockId};
use crate::part::Part;
use crate::plane::{Bearing, Size};
use crate::recipe::{Face, StripId};

/// What does not fit: pieces their paper, prints their faces, scores the marks,
/// the card its envelope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FitFinding {
    /// The paper of something is no longer part of the recipe.
    NoPaper(Part),
    /// Something is larger than its paper as it must lie.
    TooLarge {
        /// What.
        of: Part,
        /// Its size.
        size: Size,
        /// The paper.
        stock: StockId,
        /// Whether it would fit lying otherwise than its print asks.
        turned_fits: bool,
    },
    /// The place where something was to be cut is not on the sheet, and the nearest that
    /// is was taken.
    Moved(Part),
    /// The folds of the base, or of a piece, run across the grain.
    AcrossGrain(StripId),
    /// The print on a face runs at a slant or on its side.
    Slanted {
        /// The face.
        face: Face,
        /// How the print is turned from upright.
        turned: Bearing,
        /// Whether no other way to lay the paper brings it nearer.
        is_nearest: bool,
    },
    /// The print cannot be upright on both faces.
    NotBothUpright([Face; 2]),
    /// The card is so thick that an envelope it fits may be tight.
    Thick(Length),
    /// The rule for envelopes is unknown.
    UnknownRule,
    /// The chosen envelope is unknown.
    UnknownEnvelope,
    /// The card does not go into the chosen envelope.
    Tight(Misfit),
    /// No standard envelope takes a card of this size.
    NoEnvelope(Size),
    /// A score of the base lies between two marks of the maker's ruler.
    BetweenMarks {
        /// Which score, by its index along the strip.
        score: usize,
        /// Where it lies from the fence.
        at: Length,
    },
}
