//! What the numbers of a list suggest, and why.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::reading::{Evidence, Suggestion};

use crate::Speaker;

impl Speaker<'_> {
    /// A relation that the numbers of the list suggest, as a label.
    pub fn suggestion(&self, is: &Suggestion) -> String {
        self.tongue().suggestion(self.names(), is)
    }

    /// The numbers that suggest it, as a label.
    pub fn evidence(&self, evidence: &Evidence) -> String {
        self.tongue().evidence(self.names(), evidence)
    }
}
