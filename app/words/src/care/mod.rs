//! What can hurt at the table, and how to take care.

pub(crate) mod de;
pub(crate) mod en;

/// A caution. Each defers to the maker of the tool or part and to local rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// A heading.
    pub title: &'static str,
    /// What to do, in a few sentences.
    pub words: &'static str,
    /// Who has the last word.
    pub defers: &'static str,
}
