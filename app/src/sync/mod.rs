//! Keeping recipes and progress alike on all devices of a workshop.

mod ledger;
pub(crate) mod merged;
pub(crate) mod name;
