//! Parts on the sheet they are cut from.

use super::{Affine, Drawing, Fill, Ink, Mark, Role, Spot, millimetres, spot};
use crate::card::Card;
use crate::length::{Length, Notation};
use crate::paper::Stock;
use crate::part::Part;
use crate::plane::{Point, Rect, SheetFrame, Size};
use crate::recipe::{Fold, Recipe, Side};

/// The sheet a part is cut from, its face up and its print upright, with as many
/// of the part as it gives in rows, from its upper left corner, each as it is to
/// lie there: a strip with its scores, and the name of its first panel where
/// that lies. One that is cut at a place of its sheet lies there alone, with how far
/// that is from the left and the upper edge. `None` where there is no such part, or no
/// paper of it.
pub fn part_on_sheet(recipe: &Recipe, card: &Card, part: Part) -> Option<Drawing> {
    let blank = card.cut_list.of(part)?;
    let lay = blank.lies.as_ref()?.lay;
    let stock = recipe.stock(blank.stock)?;
    let ground = Rect::at(Point::new(Length::ZERO, Length::ZERO), blank.size);
    let strip = match part {
        Part::Strip(of) => Some((card.laid.piece(of)?, recipe.strip(of)?.panels.first()?)),
        Part::Layer(_) => None,
    };
    let ink = |fold: Fold| match (fold, lay.on_table().up) {
        (Fold::Mountain, Side::A) | (Fold::Valley, Side::B) => Ink::Mountain,
        (Fold::Valley, Side::A) | (Fold::Mountain, Side::B) => Ink::Valley,
    };
    let mut marks = vec![paper(stock)];
    let lies = lay.size(blank.size);
    let places: Vec<_> = match blank.at {
        Some(at) => vec![at],
        None => rows(stock, lies).collect(),
    };
    for (number, low) in places.into_iter().enumerate() {
        let placed = lay.placed(blank.size, low);
        edges(placed.rect(&ground), &mut marks);
        let Some((piece, first)) = strip else {
            continue;
        };
        marks.extend(piece.creases.iter().map(|crease| Mark::Line {
            from: spot(placed.point(crease.from)),
            to: spot(placed.point(crease.to)),
            ink: ink(crease.fold),
            line: None,
        }));
        if number == 0 {
            let middle = Point::new(
                recipe.value(first.width).half_down(),
                blank.size.height.half_down(),
            );
            marks.push(Mark::Text {
                at: spot(placed.point(middle)),
                words: first.name.clone(),
                role: Role::Label,
            });
        }
    }
    if let Some(at) = blank.at {
        marks.extend(from_edges(stock, recipe.notation, Rect::at(at, lies)));
    }
    Some(framed(stock, recipe.notation, marks))
}

/// How far a place is from the left and the upper edge of its sheet, where that is
/// anything.
fn from_edges(stock: &Stock, notation: Notation, at: Rect<SheetFrame>) -> Vec<Mark> {
    let (low, high) = (spot(at.low), spot(at.high));
    let middle = [0, 1].map(|i| f64::midpoint(low[i], high[i]));
    let top = millimetres(stock.height);
    let ways = [
        (at.low.x, [0.0, middle[1]], [low[0], middle[1]]),
        (
            stock.height - at.high.y,
            [middle[0], top],
            [middle[0], high[1]],
        ),
    ];
    let ways = ways
        .into_iter()
        .filter(|(length, ..)| *length > Length::ZERO);
    let marks = ways.flat_map(|(length, from, to)| {
        let ruled = Mark::Line {
            from,
            to,
            ink: Ink::Dimension,
            line: None,
        };
        let written = Mark::Text {
            at: [0, 1].map(|i| f64::midpoint(from[i], to[i])),
            words: notation.plain(length),
            role: Role::Length,
        };
        [ruled, written]
    });
    marks.collect()
}

fn paper(stock: &Stock) -> Mark {
    let size = [stock.width, stock.height].map(millimetres);
    Mark::Area {
        outlines: vec![corners([0.0, 0.0], size)],
        fill: Fill::of_paper(stock.face, size, Affine::UNMOVED, 0.0),
        edged: true,
        part: None,
    }
}

/// A drawing of more pieces beside each other than anybody counts says no more
/// than one of so many.
const MOST_DRAWN: i64 = 100;

/// The lower left corners of pieces in rows.
fn rows(stock: &Stock, piece: Size) -> impl Iterator<Item = Point<SheetFrame>> {
    let [columns, rows] = stock.rows(piece).map(|times| times.min(MOST_DRAWN));
    let top = stock.height - piece.height;
    (0..columns).flat_map(move |column| {
        (0..rows).map(move |row| Point::new(piece.width * column, top - piece.height * row))
    })
}

fn edges(at: Rect<SheetFrame>, marks: &mut Vec<Mark>) {
    let outline = corners(spot(at.low), spot(at.high));
    let next = outline.iter().cycle().skip(1);
    marks.extend(outline.iter().zip(next).map(|(from, to)| Mark::Line {
        from: *from,
        to: *to,
        ink: Ink::Edge,
        line: None,
    }));
}

/// With the lengths of the sheet's lower and left edges.
fn framed(stock: &Stock, notation: Notation, mut marks: Vec<Mark>) -> Drawing {
    let size = [stock.width, stock.height].map(millimetres);
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

pub(super) fn corners(low: Spot, high: Spot) -> Vec<Spot> {
    vec![low, [high[0], low[1]], high, [low[0], high[1]]]
}
