//! The sheet that is printed from a recipe, in German.

use super::Printed;

pub(super) const TEXTS: Printed = Printed {
    sheet_on_a4: "Blatt zum Drucken (A4)",
    sheet_on_letter: "Blatt zum Drucken (Letter)",
    made_with: "Gemacht mit Foldwright",
    letters_missing: "Der Schrift dieses Blatts fehlen einige Zeichen. Jedes davon steht hier als □.",
    to_print: "Zum Drucken",
    all_of_it: "Die ganze Karte auf Papier: was geschnitten wird, wo gerillt wird, und jeder Schritt.",
    hand_on: "Weitergeben",
    not_made: "Das Blatt ließ sich nicht machen. Das ist ein Fehler in Foldwright; dein Rezept ist, wie es war.",
    page_of: "Seite {page} von {all}",
};
