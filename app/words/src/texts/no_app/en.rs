//! What a browser shows where there is no app, in English.

use super::NoApp;

pub(super) const TEXTS: NoApp = NoApp {
    purpose: "Work out folded cards from your own paper and make them step by step at the table.",
    could_not_start: "Foldwright could not start. Update this browser or try another one, then \
                      open the page again. Saved recipes stay where they are.",
    needs_javascript: "Foldwright works out cards inside your browser and needs JavaScript for \
                       that. Switch JavaScript on for this page, then open it again.",
    nothing_here: "There is nothing at this address.",
    speaks_https: "This server speaks HTTPS: put https:// before the address.",
};
