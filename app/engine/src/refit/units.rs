//! The lengths that the program gave a recipe, in the unit that is asked for: round
//! there too, and not the same length to the last fraction. What the maker decided
//! stays as it is.

use std::borrow::Cow;

use crate::length::{Length, Notation, Unit};
use crate::recipe::{Is, Measure, Recipe, Relation, starters, usual_margin};

/// What makers take in millimetres for a round part of an inch or for round inches
/// (common practice), in 64ths of an inch and hundredths of a millimetre.
const ROUND: [(i64, i64); 9] = [
    (2, 100),
    (4, 150),
    (8, 300),
    (16, 600),
    (24, 1000),
    (32, 1200),
    (48, 2000),
    (64, 2500),
    (96, 4000),
];

/// The length that is as round in a unit; any other length as it is.
pub(super) fn as_round(length: Length, unit: Unit) -> Length {
    let pairs = ROUND.map(|(inch, metric)| {
        let pair = [Length::sixty_fourths(inch), Length::hundredths_mm(metric)];
        match unit {
            Unit::Millimetre => pair,
            Unit::Inch => [pair[1], pair[0]],
        }
    });
    let found = pairs.iter().find(|[from, _]| *from == length);
    found.map_or(length, |[_, to]| *to)
}

/// The same recipe with the rules, the limits and the glue margin that the program
/// gave it in the unit of a notation: what a refit to that notation goes by.
pub fn in_unit_of(recipe: &Recipe, notation: Notation) -> Cow<'_, Recipe> {
    let unit = notation.unit();
    if recipe.notation.unit() == unit {
        return Cow::Borrowed(recipe);
    }
    let mut round = recipe.clone();
    take_to(unit, &mut round);
    Cow::Owned(round)
}

/// Takes to a unit the rules, the limits and the glue margin that the program gave a
/// recipe in the other one.
pub(super) fn take_to(unit: Unit, recipe: &mut Recipe) {
    let former = match unit {
        Unit::Inch => Unit::Millimetre,
        Unit::Millimetre => Unit::Inch,
    };
    let given = |relation: &Relation| is_given(recipe, relation, former);
    let given: Vec<_> = recipe.relations.iter().map(given).collect();
    for (relation, _) in recipe.relations.iter_mut().zip(given).filter(|it| it.1) {
        relation.plus = as_round(relation.plus, unit);
    }
    for measure in &mut recipe.measures {
        let round = |limit: fn(&Measure) -> Option<Length>| {
            let is_given = is_given_limit(measure, limit, former);
            limit(measure).map(|it| if is_given { as_round(it, unit) } else { it })
        };
        let (least, most) = (round(|it| it.least), round(|it| it.most));
        // One that the maker set, or a length held still, may lie between.
        let held = measure.pinned.then_some(measure.value);
        if [least, held, most].into_iter().flatten().is_sorted() {
            (measure.least, measure.most) = (least, most);
        }
    }
    if recipe.glue_margin == usual_margin(former) {
        recipe.glue_margin = usual_margin(unit);
    }
}

/// Whether a rule is one that a fold to start from has, about the same measures and
/// with its own length in a unit.
fn is_given(recipe: &Recipe, relation: &Relation, unit: Unit) -> bool {
    relation.is != Is::Equal
        && starters().iter().any(|starter| {
            let mut given = starter.recipe.relations.iter();
            let is_same = |given: &Relation| {
                let plus = in_unit(given.plus, unit);
                let Relation {
                    left,
                    is,
                    right,
                    plus: _,
                    holds,
                } = given;
                (&relation.left, relation.is, &relation.right) == (left, *is, right)
                    && (relation.plus, relation.holds) == (plus, *holds)
            };
            let about_same = relation.terms().all(|(_, id)| {
                let of = |recipe: &Recipe| recipe.measure(id).map(|measure| measure.of);
                of(recipe) == of(&starter.recipe)
            });
            about_same && given.any(is_same)
        })
}

/// Whether a limit of a measure is one that a fold to start from has for the same
/// measure, with its length in a unit.
fn is_given_limit(measure: &Measure, limit: fn(&Measure) -> Option<Length>, unit: Unit) -> bool {
    let Some(length) = limit(measure) else {
        return false;
    };
    starters().iter().any(|starter| {
        let given = starter.recipe.measure(measure.id);
        given.is_some_and(|given| {
            let its = limit(given).map(|its| in_unit(its, unit));
            given.of == measure.of && its == Some(length)
        })
    })
}

/// A length of a fold to start from, as that has it in a unit.
fn in_unit(length: Length, unit: Unit) -> Length {
    match unit {
        Unit::Inch => length,
        Unit::Millimetre => as_round(length, unit),
    }
}
