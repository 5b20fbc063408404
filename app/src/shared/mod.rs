//! A shared recipe as it is read: the same card in words, drawings, numbers
//! and steps, on the server's page and in the app.

mod card;
#[cfg(feature = "ssr")]
mod download;
mod fit;
mod read;
mod steps;
#[cfg(feature = "ssr")]
mod written;

pub(crate) use card::WholeCard;
#[cfg(feature = "ssr")]
pub use download::{Downloaded, downloaded};
pub(crate) use fit::{Fitted, Stuck, Wanted, differences, first, fit, sheet, with_notes};
#[cfg(feature = "ssr")]
pub use read::photos;
pub(crate) use read::{Unreadable, recipe};
#[cfg(feature = "ssr")]
pub use written::{nothing_written, trouble_written, written};
