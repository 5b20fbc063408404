//! Where the sides of a card are seen, in English.

use super::SightTexts;

pub(in crate::texts) const TEXTS: SightTexts = SightTexts {
    front: "Seen on the front of the closed card.",
    back: "Seen on the back of the closed card.",
    first_opening: "Seen at the first opening.",
    inside: "Seen inside, once the card is fully open.",
    back_of_open: "Seen from behind, once the card is fully open.",
    while_opening: "Seen while the card opens.",
    never: "Never seen: something lies on it however far the card opens.",
    white_backs: "White backs",
    about_white_backs: "These sides show the white back of their paper. A mat covers it but for \
                        its border.",
    first_opening_of: "Seen at the first opening ({panels}).",
    later_opening: "Seen at opening {number}.",
    later_opening_of: "Seen at opening {number} ({panels}).",
    white_back_of: "{side}, white back of {paper}",
    add_mat_on: "Add a mat on {side}",
    lower_left_of: "{what}, {width} × {height}: lower left corner; arrow keys move it",
    lower_right_of: "{what}, {width} × {height}: lower right corner; arrow keys move it",
    upper_right_of: "{what}, {width} × {height}: upper right corner; arrow keys move it",
    upper_left_of: "{what}, {width} × {height}: upper left corner; arrow keys move it",
    turn_a_quarter: "Turn {what} by a quarter",
};
