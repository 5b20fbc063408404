//! Templates and data that are taken from a shared recipe, and where they are
//! asked for.

mod de;
mod en;

use crate::Language;

area! {
    /// Templates and data that are taken from a shared recipe, and where they are
    /// asked for.
    Taken {
        templates_on_a4,
        templates_on_letter,
        mirrored_on_a4,
        mirrored_on_letter,
        outlines,
        mirrored_outlines,
        crease_pattern,
        tables,
        at_full_size,
        measure_first,
        seen_from_front,
        seen_from_back,
        cut,
        mountain,
        valley,
        glue,
        how_lines_look,
        glue_here,
        glue_behind,
        print_head_up,
        print_head_left,
        print_head_down,
        print_head_right,
        print_upright_both_ways,
        print_sideways_both_ways,
        grain_up,
        grain_across,
        print_arrow,
        grain_arrow,
        turned_to_fit,
        bone_folder,
        bone_folder_care,
        joined,
        how_to_join,
        row,
        name,
        width,
        height,
        unit,
        number,
        from_paper,
        weight,
        part,
        paper,
        envelope,
        supply,
    }
    fills {
        templates_of(name: &str),
        mirrored_templates_of(name: &str),
        ruler(length: &str),
        pieces(count: i64),
        paper_of(name: &str),
        true_to_scale(name: &str, size: &str),
        page_of_part(page: usize, all: usize),
        where_it_lies(page: usize, all: usize),
        too_many_pages(pages: usize),
    }
}

static ENGLISH: Taken = en::TEXTS;
static GERMAN: Taken = de::TEXTS;

const _: [[&str; Taken::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What stands in it on templates and in data that are taken from a shared
    /// recipe.
    pub const fn taken(self) -> &'static Taken {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
