//! The faces of a card: what of them shows in each state, and how the one who
//! sees a face reads it.

mod overhang;
mod reading;
mod shown;

pub(crate) use overhang::beyond_panel;
pub use overhang::overhanging;
pub use reading::{Reading, near_and_far, reading_of, readings};
pub use shown::{Lying, Part, Shown, View, pile, shown};
pub(crate) use shown::{areas_shown, faces_shown, layer_cover};
