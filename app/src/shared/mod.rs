//! A shared recipe as it is read: the same card in words, drawings, numbers
//! and steps, on the server's page and in the app.

mod card;
mod fit;
mod read;
mod steps;
#[cfg(feature = "ssr")]
mod written;

pub(crate) use card::WholeCard;
pub(crate) use fit::{Fitted, Stuck, Wanted, differences, first, fit, sheet, with_notes};
pub(crate) use read::{Unreadable, recipe};
#[cfg(feature = "ssr")]
pub use written::{Written, nothing_written, trouble_written, written};

/// The title of a page whose link opens nothing.
pub(crate) const NOTHING_SHARED: &str = "Nothing is shared here";
/// What such a page says. It never tells what was shared once from what never
/// was.
pub(crate) const NOT_OPENED: &str = "This link opens no recipe. It may have been ended, or not \
     copied whole. Ask whoever gave it to you for a new one.";
