//! What stands around what is said of classes and of post, in English.

use super::ClassTexts;

pub(in crate::texts) const TEXTS: ClassTexts = ClassTexts {
    spare: "Spare, for mishaps",
    no_spare: "None",
    in_each_kit: "In each kit",
    besides_paper: "Besides paper",
    add_supply: "Add ribbon, gems or anything else",
    supply_name: "What it is",
    such_as_gems: "such as pearl gems",
    add_counted: "Add by number",
    add_ribbon: "Add as a ribbon",
    so_many_each: "How many a card takes",
    how_it_wraps: "Round the closed card",
    across: "Across",
    upright: "Up and down",
    both_ways: "Both ways",
    knot: "Its knot or bow takes",
    about_ribbon: "Twice over the card with all that is on it, and over its edges. Where it crosses itself is left out. Cut the first one longer and try it.",
    does_not_close: "the card does not close",
    kits_to_print: "Kits to print",
    about_kits: "What to take from the shelf, the cuts of the whole batch by the plan shown here, and a label for \
                 each kit, as a PDF made on this device.",
    kits_on_a4: "Kits to print (A4)",
    kits_on_letter: "Kits to print (Letter)",
    pack_price: "Price of a pack",
    no_price: "Type an amount, such as 12.50.",
    pack_sheets: "Sheets in a pack",
    some_without_price: "Paper without a price is not counted.",
    weight_and_post: "Weight and post",
    no_envelope: "No standard envelope takes it, so its post is not told.",
    envelope_paper: "An envelope of 90 g/m² is counted. Weigh one card before you post many.",
    stiff: "If it is stiff, or uneven from buttons, knots or gems, it may cost more or go as a parcel.",
    ask_post: "Posts change their rules: check with your post office.",
    why_not_cheaper: "Why not cheaper",
    add_scrap: "Add a scrap of it",
    scrap_upright: "Width and height as on the sheet, with the print upright.",
    put_on_shelf: "Put it on the shelf",
    make_envelope: "Make an envelope for it",
    flat_pattern: "A flat pattern as a recipe of its own, with the clearance chosen here. How wide its seams \
                   are is our own choice.",
};
