//! A recipe as a sheet to print, made on this device.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::Recipe;
use foldwright_print::{NotMade, Paper, Sheet, sheet};

use crate::spoken::tongue;

/// Makes the sheet of a recipe, whose card is worked out, for a paper: the bytes of a
/// PDF.
pub(crate) type Printer = fn(&Recipe, &Card, Paper) -> Result<Vec<u8>, NotMade>;

/// Makes one.
pub(crate) fn print(recipe: &Recipe, card: &Card, paper: Paper) -> Result<Vec<u8>, NotMade> {
    sheet(&Sheet {
        recipe,
        card,
        from: "",
        tongue: tongue(),
        paper,
    })
}

/// What makes them, fetched where it is not here yet; `None` where it cannot be.
#[cfg(feature = "csr")]
pub(crate) async fn printer() -> Option<Printer> {
    crate::fetched::printing().await.ok()
}

/// The same where all of it is here.
#[cfg(not(feature = "csr"))]
pub(crate) fn printer() -> std::future::Ready<Option<Printer>> {
    std::future::ready(Some(print))
}
