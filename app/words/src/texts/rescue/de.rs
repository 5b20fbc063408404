//! What can be saved when something came out different, in German.

use foldwright_gathered::gathered;

use super::Rescue;

#[gathered]
pub(in crate::texts) const TEXTS: Rescue = Rescue {
    this_came_out: "Das ist anders geworden",
    something_came_out: "Etwas ist anders geworden",
    as_planned: "Das ist wie geplant. Nichts muss sich ändern.",
    set_to_measured: "Stell jede Länge ein, wie gemessen.",
    see_what: "Zeigen, was zu retten ist",
    made_already: "Schon gemacht",
    how_many_so: "Wie viele so geworden sind",
    one_fewer: "Eins weniger",
    one_more: "Eins mehr",
    what_can_be_saved: "Was zu retten ist",
    what_measured: "Was hast du gemessen?",
    what_came_out: "Was ist anders geworden?",
    measure_again: "Noch einmal messen",
    go_on_so: "So weitermachen",
    not_as_it_is: "So kann es nicht bleiben.",
    to_its_bench: "An dessen Werktisch",
    bench_goes_on: "Von hier geht es weiter.",
    plan_was_changed: "Der Plan wurde geändert, nachdem etwas anders geworden ist.",
    back_to_plan: "Zurück zum Plan",
    choose_made: "Wähl, was du gemacht hast.",
    planned: "geplant {length}",
    planned_from_fence: "geplant {length} vom Anschlag",
    less: "{what}: {by} weniger",
    more: "{what}: {by} mehr",
    is_made: "{what}: schon gemacht",
    as_measured: "{what}, wie gemessen",
    ways: |count| match count {
        1 => "Es gibt einen Weg weiterzumachen.".to_owned(),
        count => format!("Es gibt {count} Wege weiterzumachen, der beste zuerst."),
    },
    lengths_change: |count| match count {
        1 => "1 Länge ändert sich".to_owned(),
        count => format!("{count} Längen ändern sich"),
    },
    go_on: "Weiter: {way}",
    saved_name: "{recipe} ({cards} gerettet)",
    recipe_of_its_own: "„{name}“ ist jetzt ein eigenes Rezept.",
};
