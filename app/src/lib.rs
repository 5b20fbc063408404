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

pub mod api;
pub mod bench;
pub mod calculator;
mod fetched;
pub mod history;
mod notice;
mod page;
mod part;
mod release;
mod shell;
pub mod store;

pub use notice::{Notice, Notices, Tone};
pub use page::page_title;
pub use part::{Icon, Miniature, Sheet, Symbol};
pub use shell::App;
