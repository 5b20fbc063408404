//! What is left of a strip once windows, corners and edges are cut out of it.

use super::flaw::flawed;
use crate::length::Length;
use crate::pattern::{Facet, MOST_CORNERS};
use crate::plane::{PieceFrame, Point, Polygon, Rect, Region, Size, arc};
use crate::problem::{CutoutFinding, Finding, Place, Problem};
use crate::recipe::{
    Bend, Cut, Cutout, EdgeForm, EdgeSide, Flaw, PanelId, Recipe, Shaped, Strip, Which, bent, part,
};

/// The paper that is left, and what falls off.
pub(crate) struct Paper {
    /// Its edge.
    pub(crate) outline: Polygon<PieceFrame>,
    /// What is cut out of it.
    pub(crate) holes: Vec<Polygon<PieceFrame>>,
    /// What falls off.
    pub(crate) waste: Vec<Facet>,
    /// What is wrong with what is cut out.
    pub(crate) problems: Vec<Problem>,
}

/// Cuts out of a strip what is cut out of its panels; `ends` is where each of
/// these ends.
pub(crate) fn cut_out(
    recipe: &Recipe,
    strip: &Strip,
    sheet: Rect<PieceFrame>,
    ends: &[Length],
) -> Paper {
    let mut problems = Vec::new();
    let whole = Region::from(sheet);
    let mut left = whole.clone();
    for cutout in &strip.cutouts {
        let Some(ground) = ground(strip, sheet, ends, cutout.panel) else {
            problems.push(found(cutout, CutoutFinding::NoPanel));
            continue;
        };
        let taken = match taken(recipe, strip, cutout, ground, &mut problems) {
            Some(taken) => whole.common(&taken),
            None => continue,
        };
        if taken.is_empty() {
            problems.push(found(cutout, CutoutFinding::Beside));
            continue;
        }
        let rest = left.minus(&taken);
        let parts = outlines_of(&rest).count();
        let corners: usize = rest.contours().map(|corners| corners.len()).sum();
        if corners > MOST_CORNERS {
            problems.push(found(cutout, CutoutFinding::TooManyCorners));
        } else if parts == 1 || sheet.is_empty() {
            left = rest;
        } else {
            let is = if parts == 0 {
                CutoutFinding::LeavesNothing
            } else {
                CutoutFinding::Parts
            };
            problems.push(found(cutout, is));
        }
    }
    let mut paper = Paper {
        outline: sheet.into(),
        holes: Vec::new(),
        waste: Vec::new(),
        problems,
    };
    if left == whole {
        return paper;
    }
    for contour in left.contours() {
        let polygon = Polygon { corners: contour };
        if polygon.area() > 0 {
            paper.outline = polygon;
        } else {
            paper.holes.push(anticlockwise(polygon));
        }
    }
    paper.waste = facets(&whole.minus(&left));
    paper
}

/// A panel on the flat strip.
fn ground(
    strip: &Strip,
    sheet: Rect<PieceFrame>,
    ends: &[Length],
    panel: PanelId,
) -> Option<Rect<PieceFrame>> {
    let index = strip.index_of(panel)?;
    let start = index.checked_sub(1).and_then(|before| ends.get(before));
    let start = start.copied().unwrap_or(sheet.low.x);
    Some(Rect::spanning(
        Point::new(start, sheet.low.y),
        Point::new(*ends.get(index)?, sheet.high.y),
    ))
}

fn outlines_of(region: &Region<PieceFrame>) -> impl Iterator<Item = Polygon<PieceFrame>> {
    let polygons = region.contours().map(|corners| Polygon { corners });
    polygons.filter(|polygon| polygon.area() > 0)
}

fn anticlockwise(mut hole: Polygon<PieceFrame>) -> Polygon<PieceFrame> {
    hole.corners.reverse();
    hole
}

/// The parts of a region.
fn facets(region: &Region<PieceFrame>) -> Vec<Facet> {
    let mut facets: Vec<Facet> = Vec::new();
    for corners in region.contours() {
        let polygon = Polygon { corners };
        match facets.last_mut() {
            // An outline comes before its holes.
            Some(facet) if polygon.area() < 0 => facet.holes.push(anticlockwise(polygon)),
            _ => facets.push(Facet {
                outline: polygon,
                holes: Vec::new(),
                slits: Vec::new(),
            }),
        }
    }
    facets
}

/// What one cut takes away, perhaps past the strip.
fn taken(
    recipe: &Recipe,
    strip: &Strip,
    cutout: &Cutout,
    ground: Rect<PieceFrame>,
    problems: &mut Vec<Problem>,
) -> Option<Region<PieceFrame>> {
    match &cutout.cut {
        Cut::Window(window) => {
            let at = recipe.window_on_strip(cutout.id)?;
            let drawn = window.outline.within(recipe, &at);
            let of = Shaped::Window(cutout.id);
            problems.extend(drawn.flaw.map(|flaw| flawed(of, flaw)));
            Some(drawn.region.unwrap_or_else(|| Region::from(at)))
        }
        Cut::Corners { radius, which } => {
            let sides = [EdgeSide::Left, EdgeSide::Right];
            let mut free = sides
                .into_iter()
                .filter(|side| strip.is_free(cutout.panel, *side))
                .peekable();
            if free.peek().is_none() {
                problems.push(found(cutout, CutoutFinding::NoFreeCorner));
                return None;
            }
            let size = ground.size();
            let (asked, room) = (
                recipe.value(*radius),
                size.width.min(size.height.half_down()),
            );
            if asked > room {
                problems.push(flawed(Shaped::Window(cutout.id), Flaw::TooRound));
            }
            let radius = asked.min(room);
            let corners = free.flat_map(|side| rounded(ground, side, *which, radius));
            Some(corners.fold(Region::default(), |all, corner| all.and(&corner)))
        }
        Cut::Edge { side, form, depth } => {
            if !strip.is_free(cutout.panel, *side) {
                problems.push(found(cutout, CutoutFinding::AtScore));
                return None;
            }
            let taken = beside_edge(ground, *side, form, recipe.value(*depth));
            Some(Region::from(&taken))
        }
    }
}

/// What rounding takes off the corners at an end of the strip.
fn rounded(
    ground: Rect<PieceFrame>,
    side: EdgeSide,
    which: Which,
    radius: Length,
) -> impl Iterator<Item = Region<PieceFrame>> {
    let (low, high) = (ground.low, ground.high);
    let back = Length::ZERO - radius;
    let (x, inwards) = match side {
        EdgeSide::Right => (high.x, back),
        EdgeSide::Left | EdgeSide::Top | EdgeSide::Bottom => (low.x, radius),
    };
    let upper = (which != Which::Lower).then_some((high.y, back));
    let lower = (which != Which::Upper).then_some((low.y, radius));
    [upper, lower].into_iter().flatten().map(move |(y, down)| {
        let corner = Point::new(x, y);
        let square =
            |times: i64| Rect::spanning(corner, Point::new(x + inwards * times, y + down * times));
        let circle = Polygon::rounded(&square(2), square(2).size());
        Region::from(square(1)).minus(&Region::from(&circle))
    })
}

/// What lies between an edge as it was and as it is cut.
fn beside_edge(
    ground: Rect<PieceFrame>,
    side: EdgeSide,
    form: &EdgeForm,
    depth: Length,
) -> Polygon<PieceFrame> {
    let (low, high) = (ground.low, ground.high);
    let Size { width, height } = ground.size();
    // Along the edge and inwards from it.
    let upright = matches!(side, EdgeSide::Left | EdgeSide::Right);
    let long = if upright { height } else { width };
    let across = if upright { width } else { height };
    let depth = depth.min(across);
    let at = |along: Length, inwards: Length| match side {
        EdgeSide::Left => Point::new(low.x + inwards, low.y + along),
        EdgeSide::Right => Point::new(high.x - inwards, low.y + along),
        EdgeSide::Bottom => Point::new(low.x + along, low.y + inwards),
        EdgeSide::Top => Point::new(low.x + along, high.y - inwards),
    };
    let nothing = Length::ZERO;
    // Walking along the edge, inwards is to the right or to the left.
    let outwards = match side {
        EdgeSide::Left | EdgeSide::Top => -1,
        EdgeSide::Right | EdgeSide::Bottom => 1,
    };
    let wave = |begin: Length, end: Length, inwards: Length, rise: Length| {
        let (from, to) = (at(begin, inwards), at(end, inwards));
        let mut points = vec![from];
        points.extend(arc(from, to, rise * outwards));
        points.push(to);
        points
    };
    let mut corners: Vec<Point<PieceFrame>> = match form {
        EdgeForm::Arch => {
            let rise = depth.min(long.half_down());
            wave(nothing, long, rise, rise)
        }
        EdgeForm::Hollow => {
            let rise = depth.min(long.half_down());
            wave(nothing, long, nothing, nothing - rise)
        }
        EdgeForm::Scallops(count) => {
            let count = i64::from(*count).max(1);
            let rise = depth.min(part(long, 1, 2 * count));
            (0..count)
                .flat_map(|number| {
                    let begin = part(long, number, count);
                    wave(begin, part(long, number + 1, count), rise, rise)
                })
                .collect()
        }
        EdgeForm::Points(count) => {
            let count = i64::from(*count).max(1);
            (0..=2 * count)
                .map(|number| {
                    let inwards = if number % 2 == 0 { depth } else { nothing };
                    at(part(long, number, 2 * count), inwards)
                })
                .collect()
        }
        EdgeForm::Cut(bends) => {
            let at = |bend: &Bend| {
                let along = part(long, bend.x.into(), Bend::WHOLE);
                at(along, part(depth, bend.y.into(), Bend::WHOLE))
            };
            let next = bends.iter().skip(1);
            let ways = bends.iter().zip(next).flat_map(|(bend, next)| {
                let bow = if outwards < 0 { -bend.bow } else { bend.bow };
                bent(at(bend), at(next), bow)
            });
            ways.chain(bends.last().map(at)).collect()
        }
    };
    // Back past the edge, so that nothing of it is left standing.
    let beyond = nothing - Length::mm(1);
    corners.push(at(long, beyond));
    corners.push(at(nothing, beyond));
    corners.dedup();
    Polygon { corners }
}

fn found(cutout: &Cutout, is: CutoutFinding) -> Problem {
    let place = Place::Cutout(cutout.id);
    let cutout = cutout.id;
    let finding = Finding::Cutout { cutout, is };
    match is {
        CutoutFinding::LeavesNothing | CutoutFinding::Parts => Problem::stop(place, finding),
        _ => Problem::warning(place, finding),
    }
}
