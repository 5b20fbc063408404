//! Numbers as they are read aloud, and lengths that are rounded.

pub(crate) mod de;
pub(crate) mod en;
mod figure;
#[cfg(test)]
mod tests;

pub(crate) use figure::figures;
pub use figure::{Amount, Nearly, Part};

use crate::Language;

/// A length that is rounded to a mark, in a sentence: "about 3⅛ in".
pub(crate) fn about(language: Language, mark: &str) -> String {
    match language {
        Language::English => en::about(mark),
        Language::German => de::about(mark),
    }
}

/// A length that is a little more, or less, than its mark, in a sentence: "a little
/// over 3⅛ in".
pub(crate) fn a_little_off(language: Language, mark: &str, is_over: bool) -> String {
    match language {
        Language::English => en::a_little_off(mark, is_over),
        Language::German => de::a_little_off(mark, is_over),
    }
}

/// What is said between the two lengths of a size.
pub(crate) const fn by(language: Language) -> &'static str {
    match language {
        Language::English => "by",
        Language::German => "mal",
    }
}

/// A length nearer to nothing than to the first mark, in a sentence: "less than
/// ¹⁄₁₆ in".
pub(crate) fn less_than(language: Language, mark: &str) -> String {
    match language {
        Language::English => en::less_than(mark),
        Language::German => de::less_than(mark),
    }
}
