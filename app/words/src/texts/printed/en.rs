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
    code_for_camera: "Square code for a camera: it opens this recipe at the address below it.",
    cards_on_a4: "Recipe cards, four to a page (A4)",
    cards_on_letter: "Recipe cards, four to a page (Letter)",
    more_on_sheet: "There is more on the sheet to print.",
    cut_apart: "Cut the cards apart along the dashed lines.",
    print_both_sides: "Print this on both sides of the paper, turned on its long edge.",
    page_of: "Page {page} of {all}",
    live_at: "This recipe online, as it is now: {address}",
    card_of: "{name}: recipe card",
};
