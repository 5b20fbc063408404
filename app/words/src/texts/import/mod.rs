//! Taking in recipes from a file.

pub(super) mod de;
pub(super) mod en;

area! {
    /// Taking in recipes from a file.
    Import {
        cancelled,
        unread,
        add_what_can_be_read,
        no_recipe_in_it,
        all_here,
        nothing_added,
        ended_by_another,
    }
    fills {
        part_too_large(part: usize, megabytes: usize),
    }
    says {
        document_unread(number: usize, all: usize),
        came(recipes: usize),
        came_before_cancelling(recipes: usize),
        came_before_full(recipes: usize),
        added(recipes: usize),
        all_were_here(recipes: usize),
        added_and_here(added: usize, here: usize),
        more_in_part(recipes: usize),
        not_read_at_all(recipes: usize),
        room_for(room: usize, all: usize),
    }
}
