//! What Foldwright says about a card, in each language.
//!
//! The engine states what is so, as values; here these become sentences. Each
//! area of findings has a folder with a file for each language, and in it one
//! exhaustive match, so that a finding without its sentence does not compile.
//! Sentences are whole, with holes for names, lengths and numbers; plural and
//! gender are arms of their own. What the maker named is looked up in the
//! recipe and never translated.
//!
//! A language is whatever implements [`Tongue`]. Nothing reaches the sentences
//! of a language but through its own, so that each can be loaded by itself; only
//! what has to be said before that, [`First`], comes with the app.

mod card;
mod care;
mod class;
mod cutting;
mod english;
mod figures;
mod file;
mod fit;
mod folding;
mod german;
mod glossary;
mod glue;
mod laid;
mod language;
mod list;
mod look;
mod names;
mod naming;
mod nouns;
mod numerals;
mod paper;
mod part;
mod pattern;
mod reach;
mod recipe;
mod refit;
mod refused;
mod rescue;
mod runs;
mod said;
mod speaker;
mod steps;
mod suggested;
mod texts;
mod told;
mod typed;
mod whole;

pub use card::OfCard;
pub use care::Caution;
pub use class::{ClassTongue, OfClass};
pub use english::English;
pub use file::{fault, file_error};
pub use german::German;
pub use glossary::{Explained, Group, Term};
pub use language::Language;
pub use look::OfLook;
pub use names::Names;
pub use naming::{Starters, starter};
pub use numerals::{Amount, Nearly, Part};
pub use paper::OfPaper;
pub use part::OfPart;
pub use runs::{Run, aloud, runs, voiced};
pub use speaker::{Speaker, Tongue};
pub use steps::{OfStep, ToldFigure, ToldStep};
pub use texts::{
    AlbumTexts, BesideTexts, ChoosingTexts, ClassTexts, Exchange, First, HearingTexts, KitTexts,
    LeftOut, MotifTexts, NoApp, OrderTexts, OutlineTexts, PaceTexts, PatternTexts, PhotoTexts,
    PictureTexts, Printed, SampleTexts, SightTexts, Taken, Texts, Trust, UnfoldingTexts,
};
pub use told::{Told, sentence};
pub use whole::ToldPass;
