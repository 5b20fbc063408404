//! The pieces of paper that a card in space is made of: their corners and what
//! they weigh.

use super::Posed;
use crate::card::Card;
use crate::motion::{Rigid, Vector, add, scale};
use crate::paper::StockId;
use crate::plane::{PieceFrame, Point, Region};
use crate::recipe::Recipe;

/// A card as a body: where it may touch the table, and its centre of mass.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Body {
    /// The corners of all panels and layers.
    pub(super) corners: Vec<Vector>,
    /// The centre of mass.
    pub(super) centre: Vector,
}

impl Body {
    /// A posed card; `None` where nothing of it weighs anything.
    pub(super) fn of(recipe: &Recipe, card: &Card, posed: &Posed) -> Option<Self> {
        let mut body = Self {
            corners: Vec::new(),
            centre: [0.0; 3],
        };
        let mut mass = 0.0;
        let mut add_leaf = |place: &Rigid, region: &Region<PieceFrame>, stock: StockId| {
            let weight = recipe
                .stock(stock)
                .map_or(0, |stock| stock.weight.milligrams_per_square_metre());
            #[expect(
                clippy::cast_precision_loss,
                reason = "no paper weighs as much as 2^52 milligrams a square metre"
            )]
            let weight = weight as f64;
            for ring in region.contours() {
                let ring: Vec<[f64; 2]> = ring.iter().map(millimetres).collect();
                let (area, middle) = area_and_middle(&ring);
                let leaf = place.point([middle[0], middle[1], 0.0]);
                body.centre = add(body.centre, scale(leaf, area * weight));
                mass += area * weight;
                let corners = ring.iter().map(|at| place.point([at[0], at[1], 0.0]));
                body.corners.extend(corners);
            }
        };
        for (number, panel) in card.laid.panels.iter().enumerate() {
            let place = posed.panels.get(number).and_then(Option::as_ref);
            let stock = card.laid.piece_with(number).map(|piece| piece.stock);
            if let (Some(place), Some(stock)) = (place, stock) {
                add_leaf(place, &panel.facet.region(), stock);
            }
        }
        for layer in &card.laid.layers {
            let panel = card.laid.index_of(layer.face.panel);
            let place = panel.and_then(|panel| posed.panels.get(panel)?.as_ref());
            let mut readings = card.readings.iter();
            let reading = readings.find(|reading| reading.face == layer.face);
            if let (Some(place), Some(reading)) = (place, reading) {
                let region = reading.place.back().region(&layer.region());
                add_leaf(place, &region, layer.stock);
            }
        }
        body.centre = scale(body.centre, 1.0 / mass);
        (mass > 0.0).then_some(body)
    }
}

fn millimetres(at: &Point<PieceFrame>) -> [f64; 2] {
    [at.x.as_mm_f64(), at.y.as_mm_f64()]
}

/// The area within a ring, negative where its corners go clockwise, and the
/// centre of it, by the sums over its edges that Green's theorem gives.
fn area_and_middle(ring: &[[f64; 2]]) -> (f64, [f64; 2]) {
    let Some(first) = ring.first() else {
        return (0.0, [0.0; 2]);
    };
    let (mut twice, mut sum) = (0.0, [0.0; 2]);
    for (a, b) in ring.iter().zip(ring.iter().skip(1)) {
        let (a, b) = (
            [0, 1].map(|i| a[i] - first[i]),
            [0, 1].map(|i| b[i] - first[i]),
        );
        let turn = a[0] * b[1] - a[1] * b[0];
        twice += turn;
        sum = [0, 1].map(|i| sum[i] + turn * (a[i] + b[i]) / 3.0);
    }
    if twice == 0.0 {
        return (0.0, *first);
    }
    (twice / 2.0, [0, 1].map(|i| first[i] + sum[i] / twice))
}
