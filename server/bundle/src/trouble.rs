//! What can go wrong while bundling, in words for the person who builds.

use std::fmt;
use std::path::Path;

/// Why there is no bundle, and what to do about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trouble(String);

impl Trouble {
    pub(crate) fn new(words: impl Into<String>) -> Self {
        Self(words.into())
    }

    pub(crate) fn reading(path: &Path, why: &std::io::Error) -> Self {
        Self(format!("{} cannot be read: {why}", path.display()))
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Trouble {}
