//! Everything said in English.

use foldwright_engine::care::Hazard;
use foldwright_engine::length::ReadProblem;
use foldwright_engine::paper::Misfit;
use foldwright_engine::problem::Finding;
use foldwright_engine::reading::{
    Assumed, Evidence, FoldForm, Meaning, Missed, Remark, Suggestion, Suggests,
};
use foldwright_engine::recipe::{EditError, Naming, New};
use foldwright_engine::refit::{Clash, Condition, Outcome, Reason, Release};
use foldwright_engine::rescue::{self as table, Against, CannotBe, Heading, Note, Paper};

use crate::card::en as card;
use crate::care::en as care;
use crate::figures::en as figures;
use crate::fit::en as fit;
use crate::folding::en as folding;
use crate::glue::en as glue;
use crate::laid::en as laid;
use crate::list::en as list;
use crate::look::en as look;
use crate::names::Names;
use crate::naming::{en as naming, starters_en as starters};
use crate::numerals::en as numerals;
use crate::paper::en as paper;
use crate::part::en as part;
use crate::pattern::en as pattern;
use crate::reach::en as reach;
use crate::recipe::en as recipe;
use crate::refit::en as refit;
use crate::refused::en as refused;
use crate::rescue::en as rescue;
use crate::steps::en as steps;
use crate::suggested::en as suggested;
use crate::typed::en as typed;
use crate::{
    Amount, Caution, Language, OfCard, OfLook, OfPaper, OfPart, OfStep, Starters, Texts, Told,
    Tongue, texts,
};

/// English.
#[derive(Debug, Clone, Copy)]
pub struct English;

impl Naming for English {
    fn name(&self, new: New<'_>) -> String {
        naming::name(new)
    }
}

impl Tongue for English {
    fn language(&self) -> Language {
        Language::English
    }

    fn starters(&self) -> Starters {
        Starters {
            folds: starters::FOLDS,
            parts: starters::PARTS,
        }
    }

    fn texts(&self) -> &'static Texts {
        texts::ENGLISH.texts()
    }

    fn problem(&self, names: &Names<'_>, finding: &Finding) -> Told {
        match finding {
            Finding::Broken(relation) => recipe::broken(names, relation),
            Finding::TooMany { parts, number } => recipe::too_many(*parts, *number),
            Finding::Laid(found) => laid::laid(names, *found),
            Finding::Outline(found) => laid::outline(names, *found),
            Finding::Cutout { cutout, is } => laid::cutout(names, *cutout, *is),
            Finding::Pattern { of, is } => pattern::told(names, *of, is),
            Finding::Folding(found) => folding::shut(names, found),
            Finding::Opening(found) => folding::open(names, found),
            Finding::Fit(found) => fit::told(names, *found),
            Finding::Join {
                piece,
                part,
                on,
                is,
            } => fit::join(names, (*piece, *part), *on, is),
            Finding::Reach(found) => reach::told(names, found),
            Finding::Glue { layer, is } => glue::told(names, *layer, *is),
            Finding::Room(found) => reach::cramped(names, *found),
            Finding::List(found) => list::told(names, *found),
        }
    }

    fn lacking(&self, names: &Names<'_>, misfit: Misfit) -> String {
        fit::lacking(names, misfit)
    }

    fn outcome(&self, names: &Names<'_>, outcome: &Outcome) -> String {
        refit::told(names, outcome)
    }

    fn clash(&self, names: &Names<'_>, clash: &Clash) -> String {
        refit::clash(names, clash)
    }

    fn condition(&self, names: &Names<'_>, condition: &Condition) -> String {
        refit::condition(names, condition)
    }

    fn no_longer(&self, names: &Names<'_>, condition: &Condition) -> String {
        refit::no_longer(names, condition)
    }

    fn reason(&self, names: &Names<'_>, reason: &Reason) -> String {
        refit::reason(names, reason)
    }

    fn release(&self, names: &Names<'_>, release: &Release) -> String {
        refit::release(names, release)
    }

    fn released(&self, names: &Names<'_>, release: &Release) -> String {
        refit::released(names, release)
    }

    fn heading(&self, names: &Names<'_>, heading: &Heading) -> String {
        rescue::heading(names, heading)
    }

    fn note(&self, names: &Names<'_>, note: &Note) -> String {
        rescue::note(names, note)
    }

    fn against(&self, names: &Names<'_>, against: &Against) -> String {
        match against {
            Against::Problem(problem) => self.problem(names, &problem.finding).what,
            Against::Clash(clash) => refit::clash(names, clash),
            Against::Shape => rescue::shape(),
            Against::Hurdles(hurdles) => rescue::hurdles(names, hurdles),
        }
    }

    fn because(&self, names: &Names<'_>, reason: &table::Reason) -> String {
        rescue::because(names, reason)
    }

    fn paper(&self, names: &Names<'_>, paper: Option<&Paper>) -> String {
        rescue::paper(names, paper)
    }

    fn cannot_be(&self, cannot: CannotBe) -> &'static str {
        rescue::cannot_be(cannot)
    }

    fn of_card(&self, names: &Names<'_>, of: OfCard<'_>) -> String {
        card::told(names, of)
    }

    fn of_step(&self, names: &Names<'_>, of: OfStep<'_>) -> String {
        match of {
            OfStep::Kind(kind) => steps::kind(kind).to_owned(),
            OfStep::Title(title) => steps::title(names, title),
            OfStep::Does(does) => steps::does(names, does),
            OfStep::Label(label) => figures::label(names, label),
            OfStep::Value(value) => figures::value(names, value),
            OfStep::Caption(caption) => figures::caption(names, caption),
            OfStep::Tool(tool) => figures::tool(tool).to_owned(),
        }
    }

    fn of_paper(&self, names: &Names<'_>, of: OfPaper) -> String {
        paper::told(names, of)
    }

    fn of_look(&self, names: &Names<'_>, of: OfLook<'_>) -> String {
        look::told(names, of)
    }

    fn of_part(&self, names: &Names<'_>, of: OfPart<'_>) -> String {
        part::told(names, of)
    }

    fn suggestion(&self, names: &Names<'_>, is: &Suggestion) -> String {
        suggested::suggestion(names, is)
    }

    fn evidence(&self, names: &Names<'_>, evidence: &Evidence) -> String {
        suggested::evidence(names, evidence)
    }

    fn caution(&self, hazard: Hazard) -> Caution {
        care::told(hazard)
    }

    fn refused(&self, names: &Names<'_>, why: &EditError) -> String {
        refused::told(names, why)
    }

    fn misread(&self, problem: &ReadProblem) -> String {
        typed::told(problem)
    }

    fn missed(&self, why: &Missed) -> String {
        list::missed(why)
    }

    fn form(&self, form: FoldForm) -> &'static str {
        list::form(form)
    }

    fn suggests(&self, why: Suggests) -> &'static str {
        list::suggests(why)
    }

    fn meaning(&self, names: &Names<'_>, is: Meaning) -> String {
        list::meaning(names, is)
    }

    fn remark(&self, names: &Names<'_>, remark: Remark) -> String {
        list::remark(names, remark)
    }

    fn assumed(&self, assumed: Assumed) -> String {
        list::assumed(assumed)
    }

    fn aloud(&self, amount: &Amount) -> String {
        numerals::aloud(amount)
    }
}
