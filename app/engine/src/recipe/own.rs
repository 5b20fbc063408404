//! Measures that no part is made of: the gap between two leaves, the depth of a
//! step, the width all panels share.

use std::collections::BTreeSet;

use super::{Is, MeasureId, Piece, Recipe, StripId};

impl Recipe {
    /// The measures that are no part's own and only stand in relations: those
    /// that an equation ties to a piece glued in, or the others, which are the
    /// base's. In the recipe's order.
    pub fn shared_measures(&self, of: StripId) -> Vec<MeasureId> {
        let parts: BTreeSet<_> = self.part_measures().collect();
        let measures = self.measures.iter().map(|measure| measure.id);
        let shared = measures.filter(|id| !parts.contains(id));
        shared.filter(|id| self.strip_tied_to(*id) == of).collect()
    }

    /// The first piece with a measure of which an equation speaks together with
    /// this one, or else the base.
    fn strip_tied_to(&self, id: MeasureId) -> StripId {
        let is_tied = |piece: &&Piece| {
            let own = piece.strip.measures();
            let own = own.chain(piece.marks().flat_map(|mark| mark.measures()));
            let own: BTreeSet<_> = own.collect();
            let mut relations = self.relations.iter();
            relations.any(|held| {
                let mut terms = held.terms();
                held.is == Is::Equal
                    && held.mentions(id)
                    && terms.any(|(_, other)| other != id && own.contains(&other))
            })
        };
        let tied = self.pieces.iter().find(is_tied);
        tied.map_or(StripId::Base, |piece| StripId::Piece(piece.id))
    }
}
