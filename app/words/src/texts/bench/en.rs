//! The bench, in English.

use foldwright_gathered::gathered;

use super::Bench;

#[gathered]
pub(in crate::texts) const TEXTS: Bench = Bench {
    how_many_cards: "How many cards",
    cards_to_make: "Cards to make",
    one_card_fewer: "One card fewer",
    cards_to_make_between: "Cards to make, 1 to 9999",
    one_card_more: "One card more",
    cards_counted: "Cards counted",
    done_for: "Done, for",
    one_fewer_done: "One fewer done",
    one_more_done: "One more done",
    all_done: "All done",
    finished: "Finished",
    start_again: "Start again",
    closed_from_front: "Closed, from the front",
    back_at_first: "Back at the first step. Your notes stay.",
    used: "Used",
    taken_off: "Taken off. Put it back",
    take_off: "Take it off what is on hand",
    look_first: "Look before you go on",
    joined: "This recipe was changed in several places at once, and this step is another one than \
             before.",
    looked_go_on: "I have looked. Go on",
    open_recipe: "Open the recipe",
    here_now: "here now",
    not_yet: "not yet",
    done: "done",
    your_note: "Your note for this step",
    pictures: "Pictures",
    all_steps: "All steps",
    do_not_cut: "Don't cut yet",
    cannot_be_made: "As the recipe stands, this card can't be made.",
    put_right: "Put the recipe right",
    show_all_the_same: "Show the steps all the same",
    step_is_gone: "The recipe has changed and the step you were at is gone. This is the nearest \
                   step before it.",
    have_ready: "Have ready:",
    finish: "Finish",
    next: "Next",
    steps: "Steps",
    back: "Back",
    to_recipe: "To the recipe",
    screen_not_now: "The browser will not keep the screen on just now, perhaps to save the \
                     battery.",
    screen_never: "This browser can't keep the screen on. Set a longer screen timeout on your \
                   device.",
    understood: "Understood",
    cards: "{cards} cards",
    of: "of {all}",
    made: |copies| match copies {
        1 => "Your card is made".to_owned(),
        copies => format!("{copies} cards are made"),
    },
    sheets_of: |sheets, paper, on_hand| match sheets {
        1 => format!("1 sheet of {paper}: {on_hand} on hand"),
        sheets => format!("{sheets} sheets of {paper}: {on_hand} on hand"),
    },
    steps_left: |open| match open {
        1 => "One step is not counted as done. The list of all steps shows which.".to_owned(),
        open => format!("{open} steps are not counted as done. The list of all steps shows which."),
    },
    some_done: "{done} of {times} done",
    room_for: "Room for {left} more of {most} characters.",
    show_all_steps: "{place}. Show all steps",
    leave_for: "Leave the bench for the recipe {recipe}",
    step_of: "Step {step} of {all}",
    all_of_steps: |all| match all {
        1 => "The only step".to_owned(),
        all => format!("All {all} steps"),
    },
    at_the_bench: "{recipe} at the bench",
};
