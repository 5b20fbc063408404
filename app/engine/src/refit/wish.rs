//! What a card is refitted to.

use crate::length::{Length, Notation};
use crate::paper::{ClearanceRule, Envelope, StockId};
use crate::part::Part;
use crate::plane::Size;
use crate::recipe::{MeasureId, Relation};

/// How much of a new sheet to use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Keep {
    /// The card stays as it is where it fits.
    #[default]
    Card,
    /// As many strips as now should still come from a sheet.
    Count,
    /// Where strips now use up the sheet, across or along, they should use up
    /// the new one in as many: a quarter sheet stays a quarter sheet.
    Share,
}

/// The sheet at hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Sheet {
    /// The paper of the recipe it takes the place of.
    pub stock: StockId,
    /// How large it is, print upright.
    pub size: Size,
    /// How much of it to use.
    pub keep: Keep,
}

/// What the maker wants the card to be. What is not named may move.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Wish {
    /// The sheet that pieces are cut from.
    pub sheet: Option<Sheet>,
    /// The envelope the card goes into, and the rule for the room round it.
    pub envelope: Option<(&'static Envelope, &'static ClearanceRule)>,
    /// Width and height of the closed card with all that overhangs.
    pub finished: Option<Size>,
    /// The marks everything shall fall on; the recipe's own where nothing is
    /// said.
    pub notation: Option<Notation>,
    /// Measures that are what they are: what the maker asks for, or has cut
    /// already. They need not fall on a mark.
    pub pinned: Vec<(MeasureId, Length)>,
    /// What has been made already and cannot be changed any more, besides single
    /// measures.
    pub made: Vec<Relation>,
    /// What is cut for every card, and so need not fit its sheet any more.
    pub cut: Vec<Part>,
    /// Whether the card lies on the table: the nearest is then one near to what it
    /// is and not to what it was designed like, and what lies between marks may
    /// stay there instead of going to its nearest mark.
    pub between: bool,
}
