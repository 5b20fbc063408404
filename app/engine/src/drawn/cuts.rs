//! What is cut out of the rectangle round a pattern.

use super::Undrawn;
use super::measures::{Across, Measures};
use crate::length::Length;
use crate::pattern::{Line, TOUCHES_WITHIN};
use crate::plane::{PieceFrame, Point, Polygon, Rect, Region, SAME_WITHIN, Segment};
use crate::recipe::{
    Cut, Cutout, CutoutId, New, Outline, Owner, Parts, Placing, Role, Traced, Untraced, Window,
};

/// Cuts out of a sheet what is not paper. Lines that end at what is cut out reach a
/// little into it where its shape, which is kept in shares of its size, leaves them
/// short.
pub(super) fn cut_away(
    paper: &Region<PieceFrame>,
    sheet: Rect<PieceFrame>,
    across: &Across<'_>,
    measures: &mut Measures<'_>,
    lines: &mut [Line],
) -> Result<Vec<Cutout>, Undrawn> {
    let waste = Region::from(sheet).minus(paper);
    let parts: Vec<Polygon<PieceFrame>> = waste
        .contours()
        .map(|corners| Polygon { corners })
        .filter(|part| part.area() > 0)
        .collect();
    if parts.len() > Parts::Cutouts.most() {
        return Err(Undrawn::TooMany {
            parts: Parts::Cutouts,
            number: parts.len(),
        });
    }
    let mut cutouts: Vec<Cutout> = Vec::with_capacity(parts.len());
    let mut edges = 0;
    let mut left = Region::from(sheet);
    for (number, part) in (1..).zip(&parts) {
        let within = part.bounds().ok_or(Undrawn::Outline)?;
        let outline = if part.as_rectangle().is_some() {
            Outline::Straight
        } else {
            let (traced, _) = Traced::of(part, &[]).map_err(|why| match why {
                Untraced::Empty => Undrawn::Outline,
                Untraced::Crossed | Untraced::TooFine(_) => Undrawn::TooFine,
            })?;
            Outline::Traced(traced)
        };
        let is_edge = within.low.x == sheet.low.x
            || within.low.y == sheet.low.y
            || within.high.x == sheet.high.x
            || within.high.y == sheet.high.y;
        edges += usize::from(is_edge);
        let (new, count) = if is_edge {
            (New::Edge, edges)
        } else {
            (New::Window, cutouts.len() + 1 - edges)
        };
        let id = CutoutId(number);
        let name = called(new, count, measures);
        let cutout = cutout(id, name, within, outline, across, measures);
        let cutout = cutout.ok_or(Undrawn::Outline)?;
        left = left.minus(&taken(&cutout, within));
        cutouts.push(cutout);
    }
    let rims: Vec<Segment<PieceFrame>> = left
        .contours()
        .flat_map(|corners| Polygon { corners }.sides().collect::<Vec<_>>())
        .collect();
    let due: Vec<Segment<PieceFrame>> = parts.iter().flat_map(Polygon::sides).collect();
    for line in lines {
        line.from = reached(line.to, line.from, &due, &rims);
        line.to = reached(line.from, line.to, &due, &rims);
    }
    Ok(cutouts)
}

/// What a cutout takes away, as its outline is kept.
fn taken(cutout: &Cutout, within: Rect<PieceFrame>) -> Region<PieceFrame> {
    match cutout.cut.window().map(|window| &window.outline) {
        Some(Outline::Traced(traced)) => traced.within(&within).region.unwrap_or_default(),
        _ => Region::from(within),
    }
}

fn called(new: New<'_>, count: usize, measures: &Measures<'_>) -> String {
    let first = measures.naming.name(new);
    match count {
        0 | 1 => first,
        again => measures.naming.name(New::Again(&first, again)),
    }
}

fn cutout(
    id: CutoutId,
    name: String,
    within: Rect<PieceFrame>,
    outline: Outline,
    across: &Across<'_>,
    measures: &mut Measures<'_>,
) -> Option<Cutout> {
    let begun = across.starts.iter().zip(across.panels).rev();
    let (start, panel) = begun
        .into_iter()
        .find(|(start, _)| **start <= within.low.x)?;
    let mut measure = |is, value| measures.of_part(&name, Owner::Cutout(id), is, value);
    let size = within.size();
    let window = Window {
        width: measure(Role::Width, size.width),
        height: measure(Role::Height, size.height),
        left: measure(Role::Left, within.low.x - *start),
        bottom: measure(Role::Bottom, within.low.y),
        place: Placing::Distances,
        outline,
    };
    Some(Cutout {
        id,
        name,
        panel: panel.id,
        cut: Cut::Window(window),
    })
}

/// The end of a line, a little further where it ends at what is cut out and that came out
/// beyond it.
fn reached(
    from: Point<PieceFrame>,
    end: Point<PieceFrame>,
    due: &[Segment<PieceFrame>],
    rims: &[Segment<PieceFrame>],
) -> Point<PieceFrame> {
    let ends_there = |sides: &[Segment<PieceFrame>], reach: Length| {
        sides
            .iter()
            .any(|side| Segment::new(side.nearest_to(end), end).length() <= reach)
    };
    let long = Segment::new(from, end).length();
    if long <= SAME_WITHIN || !ends_there(due, TOUCHES_WITHIN) {
        return end;
    }
    // Half of what counts as touching: the other half is for what follows.
    if ends_there(rims, Length::from_units(TOUCHES_WITHIN.units() / 2)) {
        return end;
    }
    let further = |from: Length, to: Length| {
        let way = i128::from((to - from).units()) * i128::from(SAME_WITHIN.units());
        let way = way
            .checked_div(i128::from(long.units()))
            .unwrap_or_default();
        to + Length::from_units(i64::try_from(way).unwrap_or_default())
    };
    Point::new(further(from.x, end.x), further(from.y, end.y))
}
