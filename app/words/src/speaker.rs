//! Who speaks: a language, about a recipe.

use foldwright_engine::care::Hazard;
use foldwright_engine::length::{Length, Notation, ReadProblem};
use foldwright_engine::paper::Misfit;
use foldwright_engine::plane::Size;
use foldwright_engine::problem::{Finding, Problem};
use foldwright_engine::reading::{
    Assumed, Evidence, FoldForm, Meaning, Missed, Remark, Suggestion, Suggests,
};
use foldwright_engine::recipe::{EditError, Naming, Recipe};
use foldwright_engine::refit::{Clash, Condition, Outcome, Reason, Release};
use foldwright_engine::rescue::{self, Against, CannotBe, Heading, Note, Paper};

use crate::names::Names;
use crate::{
    Amount, Caution, Language, OfCard, OfLook, OfPaper, OfPart, OfStep, Starters, Texts, Told,
};

/// The sentences of a language.
pub trait Tongue: Naming + Send + Sync {
    /// Which language it is.
    fn language(&self) -> Language;

    /// What the folds to start from, and what they are made of, are called.
    fn starters(&self) -> Starters;

    /// What screens say besides the card.
    fn texts(&self) -> &'static Texts;

    /// What was found, why it is so, and what to do.
    fn problem(&self, names: &Names<'_>, finding: &Finding) -> Told;

    /// What a refit comes to.
    fn outcome(&self, names: &Names<'_>, outcome: &Outcome) -> String;

    /// That there is no card, before what clashes.
    fn clash(&self, names: &Names<'_>, clash: &Clash) -> String;

    /// What holds.
    fn condition(&self, names: &Names<'_>, condition: &Condition) -> String;

    /// What no longer holds.
    fn no_longer(&self, names: &Names<'_>, condition: &Condition) -> String;

    /// Why a measure moved.
    fn reason(&self, names: &Names<'_>, reason: &Reason) -> String;

    /// What would free a card: the words of a button, without a full stop.
    fn release(&self, names: &Names<'_>, release: &Release) -> String;

    /// What was let go of.
    fn released(&self, names: &Names<'_>, release: &Release) -> String;

    /// What a way out is: a heading, without a full stop.
    fn heading(&self, names: &Names<'_>, heading: &Heading) -> String;

    /// What a way out means for the work.
    fn note(&self, names: &Names<'_>, note: &Note) -> String;

    /// What stands against a way out.
    fn against(&self, names: &Names<'_>, against: &Against) -> String;

    /// Why a measure becomes another at the table.
    fn because(&self, names: &Names<'_>, reason: &rescue::Reason) -> String;

    /// What a way out takes of new paper; `None` where it takes none.
    fn paper(&self, names: &Names<'_>, paper: Option<&Paper>) -> String;

    /// Why something can't have been measured.
    fn cannot_be(&self, cannot: CannotBe) -> &'static str;

    /// Something of a card besides its steps and its problems.
    fn of_card(&self, names: &Names<'_>, of: OfCard<'_>) -> String;

    /// Something a step states.
    fn of_step(&self, names: &Names<'_>, of: OfStep<'_>) -> String;

    /// Something of paper, of an envelope or of a rule for them.
    fn of_paper(&self, names: &Names<'_>, of: OfPaper) -> String;

    /// What is seen of a card.
    fn of_look(&self, names: &Names<'_>, of: OfLook<'_>) -> String;

    /// A part of a card, or something about it, in a few words.
    fn of_part(&self, names: &Names<'_>, of: OfPart<'_>) -> String;

    /// A relation that the numbers of a list suggest, in a few words.
    fn suggestion(&self, names: &Names<'_>, is: &Suggestion) -> String;

    /// The numbers that suggest it.
    fn evidence(&self, names: &Names<'_>, evidence: &Evidence) -> String;

    /// How to take care.
    fn caution(&self, hazard: Hazard) -> Caution;

    /// By how much an envelope is too small for a card.
    fn lacking(&self, names: &Names<'_>, misfit: Misfit) -> String;

    /// Why a change was not made, and what to do.
    fn refused(&self, names: &Names<'_>, why: &EditError) -> String;

    /// Why a typed length can't be read, and what to do.
    fn misread(&self, problem: &ReadProblem) -> String;

    /// Why a part of a list was not read.
    fn missed(&self, why: &Missed) -> String;

    /// How the base of a list may fold.
    fn form(&self, form: FoldForm) -> &'static str;

    /// Why it may fold so.
    fn suggests(&self, why: Suggests) -> &'static str;

    /// What a part of a list was read as, in a few words.
    fn meaning(&self, names: &Names<'_>, is: Meaning) -> String;

    /// How a line of a list was read that leaves it open.
    fn remark(&self, names: &Names<'_>, remark: Remark) -> String;

    /// What was taken for granted about numbers without a unit.
    fn assumed(&self, assumed: Assumed) -> String;

    /// A number with its unit, in words.
    fn aloud(&self, amount: &Amount) -> String;
}

/// Says what is so in a language, with the names of a recipe.
#[derive(Clone, Copy)]
pub struct Speaker<'a> {
    tongue: &'static dyn Tongue,
    names: Names<'a>,
}

impl<'a> Speaker<'a> {
    /// Speaks about a recipe, with its names and in its notation.
    pub fn of(tongue: &'static dyn Tongue, recipe: &'a Recipe) -> Self {
        let names = Names::of(tongue.language(), recipe);
        Self { tongue, names }
    }

    /// Speaks where there is no recipe yet.
    pub fn without_recipe(tongue: &'static dyn Tongue, notation: Notation) -> Self {
        let names = Names::without_recipe(tongue.language(), notation);
        Self { tongue, names }
    }

    /// Speaks about the same with lengths in another notation.
    #[must_use]
    pub const fn written_in(self, notation: Notation) -> Self {
        Self {
            names: self.names.written_in(notation),
            ..self
        }
    }

    /// Says the same, with the exact length behind each that is rounded; only for
    /// what is shown in [`runs`](crate::runs).
    #[must_use]
    pub const fn with_exact(self) -> Self {
        Self {
            names: self.names.with_exact(),
            ..self
        }
    }

    pub(crate) const fn without_exact(self) -> Self {
        Self {
            names: self.names.without_exact(),
            ..self
        }
    }

    /// A problem in sentences.
    pub fn problem(&self, problem: &Problem) -> Told {
        self.tongue.problem(&self.names, &problem.finding)
    }

    /// Something of a card besides its steps and its problems.
    pub fn of_card(&self, of: OfCard<'_>) -> String {
        self.tongue.of_card(&self.names, of)
    }

    /// Something a step states.
    pub fn of_step(&self, of: OfStep<'_>) -> String {
        self.tongue.of_step(&self.names, of)
    }

    /// Something of paper, of an envelope or of a rule for them.
    pub fn of_paper(&self, of: OfPaper) -> String {
        self.tongue.of_paper(&self.names, of)
    }

    pub(crate) const fn names(&self) -> &Names<'_> {
        &self.names
    }

    /// A length as it stands in a sentence: "about 3⅛ in" where it is rounded.
    pub fn length(&self, length: Length) -> String {
        self.names.length(length)
    }

    /// A length beside another that has the unit: "3⅛⁺".
    pub fn plain_length(&self, length: Length) -> String {
        self.names.plain(length)
    }

    /// A size as it stands in a sentence: "about 4¼ × 5½ in" where it is rounded.
    pub fn size(&self, size: Size) -> String {
        self.names.size(size)
    }

    /// A length as it stands in tables, where there is little room: "3⅛⁺ in".
    pub fn short_length(&self, length: Length) -> String {
        self.names.short(length)
    }

    /// A size as it stands in tables, where there is little room: "4¼⁺ × 5½ in".
    pub fn short_size(&self, size: Size) -> String {
        self.names.short_size(size)
    }

    pub(crate) const fn tongue(&self) -> &'static dyn Tongue {
        self.tongue
    }

    /// What a refit comes to, in sentences.
    pub fn outcome(&self, outcome: &Outcome) -> String {
        self.tongue.outcome(&self.names, outcome)
    }

    /// That there is no card, before what clashes, in sentences.
    pub fn clash(&self, clash: &Clash) -> String {
        self.tongue.clash(&self.names, clash)
    }

    /// What holds, in a sentence.
    pub fn condition(&self, condition: &Condition) -> String {
        self.tongue.condition(&self.names, condition)
    }

    /// What no longer holds, in a sentence.
    pub fn no_longer(&self, condition: &Condition) -> String {
        self.tongue.no_longer(&self.names, condition)
    }

    /// Why a measure moved, in a sentence.
    pub fn reason(&self, reason: &Reason) -> String {
        self.tongue.reason(&self.names, reason)
    }

    /// What would free a card, as it stands on a button.
    pub fn release(&self, release: &Release) -> String {
        self.tongue.release(&self.names, release)
    }

    /// What was let go of, in a sentence.
    pub fn released(&self, release: &Release) -> String {
        self.tongue.released(&self.names, release)
    }

    /// What a way out is, as its heading.
    pub fn heading(&self, heading: &Heading) -> String {
        self.tongue.heading(&self.names, heading)
    }

    /// What a way out means for the work, in sentences.
    pub fn note(&self, note: &Note) -> String {
        self.tongue.note(&self.names, note)
    }

    /// What stands against a way out, in sentences.
    pub fn against(&self, against: &Against) -> String {
        self.tongue.against(&self.names, against)
    }

    /// Why a measure becomes another at the table, in a sentence.
    pub fn because(&self, reason: &rescue::Reason) -> String {
        self.tongue.because(&self.names, reason)
    }

    /// What a way out takes of new paper, a sentence for each kind.
    pub fn papers(&self, papers: &[Paper]) -> Vec<String> {
        if papers.is_empty() {
            return vec![self.tongue.paper(&self.names, None)];
        }
        let papers = papers.iter();
        let papers = papers.map(|paper| self.tongue.paper(&self.names, Some(paper)));
        papers.collect()
    }

    /// Why something can't have been measured, in sentences.
    pub fn cannot_be(&self, cannot: CannotBe) -> &'static str {
        self.tongue.cannot_be(cannot)
    }

    /// By how much an envelope is too small for a card, in a sentence.
    pub fn lacking(&self, misfit: Misfit) -> String {
        self.tongue.lacking(&self.names, misfit)
    }

    /// Why a change to the recipe was not made, and what to do, in sentences.
    pub fn refused(&self, why: &EditError) -> String {
        self.tongue.refused(&self.names, why)
    }

    /// Why a part of a list was not read, in a sentence or two.
    pub fn missed(&self, why: &Missed) -> String {
        self.tongue.missed(why)
    }

    /// How the base of a list may fold, in a sentence.
    pub fn form(&self, form: FoldForm) -> &'static str {
        self.tongue.form(form)
    }

    /// Why it may fold so, in a sentence or two.
    pub fn suggests(&self, why: Suggests) -> &'static str {
        self.tongue.suggests(why)
    }

    /// What a part of a list was read as, in a few words.
    pub fn meaning(&self, is: Meaning) -> String {
        self.tongue.meaning(&self.names, is)
    }

    /// How a line of a list was read that leaves it open, in a sentence or two.
    pub fn remark(&self, remark: Remark) -> String {
        self.tongue.remark(&self.names, remark)
    }

    /// What was taken for granted about numbers without a unit, in a sentence or
    /// two.
    pub fn assumed(&self, assumed: Assumed) -> String {
        self.tongue.assumed(assumed)
    }
}
