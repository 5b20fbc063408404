//! What can be said before a language is here: the frame, the list without a
//! recipe, and what befalls what is kept. Every language brings it at once, so
//! it is kept small.

mod de;
mod en;

use crate::Language;

area! {
    /// What can be said before the language itself is here.
    First {
        skip_to_page,
        main_menu,
        recipes,
        new,
        settings,
        messages,
        close_message,
        nothing_here,
        no_page_here,
        to_recipes,
        not_all_here,
        not_fetched,
        try_again,
        undo,
        close,
        cancel,
        download,
        download_it,
        words_of_trade,
        what_words_mean,
        open_what_can_be_read,
        choose_a_fold,
        make_it_fit,
        follow_it,
        choose_fold,
        type_measurements,
        from_scrap,
        add_from_file,
        adding_from_file,
        adding_another,
        comparing_recipes,
        taking_away,
        not_kept_here,
        new_version,
        newer_is_ready,
        change_to_it,
        later,
        saved_here,
        saved_waiting,
        saved_sending,
        on_all_devices,
        saved_too_large,
        saved_here_only,
        saved_server_problem,
        look_it_over,
        i_have_looked,
        newer_recipe,
        broken_and_no_room,
        broken_and_aside,
        aside_deleted,
        storage_full,
        revived,
        deleted_elsewhere,
        changed_in_another_tab,
        open_my_copy,
        recipe_file,
        from_another_tab,
        was_for_no_card,
        folds_did_not_go,
    }
    fills {
        too_large(name: &str, megabytes: usize, most: usize),
        reading_file(name: &str),
        deleted(name: &str),
        changed_in_places(name: &str),
        not_opening_again(faults: &str),
        back_whole(name: &str),
        back_but_for(name: &str, lost: &str),
        text_is_cut(most: usize, had: usize),
    }
    says {
        adding_recipes(done: usize, all: usize),
        looking_at_documents(done: usize, all: usize),
        merging_documents(done: usize, all: usize),
        numbers_follow(count: usize),
        left_out(what: LeftOut, name: Option<&str>),
    }
}

/// A part of a recipe that did not go with the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftOut {
    /// Which of two panels lies on top.
    OnTop,
    /// A side that was to read upright.
    Upright,
    /// A rule for measurements.
    Rule,
    /// A crease that stays flat.
    Flat,
    /// Where a piece is glued.
    GluePlace,
    /// A window or a shaped edge.
    Cutout,
    /// A crease or a cut.
    Line,
    /// A layer.
    Layer,
    /// Anything else.
    Other,
}

impl LeftOut {
    /// What is in a list of a recipe, by the name the list has in files.
    pub fn of(list: &str) -> Self {
        match list {
            "on_top" => Self::OnTop,
            "upright" => Self::Upright,
            "relations" => Self::Rule,
            "flat" => Self::Flat,
            "joins" => Self::GluePlace,
            "cutouts" => Self::Cutout,
            "lines" => Self::Line,
            "layers" => Self::Layer,
            _ => Self::Other,
        }
    }
}

static ENGLISH: First = en::TEXTS;
static GERMAN: First = de::TEXTS;

const _: [[&str; First::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What can be said at once in it.
    pub fn first(self) -> &'static First {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
