//! Sheets to print.
//!
//! From a recipe, the card worked out from it and a language a PDF is made that
//! says and shows all that it takes to make the card: with the words of
//! `foldwright-words` and the drawings of the engine, laid out on pages here; another
//! with its parts true to scale; one with all of it in short, four to a page; and one
//! with all that a class needs as kits.

mod card;
mod code;
mod compose;
mod figure;
mod flow;
mod kits;
mod labels;
mod leaf;
mod paper;
mod photo;
mod sheet;
mod tags;
mod template;
mod text;
mod tiles;
mod trouble;
mod typeface;
mod write;

pub use card::cards;
pub use kits::{Kits, kits};
pub use paper::Paper;
pub use photo::Photos;
pub use sheet::{Sheet, sheet};
pub use template::template;
pub use trouble::NotMade;
