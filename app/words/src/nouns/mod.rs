//! What makers call the parts of a card.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::length::Length;
use foldwright_engine::plane::Edge;

/// How far something reaches past all four edges, where that is equally far.
fn all_round(edges: &[(Edge, Length)]) -> Option<Length> {
    let (_, by) = edges.first()?;
    let equal = edges.len() == 4 && edges.iter().all(|(_, it)| it == by);
    equal.then_some(*by)
}
