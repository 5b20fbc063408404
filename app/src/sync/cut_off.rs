//! That this device was cut off from its workshop: kept until it is in one
//! again, so that nobody believes it still is.

use serde::{Deserialize, Serialize};

use crate::spoken::texts;
use crate::store::versioned;

/// The key under which it is kept.
pub(crate) const KEY: &str = "foldwright/cut-off";

/// From what this device was cut off, and how.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct CutOff {
    /// What people called the workshop.
    pub(crate) workshop: String,
    /// How it came about.
    pub(crate) why: Why,
}

/// How a device is cut off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Why {
    /// A device of the workshop removed it; empty where the server does not say
    /// which.
    Removed(String),
    /// The server knows neither the device nor its key.
    Unknown,
}

impl CutOff {
    pub(crate) fn parse(text: &str) -> Option<Self> {
        Self::deserialize(versioned::body(text)?).ok()
    }

    pub(crate) fn text(&self) -> String {
        versioned::text(self)
    }

    /// What happened, with how many recipes no other device has as they are
    /// here.
    pub(crate) fn words(&self, only_here: usize) -> String {
        let (texts, workshop) = (&texts().devices, &self.workshop);
        let what = match &self.why {
            Why::Removed(by) if by.is_empty() => texts.was_removed(workshop),
            Why::Removed(by) => texts.was_removed_by(by, workshop),
            Why::Unknown => texts.not_known(workshop),
        };
        let here = texts.all_still_here(only_here);
        format!("{what} {here}")
    }
}

#[cfg(test)]
mod tests {
    use super::{CutOff, Why};

    #[test]
    fn it_is_kept_and_told() {
        let removed = CutOff {
            workshop: String::from("Quay"),
            why: Why::Removed(String::from("Laptop")),
        };
        assert_eq!(CutOff::parse(&removed.text()), Some(removed.clone()));
        assert_eq!(
            removed.words(2),
            "“Laptop” removed this device from the workshop “Quay”. Everything it had is still \
             here; 2 recipes are on no other device as they are here."
        );
        assert_eq!(CutOff::parse("{}"), None);
    }
}
