//! Photographs, in German.

use super::PictureTexts;

pub(in crate::texts) const TEXTS: PictureTexts = PictureTexts {
    choose: "Bild auswählen",
    camera: "Kamera verwenden",
    shutter: "Bild aufnehmen",
    no_camera: "Die Kamera lässt sich hier nicht verwenden. Wähle stattdessen ein Bild aus.",
    not_read: "Diese Datei ist kein Bild, das sich hier lesen lässt. Wähle ein anderes aus.",
    add: "Foto hinzufügen",
    another: "Foto ersetzen",
    take_off: "Foto entfernen",
    look: "Foto groß ansehen",
    keeping: "Das Foto wird aufgehoben …",
    not_here: "Dieses Foto ist noch nicht auf diesem Gerät. Es kommt von dem, das es hat.",
    is_off: "Das Foto ist entfernt.",
    is_another: "Das Foto ist ersetzt.",
    of_step: "Dein Foto zu diesem Schritt",
    about_step: "Fotografiere, was nach diesem Schritt zu sehen ist, oder wähle ein Bild aus.",
    of_step_shared: "Foto zu diesem Schritt",
    log: "Bisher gemacht",
    no_runs: "Sobald alle Schritte getan sind, steht hier mit Datum, was gemacht wurde.",
    line: "Eine Zeile dazu",
    of_run: "Foto der fertigen Karten",
    about_run: "Fotografiere die fertigen Karten oder wähle ein Bild aus. Die Liste der Rezepte \
                zeigt es.",
    remove_run: "Eintrag entfernen",
    run_is_off: "Der Eintrag ist entfernt.",
    cards: |cards| match cards {
        1 => "1 Karte".to_owned(),
        cards => format!("{cards} Karten"),
    },
    sheets: |sheets, paper| match sheets {
        1 => format!("1 Bogen {paper}"),
        sheets => format!("{sheets} Bogen {paper}"),
    },
    scraps: |scraps, paper, size| match scraps {
        1 => format!("1 Rest {paper}, {size}"),
        scraps => format!("{scraps} Reste {paper}, {size}"),
    },
    offcuts: |offcuts, paper, size| match offcuts {
        1 => format!("Übrig: 1 Rest {paper}, {size}"),
        offcuts => format!("Übrig: {offcuts} Reste {paper}, {size}"),
    },
};
