//! Serves over HTTPS, which phones ask for before they let a page work
//! offline, be installed or keep the screen awake.
//!
//! The certificate is one's own, in two files, or it comes from an authority
//! made on this machine that devices come to trust once, by a page over plain
//! HTTP. Either is exchanged while the server runs; connections that are open
//! stay open.

mod authority;
mod choice;
mod files;
mod listener;
mod names;
mod origin;
mod pages;
mod scope;
mod served;
mod tls;
mod trouble;
mod trust;

pub use choice::Choice;
pub use listener::{Secure, Stream};
pub use names::Names;
pub use origin::Origin;
pub use tls::Tls;
pub use trouble::Trouble;
