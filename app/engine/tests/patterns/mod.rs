//! Patterns to try things on.

use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Line, LineId, LineKind, Pattern};
use foldwright_engine::plane::{PieceFrame, Point, Polygon};
use foldwright_engine::recipe::Fold;

/// A point of the piece, in millimetres.
pub(crate) fn at(x: i64, y: i64) -> Point<PieceFrame> {
    Point::new(Length::mm(x), Length::mm(y))
}

/// A polygon of corners in millimetres.
pub(crate) fn polygon(corners: &[Spot]) -> Polygon<PieceFrame> {
    Polygon {
        corners: corners.iter().map(|(x, y)| at(*x, *y)).collect(),
    }
}

/// A sheet in millimetres, without holes and lines.
pub(crate) fn sheet(width: i64, height: i64) -> Pattern {
    Pattern {
        outline: polygon(&[(0, 0), (width, 0), (width, height), (0, height)]),
        holes: Vec::new(),
        lines: Vec::new(),
    }
}

/// Reads 'M' and 'V' as creases, anything else as a cut.
pub(crate) fn kind(label: char) -> LineKind {
    match label {
        'M' => LineKind::Crease(Fold::Mountain),
        'V' => LineKind::Crease(Fold::Valley),
        _ => LineKind::Cut,
    }
}

/// Adds a line, named by its place.
pub(crate) fn draw(
    pattern: &mut Pattern,
    label: char,
    from: Point<PieceFrame>,
    to: Point<PieceFrame>,
) -> LineId {
    let last = pattern.lines.last().map(|line| line.id.0);
    let id = LineId(last.map_or(0, |last| last + 1));
    pattern.lines.push(Line {
        id,
        from,
        to,
        kind: kind(label),
    });
    id
}

/// A point in millimetres.
pub(crate) type Spot = (i64, i64);

/// A sheet with lines in millimetres: label, one end, the other.
pub(crate) fn drawn(width: i64, height: i64, lines: &[(char, Spot, Spot)]) -> Pattern {
    let mut pattern = sheet(width, height);
    for (label, from, to) in lines {
        draw(&mut pattern, *label, at(from.0, from.1), at(to.0, to.1));
    }
    pattern
}
