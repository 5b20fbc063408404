//! Moving what lies somewhere: it keeps its size.

use std::collections::BTreeSet;

use super::edit::{EditError, Edited};
use super::{Change, Cut, Is, LayerId, MeasureId, Piece, Placing, Recipe, Shaped};
use crate::length::Length;

impl Recipe {
    /// Puts a layer so that its left and its bottom edge are so far from those of what
    /// carries it, and gives it that width and height. It is then held by its
    /// distances, and of no other shape than its own.
    pub fn put_layer(
        &mut self,
        id: LayerId,
        [left, bottom, width, height]: [Length; 4],
    ) -> Edited<Vec<Change>> {
        let layer = self.layer(id).ok_or(EditError::NoLayer)?;
        let asked = [
            (layer.left, left),
            (layer.bottom, bottom),
            (layer.width, width),
            (layer.height, height),
        ];
        self.whole(|recipe| {
            recipe.place_layer(id, Placing::Distances)?;
            Ok(recipe.settle(&asked, &[], &[])?)
        })
    }

    /// How every layer and every window is placed.
    pub fn placings(&self) -> Vec<(Shaped, Placing)> {
        let layers = self.layers.iter();
        let layers = layers.map(|layer| (Shaped::Layer(layer.id), layer.place));
        let windows = self
            .cutouts()
            .filter_map(|(_, it)| Some((Shaped::Window(it.id), it.cut.window()?.place)));
        layers.chain(windows).collect()
    }

    /// What is placed otherwise than it was, and how it is placed now.
    pub fn placed_anew(&self, before: &[(Shaped, Placing)]) -> Vec<(Shaped, Placing)> {
        let now = self.placings().into_iter();
        let changed = now.filter(|(of, placing)| {
            let was = before.iter().find(|(it, _)| it == of);
            was.is_some_and(|(_, was)| was != placing)
        });
        changed.collect()
    }

    /// Makes ready for a new value of a measure. What it places at a point or by
    /// an even border is placed by its distances from now on, so that it moves
    /// and keeps its size.
    pub(super) fn let_move(&mut self, measure: MeasureId) {
        let before = self.part_measures().collect();
        let moved = self.tied_with(measure);
        for layer in &mut self.layers {
            let is_moved = moved.contains(&layer.left) || moved.contains(&layer.bottom);
            if is_moved && !layer.follows() {
                layer.place = Placing::Distances;
            }
        }
        for strip in self.strips_mut() {
            let cuts = strip.cutouts.iter_mut().map(|cutout| &mut cutout.cut);
            for window in cuts.filter_map(Cut::window_mut) {
                if moved.contains(&window.left) || moved.contains(&window.bottom) {
                    window.place = Placing::Distances;
                }
            }
        }
        self.drop_measures_gone(&before);
    }

    /// A measure with those that the maker tied to it, equal or apart.
    fn tied_with(&self, measure: MeasureId) -> BTreeSet<MeasureId> {
        let mut tied = BTreeSet::from([measure]);
        loop {
            let before = tied.len();
            for held in self.relations.iter().filter(|held| held.is == Is::Equal) {
                let terms: Vec<_> = held.terms().collect();
                if let [(1, a), (-1, b)] = terms[..]
                    && (tied.contains(&a) || tied.contains(&b))
                {
                    tied.extend([a, b]);
                }
            }
            if tied.len() == before {
                return tied;
            }
        }
    }

    /// What else to ask for where a measure is the beginning of a line that a
    /// piece is laid along: the line moves, and its other end with it.
    pub(super) fn carried_ends(&self, measure: MeasureId, to: Length) -> Vec<(MeasureId, Length)> {
        let by = to - self.value(measure);
        let sizes: Vec<_> = self.sizes().collect();
        let marks = self.pieces.iter().flat_map(Piece::marks);
        marks
            .flat_map(|mark| [(mark.from.x, mark.to.x), (mark.from.y, mark.to.y)])
            .filter(|(from, to)| *from == measure && to != from && !sizes.contains(from))
            .map(|(_, to)| (to, self.value(to) + by))
            .collect()
    }
}
