//! Where the sides of a card are seen, in German.

use super::SightTexts;

pub(in crate::texts) const TEXTS: SightTexts = SightTexts {
    front: "Vorn auf der geschlossenen Karte zu sehen.",
    back: "Hinten auf der geschlossenen Karte zu sehen.",
    first_opening: "Beim ersten Aufklappen zu sehen.",
    inside: "Innen zu sehen, wenn die Karte ganz offen ist.",
    back_of_open: "Von hinten zu sehen, wenn die Karte ganz offen ist.",
    while_opening: "Zu sehen, während die Karte aufgeht.",
    never: "Nie zu sehen: Etwas liegt darauf, so weit die Karte auch aufgeht.",
    white_backs: "Weiße Rückseiten",
    about_white_backs: "Hier ist die weiße Rückseite des Papiers zu sehen. Eine Auflage deckt sie \
                        bis auf einen Rand ab.",
    first_opening_of: "Beim ersten Aufklappen zu sehen ({panels}).",
    later_opening: "Beim {number}. Aufklappen zu sehen.",
    later_opening_of: "Beim {number}. Aufklappen zu sehen ({panels}).",
    white_back_of: "{side}, weiße Rückseite von {paper}",
    add_mat_on: "Auflage hinzufügen: {side}",
    lower_left_of: "{what}, {width} × {height}: Ecke unten links; Pfeiltasten bewegen sie",
    lower_right_of: "{what}, {width} × {height}: Ecke unten rechts; Pfeiltasten bewegen sie",
    upper_right_of: "{what}, {width} × {height}: Ecke oben rechts; Pfeiltasten bewegen sie",
    upper_left_of: "{what}, {width} × {height}: Ecke oben links; Pfeiltasten bewegen sie",
    turn_a_quarter: "{what} um ein Viertel drehen",
};
