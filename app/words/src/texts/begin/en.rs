//! Beginning a recipe: with a fold, a list of measurements, or a scrap, in English.

use foldwright_gathered::gathered;

use super::Begin;

#[gathered]
pub(in crate::texts) const TEXTS: Begin = Begin {
    pick_one: "Pick one. Every size, fold and paper can be changed later.",
    or_type: "Or type in measurements you have",
    from_a_list: "From a list",
    list_cleared: "The list is cleared.",
    from_measurements: "From measurements you have",
    type_or_paste: "Type or paste a list as it stands in your binder, one piece a line. It is read \
                    as you go and kept on this device.",
    your_list: "Your list",
    list_example: "base 5 1/2 x 8 1/2, score at 4 1/4\nmat 4 x 5 1/4",
    clear_list: "Clear the list",
    make_recipe: "Make it a recipe",
    card_comes_up: "A card comes up as soon as a line gives a size, such as 5 1/2 x 8 1/2.",
    which_way: "Which way does it fold?",
    list_gives_scores: "The list gives the scores, not which way they fold.",
    line_by_line: "Line by line",
    what_numbers_say: "What the numbers say",
    ticked_will_hold: "What is ticked will still hold when the card is made in another size.",
    no_envelope: "no standard envelope takes it",
    as_it_is: "As it is.",
    same_size: "The same size, with other lengths inside.",
    your_recipe: "Your recipe",
    a_fold: "A fold to start from",
    from_a_scrap_name: " from a scrap",
    scrap_off_list: "The scrap is off the list.",
    scraps_on_hand: "Scraps on hand",
    put_on_list: "Put this one on the list of scraps",
    from_scrap: "From a scrap",
    what_from_this_scrap: "What can I make from this scrap?",
    measure_scrap: "Measure it with the print upright. Your recipes and the folds to start from \
                    that can be cut from it come up, those first that change least. None is made \
                    larger than it is.",
    the_scrap: "The scrap",
    closed: "{size} closed",
    closed_is: "Closed: {size}",
    looking: "Looking at {done} of {all} …",
    can_be_cut: |found, all| match found {
        0 => format!("None of {all} can be cut from it."),
        found => format!("{found} of {all} can be cut from it."),
    },
    goes_into: "goes into {envelope}",
    instead_of: "Instead of {size}.",
    take_off_list: "Take {size} off the list",
};
