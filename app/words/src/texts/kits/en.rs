//! What stands on sheets for a class alone, in English.

use super::KitTexts;

pub(super) const TEXTS: KitTexts = KitTexts {
    from_the_shelf: "Take from the shelf",
    what: "What",
    size: "Size",
    how_many: "How many",
    all_pieces: "Pieces of all kits",
    in_a_kit: "In a kit",
    in_all: "In all",
    cut_for_all: "Cut for all kits",
    labels: "Labels",
    trim_labels: "One for each kit. Trim along the lines, from edge to edge.",
    also_in_it: "Also in it:",
    besides_paper: "Besides paper",
    a_card_takes: "A card takes",
    kits_of: "{name}: kits",
    scrap_of: "Scrap of {paper}",
    envelope_called: "Envelope {name}",
    envelope_made_of: "Envelope made of {paper}",
    kit_of: "Kit {number} of {all}",
    spare_kit_of: "Spare kit {number} of {all}",
    continued: "{kit}, continued",
    labels_for_the_first: "Labels are here for the first {most} kits.",
    for_makers: |makers, spare| match (makers, spare) {
        (1, 0) => "A kit for one maker.".to_owned(),
        (1, 1) => "A kit for one maker, and one spare kit.".to_owned(),
        (1, spare) => format!("A kit for one maker, and {spare} spare kits."),
        (makers, 0) => format!("Kits for {makers} makers."),
        (makers, 1) => format!("Kits for {makers} makers, and one spare kit."),
        (makers, spare) => format!("Kits for {makers} makers, and {spare} spare kits."),
    },
};
