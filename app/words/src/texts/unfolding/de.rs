//! How a card is opened on the screen, in German.

use super::UnfoldingTexts;

pub(in crate::texts) const TEXTS: UnfoldingTexts = UnfoldingTexts {
    how_it_opens: "Wie sich die Falze öffnen",
    one_after_another: "Nacheinander",
    all_together: "Alle zugleich",
    not_together: "Diese Falze öffnen sich nicht alle zugleich.",
    all_closed: "Alle Falze schließen",
    all_open: "Alle Falze öffnen",
    erase: "Löschen",
    all_at_once: "Alle Falze zugleich, zu {hundredths} % offen",
};
