//! Which way printed paper must lie so that it reads upright.

use serde::{Deserialize, Serialize};

use crate::paper::StockSide;
use crate::plane::Turn;

/// How the strip lies on the sheet it is cut from: which side of the sheet
/// becomes the outside of the card, and how the strip is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Lay {
    /// The side of the stock that becomes the outside of the card.
    pub outside: StockSide,
    /// The turn of the strip, seen from its inside, against the sheet.
    pub turn: Turn,
}
