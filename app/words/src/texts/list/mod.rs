//! The list of recipes, and what can be done with one of them.

pub(super) mod de;
pub(super) mod en;

area! {
    /// The list of recipes.
    List {
        new_recipe,
        search_recipes,
        search,
        show_more,
        paper_on_hand,
        download_all,
        a_recipe,
        not_flat_yet,
        to_the_bench,
        share_by_link,
        duplicate,
        earlier_versions,
        download_as_file,
        delete,
        copy,
        only_in_this_browser,
        bring_in_device,
        download_as_it_is,
        delete_it,
        name,
        rename,
    }
    fills {
        nearly_full(hundredths: u64),
        not_whole(name: &str),
        quoted(name: &str),
        more_for(name: &str),
        share(name: &str),
        there_too(name: &str),
        none_called(sought: &str),
    }
    says {
        looking_at(done: usize, all: usize),
        shown(shown: usize, all: usize),
        gathering(done: usize, all: usize),
    }
}
