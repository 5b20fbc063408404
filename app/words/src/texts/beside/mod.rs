//! What the bench has beside its steps: reading aloud, clocks, a ruler, the way to the
//! numbers behind a step, and another piece for one that was spoiled.

mod de;
mod en;

use crate::Language;

area! {
    /// What the bench has beside its steps: reading aloud, clocks, and a ruler.
    BesideTexts {
        plan_again,
        aids,
        reading,
        read_aloud,
        stop_reading,
        read_each_step,
        about_reading,
        on,
        off,
        cannot_read,
        no_voice,
        needs_a_tap,
        voice_failed,
        voice_here,
        voice_away,
        large_buttons,
        right_hand,
        left_hand,
        clocks,
        set_a_clock,
        about_clocks,
        own_minutes,
        start,
        not_minutes,
        dismiss,
        clock_uncertain,
        ruler,
        ruler_not_set,
        ruler_set_again,
        ruler_zoomed,
        ruler_is_set,
        lay_a_card,
        card_outline,
        narrower,
        wider,
        how_wide,
        it_fits,
        set_the_ruler,
        change_a_number,
        back_to_step,
        spoiled,
    }
    fills {
        minutes(minutes: u32),
        of_step(step: &str, card: &str),
        time_is_up(of: &str),
        stop_clock(of: &str),
        ruler_of(length: &str),
    }
}

static ENGLISH: BesideTexts = en::TEXTS;
static GERMAN: BesideTexts = de::TEXTS;

const _: [[&str; BesideTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says beside the steps at the bench; no part of its
    /// [`Tongue`](crate::Tongue), since a page or two say it.
    pub const fn beside(self) -> &'static BesideTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
