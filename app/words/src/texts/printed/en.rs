//! The sheet that is printed from a recipe, in English.

use super::Printed;

pub(super) const TEXTS: Printed = Printed {
    sheet_on_a4: "Sheet to print (A4)",
    sheet_on_letter: "Sheet to print (Letter)",
    made_with: "Made with Foldwright",
    letters_missing: "The typeface of this sheet lacks some characters. Each of them stands here as □.",
    to_print: "To print",
    all_of_it: "All of the card on paper: what to cut, where to score, and each step.",
    hand_on: "Hand on",
    not_made: "The sheet could not be made. That is a mistake in Foldwright; your recipe is as it was.",
    page_of: "Page {page} of {all}",
};
