//! Photographs of papers: how they are taken, laid flat and kept; and which part of a
//! sheet is cut.

mod de;
mod en;

use crate::Language;

area! {
    /// Photographs of papers, and which part of a sheet is cut.
    PhotoTexts {
        of_face,
        of_back,
        add,
        another,
        take_off,
        as_photographed,
        about,
        corners,
        about_corners,
        upper_left,
        upper_right,
        lower_right,
        lower_left,
        moved_by_keys,
        turn,
        crossed,
        too_small,
        lay_flat,
        working,
        another_picture,
        flat,
        about_flat,
        colour,
        print,
        keep,
        only_colour,
        corners_again,
        which_part,
        what_is_cut,
        from_left,
        from_top,
        from_anywhere,
        about_part,
    }
    fills {
        place_of(part: &str, left: &str, top: &str),
    }
}

static ENGLISH: PhotoTexts = en::TEXTS;
static GERMAN: PhotoTexts = de::TEXTS;

const _: [[&str; PhotoTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of photographs of papers; no part of its
    /// [`Tongue`](crate::Tongue), since one page says it.
    pub const fn photos(self) -> &'static PhotoTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
