//! What is kept of recipes: earlier versions, paper, and what can’t be opened, in English.

use super::Keep;

pub(in crate::texts) const TEXTS: Keep = Keep {
    always_so: "It has always been as it is.",
    is_as_it_was: "The recipe is as it was. Its present version is kept with the others.",
    what_gave_way: "What gave way",
    decided_otherwise: "Decided in one place while the same was decided otherwise in another. Each \
                        can be used after all.",
    same_now: "Its numbers, names and notes are the same now.",
    one_thing: "One thing only",
    use_this: "Use this",
    is_so_now: "It is so in the recipe now.",
    no_recipe: "No recipe",
    no_such_recipe: "No such recipe",
    not_at_address: "This browser keeps no recipe at this address. It may have been deleted, or \
                     made in another browser.",
    by_a_newer: "Saved by a newer Foldwright",
    saved_by_newer: "This recipe was saved by a newer Foldwright and stays untouched. Close all \
                     Foldwright tabs and open it again to get the newer one.",
    not_whole: "This recipe can't be read whole",
    is_damaged: "What this browser kept is damaged. It is set aside, and nothing of it was \
                 deleted. A file you download can be added again under “Recipes”.",
    papers_of_recipes: "The papers of your recipes, and how many sheets there are. The bench can \
                        take off what a card used. What two people take or bring at once adds up.",
    no_paper_named: "No recipe names a paper yet.",
    versions_are_kept: "{recipe}: a version is kept before each spell of work on it. Of the last \
                        day there are several, and one a day before that. Going back keeps the \
                        present version here too.",
    until_changed_on: "· until changed on {device}",
    go_back: "Go back to {when}",
    one_thing_of: "{version}, one thing only",
    use_what: "Use {what}",
    is_so_without: "It is so in the recipe now. Taken out: {gone}.",
    one_fewer_of: "One sheet fewer of {paper}",
    one_more_of: "One sheet more of {paper}",
    sheets_of: "Sheets of {paper}",
};
