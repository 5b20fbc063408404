//! Changes to what holds: limits, ties between measures, and how much each
//! relation matters.

use std::collections::BTreeSet;

use super::edit::Edited;
use super::{Change, EditError, Holds, Is, MeasureId, Recipe, Relation};
use crate::length::Length;

impl Recipe {
    /// The least and the most a measure may be when the card is refitted.
    /// Nothing moves now.
    pub fn limit(
        &mut self,
        measure: MeasureId,
        least: Option<Length>,
        most: Option<Length>,
    ) -> Edited<Vec<Change>> {
        if least.zip(most).is_some_and(|(least, most)| least > most) {
            return Err(EditError::Limits);
        }
        let mut measures = self.measures.iter_mut();
        let held = measures.find(|held| held.id == measure);
        let held = held.ok_or(EditError::NoMeasure)?;
        (held.least, held.most) = (least, most);
        Ok(Vec::new())
    }

    /// The relations a maker may take away that mention any of some measures, by
    /// their indices.
    pub fn ties_of(&self, measures: &[MeasureId]) -> Vec<usize> {
        let mentions = |held: &Relation| measures.iter().any(|it| held.mentions(*it));
        let held = self.relations.iter().enumerate();
        held.filter(|(_, held)| mentions(held))
            .map(|(index, _)| index)
            .collect()
    }

    /// Ties a measure to another one, so that it stays equal to it. It moves
    /// there now.
    pub fn tie_equal(&mut self, measure: MeasureId, to: MeasureId) -> Edited<Vec<Change>> {
        self.tie(measure, to, Length::ZERO)
    }

    /// Ties a measure to another one, so that it stays as much longer or
    /// shorter as it is now.
    pub fn tie_apart(&mut self, measure: MeasureId, to: MeasureId) -> Edited<Vec<Change>> {
        let apart = self.value(measure) - self.value(to);
        self.tie(measure, to, apart)
    }

    fn tie(&mut self, measure: MeasureId, to: MeasureId, plus: Length) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            recipe.measure(measure).ok_or(EditError::NoMeasure)?;
            recipe.measure(to).ok_or(EditError::NoMeasure)?;
            if measure == to {
                return Err(EditError::NoMeasure);
            }
            let tied = Relation {
                plus,
                ..Relation::same(measure, to)
            };
            if !recipe.relations.contains(&tied) {
                recipe.relations.push(tied);
            }
            Ok(recipe.settle(&[], &[], &[measure])?)
        })
    }

    /// Takes a relation away, by its index among them. Nothing moves.
    pub fn untie(&mut self, index: usize) -> Edited<Vec<Change>> {
        if index >= self.relations.len() {
            return Err(EditError::NoRelation);
        }
        let untied = self.relations.remove(index);
        self.stand_alone(&untied);
        Ok(Vec::new())
    }

    /// Makes what a relation held firmer than the gaps it shares a sum with: of
    /// the two leaves of a gate, once they are untied, each stays where it is
    /// when the other one changes, and the gap between them gives way.
    fn stand_alone(&mut self, untied: &Relation) {
        let freed: BTreeSet<_> = untied.terms().map(|(_, of)| of).collect();
        let sizes: BTreeSet<_> = self.sizes().collect();
        let shared = self.held().into_iter().filter(|held| {
            let here = freed.iter().filter(|it| held.mentions(**it));
            held.is == Is::Equal && here.count() > 1
        });
        let gaps: BTreeSet<_> = shared
            .flat_map(|held| held.terms().map(|(_, of)| of).collect::<Vec<_>>())
            .filter(|of| !freed.contains(of) && !sizes.contains(of))
            .collect();
        let last = self.measures.iter().rposition(|it| freed.contains(&it.id));
        let Some(last) = last else { return };
        let mut order: Vec<_> = std::mem::take(&mut self.measures);
        let behind = order.split_off(last + 1);
        let (gaps, firmer): (Vec<_>, Vec<_>) =
            order.into_iter().partition(|it| gaps.contains(&it.id));
        self.measures = firmer.into_iter().chain(gaps).chain(behind).collect();
    }

    /// Lets a relation be one that must hold, or one that should.
    pub fn let_hold(&mut self, index: usize, holds: Holds) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let relation = recipe.relations.get_mut(index);
            relation.ok_or(EditError::NoRelation)?.holds = holds;
            Ok(recipe.settle(&[], &[], &[])?)
        })
    }

    /// Moves a relation before the one in front of it: of what should hold, the
    /// first ones are given up last.
    pub fn prefer(&mut self, index: usize) -> Edited<Vec<Change>> {
        let before = index.checked_sub(1).ok_or(EditError::NoRelation)?;
        if index >= self.relations.len() {
            return Err(EditError::NoRelation);
        }
        self.relations.swap(before, index);
        Ok(Vec::new())
    }
}
