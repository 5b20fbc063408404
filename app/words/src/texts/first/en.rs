//! What can be said at once, in English.

use foldwright_gathered::gathered;

use super::{First, LeftOut};

fn grouped(number: usize) -> String {
    crate::texts::grouped(number, ',')
}

#[gathered]
pub(super) const TEXTS: First = First {
    skip_to_page: "Skip to the page",
    main_menu: "Main",
    recipes: "Recipes",
    new: "New",
    settings: "Settings",
    messages: "Messages",
    close_message: "Close this message",
    nothing_here: "Nothing here",
    no_page_here: "This address leads to no page of Foldwright.",
    to_recipes: "To the recipes",
    not_all_here: "Not all here yet",
    not_fetched: "This part of Foldwright is not on this device yet, and it could not be fetched. \
                  Your recipes stay where they are.",
    try_again: "Try again",
    undo: "Undo",
    close: "Close",
    cancel: "Cancel",
    download: "Download",
    download_it: "Download it",
    words_of_trade: "Words of the trade",
    what_words_mean: "What do these words mean?",
    open_what_can_be_read: "Open what can be read",
    choose_a_fold: "Choose a fold for your card.",
    make_it_fit: "Make it fit your paper and envelope.",
    follow_it: "Follow it at the table, step by step.",
    choose_fold: "Choose a fold",
    type_measurements: "Type in measurements you have",
    from_scrap: "What can I make from a scrap?",
    add_from_file: "Add from a file",
    adding_from_file: "Adding from a file",
    adding_another: "Another file is being added. Choose this one once that is done.",
    comparing_recipes: "Looking at the recipes that are here",
    taking_away: "Taking away what was added",
    not_kept_here: "This browser does not let Foldwright keep anything. Download your recipes \
                    before you leave the page.",
    new_version: "New version",
    newer_is_ready: "A newer Foldwright is ready. Your recipes stay as they are.",
    change_to_it: "Change to it",
    later: "Later",
    saved_here: "Saved here",
    saved_waiting: "Saved here · waiting for network",
    saved_sending: "Saved here · on its way",
    on_all_devices: "On all devices",
    saved_too_large: "Saved here · too large to send",
    saved_here_only: "Saved here only",
    saved_server_problem: "Saved here · server problem",
    look_it_over: "Look it over before you cut. See “Earlier versions” for what it was.",
    i_have_looked: "I have looked",
    newer_recipe: "A recipe was saved by a newer Foldwright and stays untouched. Close all \
                   Foldwright tabs and open it again to get the newer one.",
    broken_and_no_room: "Something kept in this browser can't be read. It stays where it is, since \
                         there is no room to move it aside.",
    broken_and_aside: "Something kept in this browser can't be read whole. It is set aside, not \
                       deleted; the settings list it.",
    aside_deleted: "What was set aside is deleted.",
    storage_full: "This browser's storage is full, so the last change is only on this page. \
                   Download it, then delete recipes you no longer need.",
    revived: "Another tab had deleted this recipe. Your change has brought it back.",
    deleted_elsewhere: "This recipe was deleted in another tab or on another device. It is kept \
                        again if you change it here.",
    changed_in_another_tab: "Another tab changed this recipe at the same time. Both are kept: here \
                             is the other tab's, and yours is beside it as a copy.",
    open_my_copy: "Open my copy",
    recipe_file: "recipe",
    from_another_tab: " (from another tab)",
    was_for_no_card: "It was for no card and is for one now.",
    folds_did_not_go: "The folds did not go with the panels: some are valley folds now, or gone.",
    too_large: "{name}: This file has {megabytes} MB, and no file of recipes has more than {most}. \
                Choose another one.",
    reading_file: "Reading {name}",
    adding_recipes: |done, all| format!("Adding {} of {} recipes", grouped(done), grouped(all)),
    looking_at_documents: |done, all| {
        format!("Looking at {} of {} documents", grouped(done), grouped(all))
    },
    merging_documents: |done, all| {
        format!("Merging {} of {} documents", grouped(done), grouped(all))
    },
    deleted: "“{name}” is deleted.",
    changed_in_places: "“{name}” was changed in several places at once.",
    not_opening_again: "The last change is only on this page, since the recipe would not open \
                        again with it. {faults}",
    back_whole: "“{name}” is back, whole.",
    back_but_for: "“{name}” is back but for this: {lost}",
    text_is_cut: "A text is cut after {most} characters; it had {had}.",
    numbers_follow: |count| match count {
        1 => "1 number follows from this".to_owned(),
        _ => format!("{} numbers follow from this", grouped(count)),
    },
    left_out: |what, name| {
        let what = match what {
            LeftOut::OnTop => "An answer about what lies on top",
            LeftOut::Upright => "A side to read upright",
            LeftOut::Rule => "A rule",
            LeftOut::Flat => "A crease that stays flat",
            LeftOut::GluePlace => "A glue place",
            LeftOut::Cutout => "A window or shaped edge",
            LeftOut::Line => "A crease or cut",
            LeftOut::Layer => "A layer",
            LeftOut::Other => "A part",
        };
        match name {
            Some(name) => format!("{what}, “{name}”, is left out."),
            None => format!("{what} is left out."),
        }
    },
};
