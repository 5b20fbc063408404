//! What came together of changes made in several places, in German.

use foldwright_gathered::gathered;

use super::Merging;
use crate::LeftOut;

#[gathered]
pub(in crate::texts) const TEXTS: Merging = Merging {
    a_measurement: "ein Maß",
    a_rule: "eine Regel",
    a_choice: "eine Festlegung des Rezepts",
    other_stays: "die andere Entscheidung bleibt",
    what_is_gone: "Das braucht, was nicht mehr im Rezept ist. Ändere es dort.",
    measurement: "Maß",
    panel: "Feld",
    layer: "Auflage",
    line: "Falzlinie oder Schnitt",
    cutout: "Fenster oder Kante",
    piece: "Pop-up oder Tasche",
    paper: "Papier",
    fold: "Falz",
    glue_place: "Klebestelle",
    choice: "Festlegung",
    name: "Name",
    description: "Beschreibung",
    number_of_cards: "Anzahl der Karten",
    pin: "Festhalten",
    least_length: "kleinste Länge",
    greatest_length: "größte Länge",
    width: "Breite",
    height: "Höhe",
    way_it_opens: "Öffnungsrichtung",
    panel_on_table: "Feld auf dem Tisch",
    way_to_score: "Art zu rillen",
    glue_margin: "Abstand des Klebers",
    print_direction: "Druckrichtung",
    clearance: "Spielraum",
    envelope: "Umschlag",
    caliper: "Dicke",
    weight: "Gewicht",
    outline: "Umriss",
    place: "Lage",
    panel_it_is_on: "Feld, auf dem es liegt",
    way_it_is_glued: "Klebung",
    smallest_division: "kleinste Teilung auf dem Lineal",
    decimal_mark: "Dezimalzeichen",
    unsolved: "Seine Zahlen gehen nicht zusammen. Sieh nach, welche Regeln verletzt sind.",
    look_folds_over: "Die Zahl der Falze passte nicht zu den Feldern; sieh jeden Falz durch.",
    nameless_device: "Ein Gerät ohne Namen",
    apart: "Was von anderen Geräten kam, passt nicht zu dem, was hier ist. Dieses Gerät macht mit \
            seiner Fassung weiter; Änderungen von hier zeigen sich anderswo vielleicht nicht. \
            Lade das Rezept hier herunter und füg die Datei als weiteres hinzu.",
    the_rule: "die Regel {rule}",
    named: "{thing} „{name}“",
    take_out: "{what} herausnehmen",
    the_field: |field| field.to_owned(),
    field_of: "{field} von „{name}“ ({thing})",
    choice_of: "eine Festlegung von „{name}“ ({thing})",
    is_text: "{what}: „{text}“",
    is_on: |what, on| format!("{what}: {}", if on { "ein" } else { "aus" }),
    is_now: "{name} ist jetzt {value}",
    it_is_now: "jetzt ist es „{text}“",
    decided: "{by} entschied: {what}; {now}.",
    is_so_now: "{name} ist jetzt {value}.",
    moved: "{name} ist jetzt {to}, vorher {from}.",
    rule_left_out: "Die Regel {rule} widerspricht den anderen und fehlt jetzt.",
    notes_too_long: "Notizen zu einem Schritt kamen zusammen und haben mehr als {most} Zeichen. \
                     Zu sehen ist der Anfang; der Rest kommt, wenn du kürzt.",
    needs_what_is_gone: |what| {
        let what = match what {
            LeftOut::OnTop => "Eine Antwort dazu, was oben liegt,",
            LeftOut::Upright => "Eine Seite, die aufrecht stehen sollte,",
            LeftOut::Rule => "Eine Regel",
            LeftOut::Flat => "Eine Falzlinie, die flach bleibt,",
            LeftOut::GluePlace => "Eine Klebestelle",
            LeftOut::Cutout => "Ein Fenster oder eine Kante",
            LeftOut::Line => "Eine Falzlinie oder ein Schnitt",
            LeftOut::Layer => "Eine Auflage",
            LeftOut::Other => "Etwas",
        };
        format!("{what} braucht, was weg ist, und fehlt jetzt.")
    },
};
