//! Small parts that several pages are made of.

mod changes;
mod choice;
mod chosen;
mod clashes;
mod date;
mod download;
mod followed;
mod how_many;
mod icon;
mod in_space;
mod less_or_more;
mod mark;
mod miniature;
mod not_here;
mod passes;
mod pictured;
mod room;
mod sheet;
mod size_fields;
mod told;
mod typed;
mod worked;

pub use changes::{BeforeAfter, Changed, Changes};
pub use choice::Choice;
pub use chosen::{Chosen, Rename};
pub(crate) use clashes::Clashes;
pub(crate) use date::{day, moment};
pub(crate) use download::{download, download_parts};
pub(crate) use followed::Followed;
pub(crate) use how_many::{HowMany, one_on};
pub use icon::{Icon, Symbol};
pub(crate) use in_space::InSpace;
pub use less_or_more::LessOrMore;
pub use mark::Mark;
pub use miniature::Miniature;
pub(crate) use not_here::NotHere;
pub(crate) use passes::passes;
pub(crate) use pictured::Pictured;
pub(crate) use room::{is_nearly_full, room_in_words};
pub use sheet::Sheet;
pub use size_fields::{SizeFields, TypedSize};
#[cfg(feature = "ssr")]
pub(crate) use told::from_first;
pub(crate) use told::{Ticks, heard, told};
pub(crate) use typed::Typed;
pub(crate) use worked::{Small, worked_out};
