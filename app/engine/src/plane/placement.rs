//! Where a flat part lies in another frame: mirrored or not, turned, shifted.

use std::fmt;
use std::marker::PhantomData;

use super::segment::step;
use super::{Bearing, Point, Polygon, Rect, Region, Segment, Turn};
use crate::length::Length;

/// How far paper that fits may miss: how far apart two placements may carry a
/// point and still count as the same, by how much panels may overlap without
/// being in each other's way, and what may be left where loops of creases close
/// in space. It is one measure for all of these, so that no part of the engine
/// refuses what another lets pass. A score is some tenths of a millimetre wide
/// and a hand-cut line holds no better, so a hundredth is nothing on paper;
/// roundings to 1/72 µm add up to far less. (Own choice.)
pub const SAME_WITHIN: Length = Length::hundredths_mm(1);

/// Carries points of the frame `A` into the frame `B`: first mirrored left to
/// right (when the part is turned over), then turned, then shifted.
///
/// Distances are kept, so a placement can always be undone: exactly when the
/// turn is a quarter turn, to the nearest unit otherwise.
pub struct Placement<A, B> {
    /// Whether the part lies turned over.
    pub mirrored: bool,
    /// The turn after the mirroring.
    pub turn: Bearing,
    /// Where the origin of `A` comes to lie in `B`.
    pub shift: Point<B>,
    from: PhantomData<A>,
}

impl<A, B> Clone for Placement<A, B> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<A, B> Copy for Placement<A, B> {}
impl<A, B> PartialEq for Placement<A, B> {
    fn eq(&self, other: &Self) -> bool {
        (self.mirrored, self.turn, self.shift) == (other.mirrored, other.turn, other.shift)
    }
}
impl<A, B> Eq for Placement<A, B> {}
impl<A, B> fmt::Debug for Placement<A, B> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}{:?} to {:?}",
            if self.mirrored { "mirrored, " } else { "" },
            self.turn,
            self.shift
        )
    }
}

impl<A, B> Placement<A, B> {
    /// Mirrored or not, then turned, then the origin moved to `shift`.
    pub const fn new(mirrored: bool, turn: Turn, shift: Point<B>) -> Self {
        Self::at_bearing(mirrored, Bearing::Quarter(turn), shift)
    }

    /// Mirrored or not, then turned by any angle, then the origin moved to
    /// `shift`.
    pub const fn at_bearing(mirrored: bool, turn: Bearing, shift: Point<B>) -> Self {
        Self {
            mirrored,
            turn,
            shift,
            from: PhantomData,
        }
    }

    /// Where the frames coincide.
    pub const fn unmoved() -> Self {
        Self::new(false, Turn::None, Point::new(Length::ZERO, Length::ZERO))
    }

    /// Turned by `turn` about the origin.
    pub const fn turned(turn: Turn) -> Self {
        Self::new(false, turn, Point::new(Length::ZERO, Length::ZERO))
    }

    /// Mirrored in the upright line at `x`: what folding over a score there does.
    pub fn over_upright(x: Length) -> Self {
        Self::new(true, Turn::None, Point::new(x * 2, Length::ZERO))
    }

    /// Mirrored in a line: what folding over a crease along it does. `None`
    /// for a line without length.
    pub fn over(line: &Segment<B>) -> Option<Self> {
        let (x, y) = step(line.from, line.to);
        let (x, y) = (as_f64(x), as_f64(y));
        // Mirroring left to right and then turning by twice the line's own
        // angle and a half turn.
        let turn = Bearing::towards((y - x) * (y + x), -2.0 * x * y)?;
        let linear =
            Placement::<B, B>::at_bearing(true, turn, Point::new(Length::ZERO, Length::ZERO));
        let moved = linear.point(line.from);
        let shift = Point::new(line.from.x - moved.x, line.from.y - moved.y);
        Some(Self::at_bearing(true, turn, shift))
    }

    /// What lays one line along another, their beginnings together, mirrored
    /// or not. `None` for a line without length.
    pub fn laying(mirrored: bool, line: &Segment<A>, along: &Segment<B>) -> Option<Self> {
        let (x, y) = step(line.from, line.to);
        let (x, y) = (as_f64(x), as_f64(y));
        let from = Bearing::towards(if mirrored { -x } else { x }, y)?;
        let (x, y) = step(along.from, along.to);
        let turn = from.back().then(Bearing::towards(as_f64(x), as_f64(y))?);
        let none = Point::new(Length::ZERO, Length::ZERO);
        let turned = Self::at_bearing(mirrored, turn, none);
        let begin = turned.point(line.from);
        let shift = Point::new(along.from.x - begin.x, along.from.y - begin.y);
        Some(Self::at_bearing(mirrored, turn, shift))
    }

    /// Where a point comes to lie.
    pub fn point(&self, at: Point<A>) -> Point<B> {
        let x = if self.mirrored { -at.x } else { at.x };
        let (x, y) = self.turn.turned(x, at.y);
        Point::new(x + self.shift.x, y + self.shift.y)
    }

    /// Where a rectangle comes to lie; where it lies aslant, the smallest
    /// upright rectangle round it.
    pub fn rect(&self, of: &Rect<A>) -> Rect<B> {
        let [low, corners @ ..] = of.corners().map(|corner| self.point(corner));
        corners
            .iter()
            .fold(Rect { low, high: low }, |rect, corner| Rect {
                low: Point::new(rect.low.x.min(corner.x), rect.low.y.min(corner.y)),
                high: Point::new(rect.high.x.max(corner.x), rect.high.y.max(corner.y)),
            })
    }

    /// Where a polygon comes to lie, its corners still anticlockwise.
    pub fn polygon(&self, of: &Polygon<A>) -> Polygon<B> {
        let mut corners: Vec<_> = of.corners.iter().map(|at| self.point(*at)).collect();
        if self.mirrored {
            corners.reverse();
        }
        Polygon { corners }
    }

    /// Where a region comes to lie.
    pub fn region(&self, of: &Region<A>) -> Region<B> {
        of.moved(self.mirrored, |at| self.point(at))
    }

    /// This placement followed by another.
    pub fn then<C>(&self, next: &Placement<B, C>) -> Placement<A, C> {
        // Mirroring after a turn is the opposite turn after mirroring.
        let turn = if next.mirrored {
            self.turn.back()
        } else {
            self.turn
        };
        Placement::at_bearing(
            self.mirrored != next.mirrored,
            turn.then(next.turn),
            next.point(self.shift),
        )
    }

    /// The placement that carries everything back.
    pub fn back(&self) -> Placement<B, A> {
        let turn = if self.mirrored {
            self.turn
        } else {
            self.turn.back()
        };
        let linear = Placement::<B, A>::at_bearing(
            self.mirrored,
            turn,
            Point::new(Length::ZERO, Length::ZERO),
        );
        let origin = linear.point(self.shift);
        Placement::at_bearing(self.mirrored, turn, Point::new(-origin.x, -origin.y))
    }

    /// Where a direction of `A` points in `B`; a direction is told by the turn
    /// from upright to it.
    #[must_use]
    pub fn direction(&self, of: impl Into<Bearing>) -> Bearing {
        let of = of.into();
        // Mirroring left to right keeps up and down and swaps the sides.
        let mirrored = if self.mirrored { of.back() } else { of };
        mirrored.then(self.turn)
    }

    /// The farthest apart this and another placement carry any of some points.
    pub fn apart(&self, other: &Self, points: impl IntoIterator<Item = Point<A>>) -> Length {
        let gap = |at| Segment::new(self.point(at), other.point(at)).length();
        points.into_iter().map(gap).max().unwrap_or_default()
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "exact for every length that can be typed"
)]
fn as_f64(units: i128) -> f64 {
    units as f64
}
