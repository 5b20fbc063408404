//! Templates and data that are taken from a shared recipe, in German.

use super::Taken;

pub(super) const TEXTS: Taken = Taken {
    templates_on_a4: "Schablonen in wahrer Größe (A4)",
    templates_on_letter: "Schablonen in wahrer Größe (Letter)",
    mirrored_on_a4: "Schablonen, gespiegelt (A4)",
    mirrored_on_letter: "Schablonen, gespiegelt (Letter)",
    outlines: "Umrisse zum Schneiden (SVG)",
    mirrored_outlines: "Umrisse, gespiegelt (SVG)",
    crease_pattern: "Faltmuster (FOLD)",
    tables: "Zuschnitt und Papier (CSV)",
    at_full_size: "Drucke mit 100 % oder „Tatsächliche Größe“, nie an die Seite angepasst.",
    measure_first: "Miss dann das Lineal unten auf einer Seite nach. Ist es nicht so lang, wie dort \
                    steht, stimmt kein Teil.",
    seen_from_front: "Kartenrohling und Gefaltetes sind von der Innenseite der Karte gesehen, Lagen \
                      von vorn.",
    seen_from_back: "Alles ist gespiegelt, wie es mit der Rückseite nach oben liegt, um von hinten zu \
                     rillen. Berg und Tal gelten, wie du sie hier siehst.",
    cut: "Schnitt",
    mountain: "Bergfalz",
    valley: "Talfalz",
    glue: "Kleber",
    how_lines_look: "Linien: Schnitte gehen durch, Bergfalze sind Striche und Punkte, Talfalze \
                     Striche. Kleber ist getönt mit Punkten am Rand.",
    glue_here: "Kleber kommt auf diese Seite.",
    glue_behind: "Kleber kommt auf die Seite dahinter.",
    print_head_up: "Druckrichtung: Kopf oben.",
    print_head_left: "Druckrichtung: Kopf links.",
    print_head_down: "Druckrichtung: Kopf unten.",
    print_head_right: "Druckrichtung: Kopf rechts.",
    print_upright_both_ways: "Druckrichtung: auf oder ab.",
    print_sideways_both_ways: "Druckrichtung: links oder rechts.",
    grain_up: "Laufrichtung: auf und ab.",
    grain_across: "Laufrichtung: von Seite zu Seite.",
    print_arrow: "Druck",
    grain_arrow: "Lauf",
    turned_to_fit: "Um ein Viertel gedreht.",
    bone_folder: "Falzbein",
    bone_folder_care: "Zieh es auf festem Tisch an einem Lineal entlang, weg von der anderen Hand. \
                       Leg eines mit schartiger Kante oder abgebrochener Spitze beiseite. Die \
                       Anleitung des Herstellers geht vor.",
    joined: "Dieses Teil ist größer als eine Seite und wird aus mehreren gefügt.",
    how_to_join: "Schneide eine Seite an der Fuge ab und leg sie auf die nächste, Buchstabe auf \
                  Buchstabe, Kreuz auf Kreuz. Klebe sie fest.",
    row: "Zeile",
    name: "Name",
    width: "Breite",
    height: "Höhe",
    unit: "Einheit",
    number: "Anzahl",
    from_paper: "Aus",
    weight: "Gewicht, g/m²",
    part: "Teil",
    paper: "Papier",
    envelope: "Umschlag",
    supply: "Außer Papier",
    templates_of: "{name}: Schablonen",
    mirrored_templates_of: "{name}: gespiegelte Schablonen",
    ruler: "Miss das nach, um den Drucker zu prüfen: Es ist {length} lang.",
    pieces: "Stück: {count}.",
    paper_of: "Papier: {name}.",
    true_to_scale: "{name}, {size}, in wahrer Größe",
    page_of_part: "Seite {page} von {all} dieses Teils.",
    where_it_lies: "Wo Seite {page} von {all} im Teil liegt",
    too_many_pages: "Es bräuchte {pages} Seiten. Schneide es lieber nach seinen Maßen.",
};
