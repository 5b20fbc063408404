//! What is said of photographs, in English.

use super::AlbumTexts;

pub(in crate::texts) const TEXTS: AlbumTexts = AlbumTexts {
    no_photograph: "This file is no photograph that can be kept. Choose a JPEG, PNG or WebP.",
    too_large: "This photograph is larger than 1.5 MB. Choose a smaller one.",
    no_room: "There is no room left in this browser for the photograph. Everything else is as it \
              was. Delete what you no longer need on this device, then try again.",
    not_kept_here: "This browser does not keep photographs here, perhaps because it is a private \
                    window. Everything else is as it was.",
    not_in_files: "Photographs are not in the file. Where that of a paper is missing, the paper's \
                   colour is shown.",
    of_a_step: "the photograph of a step",
    in_the_log: "an entry of the log",
    workshop_full: "Some photographs are only on this device: a workshop has room for {most} at \
                    the server, {megabytes} MB in all. Delete recipes with photographs that you \
                    no longer need.",
};
