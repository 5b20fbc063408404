//! What can be saved when something came out different, in English.

use foldwright_gathered::gathered;

use super::Rescue;

#[gathered]
pub(in crate::texts) const TEXTS: Rescue = Rescue {
    this_came_out: "This came out different",
    something_came_out: "Something came out different",
    as_planned: "That is as planned. Nothing has to change.",
    set_to_measured: "Set each length to what you measured.",
    see_what: "See what can be saved",
    made_already: "Made already",
    how_many_so: "How many came out like this",
    one_fewer: "One fewer",
    one_more: "One more",
    what_can_be_saved: "What can be saved",
    what_measured: "What did you measure?",
    what_came_out: "What came out different?",
    measure_again: "Measure again",
    go_on_so: "Go on like this",
    not_as_it_is: "It can't stay as it is.",
    to_its_bench: "To its bench",
    bench_goes_on: "The bench goes on from here.",
    plan_was_changed: "The plan was changed after something came out different.",
    back_to_plan: "Go back to the plan",
    choose_made: "Choose what you made.",
    planned: "planned {length}",
    planned_from_fence: "planned {length} from the fence",
    less: "{what}: {by} less",
    more: "{what}: {by} more",
    is_made: "{what}: made already",
    as_measured: "{what}, as measured",
    ways: |count| match count {
        1 => "There is one way to go on.".to_owned(),
        count => format!("There are {count} ways to go on, the best first."),
    },
    lengths_change: |count| match count {
        1 => "1 length changes".to_owned(),
        count => format!("{count} lengths change"),
    },
    go_on: "Go on: {way}",
    saved_name: "{recipe} ({cards} saved)",
    recipe_of_its_own: "“{name}” is a recipe of its own now.",
};
