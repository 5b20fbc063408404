//! Photographs of papers and parts of sheets, in German.

use super::PhotoTexts;

pub(in crate::texts) const TEXTS: PhotoTexts = PhotoTexts {
    of_face: "Foto der Schauseite",
    of_back: "Foto der Rückseite",
    add: "Fotografieren",
    another: "Neues Foto",
    take_off: "Foto wegnehmen",
    as_photographed: "Die Karte zeigt dieses Papier, wie es fotografiert ist.",
    about: "Leg den Bogen bei gleichmäßigem Licht auf etwas Dunkles und fotografiere ihn ganz. \
            Seine Ecken müssen im Bild nicht gerade liegen.",
    corners: "Seine vier Ecken",
    about_corners: "Zieh jede Ecke auf die Ecke des Bogens. Sein Druck muss aufrecht stehen: Dreh \
                    das Bild, wo er es nicht tut.",
    upper_left: "Obere linke Ecke des Bogens",
    upper_right: "Obere rechte Ecke des Bogens",
    lower_right: "Untere rechte Ecke des Bogens",
    lower_left: "Untere linke Ecke des Bogens",
    moved_by_keys: "Pfeiltasten bewegen sie.",
    turn: "Nach rechts drehen",
    crossed: "Die Ecken sind überkreuzt. Zieh sie auseinander.",
    too_small: "Der Bogen ist im Bild zu klein. Geh näher heran und nimm ein neues auf.",
    lay_flat: "Flach legen",
    working: "Der Bogen wird flach gelegt …",
    another_picture: "Anderes Bild",
    flat: "So wird er gezeigt",
    about_flat: "Farbe und Druck sind ein Vorschlag. Tippe auf das Papier für eine andere Farbe.",
    colour: "Farbe",
    print: "Druck",
    keep: "Foto zeigen",
    only_colour: "Nur Farbe und Druck übernehmen",
    corners_again: "Zurück zu den Ecken",
    which_part: "Welcher Teil des Bogens",
    what_is_cut: "Was geschnitten wird",
    from_left: "Von der linken Kante des Bogens",
    from_top: "Von der oberen Kante des Bogens",
    from_anywhere: "Von überall schneiden",
    about_part: "Zieh, was geschnitten wird, dorthin, wo der Bogen am schönsten ist. Die Bilder \
                 der Karte zeigen diesen Teil, und jede Karte nimmt ihn von einem eigenen Bogen.",
    place_of: "Platz auf dem Bogen, {part}: {left} von links, {top} von oben. Pfeiltasten bewegen \
               ihn.",
};
