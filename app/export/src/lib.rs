//! Cards as files for other programs, and crease patterns from these.
//!
//! From a recipe and the card worked out from it files are made that programs of
//! others read: all parts true to scale as SVG, the crease patterns of what is folded
//! in the FOLD format, and what to cut and what it takes as CSV. What is named in them
//! is in the language of who asks. [`read`] makes a recipe of a crease pattern.

mod fold;
mod mesh;
pub mod read;
mod svg;
mod table;

pub use fold::fold;
pub use svg::svg;
pub use table::csv;

/// How files of recipes are built, as a JSON Schema of the draft 2020-12, for programs
/// that write or read them.
pub const RECIPE_SCHEMA: &str = include_str!("recipe.schema.json");
