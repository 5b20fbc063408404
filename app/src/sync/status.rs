//! How far what is kept here has come.

use std::fmt;

/// How far what is kept here has come.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) enum Status {
    /// This device is in no workshop.
    #[default]
    Alone,
    /// The server is not reached.
    Waiting,
    /// Changes are on their way.
    Sending,
    /// The server has everything, for all devices.
    Everywhere,
    /// The workshop has ended this device's access.
    Ended,
    /// The server is in trouble, in its own words.
    Trouble(String),
}

impl Status {
    /// One word for it, for style and tests.
    pub(crate) fn word(&self) -> &'static str {
        match self {
            Self::Alone => "alone",
            Self::Waiting => "waiting",
            Self::Sending => "sending",
            Self::Everywhere => "everywhere",
            Self::Ended => "ended",
            Self::Trouble(_) => "trouble",
        }
    }
}

impl fmt::Display for Status {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Alone => "Saved here",
            Self::Waiting => "Saved here · waiting for network",
            Self::Sending => "Saved here · on its way",
            Self::Everywhere => "On all devices",
            Self::Ended => "Saved here only",
            Self::Trouble(_) => "Saved here · server in trouble",
        })
    }
}
