//! How thick the closed card is, and where.

use crate::faces::{Lying, Part};
use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{CardFrame, Point, Rect, Region, bounds};
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

/// What lies nearer than this to an edge of the closed card is left out where it is told
/// how even that is: papers end there on every card. (Own choice.)
const EDGE: Length = Length::mm(5);

/// By how much the thickness of a `pile` varies away from its edges; nothing where all
/// of it lies near them.
pub fn uneven(recipe: &Recipe, laid: &LaidOut, pile: &[Lying]) -> Length {
    let corners = pile.iter().flat_map(|lying| {
        let within = lying.cover.within;
        [within.low, within.high]
    });
    let Some(all) = bounds(&corners.collect::<Vec<_>>()) else {
        return Length::ZERO;
    };
    let inner = Rect {
        low: Point::new(all.low.x + EDGE, all.low.y + EDGE),
        high: Point::new(all.high.x - EDGE, all.high.y - EDGE),
    };
    if inner.low.x >= inner.high.x || inner.low.y >= inner.high.y {
        return Length::ZERO;
    }
    let inner = Region::from(inner);
    let most = |papers: &mut dyn Iterator<Item = Paper>| {
        let papers: Vec<_> = papers.collect();
        search(&papers, MOST_LOOKS).map_or(Length::ZERO, |place| place.thickness)
    };
    let paper = |lying: &Lying, region: &Region<CardFrame>| Paper {
        contours: region.contours().collect(),
        caliper: caliper(recipe, laid, lying.part),
    };
    let there = &mut pile
        .iter()
        .map(|lying| paper(lying, &inner.common(&lying.cover.region())));
    // Where most is missing of what could lie there it is thinnest.
    let missing = &mut pile
        .iter()
        .map(|lying| paper(lying, &inner.minus(&lying.cover.region())));
    let all: Length = pile
        .iter()
        .map(|lying| caliper(recipe, laid, lying.part))
        .sum();
    most(there) + most(missing) - all
}

fn caliper(recipe: &Recipe, laid: &LaidOut, part: Part) -> Length {
    let stock = match part {
        Part::Face(face) => laid.stock_of(face.panel),
        Part::Layer(id) | Part::LayerBack(id) => laid.layer(id).map(|layer| layer.stock),
    };
    stock
        .and_then(|stock| recipe.stock(stock))
        .map_or(Length::ZERO, |stock| stock.caliper)
}

/// The thickest place under everything in a `pile`; `None` when there is no
/// paper. A pile of very many shapes that cross each other everywhere may be
/// told a little thicker than it is, never thinner.
pub fn thickest(recipe: &Recipe, laid: &LaidOut, pile: &[Lying]) -> Option<Thickest> {
    let papers: Vec<_> = pile
        .iter()
        .map(|lying| Paper {
            contours: lying.cover.contours(),
            caliper: caliper(recipe, laid, lying.part),
        })
        .collect();
    search(&papers, MOST_LOOKS)
}
