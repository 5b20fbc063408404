//! Taking in recipes from a file, in English.

use foldwright_gathered::gathered;

use super::Import;

fn grouped(number: usize) -> String {
    crate::texts::grouped(number, ',')
}

#[gathered]
pub(in crate::texts) const TEXTS: Import = Import {
    cancelled: "Cancelled. Nothing was added.",
    unread: "The browser could not read this file. Choose it again.",
    add_what_can_be_read: "Add what can be read",
    no_recipe_in_it: "There is no recipe in this file.",
    all_here: "Everything in this file is here already.",
    nothing_added: "Nothing was added.",
    ended_by_another: "Nothing was added: another tab has ended this. Close the other tabs and add \
                       the file again.",
    document_unread: |number, all| {
        format!(
            "Document {} of {} in this file can't be read, so nothing of it was taken. Save or \
             fetch the file again.",
            grouped(number),
            grouped(all)
        )
    },
    came: |recipes| match recipes {
        1 => "1 recipe came from this file.".to_owned(),
        many => format!("{} recipes came from this file.", grouped(many)),
    },
    came_before_cancelling: |recipes| match recipes {
        1 => "Cancelled. 1 recipe had come from this file already. Add the file again for the \
              rest."
            .to_owned(),
        many => format!(
            "Cancelled. {} recipes had come from this file already. Add the file again for the \
             rest.",
            grouped(many)
        ),
    },
    came_before_full: |recipes| match recipes {
        1 => "1 recipe came from this file; for the rest there is no room in this browser. Delete \
              recipes you no longer need, and add the file again."
            .to_owned(),
        many => format!(
            "{} recipes came from this file; for the rest there is no room in this browser. Delete \
             recipes you no longer need, and add the file again.",
            grouped(many)
        ),
    },
    added: |recipes| match recipes {
        1 => "Added 1 recipe.".to_owned(),
        many => format!("Added {} recipes.", grouped(many)),
    },
    all_were_here: |recipes| match recipes {
        1 => "1 recipe is here already; nothing was added.".to_owned(),
        many => format!(
            "{} recipes are here already; nothing was added.",
            grouped(many)
        ),
    },
    added_and_here: |added, here| {
        let added = match added {
            1 => "Added 1 recipe".to_owned(),
            many => format!("Added {} recipes", grouped(many)),
        };
        match here {
            1 => format!("{added}; 1 recipe is here already."),
            many => format!("{added}; {} recipes are here already.", grouped(many)),
        }
    },
    more_in_part: |recipes| match recipes {
        1 => "1 recipe more came back in part.".to_owned(),
        many => format!("{} recipes more came back in part.", grouped(many)),
    },
    not_read_at_all: |recipes| match recipes {
        1 => "1 recipe could not be read at all.".to_owned(),
        many => format!("{} recipes could not be read at all.", grouped(many)),
    },
    room_for: |room, all| {
        let room = grouped(room);
        let rest = "in this browser. Delete recipes you no longer need, or add them a few at a \
                    time.";
        match all {
            1 => format!("Nothing was added: there is room for {room} of 1 recipe {rest}"),
            many => format!(
                "Nothing was added: there is room for {room} of {} recipes {rest}",
                grouped(many)
            ),
        }
    },
    part_too_large: "Part {part} of the list in this file has more than {megabytes} MB, and no \
                     recipe can be so large. Nothing was added. Save it again where it came from.",
};
