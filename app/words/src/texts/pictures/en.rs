//! Photographs, in English.

use super::PictureTexts;

pub(in crate::texts) const TEXTS: PictureTexts = PictureTexts {
    choose: "Choose a picture",
    camera: "Use the camera",
    shutter: "Take the picture",
    no_camera: "The camera cannot be used here. Choose a picture instead.",
    not_read: "This file is no picture that can be read here. Choose another one.",
    add: "Add a photograph",
    another: "Replace the photograph",
    take_off: "Remove the photograph",
    look: "Look at the photograph large",
    keeping: "Keeping the photograph …",
    not_here: "This photograph is not on this device yet. It comes from the one that has it.",
    is_off: "The photograph was removed.",
    is_another: "The photograph was replaced.",
    of_step: "Your photograph of this step",
    about_step: "Photograph what there is to see once this step is done, or choose a picture.",
    of_step_shared: "Photograph of this step",
    log: "Made so far",
    no_runs: "Once every step is done, what was made is kept here with its date.",
    line: "A line about it",
    of_run: "Photograph of what was made",
    about_run: "Photograph the finished cards, or choose a picture. The list of recipes shows it.",
    remove_run: "Remove this entry",
    run_is_off: "The entry was removed.",
    cards: |cards| match cards {
        1 => "1 card".to_owned(),
        cards => format!("{cards} cards"),
    },
    sheets: |sheets, paper| match sheets {
        1 => format!("1 sheet of {paper}"),
        sheets => format!("{sheets} sheets of {paper}"),
    },
    scraps: |scraps, paper, size| match scraps {
        1 => format!("1 scrap of {paper}, {size}"),
        scraps => format!("{scraps} scraps of {paper}, {size}"),
    },
    offcuts: |offcuts, paper, size| match offcuts {
        1 => format!("Left over: 1 offcut of {paper}, {size}"),
        offcuts => format!("Left over: {offcuts} offcuts of {paper}, {size}"),
    },
};
