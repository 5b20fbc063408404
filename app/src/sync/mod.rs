//! Keeping recipes and progress alike on all devices of a workshop.
//!
//! Each device works on what its own store keeps. Beside it, the [`ledger`]
//! has a document of everything, which merges with those of other devices;
//! [`talk`] is what the devices say to the server about them, over one
//! [`link`] of all tabs.

mod counted;
pub(crate) mod cut_off;
pub(crate) mod gave_way;
mod joining;
mod ledger;
mod letters;
mod link;
mod lost;
pub(crate) mod member;
pub(crate) mod merged;
pub(crate) mod name;
mod paper;
mod photos;
mod status;
mod supply;
mod syncing;
mod talk;
#[cfg(test)]
mod tests;
pub(crate) mod too_large;
mod waiting;

pub(crate) use cut_off::CutOff;
pub(crate) use ledger::{Deleted, EVERYTHING};
pub(crate) use lost::was_paired;
pub(crate) use member::Member;
pub(crate) use paper::{Paper, Scrap};
pub(crate) use status::{Status, Trouble};
pub(crate) use supply::{counted, on_hand, supply_key};
pub(crate) use syncing::{Merged, Sound, Syncing};
