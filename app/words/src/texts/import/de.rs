//! Taking in recipes from a file, in German.

use foldwright_gathered::gathered;

use super::Import;

fn grouped(number: usize) -> String {
    crate::texts::grouped(number, '.')
}

#[gathered]
pub(in crate::texts) const TEXTS: Import = Import {
    cancelled: "Abgebrochen. Nichts kam hinzu.",
    unread: "Der Browser konnte diese Datei nicht lesen. Wähl sie noch einmal.",
    add_what_can_be_read: "Hinzufügen, was lesbar ist",
    no_recipe_in_it: "In dieser Datei ist kein Rezept.",
    all_here: "Alles aus dieser Datei ist schon hier.",
    nothing_added: "Nichts kam hinzu.",
    ended_by_another: "Nichts kam hinzu: Ein anderer Tab hat es beendet. Schließ andere Tabs und \
                       füg die Datei noch einmal hinzu.",
    document_unread: |number, all| {
        format!(
            "Dokument {} von {} in dieser Datei ist nicht lesbar; nichts davon kam hinzu. \
             Speichere oder hol sie noch einmal.",
            grouped(number),
            grouped(all)
        )
    },
    came: |recipes| match recipes {
        1 => "1 Rezept kam aus dieser Datei.".to_owned(),
        many => format!("{} Rezepte kamen aus dieser Datei.", grouped(many)),
    },
    came_before_cancelling: |recipes| match recipes {
        1 => "Abgebrochen. 1 Rezept aus dieser Datei war schon da. Füg sie für den Rest noch \
              einmal hinzu."
            .to_owned(),
        many => format!(
            "Abgebrochen. {} Rezepte aus dieser Datei waren schon da. Füg sie für den Rest noch \
             einmal hinzu.",
            grouped(many)
        ),
    },
    came_before_full: |recipes| match recipes {
        1 => "1 Rezept kam aus dieser Datei; für den Rest fehlt der Platz. Lösch Rezepte, die du \
              nicht mehr brauchst, und füg sie noch einmal hinzu."
            .to_owned(),
        many => format!(
            "{} Rezepte kamen aus dieser Datei; für den Rest fehlt der Platz. Lösch Rezepte, die \
             du nicht mehr brauchst, und füg sie noch einmal hinzu.",
            grouped(many)
        ),
    },
    added: |recipes| match recipes {
        1 => "1 Rezept hinzugefügt.".to_owned(),
        many => format!("{} Rezepte hinzugefügt.", grouped(many)),
    },
    all_were_here: |recipes| match recipes {
        1 => "1 Rezept ist schon hier; nichts kam hinzu.".to_owned(),
        many => format!(
            "{} Rezepte sind schon hier; nichts kam hinzu.",
            grouped(many)
        ),
    },
    added_and_here: |added, here| {
        let added = match added {
            1 => "1 Rezept hinzugefügt".to_owned(),
            many => format!("{} Rezepte hinzugefügt", grouped(many)),
        };
        match here {
            1 => format!("{added}; 1 Rezept ist schon hier."),
            many => format!("{added}; {} Rezepte sind schon hier.", grouped(many)),
        }
    },
    more_in_part: |recipes| match recipes {
        1 => "1 weiteres Rezept kam zum Teil zurück.".to_owned(),
        many => format!("{} weitere Rezepte kamen zum Teil zurück.", grouped(many)),
    },
    not_read_at_all: |recipes| match recipes {
        1 => "1 Rezept war gar nicht lesbar.".to_owned(),
        many => format!("{} Rezepte waren gar nicht lesbar.", grouped(many)),
    },
    room_for: |room, all| match all {
        1 => "Nichts kam hinzu: Für das Rezept fehlt in diesem Browser der Platz. Lösch Rezepte, \
              die du nicht mehr brauchst."
            .to_owned(),
        many => format!(
            "Nichts kam hinzu: Dieser Browser hat Platz für {} von {} Rezepten. Lösch Rezepte, die \
             du nicht mehr brauchst, oder nimm wenige auf einmal.",
            grouped(room),
            grouped(many)
        ),
    },
    part_too_large: "Teil {part} der Liste in dieser Datei hat mehr als {megabytes} MB; so groß \
                     ist kein Rezept. Nichts kam hinzu. Speichere sie dort neu, wo sie herkommt.",
};
