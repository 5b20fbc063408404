//! How a card is opened on the screen, in English.

use super::UnfoldingTexts;

pub(in crate::texts) const TEXTS: UnfoldingTexts = UnfoldingTexts {
    how_it_opens: "How the folds open",
    one_after_another: "One after another",
    all_together: "All together",
    not_together: "These folds do not all open at once.",
    all_closed: "Close all folds",
    all_open: "Open all folds",
    erase: "Delete",
    all_at_once: "All folds at once, {hundredths} % open",
};
