//! Exact plane geometry: points, lines, turns, placements and regions.
//!
//! Every point names the frame it is measured in, so that a point in a piece
//! cannot be mistaken for a point in a folded card.

mod bearing;
mod curve;
mod edge;
mod placement;
mod region;
mod segment;
mod turn;

use std::cmp::Ordering;
use std::fmt;
use std::marker::PhantomData;

use serde::{Deserialize, Serialize};

use crate::length::Length;

pub use bearing::{Bearing, Slant};
pub use curve::{FLAT_WITHIN, arc};
pub use edge::Edge;
pub use placement::{Placement, SAME_WITHIN};
pub use region::{Area, Region};
pub use segment::Segment;
pub(crate) use segment::{by_direction, step};
pub use turn::Turn;

/// Frame of a stock sheet: the face up and its print upright; x to the right
/// along the sheet's width, y up along its height, origin at the lower left.
#[derive(Debug)]
pub enum SheetFrame {}

/// Frame of a side of a stock sheet as its print is looked at: facing that side, the
/// print upright, origin at the lower left corner. For the face it is that of the
/// sheet.
#[derive(Debug)]
pub enum PrintFrame {}

/// Frame of a flat piece seen from side A: x along the strip, y across it,
/// origin at the lower left corner.
#[derive(Debug)]
pub enum PieceFrame {}

/// Frame of the card, closed or part open, seen from the front the right way
/// up. The origin is the lower left corner of the panel that rests on the
/// table.
#[derive(Debug)]
pub enum CardFrame {}

/// Frame of one face of a panel as its reader sees it: facing it, the right
/// way up, origin at its lower left corner.
#[derive(Debug)]
pub enum FaceFrame {}

/// Frame of the back of a layer as the maker sees it when gluing: turned over
/// like a page, origin at the lower left corner.
#[derive(Debug)]
pub enum BackFrame {}

/// A point measured in the frame `F`.
#[derive(Serialize, Deserialize)]
#[serde(bound = "")]
pub struct Point<F> {
    /// Distance to the right of the origin.
    pub x: Length,
    /// Distance above the origin.
    pub y: Length,
    #[serde(skip)]
    frame: PhantomData<F>,
}

impl<F> Point<F> {
    /// The point `x` to the right of and `y` above the origin of its frame.
    pub const fn new(x: Length, y: Length) -> Self {
        Self {
            x,
            y,
            frame: PhantomData,
        }
    }
}

// Derived impls would ask the same of the frame marker, which is never a value.
impl<F> Clone for Point<F> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<F> Copy for Point<F> {}
impl<F> PartialEq for Point<F> {
    fn eq(&self, other: &Self) -> bool {
        (self.x, self.y) == (other.x, other.y)
    }
}
impl<F> Eq for Point<F> {}
impl<F> PartialOrd for Point<F> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl<F> Ord for Point<F> {
    fn cmp(&self, other: &Self) -> Ordering {
        (self.x, self.y).cmp(&(other.x, other.y))
    }
}
impl<F> fmt::Debug for Point<F> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "({:?}, {:?})", self.x, self.y)
    }
}

/// The size of something rectangular, as its reader sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub struct Size {
    /// From side to side.
    pub width: Length,
    /// From foot to head.
    pub height: Length,
}

impl Size {
    /// The area, in square units.
    pub fn area(self) -> Area {
        Area::from(self.width.units()) * Area::from(self.height.units())
    }

    /// The size seen after a quarter turn.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self {
            width: self.height,
            height: self.width,
        }
    }
}

/// A rectangle whose sides run along the axes of its frame.
#[derive(Serialize, Deserialize)]
#[serde(bound = "")]
pub struct Rect<F> {
    /// Lower left corner.
    pub low: Point<F>,
    /// Upper right corner.
    pub high: Point<F>,
}

impl<F> Clone for Rect<F> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<F> Copy for Rect<F> {}
impl<F> PartialEq for Rect<F> {
    fn eq(&self, other: &Self) -> bool {
        (self.low, self.high) == (other.low, other.high)
    }
}
impl<F> Eq for Rect<F> {}
impl<F> fmt::Debug for Rect<F> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}..{:?}", self.low, self.high)
    }
}

impl<F> Default for Rect<F> {
    /// Nothing, at the origin.
    fn default() -> Self {
        let origin = Point::new(Length::ZERO, Length::ZERO);
        Self {
            low: origin,
            high: origin,
        }
    }
}

impl<F> Rect<F> {
    /// The rectangle spanned by two opposite corners, in any order.
    pub fn spanning(a: Point<F>, b: Point<F>) -> Self {
        Self {
            low: Point::new(a.x.min(b.x), a.y.min(b.y)),
            high: Point::new(a.x.max(b.x), a.y.max(b.y)),
        }
    }

    /// The rectangle of a size with its lower left corner at `low`.
    pub fn at(low: Point<F>, size: Size) -> Self {
        Self::spanning(low, Point::new(low.x + size.width, low.y + size.height))
    }

    /// Width and height.
    pub fn size(&self) -> Size {
        Size {
            width: self.high.x - self.low.x,
            height: self.high.y - self.low.y,
        }
    }

    /// Whether nothing is inside.
    pub fn is_empty(&self) -> bool {
        self.low.x >= self.high.x || self.low.y >= self.high.y
    }

    /// What two rectangles have in common; `None` when their insides are apart.
    pub fn common(&self, other: &Self) -> Option<Self> {
        let common = Self {
            low: Point::new(self.low.x.max(other.low.x), self.low.y.max(other.low.y)),
            high: Point::new(self.high.x.min(other.high.x), self.high.y.min(other.high.y)),
        };
        (!common.is_empty()).then_some(common)
    }

    /// The rectangle with `margin` taken off every side; `None` when nothing is left.
    pub fn inset(&self, margin: Length) -> Option<Self> {
        let inner = Self {
            low: Point::new(self.low.x + margin, self.low.y + margin),
            high: Point::new(self.high.x - margin, self.high.y - margin),
        };
        (!inner.is_empty()).then_some(inner)
    }

    /// The four corners, anticlockwise from the lower left.
    pub fn corners(&self) -> [Point<F>; 4] {
        [
            self.low,
            Point::new(self.high.x, self.low.y),
            self.high,
            Point::new(self.low.x, self.high.y),
        ]
    }
}

/// A simple polygon, its corners anticlockwise, without holes.
#[derive(Serialize, Deserialize)]
#[serde(bound = "")]
pub struct Polygon<F> {
    /// The corners in order; the last joins the first.
    pub corners: Vec<Point<F>>,
}

impl<F> Clone for Polygon<F> {
    fn clone(&self) -> Self {
        Self {
            corners: self.corners.clone(),
        }
    }
}
impl<F> PartialEq for Polygon<F> {
    fn eq(&self, other: &Self) -> bool {
        self.corners == other.corners
    }
}
impl<F> Eq for Polygon<F> {}
impl<F> fmt::Debug for Polygon<F> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.corners.fmt(f)
    }
}

impl<F> From<Rect<F>> for Polygon<F> {
    fn from(rect: Rect<F>) -> Self {
        Self {
            corners: rect.corners().to_vec(),
        }
    }
}

impl<F> Polygon<F> {
    /// The band along a line that reaches so far to its left and to its right;
    /// without area for a line without length.
    pub fn band(from: Point<F>, to: Point<F>, left: Length, right: Length) -> Self {
        let (x, y) = ((to.x - from.x).as_mm_f64(), (to.y - from.y).as_mm_f64());
        let long = x.hypot(y).max(f64::MIN_POSITIVE);
        let beside = |at: Point<F>, reach: Length| {
            // Whole units for lines along the axes.
            Point::new(
                at.x + part_of(reach, -y / long),
                at.y + part_of(reach, x / long),
            )
        };
        Self {
            corners: vec![
                beside(from, -right),
                beside(to, -right),
                beside(to, left),
                beside(from, left),
            ],
        }
    }

    /// What lies between two bands of one breadth at a corner where they part,
    /// as far as their outer edges meet: a little more than the arc between
    /// them.
    fn gore(before: Point<F>, at: Point<F>, next: Point<F>, reach: Length) -> Self {
        let beside = |from: Point<F>, to: Point<F>| {
            let (x, y) = ((to.x - from.x).as_mm_f64(), (to.y - from.y).as_mm_f64());
            let long = x.hypot(y).max(f64::MIN_POSITIVE);
            [-y / long, x / long]
        };
        let (one, other) = (beside(before, at), beside(at, next));
        let both = [one[0] + other[0], one[1] + other[1]];
        // Both are of length 1, so that half their sum is as long as the
        // cosine of half the angle between them.
        let square = (both[0] * both[0] + both[1] * both[1]).max(f64::MIN_POSITIVE);
        let tip = both.map(|part| 2.0 * part / square);
        let out = |[x, y]: [f64; 2]| Point::new(at.x + part_of(reach, x), at.y + part_of(reach, y));
        Self {
            corners: vec![at, out(other), out(tip), out(one)],
        }
    }

    /// A regular polygon of sixteen corners round a circle.
    fn round(centre: Point<F>, radius: Length) -> Self {
        const CORNERS: u8 = 16;
        let slice = std::f64::consts::TAU / f64::from(CORNERS);
        let out = 1.0 / (slice / 2.0).cos();
        let corner = |number: u8| {
            let (sin, cos) = (slice * f64::from(number)).sin_cos();
            Point::new(
                centre.x + part_of(radius, out * cos),
                centre.y + part_of(radius, out * sin),
            )
        };
        Self {
            corners: (0..CORNERS).map(corner).collect(),
        }
    }

    /// Its sides in order, each from corner to corner.
    pub fn sides(&self) -> impl Iterator<Item = Segment<F>> + '_ {
        let next = self.corners.iter().cycle().skip(1);
        let sides = self.corners.iter().zip(next);
        sides.map(|(from, to)| Segment::new(*from, *to))
    }

    /// Its area, less than nothing where its corners run clockwise.
    pub fn area(&self) -> Area {
        twice_area(&self.corners) / 2
    }

    /// Whether a point is inside; on an edge it may be either way.
    pub fn holds(&self, at: Point<F>) -> bool {
        let next = self.corners.iter().cycle().skip(1);
        let sides = self.corners.iter().zip(next);
        // A ray to the right leaves it as often as it enters where it begins
        // outside.
        let crossed = sides.filter(|(from, to)| {
            let is_left = Segment::new(**from, **to).side_of(at) == Ordering::Greater;
            (from.y > at.y) != (to.y > at.y) && (to.y > from.y) == is_left
        });
        crossed.count() % 2 == 1
    }

    /// The rectangle it is; `None` where it is none along the axes.
    pub fn as_rectangle(&self) -> Option<Rect<F>> {
        let within = self.bounds()?;
        let corners = within.corners();
        let is_one = self.corners.len() == 4 && self.corners.iter().all(|at| corners.contains(at));
        is_one.then_some(within)
    }

    /// The smallest rectangle round the polygon; `None` when it has no corners.
    pub fn bounds(&self) -> Option<Rect<F>> {
        bounds(&self.corners)
    }
}

/// Twice the area inside a closed chain of corners, less than nothing where they
/// run clockwise.
fn twice_area<F>(corners: &[Point<F>]) -> Area {
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(a, b)| {
            Area::from(a.x.units()) * Area::from(b.y.units())
                - Area::from(b.x.units()) * Area::from(a.y.units())
        })
        .sum()
}

/// The smallest rectangle round some points; `None` when there are none.
pub(crate) fn bounds<F>(points: &[Point<F>]) -> Option<Rect<F>> {
    let first = *points.first()?;
    Some(points.iter().fold(
        Rect {
            low: first,
            high: first,
        },
        |rect, point| Rect {
            low: Point::new(rect.low.x.min(point.x), rect.low.y.min(point.y)),
            high: Point::new(rect.high.x.max(point.x), rect.high.y.max(point.y)),
        },
    ))
}

/// A share of a length, to the nearest unit.
fn part_of(length: Length, share: f64) -> Length {
    Length::near_units(length.as_units_f64() * share)
}
