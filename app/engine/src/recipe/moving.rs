//! Moving what lies somewhere: it keeps its size.

use std::collections::BTreeSet;

use super::{Cut, Is, MeasureId, Piece, Place, Recipe, Shaped};
use crate::length::Length;

impl Recipe {
    /// How every layer and every window is placed.
    pub fn places(&self) -> Vec<(Shaped, Place)> {
        let layers = self.layers.iter();
        let layers = layers.map(|layer| (Shaped::Layer(layer.id), layer.place));
        let windows = self
            .cutouts()
            .filter_map(|(_, it)| Some((Shaped::Window(it.id), it.cut.window()?.place)));
        layers.chain(windows).collect()
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
                layer.place = Place::Distances;
            }
        }
        for strip in self.strips_mut() {
            let cuts = strip.cutouts.iter_mut().map(|cutout| &mut cutout.cut);
            for window in cuts.filter_map(Cut::window_mut) {
                if moved.contains(&window.left) || moved.contains(&window.bottom) {
                    window.place = Place::Distances;
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
