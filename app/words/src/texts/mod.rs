//! What screens say besides the card: labels, notices and messages, an area for
//! each part of the app.
//!
//! An area is a struct with a field for each text, and each language has one
//! value of it, so that a text without its German does not compile. A label is a
//! text as it stands; a sentence with numbers or names in it is a function, in
//! which each language has its own arms for plural and gender.

/// Makes an area: its labels, its sentences with holes that are filled whatever
/// stands in them, and those that say it otherwise for other numbers or names.
macro_rules! area {
    (
        $(#[$about:meta])*
        $area:ident {
            $($label:ident),* $(,)?
        }
        $(fills {
            $($fills:ident($($filled:ident: $filling:ty),+ $(,)?)),* $(,)?
        })?
        $(says {
            $($says:ident($($hole:ident: $kind:ty),+ $(,)?)),* $(,)?
        })?
    ) => {
        $(#[$about])*
        #[allow(
            missing_docs,
            clippy::struct_field_names,
            reason = "each is named for what it says, and its texts tell the rest"
        )]
        #[derive(Debug, Clone, Copy)]
        pub struct $area {
            $(pub $label: &'static str,)*
            $($(pub(super) $fills: &'static str,)*)?
            $($(pub(super) $says: fn($($kind),+) -> String,)*)?
        }

        #[allow(
            missing_docs,
            reason = "each is named for what it says, and its texts tell the rest"
        )]
        impl $area {
            $($(pub fn $fills(&self, $($filled: $filling),+) -> String {
                let fillings = [$((stringify!($filled), $crate::said::Filling::words($filled))),+];
                $crate::said::filled_by_name(self.$fills, &fillings)
            })*)?

            $($(pub fn $says(&self, $($hole: $kind),+) -> String {
                (self.$says)($($hole),+)
            })*)?
        }

        #[allow(dead_code, reason = "what is said at once is not kept otherwise")]
        impl $area {
            /// How many texts are no functions.
            pub(in $crate::texts) const TEXTS: usize = [
                $(stringify!($label),)*
                $($(stringify!($fills),)*)?
            ].len();

            /// The texts that are no functions.
            pub(in $crate::texts) const fn texts(&self) -> [&'static str; Self::TEXTS] {
                [
                    $(self.$label,)*
                    $($($crate::texts::kept::with_holes(
                        self.$fills,
                        &[$(stringify!($filled)),+],
                    ),)*)?
                ]
            }

            /// The same without these.
            pub(in $crate::texts) const fn without(&self) -> Self {
                Self {
                    $($label: "",)*
                    $($($fills: "",)*)?
                    $($($says: self.$says,)*)?
                }
            }

            /// Gives each of these the text that follows.
            pub(in $crate::texts) fn tell_apart(
                &mut self,
                texts: &mut $crate::texts::kept::Following,
            ) {
                let mut fields = [$(&mut self.$label,)* $($(&mut self.$fills,)*)?];
                $crate::texts::kept::tell_apart(&mut fields, texts);
            }
        }

        #[cfg(test)]
        impl crate::texts::tests::Every for $area {
            fn labels(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($label), self.$label)),*]
            }

            fn sentences(&self) -> Vec<(&'static str, Vec<String>)> {
                vec![
                    $($((
                        stringify!($fills),
                        crate::texts::tests::samples!(self.$fills($($filled: $filling),+)),
                    ),)*)?
                    $($((
                        stringify!($says),
                        crate::texts::tests::samples!(self.$says($($hole: $kind),+)),
                    ),)*)?
                ]
            }
        }
    };
}

use std::sync::OnceLock;

mod album;
mod begin;
mod bench;
mod beside;
mod choosing;
pub(crate) mod class;
mod desk;
mod devices;
mod exchange;
pub(crate) mod first;
mod hearing;
mod import;
mod keep;
mod kept;
mod kits;
mod list;
mod merging;
mod motifs;
mod no_app;
mod ordering;
mod outlines;
mod pace;
mod paper;
mod parts;
mod patterns;
mod photos;
mod pictures;
mod printed;
mod rescue;
mod resize;
mod samples;
mod settings;
mod shape;
mod share;
mod shared;
mod sights;
mod taken;
mod trust;
mod unfolding;

#[cfg(test)]
mod tests;

pub use album::AlbumTexts;
pub use beside::BesideTexts;
pub use choosing::ChoosingTexts;
pub use class::ClassTexts;
pub use exchange::Exchange;
pub use first::{First, LeftOut};
pub use hearing::HearingTexts;
use kept::Following;
pub(crate) use kept::Kept;
pub use kits::KitTexts;
pub use motifs::MotifTexts;
pub use no_app::NoApp;
pub use ordering::OrderTexts;
pub use outlines::OutlineTexts;
pub use pace::PaceTexts;
pub use patterns::PatternTexts;
pub use photos::PhotoTexts;
pub use pictures::PictureTexts;
pub use printed::Printed;
pub use samples::SampleTexts;
pub use sights::SightTexts;
pub use taken::Taken;
pub use trust::Trust;
pub use unfolding::UnfoldingTexts;

/// Makes the texts of all areas, and those of each language.
macro_rules! areas {
    ($($(#[$about:meta])* $area:ident: $kind:ident,)+) => {
        /// Every area, in one language.
        #[derive(Debug, Clone, Copy)]
        pub struct Texts {
            $($(#[$about])* pub $area: $area::$kind,)+
        }

        impl Texts {
            /// Gives each text that is no function the one that follows.
            fn tell_apart(&mut self, texts: &mut Following) {
                $(self.$area.tell_apart(texts);)+
            }
        }

        areas!(in en as ENGLISH: $($area),+);
        areas!(in de as GERMAN: $($area),+);
    };
    (in $language:ident as $name:ident: $($area:ident),+) => {
        /// Everything in one language.
        pub(crate) static $name: Kept = {
            const AREAS: &[&[&str]] = &[$(&$area::$language::TEXTS.texts()),+];
            static ALL: [u8; kept::length(AREAS)] = kept::behind_each_other(AREAS);
            let functions = Texts {
                $($area: $area::$language::TEXTS.without(),)+
            };
            Kept {
                one_behind_the_other: kept::read(&ALL),
                with_arms: functions,
                told_apart: OnceLock::new(),
            }
        };
    };
}

areas! {
    /// The list of recipes.
    list: List,
    /// The settings.
    settings: Settings,
    /// The bench, step by step.
    bench: Bench,
    /// What can be saved when something came out different.
    rescue: Rescue,
    /// What several screens are made of.
    parts: Parts,
    /// The figure of a card, its numbers and its rules.
    desk: Desk,
    /// The shape of a card: panels, lines, windows, layers and pieces.
    shape: Shape,
    /// Paper, print direction, scores and envelopes.
    paper: Paper,
    /// Making a card another size, and what is wrong with it.
    resize: Resize,
    /// Devices that share recipes.
    devices: Devices,
    /// Taking in recipes from a file.
    import: Import,
    /// Sharing a recipe by link.
    share: Share,
    /// A shared recipe, as it is read.
    shared: Shared,
    /// Beginning a recipe: with a fold, a list of measurements, or a scrap.
    begin: Begin,
    /// What is kept of recipes: earlier versions, paper, and what can’t be opened.
    keep: Keep,
    /// What came together of changes made in several places.
    merging: Merging,
}

/// A whole number with its digits in groups of three.
fn grouped(number: usize, mark: char) -> String {
    let digits = number.to_string();
    let mut grouped = String::with_capacity(digits.len() + digits.len() / 3);
    for (place, digit) in digits.char_indices() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            grouped.push(mark);
        }
        grouped.push(digit);
    }
    grouped
}
