//! How thick the closed card is, and where.

use crate::faces::{Lying, Part};
use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{CardFrame, Point};
use crate::recipe::Recipe;

mod slab;

use slab::{Paper, search};

/// How many edges are looked at in all before what may lie above a place counts
/// as lying there: far more than any card that can be made takes, and some
/// hundredths of a second. (Own choice.)
const MOST_LOOKS: usize = 500_000;

/// The thickest place of a pile of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Thickest {
    /// All calipers there together; glue and air are left out.
    pub thickness: Length,
    /// How many layers of paper lie there.
    pub sheets: usize,
    /// Its lower left corner, or one near it.
    pub at: Point<CardFrame>,
}

/// The thickest place under everything in a `pile`; `None` when there is no
/// paper. A pile of very many shapes that cross each other everywhere may be
/// told a little thicker than it is, never thinner.
pub fn thickest(recipe: &Recipe, laid: &LaidOut, pile: &[Lying]) -> Option<Thickest> {
    let caliper = |part: Part| {
        let stock = match part {
            Part::Face(face) => laid.stock_of(face.panel),
            Part::Layer(id) | Part::LayerBack(id) => laid.layer(id).map(|layer| layer.stock),
        };
        stock
            .and_then(|stock| recipe.stock(stock))
            .map_or(Length::ZERO, |stock| stock.caliper)
    };
    let papers: Vec<_> = pile
        .iter()
        .map(|lying| Paper {
            contours: lying.cover.contours(),
            caliper: caliper(lying.part),
        })
        .collect();
    search(&papers, MOST_LOOKS)
}
