//! Areas of any shape, with exact corners for everything cut along the axes.

use std::cmp::Ordering;
use std::fmt;
use std::marker::PhantomData;

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::Overlay;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;

use super::{Point, Polygon, Rect, Segment, bounds, twice_area};
use crate::length::Length;

/// An area in square units of [`Length`].
pub type Area = i128;

type Contour = Vec<IntPoint<i64>>;

/// A part of the plane: any number of outlines with any number of holes.
///
/// Corners that lie on the inputs' corners or on crossings of lines along the
/// axes are exact; other crossings are rounded to the nearest unit, 1/72 µm.
pub struct Region<F> {
    /// Outlines first, each followed by its holes.
    shapes: Vec<Vec<Contour>>,
    frame: PhantomData<F>,
}

impl<F> Clone for Region<F> {
    fn clone(&self) -> Self {
        Self::of(self.shapes.clone())
    }
}
impl<F> PartialEq for Region<F> {
    fn eq(&self, other: &Self) -> bool {
        self.minus(other).is_empty() && other.minus(self).is_empty()
    }
}
impl<F> Eq for Region<F> {}
impl<F> fmt::Debug for Region<F> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.contours()).finish()
    }
}
impl<F> Default for Region<F> {
    fn default() -> Self {
        Self::of(Vec::new())
    }
}

fn contour_of<F>(polygon: &Polygon<F>) -> Contour {
    let corners = polygon.corners.iter();
    corners
        .map(|at| IntPoint::new(at.x.units(), at.y.units()))
        .collect()
}

/// Whether the way over a point turns by at most a sixteenth of a whole turn.
fn turns_little<F>(before: Point<F>, at: Point<F>, next: Point<F>) -> bool {
    let step =
        |from: Point<F>, to: Point<F>| [(to.x - from.x).as_mm_f64(), (to.y - from.y).as_mm_f64()];
    let (a, b) = (step(before, at), step(at, next));
    let along = a[0] * b[0] + a[1] * b[1];
    let across = a[0] * b[1] - a[1] * b[0];
    along > 0.0 && across.abs() <= along * (std::f64::consts::TAU / 16.0).tan()
}

impl<F> From<&Polygon<F>> for Region<F> {
    fn from(polygon: &Polygon<F>) -> Self {
        // The union with nothing puts any outline into the library's own order.
        Self::of(vec![vec![contour_of(polygon)]]).combine(&Self::default(), OverlayRule::Subject)
    }
}

impl<F> From<Rect<F>> for Region<F> {
    fn from(rect: Rect<F>) -> Self {
        let Rect { low, high } = Rect::spanning(rect.low, rect.high);
        if low.x == high.x || low.y == high.y {
            return Self::default();
        }
        // As the library begins an outline: it need not look at one so plain.
        let corners = [
            Point::new(low.x, high.y),
            low,
            Point::new(high.x, low.y),
            high,
        ];
        let corners = corners.map(|at| IntPoint::new(at.x.units(), at.y.units()));
        Self::of(vec![vec![Vec::from(corners)]])
    }
}

impl<F> Region<F> {
    fn of(shapes: Vec<Vec<Contour>>) -> Self {
        Self {
            shapes,
            frame: PhantomData,
        }
    }

    fn combine(&self, other: &Self, rule: OverlayRule) -> Self {
        Self::of(
            Overlay::from_subj_and_clip(&self.shapes, &other.shapes)
                .overlay(rule, FillRule::NonZero),
        )
    }

    /// The inside of a rim without its holes. `None` where that is not one part of the
    /// plane which each of them bounds once: a ring crosses itself or another, a hole
    /// lies outside, or nothing is left.
    pub(crate) fn with_holes(rim: &Polygon<F>, holes: &[Polygon<F>]) -> Option<Self> {
        let whole = Self::from(rim);
        let twice = |ring: &Polygon<F>| twice_area(&ring.corners).abs();
        // What crosses itself encloses some part twice or the wrong way round.
        if whole.contours().count() != 1 || whole.twice_area() != twice(rim) {
            return None;
        }
        let out = Self::of(holes.iter().map(|hole| vec![contour_of(hole)]).collect());
        let left = whole.minus(&out);
        let due = twice(rim) - holes.iter().map(twice).sum::<Area>();
        (left.shapes.len() == 1 && left.twice_area() == due).then_some(left)
    }

    /// The inside of a ring of corners in millimetres, each rounded to the
    /// nearest unit.
    pub(crate) fn around(corners: &[[f64; 2]]) -> Self {
        let corners = corners
            .iter()
            .map(|[x, y]| Point::new(Length::near_mm(*x), Length::near_mm(*y)))
            .collect();
        Self::from(&Polygon { corners })
    }

    /// Both together.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        self.combine(other, OverlayRule::Union)
    }

    /// What both have in common.
    #[must_use]
    pub fn common(&self, other: &Self) -> Self {
        self.combine(other, OverlayRule::Intersect)
    }

    /// This without the other.
    #[must_use]
    pub fn minus(&self, other: &Self) -> Self {
        self.combine(other, OverlayRule::Difference)
    }

    /// Whether nothing is inside.
    pub fn is_empty(&self) -> bool {
        self.shapes.is_empty()
    }

    /// The area, holes taken off.
    pub fn area(&self) -> Area {
        self.twice_area() / 2
    }

    fn twice_area(&self) -> Area {
        self.contours().map(|corners| twice_area(&corners)).sum()
    }

    /// With every corner moved; `mirrored` says whether that turns it over.
    pub(super) fn moved<G>(&self, mirrored: bool, to: impl Fn(Point<F>) -> Point<G>) -> Region<G> {
        let contour = |contour: &Contour| {
            let corners = contour.iter().map(|at| {
                let at = to(Point::new(
                    Length::from_units(at.x),
                    Length::from_units(at.y),
                ));
                IntPoint::new(at.x.units(), at.y.units())
            });
            if mirrored {
                corners.rev().collect()
            } else {
                corners.collect::<Contour>()
            }
        };
        let shapes = self.shapes.iter();
        Region::of(
            shapes
                .map(|shape| shape.iter().map(contour).collect())
                .collect(),
        )
    }

    /// Every outline (anticlockwise) and hole (clockwise).
    pub fn contours(&self) -> impl Iterator<Item = Vec<Point<F>>> + '_ {
        self.shapes.iter().flatten().map(|contour| {
            contour
                .iter()
                .map(|at| Point::new(Length::from_units(at.x), Length::from_units(at.y)))
                .collect()
        })
    }

    /// This without what lies at most `margin` from its edge. Round a corner
    /// that points inwards a regular polygon or, where it turns little, the tip
    /// between its sides stands for the arc, and takes up to a fiftieth of the
    /// margin more.
    #[must_use]
    pub fn inset(&self, margin: Length) -> Self {
        if margin <= Length::ZERO {
            return self.clone();
        }
        let mut rims: Vec<Vec<Contour>> = Vec::new();
        let mut take = |polygon: &Polygon<F>| rims.push(vec![contour_of(polygon)]);
        for corners in self.contours() {
            let before = corners.iter().cycle().skip(corners.len().saturating_sub(1));
            let next = corners.iter().cycle().skip(1);
            for ((before, at), next) in before.zip(&corners).zip(next) {
                take(&Polygon::band(*at, *next, margin, margin));
                // The region is always on the left of its edges.
                let turns_right = Segment::new(*before, *at).side_of(*next) == Ordering::Less;
                if turns_right && turns_little(*before, *at, *next) {
                    take(&Polygon::gore(*before, *at, *next, margin));
                } else if turns_right {
                    take(&Polygon::round(*at, margin));
                }
            }
        }
        self.minus(&Self::of(rims))
    }

    /// Whether it is the whole of the rectangle round it.
    pub fn is_rectangle(&self) -> bool {
        self.bounds()
            .is_some_and(|bounds| Self::from(bounds).area() == self.area())
    }

    /// The smallest rectangle round everything; `None` when nothing is there.
    pub fn bounds(&self) -> Option<Rect<F>> {
        let corners: Vec<_> = self.contours().flatten().collect();
        bounds(&corners)
    }
}
