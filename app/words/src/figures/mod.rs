//! What stands beside the sentences of a step: numbers, pictures and tools.

pub(crate) mod de;
pub(crate) mod en;
