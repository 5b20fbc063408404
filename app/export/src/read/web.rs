//! Vertices and edges as a flat pattern in exact lengths.

use std::collections::BTreeMap;

use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Line, LineId, LineKind, Pattern, TOUCHES_WITHIN};
use foldwright_engine::plane::{PieceFrame, Point, Polygon, SAME_WITHIN, Segment};
use foldwright_engine::recipe::Fold;

use super::border::border;
use super::file::count;
use super::straight::joined;
use super::{Change, Refusal};

/// What an edge is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Is {
    /// The border of the paper.
    Border,
    /// A crease.
    Crease(Fold),
    /// A crease that may be mountain or valley.
    Unassigned,
    /// A crease that stays flat.
    Flat,
    /// A cut with paper on both sides.
    Cut,
}

/// Vertices and edges as they stand in a file.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Web {
    pub(super) vertices: Vec<[f64; 2]>,
    /// Each with the indices of its ends.
    pub(super) edges: Vec<([usize; 2], Is)>,
}

type Spot = Point<PieceFrame>;

impl Web {
    /// The corners of the rectangle round the border, or round all edges where none is
    /// told to be one.
    fn bounds(&self) -> [[f64; 2]; 2] {
        let borders = self.edges.iter().filter(|(_, is)| *is == Is::Border);
        let mut ends: Vec<usize> = borders.flat_map(|(ends, _)| *ends).collect();
        if ends.is_empty() {
            ends = self.edges.iter().flat_map(|(ends, _)| *ends).collect();
        }
        let places = ends.iter().filter_map(|end| self.vertices.get(*end));
        let mut bounds = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
        for place in places {
            for (axis, at) in place.iter().enumerate() {
                bounds[0][axis] = bounds[0][axis].min(*at);
                bounds[1][axis] = bounds[1][axis].max(*at);
            }
        }
        bounds
    }

    /// How long the longer side of the sheet is, in the file's lengths.
    pub(super) fn longest(&self) -> f64 {
        let [low, high] = self.bounds();
        (high[0] - low[0]).max(high[1] - low[1])
    }

    /// The pattern at so many millimetres for one of the file's lengths, its lower left
    /// corner at the origin; and how far points were moved at most, nothing where that is
    /// less than shows.
    pub(super) fn pattern(
        &self,
        scale: f64,
        changes: &mut BTreeMap<Change, usize>,
    ) -> Result<(Pattern, Length), Refusal> {
        let longest = self.longest();
        if longest.max(0.0) == 0.0 {
            return Err(Refusal::NoPattern);
        }
        let longest = longest * scale;
        if !longest.is_finite() || longest > Length::LIMIT.as_mm_f64() {
            return Err(Refusal::TooLong);
        }
        let [low, _] = self.bounds();
        let mut spots = Vec::with_capacity(self.vertices.len());
        for vertex in &self.vertices {
            let [x, y] = [0, 1].map(|axis| Length::near_mm((vertex[axis] - low[axis]) * scale));
            spots.push(Spot::new(x, y));
        }
        let (same, drawn_together) = merged(&mut spots);
        let edges = self.once(&same, changes);
        let (rings, edges) = border(&spots, edges)?;
        let moved = drawn_together.max(straightened(&rings, &mut spots));
        let moved = Some(moved).filter(|moved| *moved > TOUCHES_WITHIN);
        let moved = moved.map_or(Length::ZERO, in_microns);
        let (outline, holes) = sheet(&rings, &spots)?;
        let lines = lines(&spots, edges, &outline, &holes, changes);
        let pattern = Pattern {
            outline,
            holes,
            lines,
        };
        Ok((at_origin(pattern), moved))
    }

    /// Each pair of ends once, by vertices that are one: a border told twice is the slit
    /// between two borders.
    fn once(
        &self,
        same: &[usize],
        changes: &mut BTreeMap<Change, usize>,
    ) -> BTreeMap<[usize; 2], Is> {
        let mut all: BTreeMap<[usize; 2], Vec<Is>> = BTreeMap::new();
        for (ends, is) in &self.edges {
            let [a, b] = ends.map(|end| same.get(end).copied().unwrap_or(end));
            if a == b {
                count(changes, Change::Point, 1);
            } else {
                all.entry([a.min(b), a.max(b)]).or_default().push(*is);
            }
        }
        let once = all.into_iter().map(|(ends, told)| {
            let borders = told.iter().filter(|is| **is == Is::Border).count();
            let first = told.first().copied().unwrap_or(Is::Flat);
            let is = match borders {
                0 if told.contains(&Is::Cut) => Is::Cut,
                0 => first,
                1 => Is::Border,
                _ => Is::Cut,
            };
            let is_told = |it: &Is| *it == is || is == Is::Cut && *it == Is::Border;
            let others = told.iter().filter(|it| !is_told(it));
            count(changes, Change::Twice, others.count());
            (ends, is)
        });
        once.collect()
    }
}

/// A length rounded up to whole microns, to be told.
const fn in_microns(of: Length) -> Length {
    let micron = Length::microns(1).units();
    Length::microns((of.units() + micron - 1) / micron)
}

/// A direction in which places are told.
#[derive(Clone, Copy)]
enum Axis {
    X,
    Y,
}

impl Axis {
    const fn of(self, at: Spot) -> Length {
        match self {
            Self::X => at.x,
            Self::Y => at.y,
        }
    }
}

/// Makes vertices one that are so near that paper does not show it: for each the index
/// of the one it is; and how far they were moved at most.
fn merged(spots: &mut [Spot]) -> (Vec<usize>, Length) {
    let mut order: Vec<usize> = (0..spots.len()).collect();
    order.sort_by_key(|index| (spots[*index], *index));
    let mut same: Vec<usize> = (0..spots.len()).collect();
    let mut kept: Vec<usize> = Vec::new();
    for index in order {
        let at = spots[index];
        let near = kept.iter().rev();
        let mut near = near.take_while(|it| at.x - spots[**it].x <= SAME_WITHIN);
        let known = near.find(|it| (at.y - spots[**it].y).abs() <= SAME_WITHIN);
        match known {
            Some(known) => same[index] = *known,
            None => kept.push(index),
        }
    }
    let mut most = Length::ZERO;
    for index in 0..spots.len() {
        let (at, to) = (spots[index], spots[same[index]]);
        most = most.max((at.x - to.x).abs()).max((at.y - to.y).abs());
        spots[index] = to;
    }
    (same, most)
}

/// Moves sides of the border that nearly lie along the rectangle round it onto that, and
/// tells how far at most.
fn straightened(rings: &[Vec<usize>], spots: &mut [Spot]) -> Length {
    let corners = rings.iter().flatten().filter_map(|it| spots.get(*it));
    let corners: Vec<Spot> = corners.copied().collect();
    let Some(within) = (Polygon { corners }).bounds() else {
        return Length::ZERO;
    };
    let mut moves: Vec<(usize, Axis, Length)> = Vec::new();
    for ring in rings {
        for (from, to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            for axis in [Axis::X, Axis::Y] {
                let ends = [from, to].map(|it| axis.of(spots[*it]));
                for edge in [within.low, within.high].map(|corner| axis.of(corner)) {
                    if ends.iter().all(|at| (*at - edge).abs() <= SAME_WITHIN) {
                        moves.extend([(*from, axis, edge), (*to, axis, edge)]);
                    }
                }
            }
        }
    }
    let mut most = Length::ZERO;
    for (index, axis, edge) in moves {
        let at = &mut spots[index];
        most = most.max((axis.of(*at) - edge).abs());
        match axis {
            Axis::X => at.x = edge,
            Axis::Y => at.y = edge,
        }
    }
    most
}

/// The outline and the holes among the rings of a border.
fn sheet(
    rings: &[Vec<usize>],
    spots: &[Spot],
) -> Result<(Polygon<PieceFrame>, Vec<Polygon<PieceFrame>>), Refusal> {
    let polygon = |ring: &Vec<usize>| {
        let corners = ring.iter().filter_map(|it| spots.get(*it)).copied();
        let mut polygon = Polygon {
            corners: corners.collect(),
        };
        if polygon.area() < 0 {
            polygon.corners.reverse();
        }
        polygon
    };
    let mut polygons: Vec<_> = rings.iter().map(polygon).collect();
    polygons.sort_by_key(Polygon::area);
    let outline = polygons.pop().ok_or(Refusal::NoBorder)?;
    let first = |of: &Polygon<PieceFrame>| of.corners.first().copied();
    let is_within = |hole: &Polygon<PieceFrame>, of: &Polygon<PieceFrame>| {
        first(hole).is_some_and(|at| of.holds(at))
    };
    let astray = polygons.iter().enumerate().any(|(number, hole)| {
        let mut others = polygons.iter().enumerate();
        !is_within(hole, &outline)
            || others.any(|(other, of)| other != number && is_within(hole, of))
    });
    if astray {
        return Err(Refusal::Sheets);
    }
    Ok((outline, polygons))
}

/// The creases and cuts on the paper.
fn lines(
    spots: &[Spot],
    edges: BTreeMap<[usize; 2], Is>,
    outline: &Polygon<PieceFrame>,
    holes: &[Polygon<PieceFrame>],
    changes: &mut BTreeMap<Change, usize>,
) -> Vec<Line> {
    let mut kinds: Vec<(LineKind, Vec<[usize; 2]>)> = Vec::new();
    for (ends, is) in edges {
        let kind = match is {
            Is::Border => continue,
            Is::Flat => {
                count(changes, Change::Flat, 1);
                continue;
            }
            Is::Unassigned => LineKind::Crease(Fold::Valley),
            Is::Crease(fold) => LineKind::Crease(fold),
            Is::Cut => LineKind::Cut,
        };
        let middle = Segment::new(spots[ends[0]], spots[ends[1]]).middle();
        if !outline.holds(middle) || holes.iter().any(|hole| hole.holds(middle)) {
            count(changes, Change::Beside, 1);
            continue;
        }
        count(
            changes,
            Change::Unassigned,
            usize::from(is == Is::Unassigned),
        );
        match kinds.iter_mut().find(|(of, _)| *of == kind) {
            Some((_, edges)) => edges.push(ends),
            None => kinds.push((kind, vec![ends])),
        }
    }
    let courses = kinds.iter().flat_map(|(kind, edges)| {
        let joined = joined(spots, edges);
        joined.into_iter().map(move |course| (*kind, course))
    });
    let lines = (0..).zip(courses).map(|(number, (kind, course))| Line {
        id: LineId(number),
        from: course.from,
        to: course.to,
        kind,
    });
    lines.collect()
}

/// The same with its lower left corner at the origin.
fn at_origin(mut pattern: Pattern) -> Pattern {
    let low = pattern.outline.bounds().unwrap_or_default().low;
    let polygons = std::iter::once(&mut pattern.outline).chain(&mut pattern.holes);
    let corners = polygons.flat_map(|polygon| &mut polygon.corners);
    let lines = pattern.lines.iter_mut();
    let ends = lines.flat_map(|line| [&mut line.from, &mut line.to]);
    for at in corners.chain(ends) {
        *at = Spot::new(at.x - low.x, at.y - low.y);
    }
    pattern
}
