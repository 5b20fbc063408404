//! Photographs of papers and parts of sheets, in English.

use super::PhotoTexts;

pub(in crate::texts) const TEXTS: PhotoTexts = PhotoTexts {
    of_face: "Photograph of the face",
    of_back: "Photograph of the back",
    add: "Photograph it",
    another: "Take another one",
    take_off: "Take it off",
    as_photographed: "The card shows this paper as it was photographed.",
    about: "Lay the sheet on something dark, in even light, and photograph all of it. Its \
            corners need not be straight in the picture.",
    corners: "Its four corners",
    about_corners: "Drag each corner onto the corner of the sheet. Its print has to be upright: \
                    turn the picture where it is not.",
    upper_left: "Upper left corner of the sheet",
    upper_right: "Upper right corner of the sheet",
    lower_right: "Lower right corner of the sheet",
    lower_left: "Lower left corner of the sheet",
    moved_by_keys: "Arrow keys move it.",
    turn: "Turn to the right",
    crossed: "The corners are crossed. Drag them apart.",
    too_small: "The sheet is too small in the picture. Go nearer and take another one.",
    lay_flat: "Lay it flat",
    working: "Laying the sheet flat …",
    another_picture: "Another picture",
    flat: "As it will be shown",
    about_flat: "Colour and print are a suggestion. Tap on the paper for another colour.",
    colour: "Colour",
    print: "Print",
    keep: "Show the photograph",
    only_colour: "Take only colour and print",
    corners_again: "Back to the corners",
    which_part: "Which part of the sheet",
    what_is_cut: "What is cut",
    from_left: "From the left edge of the sheet",
    from_top: "From the upper edge of the sheet",
    from_anywhere: "Cut it from anywhere",
    about_part: "Drag what is cut to where the sheet is best. The figures of the card show that \
                 part of it, and each card takes it from a sheet of its own.",
    place_of: "Place of {part} on its sheet: {left} from the left, {top} from the top. Arrow keys \
               move it.",
};
