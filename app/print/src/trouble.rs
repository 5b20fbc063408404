//! What can go wrong.

/// Why there is no sheet: the writer of PDF found something against its rules,
/// which is a mistake of ours.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotMade(pub(crate) String);

impl std::fmt::Display for NotMade {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "The sheet cannot be written: {}", self.0)
    }
}

impl std::error::Error for NotMade {}
