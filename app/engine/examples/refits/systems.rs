//! Random systems of relations, made from a seed.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step, nearest};
use foldwright_engine::recipe::{Holds, Is, Measure, MeasureId, Recipe, Relation, Term, starters};

/// Numbers that look random, the same for a seed everywhere (the multiplier of
/// Knuth's MMIX generator).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn of(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5eed)
    }

    pub(crate) fn roll(&mut self, sides: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap_or(0) % sides.max(1)
    }

    pub(crate) fn between(&mut self, least: i64, most: i64) -> i64 {
        let sides = usize::try_from(most - least + 1).unwrap_or(1);
        least + i64::try_from(self.roll(sides)).unwrap_or(0)
    }

    pub(crate) fn one_of<'a, T>(&mut self, all: &'a [T]) -> Option<&'a T> {
        all.get(self.roll(all.len()))
    }
}

/// Measures that stand apart from any card, under relations of whole numbers:
/// half of the systems have an answer for sure.
pub(crate) fn system(seed: u64, measures: usize) -> Option<Recipe> {
    let dice = &mut Dice::of(seed);
    let own = starters().iter().find(|starter| starter.id == "own")?;
    let step = Step::Millimetre;
    let mut recipe = own.recipe_in(Notation {
        step,
        decimal: DecimalMark::Point,
    });
    recipe.relations.clear();
    for measure in &mut recipe.measures {
        (measure.least, measure.most) = (None, None);
        measure.value = nearest(measure.value, step).at;
    }
    let solvable = dice.roll(2) == 0;
    let mut answer: Vec<(MeasureId, i64)> = Vec::new();
    for number in 0..measures {
        let id = MeasureId(1000 + u32::try_from(number).ok()?);
        let value = dice.between(1, 120);
        let mut measure = Measure::new(id, format!("measure {number}"), Length::mm(value));
        let there = (value + dice.between(-25, 25)).max(1);
        let near = if solvable { there } else { value };
        if dice.roll(3) == 0 {
            let under = if solvable { 0 } else { -4 };
            measure.least = Some(Length::mm(near - dice.between(under, 30)));
        }
        if dice.roll(3) == 0 {
            measure.most = Some(Length::mm(near + dice.between(0, 30)));
        }
        if !solvable && dice.roll(9) == 0 {
            measure.pinned = true;
        }
        answer.push((id, near));
        recipe.measures.insert(number, measure);
    }
    for _ in 0..=measures / 2 + dice.roll(measures / 2) {
        let terms = (0..=dice.roll(4)).filter_map(|_| {
            let (of, there) = *dice.one_of(&answer)?;
            Some((*[-3, -2, -1, 1, 2, 3].get(dice.roll(6))?, of, there))
        });
        let terms: Vec<_> = terms.collect();
        let there: i64 = terms.iter().map(|(times, _, there)| times * there).sum();
        let is = [Is::Equal, Is::Equal, Is::AtLeast, Is::AtMost][dice.roll(4)];
        let holds = if dice.roll(3) == 0 {
            Holds::Should
        } else {
            Holds::Must
        };
        let off = match (solvable && holds == Holds::Must, is) {
            (true, Is::Equal) => 0,
            (true, Is::AtLeast) => -dice.between(0, 10),
            (true, Is::AtMost) => dice.between(0, 10),
            (false, _) => dice.between(-25, 25),
        };
        let terms: Vec<_> = terms.iter().map(|(times, of, _)| (*times, *of)).collect();
        push(&mut recipe, &terms, is, Length::mm(there + off), holds);
    }
    Some(recipe)
}

/// Adds a relation: terms, and what they are compared with.
pub(crate) fn push(
    recipe: &mut Recipe,
    terms: &[(i64, MeasureId)],
    is: Is,
    plus: Length,
    holds: Holds,
) {
    let left = terms.iter().map(|(times, of)| Term {
        times: *times,
        of: *of,
    });
    recipe.relations.push(Relation {
        left: left.collect(),
        is,
        right: Vec::new(),
        plus,
        holds,
    });
}
