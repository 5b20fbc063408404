//! From a list of measures, as people write them, to a recipe.
//!
//! [`read`] takes lines in the trade's words, in English, German, French, Dutch
//! or Spanish, and finds pieces, scores and layers. What it could not read stays
//! beside its line. What the numbers suggest comes as [`Proposal`]s, each with
//! its evidence; [`Read::into_recipe`] makes a recipe of those the maker takes.

mod apply;
mod build;
mod line;
mod piece;
mod proposal;
mod seat;
mod sense;
mod shape;
mod token;
mod told;
mod units;

pub use proposal::Proposal;
pub use told::{ReadLine, Understood, Unread};

use sense::{Kind, Language};
use told::{Told, Trouble};
use units::Units;

use crate::length::{Length, Notation};
use crate::plane::Size;
use crate::recipe::Recipe;
use crate::refit::finished;

/// The most lines of a list, and the most characters of a line, that are looked
/// at. Our own bounds.
pub const MOST_LINES: usize = 300;
const MOST_CHARACTERS: usize = 500;

/// A list that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// Every line, in order, with what became of it.
    pub lines: Vec<ReadLine>,
    /// What was taken for granted about units, in a sentence, where something
    /// was.
    pub assumed: Option<String>,
    /// What the numbers suggest, in the order of the pieces.
    pub proposals: Vec<Proposal>,
    /// The pieces with no relation but where they lie.
    plain: Option<Recipe>,
}

impl Read {
    /// Whether there is a piece to make a card of.
    pub const fn has_card(&self) -> bool {
        self.plain.is_some()
    }

    /// The proposals that are taken where the maker says nothing.
    pub fn usual(&self) -> Vec<bool> {
        self.proposals.iter().map(|it| it.accepted).collect()
    }

    /// The recipe with the proposals that are taken, in their order; `None`
    /// where the list has no piece to make a card of.
    pub fn into_recipe(&self, accepted: &[bool]) -> Option<Recipe> {
        let mut recipe = self.plain.clone()?;
        let taken = self.proposals.iter().zip(accepted);
        for (proposal, _) in taken.filter(|(_, accepted)| **accepted) {
            proposal.apply(&mut recipe);
        }
        Some(recipe)
    }
}

/// Reads a list. `usual` is how the maker writes lengths where the list leaves
/// it open. Never panics, whatever the text.
pub fn read(text: &str, usual: Notation) -> Read {
    let mut told = Told::default();
    let mut languages: Vec<Language> = Vec::new();
    let mut lines = Vec::new();
    let mut name = None;
    for (number, text) in text.lines().take(MOST_LINES).enumerate() {
        let end = text.char_indices().nth(MOST_CHARACTERS);
        let end = end.map_or(text.len(), |(end, _)| end);
        let (placed, spoken) = token::tokens(text.get(..end).unwrap_or_default());
        if end < text.len() {
            told.unread(
                number,
                end..text.len(),
                "The line is too long to be read whole.",
            );
        }
        languages.extend(spoken);
        let mut line = line::line(&placed);
        if number == 0 && is_name(&line, text) {
            told.understand(0, 0..text.len(), "the name of the recipe".to_owned());
            name = Some(text.trim().to_owned());
            line.left.clear();
        }
        told.left(number, std::mem::take(&mut line.left));
        for (at, count) in std::mem::take(&mut line.counts) {
            let words = match count {
                1 => "1 piece".to_owned(),
                more => format!("{more} pieces"),
            };
            told.understand(number, at, words);
        }
        lines.push(line);
    }
    let units = Units::of(&lines, &languages, usual);
    let list = piece::gather(&lines, &units, &mut told);
    let notation = units.notation(&told.lengths, &lines, usual);

    let base = base(&list.cuts);
    let mut plain = None;
    let mut proposals = Vec::new();
    if let Some(cut) = base.and_then(|at| list.cuts.get(at)) {
        let panels = piece::panels(cut, &mut told);
        let shape = shape::shape(&panels, list.tent);
        let layers = seat::seat(&list, base, &shape, &mut told);
        let recipe = build::plain(&list, cut, &shape, &layers, notation, name);
        proposals = proposal::proposals(&recipe, &list, &shape, &layers);
        contradictions(&list, &recipe, &layers, &mut told);
        plain = Some(recipe);
    }
    Read {
        lines: told.lines(text, notation),
        assumed: units.assumed,
        proposals,
        plain,
    }
}

/// Whether the first line is a heading: words without a number.
fn is_name(line: &line::Line, text: &str) -> bool {
    let letters = text.chars().any(char::is_alphabetic);
    let digits = text.chars().any(char::is_numeric);
    let said = line
        .said
        .iter()
        .all(|said| matches!(said, line::Said::Of(_)));
    letters && !digits && said && text.chars().count() <= 80
}

/// The piece that is folded: one called base, one with scores, one called card
/// or strip, the first.
fn base(cuts: &[piece::Cut]) -> Option<usize> {
    let find = |fits: &dyn Fn(&piece::Cut) -> bool| cuts.iter().position(fits);
    find(&|cut| cut.kind == Some(Kind::Base))
        .or_else(|| find(&piece::Cut::is_folded))
        .or_else(|| find(&|cut| cut.kind == Some(Kind::Card)))
        .or_else(|| find(&|cut| cut.kind == Some(Kind::Strip)))
        .or_else(|| find(&|cut| cut.kind.is_none()))
        .or_else(|| (!cuts.is_empty()).then_some(0))
}

/// What the list says of the closed card, its border, envelope and sheet, and
/// is not so.
fn contradictions(list: &piece::List, recipe: &Recipe, layers: &[seat::Seated], told: &mut Told) {
    let is = finished(recipe);
    if let Some((line, size)) = list.finished
        && !same_size(size, is)
    {
        told.trouble(line, Trouble::Finished { told: size, is });
    }
    if let Some((line, border)) = list.border {
        let borders = layers.iter().filter_map(|layer| layer.border);
        let borders: Vec<Length> = borders.collect();
        if let Some(is) = borders.first().filter(|_| !borders.contains(&border)) {
            told.trouble(
                line,
                Trouble::Border {
                    told: border,
                    is: *is,
                },
            );
        }
    }
    if let Some((line, envelope)) = list.envelope
        && proposal::room(envelope, is).is_none()
    {
        told.trouble(line, Trouble::Tight(envelope.name));
    }
    if let Some((line, sheet, _)) = list.sheet {
        let base = &recipe.base;
        let strip = Size {
            width: recipe.value(base.length),
            height: recipe.value(base.height),
        };
        if !build::fits(strip, sheet) {
            told.trouble(line, Trouble::Sheet(sheet));
        }
    }
}

fn same_size(a: Size, b: Size) -> bool {
    a == b || a == b.turned()
}
