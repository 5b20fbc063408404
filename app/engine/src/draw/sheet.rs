//! Pieces on the sheet they are cut from.

use super::{Affine, Drawing, Fill, Ink, Mark, Role, Spot, millimetres};
use crate::length::{Length, Notation};
use crate::paper::Stock;
use crate::plane::Size;

/// A sheet, its face up and its print upright, with as many pieces of a size
/// as it gives in rows, from its upper left corner.
pub fn sheet(stock: &Stock, piece: Size, notation: Notation) -> Drawing {
    let size = [stock.width, stock.height].map(millimetres);
    let mut marks = vec![Mark::Area {
        outlines: vec![corners([0.0, 0.0], size)],
        fill: Fill::Paper {
            colour: stock.face.colour,
            print: stock.face.print,
            place: Affine {
                x: [1.0, 0.0],
                y: [0.0, 1.0],
                origin: [0.0, 0.0],
            },
            shade: 0.0,
        },
        edged: true,
        part: None,
    }];
    for column in 0..times(stock.width, piece.width) {
        for row in 0..times(stock.height, piece.height) {
            let left = millimetres(piece.width * column);
            let top = millimetres(stock.height - piece.height * row);
            let low = [left, top - millimetres(piece.height)];
            let high = [left + millimetres(piece.width), top];
            let outline = corners(low, high);
            let next = outline.iter().cycle().skip(1);
            marks.extend(outline.iter().zip(next).map(|(from, to)| Mark::Line {
                from: *from,
                to: *to,
                ink: Ink::Edge,
                line: None,
            }));
        }
    }
    let gap = size[0].max(size[1]) / 16.0;
    for (at, length) in [
        ([size[0] / 2.0, -gap], stock.width),
        ([-gap * 1.4, size[1] / 2.0], stock.height),
    ] {
        marks.push(Mark::Text {
            at,
            words: notation.plain(length),
            role: Role::Length,
        });
    }
    Drawing::framed(marks, 0.04)
}

fn times(sheet: Length, part: Length) -> i64 {
    let whole = sheet.div_rem(part.units());
    // A drawing of more pieces than anybody counts says no more than this.
    whole.map_or(0, |(count, _)| count.units().clamp(0, 100))
}

fn corners(low: Spot, high: Spot) -> Vec<Spot> {
    vec![low, [high[0], low[1]], high, [low[0], high[1]]]
}
