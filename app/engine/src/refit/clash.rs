//! Why there is no such card: the least set of causes that rule each other out.

use std::collections::BTreeSet;

use super::grid::Grid;
use super::model::{Held, Model, Tried};
use super::{Cause, Free, Wish};
use crate::length::Length;
use crate::program::Overflow;
use crate::recipe::Recipe;

/// Why a card cannot be refitted as wished.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Clash {
    /// These cannot hold together. Without any one of them they could.
    Between {
        /// The causes, a wish before what the recipe says.
        causes: Vec<Cause>,
        /// Whether they could on finer marks.
        marks: bool,
    },
    /// The search was cut short before a card was found.
    CutShort,
    /// The numbers in the relations are too large to be worked with.
    TooTangled,
}

impl Clash {
    /// Leaves out of what clashes each in turn, and puts it back where the
    /// rest no longer clash.
    pub(super) fn least(model: &Model, from: BTreeSet<usize>) -> Result<Self, Overflow> {
        let mut held: Vec<&Held> = from
            .into_iter()
            .filter_map(|at| model.hard.get(at))
            .collect();
        // What cannot be helped is left out first, so that what is named can.
        held.sort_by_key(|held| (held.cause.free().is_some(), held.cause));
        let mut at = 0;
        while at < held.len() {
            let mut fewer = held.clone();
            fewer.remove(at);
            match model.solve(fewer.iter().copied())? {
                // Only these of the rest are needed; what is behind stays in
                // its order.
                Tried::Impossible(needed) => {
                    let place = |number: &usize| *number < at || needed.contains(number);
                    held = (0..fewer.len())
                        .filter(place)
                        .filter_map(|number| fewer.get(number).copied())
                        .collect();
                }
                Tried::Found(_) | Tried::CutShort => at += 1,
            }
        }
        let mut finest = model.clone();
        finest.grids = vec![Grid::marks(Length::from_units(1)); model.grids.len()];
        let marks = matches!(finest.solve(held.iter().copied())?, Tried::Found(_));
        let mut causes: Vec<_> = held.iter().map(|held| held.cause).collect();
        causes.sort_unstable();
        causes.dedup();
        Ok(Self::Between { causes, marks })
    }

    /// How far the card is from what can be: nearer where only the marks are in
    /// the way, then where fewer causes are.
    pub(super) fn distance(&self) -> (bool, usize) {
        match self {
            Self::Between { causes, marks } => (!marks, causes.len()),
            Self::CutShort | Self::TooTangled => (true, usize::MAX),
        }
    }

    /// What would each by itself free the card.
    pub fn ways_out(&self) -> Vec<Free> {
        match self {
            Self::Between { causes, .. } => causes.iter().filter_map(|it| it.free()).collect(),
            Self::CutShort | Self::TooTangled => Vec::new(),
        }
    }

    /// What is wrong and what to do, in the maker's words.
    pub fn words(&self, recipe: &Recipe, wish: &Wish) -> String {
        match self {
            Self::Between { causes, marks } => {
                let notation = wish.notation.unwrap_or(recipe.notation);
                let causes: Vec<_> = causes.iter().map(|it| it.words(recipe, wish)).collect();
                let on_marks = if *marks {
                    let step = notation.step.words(notation.decimal);
                    format!(" on marks of {step}")
                } else {
                    String::new()
                };
                let out = self.ways_out().into_iter();
                let out = out.map(|it| it.words(recipe, wish));
                let finer = marks.then(|| "take a finer step".to_owned());
                let out: Vec<_> = out.chain(finer).collect();
                format!(
                    "These cannot all be{on_marks}: {}. One of these would help: {}.",
                    causes.join("; "),
                    out.join("; ")
                )
            }
            Self::CutShort => {
                "No card was found in good time. Pin or free a measure, or take a relation away."
                    .to_owned()
            }
            Self::TooTangled => {
                "The relations of this recipe are too tangled to work out. Take one away."
                    .to_owned()
            }
        }
    }
}
