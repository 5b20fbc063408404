//! The sheet that is printed from a recipe, in English.

use super::Printed;

pub(super) const TEXTS: Printed = Printed {
    sheet_on_a4: "Sheet to print (A4)",
    sheet_on_letter: "Sheet to print (Letter)",
    made_with: "Made with Foldwright",
    letters_missing: "The typeface of this sheet lacks some characters. Each of them stands here as □.",
    take_with_you: "Take it with you",
    each_a_file: "On paper, true to scale, or for other programs: each a file that is made on this device.",
    hand_on: "Hand on",
    not_made: "The file could not be made. That is a mistake in Foldwright; your recipe is as it was.",
    page_of: "Page {page} of {all}",
};
