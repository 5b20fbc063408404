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
};
