//! Small parts that several pages are made of.

mod changes;
mod choice;
mod chosen;
mod clashes;
mod date;
mod download;
mod icon;
mod mark;
mod miniature;
mod passes;
mod sheet;
mod size_fields;
mod worked;

pub use changes::{BeforeAfter, Changed, Changes};
pub use choice::Choice;
pub use chosen::{Chosen, Rename};
pub(crate) use clashes::Clashes;
pub(crate) use date::{day, moment};
pub(crate) use download::download;
pub use icon::{Icon, Symbol};
pub use mark::Mark;
pub use miniature::Miniature;
pub(crate) use passes::passes;
pub use sheet::Sheet;
pub use size_fields::{SizeFields, TypedSize};
pub(crate) use worked::{Small, worked_out};
