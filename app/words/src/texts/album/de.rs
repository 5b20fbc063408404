//! What is said of photographs, in German.

use super::AlbumTexts;

pub(in crate::texts) const TEXTS: AlbumTexts = AlbumTexts {
    no_photograph: "Diese Datei ist kein Foto, das sich aufheben lässt. Wähle ein JPEG, PNG oder \
                    WebP.",
    too_large: "Dieses Foto ist größer als 1,5 MB. Wähle ein kleineres.",
    no_room: "In diesem Browser ist kein Platz mehr für das Foto. Alles andere ist, wie es war. \
              Lösche auf diesem Gerät, was du nicht mehr brauchst, und versuche es noch einmal.",
    not_kept_here: "Dieser Browser hebt hier keine Fotos auf, vielleicht weil es ein privates \
                    Fenster ist. Alles andere ist, wie es war.",
    not_in_files: "Fotos sind nicht in der Datei. Wo das eines Papiers fehlt, ist die Farbe des \
                   Papiers zu sehen.",
    of_a_step: "das Foto zu einem Schritt",
    in_the_log: "ein Eintrag im Werkbuch",
    workshop_full: "Einige Fotos sind nur auf diesem Gerät: Auf dem Server ist für eine \
                    Werkstatt Platz für {most}, zusammen {megabytes} MB. Lösche Rezepte mit Fotos, \
                    die du nicht mehr brauchst.",
};
