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
};
