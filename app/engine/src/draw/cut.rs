//! A layer as it is cut: its outline within its width and height.

use super::flat::contours;
use super::{Affine, Drawing, Fill, Ink, Mark, Role, millimetres, spot};
use crate::card::Card;
use crate::draw::look::look;
use crate::faces::Part;
use crate::laid::LaidLayer;
use crate::recipe::{LayerId, Recipe};

/// A layer by itself, its face up, with its width and height; nothing for one
/// that is not laid out.
pub fn cut_layer(recipe: &Recipe, card: &Card, id: LayerId) -> Drawing {
    let marks = card.laid.layer(id);
    let marks = marks.map(|laid| marks_of(recipe, card, laid));
    Drawing::framed(marks.unwrap_or_default(), 0.06)
}

fn marks_of(recipe: &Recipe, card: &Card, laid: &LaidLayer) -> Vec<Mark> {
    let (low, high) = (spot(laid.at.low), spot(laid.at.high));
    let place = Affine {
        x: [1.0, 0.0],
        y: [0.0, 1.0],
        origin: low,
    };
    let fill = look(recipe, card, Part::Layer(laid.id)).map(|look| look.fill(&place, 0.0));
    let mut marks = vec![Mark::Area {
        outlines: contours(&laid.region()),
        fill: fill.unwrap_or(Fill::Ground),
        edged: true,
        part: None,
    }];
    if laid.shape.is_some() {
        marks.push(Mark::Outline {
            corners: laid.at.corners().map(spot).to_vec(),
            ink: Ink::Hidden,
        });
    }
    let size = laid.at.size();
    let gap = millimetres(size.width.max(size.height)) / 12.0;
    let middle = [0, 1].map(|i| f64::midpoint(low[i], high[i]));
    for (at, length) in [
        ([middle[0], high[1] + gap], size.width),
        ([low[0] - gap * 1.6, middle[1]], size.height),
    ] {
        marks.push(Mark::Text {
            at,
            words: recipe.notation.plain(length),
            role: Role::Length,
        });
    }
    marks
}
