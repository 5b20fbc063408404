//! Sheets to print.
//!
//! From a recipe, the card worked out from it and a language a PDF is made that
//! says and shows all that it takes to make the card: with the words of
//! `foldwright-words` and the drawings of the engine, laid out on pages here.

mod compose;
mod figure;
mod flow;
mod paper;
mod sheet;
mod tags;
mod text;
mod trouble;
mod typeface;
mod write;

pub use paper::Paper;
pub use sheet::{Sheet, sheet};
pub use trouble::NotMade;
