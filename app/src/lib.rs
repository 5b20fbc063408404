//! The Foldwright app: pages and parts over the fold engine.

#![recursion_limit = "256"]
#![allow(
    clippy::needless_pass_by_value,
    reason = "a component owns what it is given, as its page passes it"
)]
#![allow(
    unreachable_pub,
    reason = "what the component macro makes is public, whatever the component is"
)]
#![cfg_attr(
    not(feature = "csr"),
    allow(
        dead_code,
        unused_imports,
        reason = "the server takes only what it answers; tests take the rest"
    )
)]

pub mod album;
pub mod bench;
mod beside;
mod by_name;
pub mod calculator;
#[cfg(test)]
mod dice;
mod download;
#[cfg(feature = "csr")]
mod fetched;
mod folds;
pub mod history;
mod import;
mod notice;
mod offered;
#[cfg(feature = "csr")]
mod page;
mod part;
mod planning;
mod random;
mod reachable;
#[cfg(feature = "csr")]
mod release;
mod samples;
#[cfg(test)]
mod schema;
mod shared;
#[cfg(feature = "csr")]
mod shell;
mod spoken;
#[cfg(feature = "csr")]
mod stand_in;
pub mod store;
mod sync;
mod turns;
mod typing;
#[cfg(feature = "ssr")]
mod written;

#[cfg(feature = "ssr")]
pub use download::Download;
#[cfg(feature = "csr")]
pub use fetched::work_beside;
#[cfg(feature = "ssr")]
pub use folds::folds_written;
#[cfg(feature = "ssr")]
pub use foldwright_export::RECIPE_SCHEMA;
#[cfg(feature = "ssr")]
pub use foldwright_print::Paper;
pub use notice::{Notice, Notices, Tone};
#[cfg(feature = "csr")]
pub use page::page_title;
pub use part::{Icon, Miniature, Sheet, Symbol};
#[cfg(feature = "ssr")]
pub use shared::{Downloaded, downloaded, nothing_written, photos, trouble_written, written};
#[cfg(feature = "csr")]
pub use shell::App;
#[cfg(feature = "csr")]
pub use stand_in::stand_in;
#[cfg(feature = "ssr")]
pub use written::Written;
