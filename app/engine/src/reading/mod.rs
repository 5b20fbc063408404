//! From a list of measures, as people write them, to a recipe.
//!
//! [`read`] takes lines in the trade's words, in English, German, French, Dutch
//! or Spanish, and finds pieces, scores and layers. What it could not read stays
//! beside its line. Where the list leaves open how its base folds, the likeliest
//! [`Folding`]s come with it, for the maker to choose from. What the numbers
//! suggest comes as [`Proposal`]s, each with its evidence;
//! [`Read::into_recipe`] makes a recipe of those the maker takes.

mod apply;
mod build;
mod choose;
mod folding;
mod lexicon;
mod line;
mod names;
mod numbers;
mod outside;
mod piece;
mod proposal;
mod seat;
mod sense;
mod shape;
mod token;
mod told;
mod units;
mod walk;

pub use folding::Suggests;
pub use proposal::{Evidence, Proposal, ProposalKey, Suggestion};
pub use sense::{Aside, Way};
pub use shape::FoldForm;
pub use told::{
    Meaning, Missed, OfLength, OfSize, ReadLine, Remark, SeatedFor, Understood, Unlikely, Unread,
    WayRound,
};
pub use units::{Assumed, UnitFor};

use outside::Outside;
use seat::{Seated, Seating};
use sense::{Kind, Language};
use shape::Shape;
use told::Told;
use units::Units;

use crate::card::closed_size;
use crate::length::{Length, Notation};
use crate::plane::Size;
use crate::problem::Trouble;
use crate::recipe::{Face, Fold, Naming, Recipe, fits};
use crate::sorted::InOrder as _;

/// The most lines of a list, and the most characters of a line, that are looked
/// at. Our own bounds.
pub const MOST_LINES: usize = 300;
const MOST_CHARACTERS: usize = 500;

/// A list that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// Every line that is looked at, in order, with what became of it; and the
    /// first that is not, which says so.
    pub lines: Vec<ReadLine>,
    /// How the list writes its lengths.
    pub notation: Notation,
    /// What was taken for granted about units, where something was.
    pub assumed: Option<Assumed>,
    /// The ways the base may fold, the likeliest first: several where the list
    /// leaves it open, one where it does not, none without a base.
    pub foldings: Vec<Folding>,
    /// The folding that was taken, by its index among them.
    pub folded: usize,
    /// What the numbers suggest, in the order of the pieces.
    pub proposals: Vec<Proposal>,
}

/// A way the base of a list may fold.
#[derive(Debug, Clone, PartialEq)]
pub struct Folding {
    /// How it folds.
    pub form: FoldForm,
    /// Why it may be meant.
    pub why: Suggests,
    /// Which folding it is, so that it is known again when the list has changed.
    pub key: FoldingKey,
    /// The card folded so: every piece in its place, with no relation but that.
    pub recipe: Recipe,
}

/// Which folding one is: its folds in order and the panel that rests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FoldingKey {
    folds: Vec<Fold>,
    rests: usize,
}

impl Read {
    /// Whether there is a piece to make a card of.
    pub const fn has_card(&self) -> bool {
        !self.foldings.is_empty()
    }

    /// Whether the list leaves open how the base folds.
    pub const fn asks_for_folds(&self) -> bool {
        self.foldings.len() > 1
    }

    /// The proposals that are taken where the maker says nothing.
    pub fn usual(&self) -> Vec<bool> {
        self.proposals.iter().map(|it| it.accepted).collect()
    }

    /// The recipe with the proposals that are taken, in their order; `None`
    /// where the list has no piece to make a card of.
    pub fn into_recipe(&self, accepted: &[bool], naming: &dyn Naming) -> Option<Recipe> {
        let mut recipe = self.foldings.get(self.folded)?.recipe.clone();
        let taken = self.proposals.iter().zip(accepted);
        for (proposal, _) in taken.filter(|(_, accepted)| **accepted) {
            proposal.apply(&mut recipe, naming);
        }
        Some(recipe)
    }
}

/// Reads a list. `usual` is how the maker writes lengths where the list leaves
/// it open, `naming` names what the list leaves without a name. Never panics,
/// whatever the text.
pub fn read(text: &str, usual: Notation, naming: &dyn Naming) -> Read {
    read_folded(text, usual, None, naming)
}

/// The same with a folding that the maker chose, where the list still leaves it
/// open.
pub fn read_folded(
    text: &str,
    usual: Notation,
    chosen: Option<&FoldingKey>,
    naming: &dyn Naming,
) -> Read {
    let mut told = Told::default();
    let mut languages: Vec<Language> = Vec::new();
    let mut lines = Vec::new();
    let mut name = None;
    for (number, text) in text.lines().take(MOST_LINES).enumerate() {
        let (line, spoken) = one_line(number, text, &mut told, &mut name);
        languages.extend(spoken);
        lines.push(line);
    }
    if text.lines().nth(MOST_LINES).is_some() {
        told.trouble(MOST_LINES, Trouble::TooLong);
    }
    let units = Units::of(&lines, &languages, usual);
    for (line, remark) in &units.remarks {
        told.remark(*line, *remark);
    }
    let list = piece::gather(&lines, &units, &mut told);
    let notation = units.notation(&told.lengths, &lines, usual);
    let list = Listed {
        list,
        notation,
        name,
        naming,
    };
    let mut made = list.made(&mut told);
    let folded = made
        .iter()
        .position(|made| Some(&made.folding.key) == chosen)
        .unwrap_or(0);
    let mut proposals = Vec::new();
    if let Some(taken) = made.get_mut(folded) {
        told = std::mem::take(&mut taken.told);
        let recipe = &taken.folding.recipe;
        proposals = proposal::proposals(recipe, &list.list, &taken.shape, &taken.layers);
        contradictions(&list.list, recipe, &taken.layers, &mut told);
    }
    Read {
        lines: told.lines(text),
        notation,
        assumed: units.assumed,
        foldings: made.into_iter().map(|made| made.folding).collect(),
        folded,
        proposals,
    }
}

/// Reads one line, and takes a heading above the list for the recipe's name.
fn one_line(
    number: usize,
    text: &str,
    told: &mut Told,
    name: &mut Option<String>,
) -> (line::Line, Vec<Language>) {
    let end = text.char_indices().nth(MOST_CHARACTERS);
    let end = end.map_or(text.len(), |(end, _)| end);
    let (placed, spoken) = token::tokens(text.get(..end).unwrap_or_default());
    if end < text.len() {
        told.unread(number, end..text.len(), Missed::Rest);
    }
    let mut line = line::line(&placed);
    if number == 0 && is_name(&line, text) {
        told.understand(0, 0..text.len(), Meaning::Name);
        *name = Some(text.trim().to_owned());
        line.left.clear();
        line.said.clear();
    }
    told.left(number, std::mem::take(&mut line.left));
    for (at, count) in std::mem::take(&mut line.counts) {
        told.understand(number, at, Meaning::Pieces(count));
    }
    (line, spoken)
}

/// A list in exact lengths.
struct Listed<'a> {
    list: piece::List,
    notation: Notation,
    name: Option<String>,
    naming: &'a dyn Naming,
}

/// The card of a list folded one way.
struct Made {
    folding: Folding,
    shape: Shape,
    layers: Vec<Seated>,
    /// What is told of the list when it is folded so.
    told: Told,
    /// How many pieces could not lie where the list says.
    misplaced: usize,
}

impl Listed<'_> {
    /// The card folded each way it may be, the likeliest first.
    fn made(&self, told: &mut Told) -> Vec<Made> {
        let Some(base) = base(&self.list.cuts) else {
            for cut in &self.list.cuts {
                told.trouble(cut.line, Trouble::NoBase);
            }
            return Vec::new();
        };
        let Some(cut) = self.list.cuts.get(base) else {
            return Vec::new();
        };
        let panels = piece::panels(cut, told);
        let foldings = folding::foldings(&panels, self.list.way, self.list.tent);
        let mut made: Vec<(bool, Made)> = foldings
            .into_iter()
            .map(|likely| self.folded(base, cut, likely, told))
            .collect();
        // Paper that would have to pass through paper is no choice.
        if made.iter().any(|(is_flat, _)| *is_flat) {
            made.retain(|(is_flat, _)| *is_flat);
        }
        let mut made: Vec<Made> = made.into_iter().map(|(_, made)| made).collect();
        // Where pieces go speaks before widths do.
        made.put_in_order_by_key(|made| made.misplaced);
        made
    }

    /// The card folded one way, and whether that can lie flat.
    fn folded(
        &self,
        base: usize,
        cut: &piece::Cut,
        likely: folding::Likely,
        told: &Told,
    ) -> (bool, Made) {
        let folding::Likely { shape, why } = likely;
        let name = self.name.as_deref();
        let plain = |layers: &[Seated]| {
            let (list, naming) = (&self.list, self.naming);
            build::plain(list, cut, &shape, layers, self.notation, name, naming)
        };
        let bare = plain(&[]);
        let outside = Outside::of(&bare);
        let is_flat = outside.is_some();
        let outside = outside.unwrap_or_else(|| Outside::of_book(&shape));
        let mut told = told.clone();
        let seats = Seating {
            list: &self.list,
            base,
            shape: &shape,
            outside: &outside,
            told: &mut told,
            naming: self.naming,
        }
        .seat();
        let mut recipe = plain(&seats.layers);
        let front = outside.front.first().and_then(|(index, side)| {
            let panel = bare.base.panels.get(*index)?.id;
            Some(Face { panel, side: *side })
        });
        recipe.upright = front.into_iter().collect();
        let made = Made {
            folding: Folding {
                form: shape.form,
                why,
                key: FoldingKey {
                    folds: shape.folds.clone(),
                    rests: shape.rests,
                },
                recipe,
            },
            layers: seats.layers,
            misplaced: seats.misplaced,
            shape,
            told,
        };
        (is_flat, made)
    }
}

/// Whether the first line is a heading: words without a number.
fn is_name(line: &line::Line, text: &str) -> bool {
    let letters = text.chars().any(char::is_alphabetic);
    let digits = text.chars().any(char::is_numeric);
    let said = line.said.iter().all(|said| {
        matches!(
            said,
            line::Said::Of(_) | line::Said::Way(..) | line::Said::Tent
        )
    });
    letters && !digits && said && text.chars().count() <= 80
}

/// The piece that is folded: one called base, one with scores, one called card
/// or strip, the first; never a round one.
fn base(cuts: &[piece::Cut]) -> Option<usize> {
    let find = |fits: &dyn Fn(&piece::Cut) -> bool| {
        cuts.iter().position(|cut| !cut.is_round() && fits(cut))
    };
    find(&|cut| cut.kind == Some(Kind::Base))
        .or_else(|| find(&piece::Cut::is_folded))
        .or_else(|| find(&|cut| cut.kind == Some(Kind::Card)))
        .or_else(|| find(&|cut| cut.kind == Some(Kind::Strip)))
        .or_else(|| find(&|cut| cut.kind.is_none()))
        .or_else(|| find(&|_| true))
}

/// What the list says of the closed card, its border, envelope and sheet, and
/// is not so.
fn contradictions(list: &piece::List, recipe: &Recipe, layers: &[seat::Seated], told: &mut Told) {
    let is = closed_size(recipe);
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
        told.trouble(line, Trouble::Tight(envelope));
    }
    if let Some((line, sheet, _)) = list.sheet {
        let base = &recipe.base;
        let strip = Size {
            width: recipe.value(base.length),
            height: recipe.value(base.height),
        };
        if !fits(strip, sheet) {
            told.trouble(line, Trouble::Sheet(sheet));
        }
    }
}

fn same_size(a: Size, b: Size) -> bool {
    a == b || a == b.turned()
}
