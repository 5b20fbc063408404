//! What came together of changes made in several places, in English.

use foldwright_gathered::gathered;

use super::Merging;
use crate::LeftOut;

#[gathered]
pub(in crate::texts) const TEXTS: Merging = Merging {
    a_measurement: "a measurement",
    a_rule: "a rule",
    a_choice: "one of the recipe’s choices",
    other_stays: "the other decision stays",
    what_is_gone: "That needs what is not in the recipe any more. Change it there.",
    measurement: "measurement",
    panel: "panel",
    layer: "layer",
    line: "crease or cut",
    cutout: "window or edge",
    piece: "pop-up or pocket",
    paper: "paper",
    fold: "fold",
    glue_place: "glue place",
    choice: "choice",
    name: "name",
    description: "description",
    number_of_cards: "number of cards",
    pin: "pin",
    least_length: "least length",
    greatest_length: "greatest length",
    width: "width",
    height: "height",
    way_it_opens: "way the card opens",
    panel_on_table: "panel that lies on the table",
    way_to_score: "way to score",
    glue_margin: "glue margin",
    print_direction: "print direction",
    clearance: "clearance",
    envelope: "envelope",
    caliper: "thickness (caliper)",
    weight: "weight",
    outline: "outline",
    place: "place",
    panel_it_is_on: "panel it is on",
    way_it_is_glued: "way it is glued",
    smallest_division: "smallest division on the ruler",
    decimal_mark: "decimal mark",
    unsolved: "Its numbers don't go together. See which rules are broken.",
    look_folds_over: "There were too many or too few folds for the panels; look each fold over.",
    nameless_device: "A device without a name",
    apart: "What came from other devices does not go together with what is here. This device goes \
            on with its own, and what is changed here may not show elsewhere. Download the recipe \
            here and add that file again, as another recipe.",
    the_rule: "the rule {rule}",
    named: "{thing} “{name}”",
    take_out: "to take out {what}",
    the_field: |field| format!("the {field}"),
    field_of: "the {field} of the {thing} “{name}”",
    choice_of: "a choice of the {thing} “{name}”",
    is_text: "{what}: “{text}”",
    is_on: |what, on| format!("{what}: {}", if on { "on" } else { "off" }),
    is_now: "{name} is {value} now",
    it_is_now: "it is “{text}” now",
    decided: "{by} decided {what}; {now}.",
    is_so_now: "{name} is {value} now.",
    moved: "{name} is {to} now, and was {from}.",
    rule_left_out: "The rule {rule} contradicts the others and is left out.",
    notes_too_long: "Notes for one step came together and have more than {most} characters. The \
                     beginning is shown. The rest shows as you make the note shorter.",
    needs_what_is_gone: |what| {
        let what = match what {
            LeftOut::OnTop => "An answer which panel lies on top",
            LeftOut::Upright => "A side that was to read upright",
            LeftOut::Rule => "A rule",
            LeftOut::Flat => "A crease that stays flat",
            LeftOut::GluePlace => "A glue place",
            LeftOut::Cutout => "A window or an edge",
            LeftOut::Line => "A crease or a cut",
            LeftOut::Layer => "A layer",
            LeftOut::Other => "Something",
        };
        format!("{what} needs what is gone, and is left out.")
    },
};
