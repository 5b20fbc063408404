//! The folds to choose from, in German.

use super::ChoosingTexts;

pub(in crate::texts) const TEXTS: ChoosingTexts = ChoosingTexts {
    find: "Falz finden",
    find_by: "Ein Name, ein Format oder ein Umschlag",
    what_it_does: "Was die Karte kann",
    strip: "Felder nebeneinander",
    shaped: "Ecken, Kanten und Fenster",
    crosswise: "Längs und quer gefaltet",
    rising: "Beim Öffnen steht etwas auf",
    glued: "Mit eingeklebten Teilen",
    one_sheet: "Aus einem Bogen",
    both_sides: "Zeigt beide Seiten",
    rises: "Steht auf",
    one_found: "Ein Falz",
    none_found: "Kein Falz passt zu alledem.",
    show_all: "Alle Falze zeigen",
    found: "{count} Falze",
};

pub(super) fn also_called(id: &str) -> &'static str {
    match id {
        "book" => "Einbruchfalz, Einfachfalz, Doppelkarte, Buchfalz",
        "tent" => "Einbruchfalz, Dachfalz, Zeltkarte, Doppelkarte",
        "letter" => "Zweibruch-Wickelfalz, Einschlagfalz, Brieffalz",
        "z" => "Zweibruch-Zickzackfalz, Z-Falz",
        "accordion" => "Zickzackfalz, Ziehharmonika, Leporello",
        "steps" => "Treppenfalz, Staffelfalz",
        "gate" | "shaped-gate" | "arched-gate" => "Fensterfalz, Torfalz, Altarkarte",
        "double-parallel" => "Parallelmittenfalz, Doppelparallelbruch",
        "roll" => "Dreibruch-Wickelfalz",
        "pleats" => "Plissee, Biesen",
        "concertina" => "Ziehharmonika, Leporello, Buch",
        "corner" => "Eselsohr",
        "pointed" => "Umschlagform, Pfeil",
        "slanted" => "diagonal, schräg",
        "window" => "Passepartout, Guckloch",
        "step" => "Pop-up, Parallelfalz, Bühne",
        "box" => "Pop-up, Würfel",
        "stairs" => "Pop-up, Treppe",
        "beak" => "Pop-up, Mund, Vogel",
        "pocket" => "Gutscheinkarte, Geldgeschenk",
        "quarter" => "Kreuzbruchfalz, Zweibruch-Kreuzfalz",
        "corners-in" => "Umschlagfalz, Blintz",
        "star" => "Faltstern, Lotos",
        "v-fold" => "Pop-up, Flügel",
        "platform" => "Pop-up, Bühne, Brücke",
        "patch-pocket" => "Gutscheinkarte, Geldgeschenk, Anhänger",
        "stand" => "Aufsteller, Staffelei",
        "nested" => "Auszug, Leporello",
        "own" => "blanko, eigene",
        _ => "",
    }
}
