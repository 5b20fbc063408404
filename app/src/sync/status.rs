//! How far what is kept here has come.

use std::collections::BTreeSet;

use foldwright_api::Ailing;

use crate::spoken::first;

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
    /// The server has everything but these documents, of which there is more
    /// than can be sent.
    TooLarge(BTreeSet<String>),
    /// The workshop has ended this device's access.
    Ended,
    /// Something is wrong between this device and the server.
    Trouble(Trouble),
}

/// What is wrong between this device and the server.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Trouble {
    /// The server can't take what is here, and says why.
    Told(Ailing),
    /// What the server sent is no message.
    Misunderstood,
    /// The workshop has no room for photographs of paper that are here.
    PhotosFull,
}

impl Status {
    /// One word for it, for style and tests.
    pub(crate) fn word(&self) -> &'static str {
        match self {
            Self::Alone => "alone",
            Self::Waiting => "waiting",
            Self::Sending => "sending",
            Self::Everywhere => "everywhere",
            Self::TooLarge(_) => "too-large",
            Self::Ended => "ended",
            Self::Trouble(_) => "trouble",
        }
    }

    /// It in a few words.
    pub(crate) fn told(&self) -> &'static str {
        let first = first();
        match self {
            Self::Alone => first.saved_here,
            Self::Waiting => first.saved_waiting,
            Self::Sending => first.saved_sending,
            Self::Everywhere => first.on_all_devices,
            Self::TooLarge(_) => first.saved_too_large,
            Self::Ended => first.saved_here_only,
            Self::Trouble(_) => first.saved_server_problem,
        }
    }
}
