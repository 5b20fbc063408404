//! The order of the steps at the bench, and the maker's own steps between them.

mod de;
mod en;

use foldwright_engine::steps::Because;

use crate::Language;

area! {
    /// The order of the steps, and the maker's own between them.
    OrderTexts {
        change_order,
        leave_order,
        about_order,
        usual_order,
        back_in_usual,
        taken_back,
        add_own,
        about_own,
        what_to_do,
        how_often,
        once,
        each_card,
        add,
        keep,
        remove,
        removed,
        ready,
        plan_runs,
        comes_off,
        cut_first,
        passes_run,
        while_flat,
        unburdened,
        folds_run,
        folded,
        folded_first,
        decorated,
        lies_under,
        on_piece,
        under_piece,
        pieces_run,
        dries,
        finished,
    }
    fills {
        stays(then: &str, first: &str),
        now_at(step: &str, place: usize),
        earlier(step: &str),
        later(step: &str),
        change_own(step: &str),
    }
}

static ENGLISH: OrderTexts = en::TEXTS;
static GERMAN: OrderTexts = de::TEXTS;

const _: [[&str; OrderTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of the order of the steps; no part of its
    /// [`Tongue`](crate::Tongue), since one page says it.
    pub const fn ordering(self) -> &'static OrderTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}

impl OrderTexts {
    /// Why a step comes before another, in a sentence.
    pub const fn why(&self, because: Because) -> &'static str {
        match because {
            Because::Ready => self.ready,
            Because::PlanRuns => self.plan_runs,
            Because::ComesOff => self.comes_off,
            Because::CutFirst => self.cut_first,
            Because::PassesRun => self.passes_run,
            Because::WhileFlat => self.while_flat,
            Because::Unburdened => self.unburdened,
            Because::FoldsRun => self.folds_run,
            Because::Folded => self.folded,
            Because::FoldedFirst => self.folded_first,
            Because::Decorated => self.decorated,
            Because::LiesUnder => self.lies_under,
            Because::OnPiece => self.on_piece,
            Because::UnderPiece => self.under_piece,
            Because::PiecesRun => self.pieces_run,
            Because::Dries => self.dries,
            Because::Finished => self.finished,
        }
    }
}
