//! The sheet that is printed from a recipe, in German.

use super::Printed;

pub(super) const TEXTS: Printed = Printed {
    sheet_on_a4: "Blatt zum Drucken (A4)",
    sheet_on_letter: "Blatt zum Drucken (Letter)",
    made_with: "Gemacht mit Foldwright",
    letters_missing: "Der Schrift dieses Blatts fehlen einige Zeichen. Jedes davon steht hier als □.",
    take_with_you: "Zum Mitnehmen",
    each_a_file: "Auf Papier, in wahrer Größe oder für andere Programme: jedes eine Datei, die auf diesem Gerät entsteht.",
    hand_on: "Weitergeben",
    not_made: "Die Datei ließ sich nicht machen. Das ist ein Fehler in Foldwright; dein Rezept ist, wie es war.",
    code_for_camera: "Quadratischer Code für eine Kamera: Er öffnet dieses Rezept unter der Adresse darunter.",
    cards_on_a4: "Rezeptkarten, vier auf einer Seite (A4)",
    cards_on_letter: "Rezeptkarten, vier auf einer Seite (Letter)",
    more_on_sheet: "Mehr steht auf dem Blatt zum Drucken.",
    cut_apart: "Schneide die Karten an den gestrichelten Linien auseinander.",
    print_both_sides: "Drucke das auf beide Seiten des Papiers, gewendet an der langen Kante.",
    page_of: "Seite {page} von {all}",
    live_at: "Dieses Rezept online, wie es jetzt ist: {address}",
    card_of: "{name}: Rezeptkarte",
};
