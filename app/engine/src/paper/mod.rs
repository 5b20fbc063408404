//! Paper and envelopes: what is bought, with the published tables behind it.
//!
//! Every table says where its numbers come from: a standard by its name, or
//! common practice with the kind of text it was read in. "From memory" marks
//! what was written down without a text to hold it against.

mod caliper;
mod clearance;
mod envelopes;
mod finishing;
mod ready;
mod sheets;
mod stock;
mod weight;

pub use caliper::{CALIPERS, CaliperHint, CaliperIs, CaliperRow, caliper_is, suggest_caliper};
pub use clearance::{
    CLEARANCE_RULES, ClearanceRule, EnvelopeFit, Lies, Misfit, THICK, envelopes_taking, why_not,
};
pub use envelopes::{ENVELOPES, Envelope, EnvelopeFamily};
pub use finishing::{
    Body, FOLD_IN_RULES, FoldAsks, FoldInRule, GATE_GAP_RULES, GUIDANCE, GateGapRule, Guidance,
    LEAST_ROOM, ROLL_RULE, RollRule, SCORE_THRESHOLDS, ScoreThreshold,
};
pub use ready::ready_stocks;
pub use sheets::{SHEETS, SheetSize};
pub use stock::{Colour, ColourError, Grain, Heads, Print, SideLook, Stock, StockId, StockSide};
pub use weight::{Grade, Mass, Weight};
