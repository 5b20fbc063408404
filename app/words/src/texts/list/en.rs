//! The list of recipes, in English.

use foldwright_gathered::gathered;

use super::List;

fn grouped(number: usize) -> String {
    crate::texts::grouped(number, ',')
}

#[gathered]
pub(in crate::texts) const TEXTS: List = List {
    new_recipe: "New recipe",
    search_recipes: "Search the recipes",
    search: "Search",
    show_more: "Show more",
    paper_on_hand: "Paper on hand",
    download_all: "Download all",
    a_recipe: "A recipe",
    not_flat_yet: "does not fold flat yet",
    to_the_bench: "To the bench",
    share_by_link: "Share by link",
    duplicate: "Duplicate",
    earlier_versions: "Earlier versions",
    download_as_file: "Download as a file",
    delete: "Delete",
    copy: " (copy)",
    only_in_this_browser: "These recipes are in this browser only, and there was no copy of them \
                           for a month. Download all below.",
    bring_in_device: "Or bring in another device",
    download_as_it_is: "Download it as it is",
    delete_it: "Delete it",
    name: "Name",
    rename: "Rename",
    nearly_full: "This browser's room for Foldwright is {hundredths} % full. Download recipes you \
                  no longer need here, then delete them.",
    not_whole: "{name} can't be read whole. See what can be done.",
    quoted: "“{name}”",
    more_for: "More for {name}",
    share: "Share “{name}”",
    there_too: "“{name}” is there too.",
    looking_at: |done, all| format!("Looking at {} of {} …", grouped(done), grouped(all)),
    none_called: "No recipe is called “{sought}”.",
    shown: |shown, all| format!("{} of {} recipes are shown.", grouped(shown), grouped(all)),
    gathering: |done, all| match all {
        1 => "Gathering 1 recipe …".to_owned(),
        all => format!("Gathering {} of {} recipes …", grouped(done), grouped(all)),
    },
};
