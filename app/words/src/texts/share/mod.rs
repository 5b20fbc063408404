//! Sharing a recipe by link.

pub(super) mod de;
pub(super) mod en;

area! {
    /// Sharing a recipe by link.
    Share {
        copied,
        not_copied,
        link_as_picture,
        the_link,
        copy_link,
        needs_workshop,
        to_workshop,
        not_at_server,
        who_can_read,
        make_link,
        links_of_recipe,
        made_elsewhere,
        end_link,
    }
    fills {
        made_on(day: &str),
    }
}
