//! Sharing a recipe by link, in English.

use super::Share;

pub(in crate::texts) const TEXTS: Share = Share {
    copied: "Copied.",
    not_copied: "This browser does not let Foldwright copy. The link is marked: copy it yourself.",
    link_as_picture: "The link as a picture: point a phone’s camera at it",
    the_link: "The link",
    copy_link: "Copy the link",
    needs_workshop: "A link leads to this server, so the recipe has to be there. Start a workshop \
                     on it or join one, and everything you make is kept there too.",
    to_workshop: "To the workshop",
    not_at_server: "This recipe has not reached the server yet. Stay connected for a moment, then \
                    try again.",
    who_can_read: "Anybody with the link can read the recipe, and nobody can change it with it. It \
                   shows changes you make later, until you end it.",
    make_link: "Make a link",
    links_of_recipe: "Links of this recipe",
    made_elsewhere: "It was made on another device and can’t be shown here. Make one of your own \
                     to pass on.",
    end_link: "End this link",
    made_on: "Made {day}",
};
