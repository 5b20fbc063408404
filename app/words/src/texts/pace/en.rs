//! How long a session at the bench takes, in English.

use super::PaceTexts;

pub(in crate::texts) const TEXTS: PaceTexts = PaceTexts {
    learnt: "By how long you took before, on this device.",
    drying: "Drying comes on top. How long glue takes, its maker says.",
    takes: |least, most, cards| match (least == most, most, cards) {
        (true, 1, 1) => "About 1 minute for 1 card.".to_owned(),
        (true, 1, _) => format!("About 1 minute for {cards} cards."),
        (true, _, 1) => format!("About {most} minutes for 1 card."),
        (true, _, _) => format!("About {most} minutes for {cards} cards."),
        (false, _, 1) => format!("About {least} to {most} minutes for 1 card."),
        (false, _, _) => format!("About {least} to {most} minutes for {cards} cards."),
    },
    still: |least, most| match (least == most, most) {
        (true, 1) => "About 1 minute is left.".to_owned(),
        (true, _) => format!("About {most} minutes are left."),
        (false, _) => format!("About {least} to {most} minutes are left."),
    },
};
