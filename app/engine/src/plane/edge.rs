//! The four edges, as a reader names them.

use serde::{Deserialize, Serialize};

/// An edge of what lies upright before its reader.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the names are the four edges")]
pub enum Edge {
    Left,
    Right,
    Top,
    Bottom,
}
