//! The sheet that is printed from a recipe, in English.

use super::Printed;

pub(super) const TEXTS: Printed = Printed {
    sheet_on_a4: "Sheet to print (A4)",
    sheet_on_letter: "Sheet to print (Letter)",
    made_with: "Made with Foldwright",
    letters_missing: "The typeface of this sheet lacks some characters. Each of them stands here as □.",
    page_of: "Page {page} of {all}",
};
