//! A recipe as files, made on this device.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::Recipe;

use crate::download::Download;

/// Makes a file of a recipe, whose card is worked out; `None` where it cannot be made.
pub(crate) type Maker = fn(Download, &Recipe, &Card) -> Option<Vec<u8>>;

/// Makes one.
pub(crate) fn make(what: Download, recipe: &Recipe, card: &Card) -> Option<Vec<u8>> {
    what.made((recipe, card), "")
}

/// What makes them, fetched where it is not here yet; `None` where it cannot be.
#[cfg(feature = "csr")]
pub(crate) async fn maker() -> Option<Maker> {
    crate::fetched::making_files().await.ok()
}

/// The same where all of it is here.
#[cfg(not(feature = "csr"))]
pub(crate) fn maker() -> std::future::Ready<Option<Maker>> {
    std::future::ready(Some(make))
}
