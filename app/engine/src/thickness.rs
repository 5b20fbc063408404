//! How thick the closed card is, and where.

use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{CardFrame, Point, Rect};
use crate::recipe::Recipe;
use crate::show::Part;

/// The thickest place of a pile of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Thickest {
    /// All calipers there together; glue and air are left out.
    pub thickness: Length,
    /// How many layers of paper lie there.
    pub sheets: usize,
    /// A corner of the place.
    pub at: Point<CardFrame>,
}

/// The thickest place under everything in a `pile`; `None` when there is no
/// paper.
pub fn thickest(
    recipe: &Recipe,
    laid: &LaidOut,
    pile: &[(Part, Rect<CardFrame>)],
) -> Option<Thickest> {
    let caliper = |part: Part| {
        let stock = match part {
            Part::Face(_) => Some(laid.base.stock),
            Part::Layer(id) | Part::LayerBack(id) => laid.layer(id).map(|layer| layer.stock),
        };
        stock
            .and_then(|stock| recipe.stock(stock))
            .map_or(Length::ZERO, |stock| stock.caliper)
    };
    let over = |at: Point<CardFrame>| {
        let here = pile.iter().filter(|(_, covers)| {
            let (low, high) = (covers.low, covers.high);
            low.x <= at.x && at.x < high.x && low.y <= at.y && at.y < high.y
        });
        let (mut sheets, mut thickness) = (0, Length::ZERO);
        for (part, _) in here {
            sheets += 1;
            thickness += caliper(*part);
        }
        Thickest {
            thickness,
            sheets,
            at,
        }
    };
    // Going left and down from a thickest place, the first sheets end at the
    // left edge of one and the lower edge of one.
    pile.iter()
        .flat_map(|(_, a)| pile.iter().map(|(_, b)| Point::new(a.low.x, b.low.y)))
        .map(over)
        .max_by_key(|place| (place.thickness, place.sheets))
}
