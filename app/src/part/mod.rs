//! Small parts that several pages are made of.

mod choice;
mod download;
mod icon;
mod miniature;
mod sheet;

pub use choice::Choice;
pub(crate) use download::download;
pub use icon::{Icon, Symbol};
pub use miniature::Miniature;
pub use sheet::Sheet;
