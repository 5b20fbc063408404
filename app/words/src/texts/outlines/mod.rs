//! What is said as a layer is made of an outline in an SVG file.

mod de;
mod en;

use crate::Language;

area! {
    /// What is said as a layer is made of an outline in an SVG file.
    OutlineTexts {
        from_svg,
        about,
        which,
        width,
        untold,
        with_holes,
        add,
        left_out,
        no_svg,
        too_much,
        no_frame,
        no_outline,
        no_size,
        empty,
        crossed,
        from_a_file,
    }
    fills {
        too_large(megabytes: usize),
        too_fine(most: usize),
        one(number: usize),
        one_of_size(number: usize, width: &str, height: &str),
        holes(count: usize),
        texts_left(count: usize),
        pictures(count: usize),
        open(count: usize),
        hidden(count: usize),
        unread(count: usize),
        missing(count: usize),
        others(count: usize),
        styled(count: usize),
        clipped(count: usize),
        huge(count: usize),
        smaller(count: usize),
    }
}

static ENGLISH: OutlineTexts = en::TEXTS;
static GERMAN: OutlineTexts = de::TEXTS;

const _: [[&str; OutlineTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of outlines in files; no part of its [`Tongue`](crate::Tongue), since
    /// one page says it.
    pub const fn outlines(self) -> &'static OutlineTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
