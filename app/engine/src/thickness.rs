//! How thick the closed card is, and where.

use crate::fold::Cover;
use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{CardFrame, Point, Region};
use crate::recipe::Recipe;
use crate::show::{Lying, Part};

/// The thickest place of a pile of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Thickest {
    /// All calipers there together; glue and air are left out.
    pub thickness: Length,
    /// How many layers of paper lie there.
    pub sheets: usize,
    /// The lowest left corner round the place.
    pub at: Point<CardFrame>,
}

/// The thickest place under everything in a `pile`; `None` when there is no
/// paper.
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
        .map(|lying| (&lying.cover, caliper(lying.part)))
        .collect();
    if papers.iter().all(|(cover, _)| cover.shape.is_none()) {
        return thickest_of_rectangles(&papers);
    }
    thickest_of_shapes(&papers)
}

type Paper<'a> = (&'a Cover, Length);

fn thickest_of_rectangles(papers: &[Paper<'_>]) -> Option<Thickest> {
    let over = |at: Point<CardFrame>| {
        let here = papers.iter().filter(|(cover, _)| {
            let (low, high) = (cover.within.low, cover.within.high);
            low.x <= at.x && at.x < high.x && low.y <= at.y && at.y < high.y
        });
        let (mut sheets, mut thickness) = (0, Length::ZERO);
        for (_, caliper) in here {
            sheets += 1;
            thickness += *caliper;
        }
        Thickest {
            thickness,
            sheets,
            at,
        }
    };
    // Going left and down from a thickest place, the first sheets end at the
    // left edge of one and the lower edge of one.
    papers
        .iter()
        .flat_map(|(a, _)| {
            let lower = papers.iter();
            lower.map(|(b, _)| Point::new(a.within.low.x, b.within.low.y))
        })
        .map(over)
        .max_by_key(|place| (place.thickness, place.sheets))
}

/// Sheet by sheet: the places that lie under equally much paper so far.
fn thickest_of_shapes(papers: &[Paper<'_>]) -> Option<Thickest> {
    let mut places: Vec<(Region<CardFrame>, Length, usize)> = Vec::new();
    for (cover, caliper) in papers {
        let mut rest = cover.region();
        let mut next = Vec::new();
        for (place, thickness, sheets) in places {
            let under = place.common(&rest);
            if under.is_empty() {
                next.push((place, thickness, sheets));
                continue;
            }
            rest = rest.minus(&place);
            let beside = place.minus(&under);
            next.push((under, thickness + *caliper, sheets + 1));
            if !beside.is_empty() {
                next.push((beside, thickness, sheets));
            }
        }
        if !rest.is_empty() {
            next.push((rest, *caliper, 1));
        }
        // Places under equally much paper are one.
        places = Vec::new();
        for (place, thickness, sheets) in next {
            let same = places
                .iter_mut()
                .find(|known| (known.1, known.2) == (thickness, sheets));
            match same {
                Some(known) => known.0 = known.0.and(&place),
                None => places.push((place, thickness, sheets)),
            }
        }
    }
    let thickest = places
        .into_iter()
        .max_by_key(|(_, thickness, sheets)| (*thickness, *sheets));
    thickest.and_then(|(place, thickness, sheets)| {
        Some(Thickest {
            thickness,
            sheets,
            at: place.bounds()?.low,
        })
    })
}
