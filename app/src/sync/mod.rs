//! Keeping recipes and progress alike on all devices of a workshop.

pub(crate) mod merged;
