//! Paper and envelopes: what is bought, with the published tables behind it.
//!
//! Every table says where its numbers come from, as a [`Source`].

mod caliper;
mod clearance;
mod envelopes;
mod finishing;
mod pack;
mod photo;
mod postal;
mod printed;
mod ready;
mod sheets;
mod source;
mod stock;
mod weight;

pub use caliper::{CALIPERS, CaliperHint, CaliperIs, CaliperRow, caliper_is, suggest_caliper};
pub use clearance::{
    CLEARANCE_RULES, Clearance, ClearanceRule, EnvelopeFit, Lies, Misfit, THICK, envelopes_taking,
    why_not,
};
pub use envelopes::{ENVELOPES, Envelope, EnvelopeFamily};
pub use finishing::{
    Body, FOLD_IN_RULES, FoldAsks, FoldIn, FoldInRule, GATE_GAP_RULES, GateGapRule, LEAST_ROOM,
    ROLL_RULE, RollRule, SCORE_THRESHOLDS, ScoreThreshold,
};
pub use pack::{Money, Pack, ToBuy, hundredths};
pub use photo::{PhotoId, PhotoIdError};
pub use postal::{CLASSES, Country, Doubt, LetterClass, Mail, Past, PostalClass, Taken};
pub use printed::PrintedPaper;
pub use ready::ReadyPaper;
pub use sheets::{SHEETS, SheetForm, SheetSize};
pub use source::Source;
pub use stock::{Colour, ColourError, Grain, Heads, Print, SideLook, Stock, StockId, StockSide};
pub use weight::{Grade, Mass, Weight};
