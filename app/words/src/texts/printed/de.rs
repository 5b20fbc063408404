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
    page_of: "Seite {page} von {all}",
};
