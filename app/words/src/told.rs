//! A problem as it is read.

/// A problem in sentences.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// What is wrong.
    pub what: String,
    /// Why.
    pub why: String,
    /// What to do.
    pub remedy: String,
}

impl Told {
    /// Each beginning with a capital, whatever name it begins with.
    pub(crate) fn new(
        what: impl Into<String>,
        why: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self {
            what: sentence(what.into()),
            why: sentence(why.into()),
            remedy: sentence(remedy.into()),
        }
    }
}

/// The same beginning with a capital.
pub fn sentence(words: String) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => words,
    }
}
