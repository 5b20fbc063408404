//! What stands on sheets for a class alone, in German.

use super::KitTexts;

pub(super) const TEXTS: KitTexts = KitTexts {
    from_the_shelf: "Aus dem Regal nehmen",
    what: "Was",
    size: "Größe",
    how_many: "Wie viele",
    all_pieces: "Teile aller Päckchen",
    in_a_kit: "Im Päckchen",
    in_all: "Zusammen",
    cut_for_all: "Für alle Päckchen schneiden",
    labels: "Etiketten",
    trim_labels: "Eines für jedes Päckchen. An den Linien durchschneiden, von Kante zu Kante.",
    also_in_it: "Außerdem darin:",
    besides_paper: "Außer Papier",
    a_card_takes: "Eine Karte braucht",
    kits_of: "{name}: Päckchen",
    scrap_of: "Reststück von {paper}",
    envelope_called: "Umschlag {name}",
    envelope_made_of: "Umschlag, gemacht aus {paper}",
    kit_of: "Päckchen {number} von {all}",
    spare_kit_of: "Reservepäckchen {number} von {all}",
    continued: "{kit}, Fortsetzung",
    labels_for_the_first: "Etiketten stehen hier für die ersten {most} Päckchen.",
    for_makers: |makers, spare| match (makers, spare) {
        (1, 0) => "Ein Päckchen für eine Person.".to_owned(),
        (1, 1) => "Ein Päckchen für eine Person, dazu eines als Reserve.".to_owned(),
        (1, spare) => format!("Ein Päckchen für eine Person, dazu {spare} als Reserve."),
        (makers, 0) => format!("Päckchen für {makers} Personen."),
        (makers, 1) => format!("Päckchen für {makers} Personen, dazu eines als Reserve."),
        (makers, spare) => format!("Päckchen für {makers} Personen, dazu {spare} als Reserve."),
    },
};
