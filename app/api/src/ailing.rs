//! What is wrong with a server, as its pages are told.

use serde::{Deserialize, Serialize};

/// What is wrong with a server, as far as those need to know who use it; the log
/// of the server says more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ailing {
    /// Its disk is full.
    Full,
    /// It may not write to its database.
    ReadOnly,
    /// It does not reach its database.
    Away,
    /// Others keep its database busy.
    Busy,
    /// Its database is damaged.
    Damaged,
    /// A later Foldwright made its database.
    Newer,
    /// It keeps no workshops.
    NoWorkshops,
    /// It does not understand what the page sent.
    NotUnderstood,
    /// The page is of an earlier release. Pages that know none of these show the
    /// text as it comes.
    #[serde(rename = "This page is from an earlier Foldwright. Load it again to connect.")]
    EarlierPage,
    /// Something else, or what only a later server says.
    #[serde(other)]
    Other,
}
