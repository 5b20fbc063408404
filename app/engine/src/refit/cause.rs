//! What a card has to satisfy, by where it comes from.

use crate::length::{Length, Step};
use crate::paper::{SHEETS, SheetSize, StockId};
use crate::plane::Size;
use crate::recipe::{CutoutId, LayerId, MeasureId, StripId};

/// Where something that holds comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cause {
    /// The envelope asked for.
    Envelope,
    /// The finished size asked for.
    Finished,
    /// The sheet asked for.
    Sheet,
    /// A measure asked for.
    Asked(MeasureId),
    /// What has been made already, by its index in the wish.
    Made(usize),
    /// How much of the sheet was to be kept.
    Kept,
    /// A measure the maker pinned.
    Pinned(MeasureId),
    /// The least a measure may be.
    Least(MeasureId),
    /// The most a measure may be.
    Most(MeasureId),
    /// A relation of the recipe, by its index among them.
    Relation(usize),
    /// A layer keeps its place.
    Layer(LayerId),
    /// A window keeps its place.
    Window(CutoutId),
    /// The panels make up the base, or the strip of a piece.
    Strip(StripId),
    /// What is cut from a paper fits it.
    Paper(StockId),
    /// There is paper at all; a distance stays on its side.
    Something(MeasureId),
}

/// What would undo a cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Free {
    /// Take back a part of the wish.
    Wish(Cause),
    /// Let a pinned measure move.
    Unpin(MeasureId),
    /// Let a measure be less than its limit.
    Least(MeasureId),
    /// Let a measure be more than its limit.
    Most(MeasureId),
    /// Let a relation of the recipe only be something that should hold.
    Relation(usize),
    /// Place a layer by its distances.
    Place(LayerId),
    /// Place a window by its distances.
    PlaceWindow(CutoutId),
    /// Take a paper of this size, print upright.
    Stock(StockId, Size),
    /// Ask for this finished size instead.
    Size(Size),
    /// Take other marks.
    Marks(Step),
}

impl Cause {
    /// What would undo it; nothing does where paper would have to be nothing, and
    /// what is too small a paper is not said by itself.
    pub fn free(self) -> Option<Free> {
        Some(match self {
            Self::Envelope
            | Self::Finished
            | Self::Sheet
            | Self::Asked(_)
            | Self::Made(_)
            | Self::Kept => Free::Wish(self),
            Self::Pinned(measure) => Free::Unpin(measure),
            Self::Least(measure) => Free::Least(measure),
            Self::Most(measure) => Free::Most(measure),
            Self::Relation(index) => Free::Relation(index),
            Self::Layer(layer) => Free::Place(layer),
            Self::Window(window) => Free::PlaceWindow(window),
            Self::Paper(_) | Self::Strip(_) | Self::Something(_) => return None,
        })
    }

    /// Whether it is asked for, and not in the recipe.
    pub(super) const fn is_wish(self) -> bool {
        matches!(
            self,
            Self::Envelope
                | Self::Finished
                | Self::Sheet
                | Self::Asked(_)
                | Self::Made(_)
                | Self::Kept
        )
    }

    /// Whether it holds of anything made of paper, so that nobody could do without
    /// it: a clash is one beside it, and does not name it.
    pub(super) const fn is_given(self) -> bool {
        matches!(self, Self::Strip(_) | Self::Something(_))
    }
}

/// The smallest sheet in the table that holds one of that size.
pub(super) fn large_enough(size: Size) -> Option<&'static SheetSize> {
    let holds = |sheet: &&SheetSize| {
        let within = |size: Size| size.width <= sheet.width && size.height <= sheet.height;
        within(size) || within(size.turned())
    };
    let area =
        |sheet: &&SheetSize| i128::from(sheet.width.units()) * i128::from(sheet.height.units());
    SHEETS.iter().filter(holds).min_by_key(area)
}

/// The sheet in the table that is so large, either way round.
pub fn standard_sheet(size: Size) -> Option<&'static SheetSize> {
    let is = |width: Length, height: Length| size == Size { width, height };
    SHEETS
        .iter()
        .find(|sheet| is(sheet.width, sheet.height) || is(sheet.height, sheet.width))
}
