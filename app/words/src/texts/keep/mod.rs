//! What is kept of recipes: earlier versions, paper, and what can’t be opened.

pub(super) mod de;
pub(super) mod en;

area! {
    /// What is kept of recipes: earlier versions, paper, and what can’t be opened.
    Keep {
        always_so,
        is_as_it_was,
        what_gave_way,
        decided_otherwise,
        same_now,
        one_thing,
        use_this,
        is_so_now,
        no_recipe,
        no_such_recipe,
        not_at_address,
        by_a_newer,
        saved_by_newer,
        not_whole,
        is_damaged,
        papers_of_recipes,
        no_paper_named,
    }
    fills {
        versions_are_kept(recipe: &str),
        until_changed_on(device: &str),
        go_back(when: &str),
        one_thing_of(version: &str),
        use_what(what: &str),
        is_so_without(gone: &str),
        one_fewer_of(paper: &str),
        one_more_of(paper: &str),
        sheets_of(paper: &str),
    }
}
