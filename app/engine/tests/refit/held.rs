//! Recipes to try things on, and relations checked from scratch.

use foldwright_engine::length::{Length, Notation};
use foldwright_engine::recipe::{Is, Measure, MeasureId, Recipe, Relation, starters};

/// The starter of that name in a notation.
pub(crate) fn starter(id: &str, notation: Notation) -> Recipe {
    let starter = starters().iter().find(|starter| starter.id == id);
    starter.expect("a known starter").recipe_in(notation)
}

/// A strip of one panel whose measures stand last and are left alone.
pub(crate) fn one_panel(notation: Notation) -> Recipe {
    let mut recipe = starter("tent", notation);
    let names = ["height", "length", "panel width", "allowance"];
    recipe.measures = names
        .into_iter()
        .zip(100..)
        .map(|(name, id)| Measure::new(MeasureId(id), name.to_owned(), Length::mm(100)))
        .collect();
    recipe.relations.clear();
    recipe.layers.clear();
    recipe.upright.clear();
    recipe.base.panels.truncate(1);
    recipe.base.folds.clear();
    recipe.base.height = MeasureId(100);
    recipe.base.length = MeasureId(101);
    recipe.base.panels[0].width = MeasureId(102);
    recipe.base.rests = recipe.base.panels[0].id;
    recipe.folding_in.allowance = MeasureId(103);
    recipe
}

/// Whether a relation holds exactly.
pub(crate) fn holds(recipe: &Recipe, relation: &Relation) -> bool {
    let side = |terms: &[foldwright_engine::recipe::Term]| {
        let terms = terms.iter();
        let units = |id| i128::from(recipe.value(id).units());
        terms
            .map(|term| i128::from(term.times) * units(term.of))
            .sum::<i128>()
    };
    let left = side(&relation.left);
    let right = side(&relation.right) + i128::from(relation.plus.units());
    match relation.is {
        Is::Equal => left == right,
        Is::AtLeast => left >= right,
        Is::AtMost => left <= right,
    }
}
