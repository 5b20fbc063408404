//! Paper, print direction, scores and envelopes, in English.

use foldwright_gathered::gathered;

use super::Paper;

#[gathered]
fn times(count: usize) -> String {
    match count {
        0 => "never".to_owned(),
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        more => format!("{more} times"),
    }
}

#[gathered]
pub(in crate::texts) const TEXTS: Paper = Paper {
    paper_of_base: "Paper of the card base",
    base_cut_from: "The card base is cut from",
    papers: "Papers",
    look_at: "Look at",
    add_paper: "Add another paper",
    how_lengths_are_written: "How lengths are written",
    smallest_division: "Smallest division on your ruler",
    decimal_mark: "Decimal mark",
    point: "Point",
    comma: "Comma",
    none_on_divisions: "No card near this one lies on these divisions. Choose finer ones, or look \
                        for another size under “Resize”.",
    bring_onto_ruler: "Bring them onto the ruler",
    not_known: "Not known",
    grain_long: "Grain long",
    grain_short: "Grain short",
    grain_up: "Grain up the sheet",
    grain_across: "Grain across the sheet",
    name: "Name",
    face: "Face",
    back: "Back",
    prints_of_sides: "Prints of the two sides",
    head_to_head: "Head to head",
    head_to_foot: "Head to foot",
    grain: "Grain",
    take_paper_out: "Take this paper out of the recipe",
    own_size: "A size of its own",
    sheet: "Sheet",
    width_face_upright: "Width, the face upright",
    height: "Height",
    weight: "Weight",
    number_above_zero: "Give a number above 0; pounds are whole.",
    weighed_in: "Weighed in",
    caliper: "Thickness (caliper)",
    plain: "Plain",
    printed_no_direction: "Printed, no direction",
    printed_one_way: "Printed, one way up",
    printed_both_ways: "Printed, reads both ways",
    face_print: "Face, print",
    back_print: "Back, print",
    how_to_lay: "How to lay the paper",
    must_be_upright: "Must be upright",
    mark_upright: "Mark the sides whose print has to read upright.",
    print_direction: "Print direction",
    best: "The best one",
    direction_face_up: "Print direction, the sheet face up",
    score_chart: "Score chart",
    how_to_score: "How to score",
    inside_up: "Inside up",
    outside_up: "Outside up",
    ridge_inside: "Ridge inside every fold",
    one_side_up: "Every score with one side up: the card base is never turned over, and some \
                  ridges lie outside their fold.",
    ridges_inside: "Every ridge inside its fold: the card base is turned over where folds \
                    alternate.",
    nothing_to_score: "There is nothing to score.",
    room_at_folds: "Room at the folds",
    nothing_in_folds: "Nothing lies inside a fold of the closed card.",
    make_room: "Make room",
    room_a_fold_asks: "How much room a fold asks for",
    envelopes_that_take_it: "Envelopes that take it",
    try_one_first: "Outside sizes as published; makers allow themselves a little either way, so \
                    try one first.",
    clearance: "Clearance",
    rules_differ: "Printed rules differ. Take the one you trust.",
    envelope: "Envelope",
    not_chosen: "Not chosen yet",
    why_not: "Why not this one?",
    between_divisions: |count| match count {
        1 => "1 length lies between these divisions.".to_owned(),
        more => format!("{more} lengths lie between these divisions."),
    },
    turned: "{sheet}, turned",
    suggested: "Suggested: {thickness}",
    colour: "{side}, colour",
    turns: |over, round| format!("Turn over: {}. Turn round: {}.", times(over), times(round)),
    takes_it: "{envelope} takes this card.",
};
