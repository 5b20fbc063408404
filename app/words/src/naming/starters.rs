//! Folds to start from, with the names of a language.

use foldwright_engine::length::Notation;
use foldwright_engine::recipe::{Naming, Recipe, Starter};

use super::keys::{FOLDS, PARTS};
use crate::Tongue;

/// Names the folds to start from, each with what it is good for, in a sentence.
macro_rules! folds {
    ($($id:literal => $name:literal, $about:literal;)+) => {
        const _: () = assert!(
            $crate::naming::keys::are_same(&[$($id),+], $crate::naming::keys::FOLDS),
            "each fold has a name, in the order of the keys"
        );

        /// The name of each fold to start from and, in the line below, what it is
        /// good for.
        pub(crate) static FOLDS: &str = concat!($($name, "\n", $about, "\n"),+);
    };
}

/// Names what the folds to start from are made of. What has no name here is called
/// as its key.
macro_rules! parts {
    ($($key:literal $(=> $name:literal)?,)+) => {
        const _: () = assert!(
            $crate::naming::keys::are_same(&[$($key),+], $crate::naming::keys::PARTS),
            "each part has a name, in the order of the keys"
        );

        /// What each part of the folds to start from is called, in a line; an empty
        /// one where that is its key.
        pub(crate) static PARTS: &str = concat!($($($name,)? "\n"),+);
    };
}

pub(super) use {folds, parts};

/// The names of the folds to start from, and of what they are made of, each on a
/// line.
#[derive(Debug, Clone, Copy)]
pub struct Starters {
    /// The name of each fold and, in the line below, what it is good for, in a
    /// sentence.
    pub(crate) folds: &'static str,
    /// What each part is called; an empty line where that is its key.
    pub(crate) parts: &'static str,
}

impl Starters {
    /// The name of a fold, and what it is good for.
    fn fold(self, id: &str) -> Option<(&'static str, &'static str)> {
        let place = FOLDS.iter().position(|fold| *fold == id)?;
        let mut lines = self.folds.lines().skip(2 * place);
        Some((lines.next()?, lines.next()?))
    }

    /// What a part is called.
    fn part(self, key: &str) -> Option<&'static str> {
        let place = PARTS.iter().position(|part| *part == key)?;
        let called = self.parts.lines().nth(place);
        called.filter(|called| !called.is_empty())
    }
}

/// The recipe of a fold to start from, in a notation, with its names in a
/// language. They are the maker's own from then on.
pub fn starter(tongue: &'static dyn Tongue, starter: &Starter, notation: Notation) -> Recipe {
    let mut recipe = starter.recipe_in(notation);
    let called = tongue.starters();
    if let Some((name, about)) = called.fold(&starter.id) {
        name.clone_into(&mut recipe.name);
        about.clone_into(&mut recipe.about);
    }
    let naming: &dyn Naming = tongue;
    recipe.call(naming, |key| called.part(key));
    recipe
}
