//! Where a flat part lies in another frame: mirrored or not, turned, shifted.

use std::fmt;
use std::marker::PhantomData;

use super::{Point, Polygon, Rect, Turn};
use crate::length::Length;

/// Carries points of the frame `A` into the frame `B`: first mirrored left to
/// right (when the part is turned over), then turned, then shifted.
///
/// Distances are kept, so a placement is exact and can always be undone.
pub struct Placement<A, B> {
    /// Whether the part lies turned over.
    pub mirrored: bool,
    /// The turn after the mirroring.
    pub turn: Turn,
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

fn turned(turn: Turn, x: Length, y: Length) -> (Length, Length) {
    match turn {
        Turn::None => (x, y),
        Turn::Left => (-y, x),
        Turn::Half => (-x, -y),
        Turn::Right => (y, -x),
    }
}

impl<A, B> Placement<A, B> {
    /// Mirrored or not, then turned, then the origin moved to `shift`.
    pub const fn new(mirrored: bool, turn: Turn, shift: Point<B>) -> Self {
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

    /// Where a point comes to lie.
    pub fn point(&self, at: Point<A>) -> Point<B> {
        let x = if self.mirrored { -at.x } else { at.x };
        let (x, y) = turned(self.turn, x, at.y);
        Point::new(x + self.shift.x, y + self.shift.y)
    }

    /// Where a rectangle comes to lie.
    pub fn rect(&self, of: &Rect<A>) -> Rect<B> {
        Rect::spanning(self.point(of.low), self.point(of.high))
    }

    /// Where a polygon comes to lie, its corners still anticlockwise.
    pub fn polygon(&self, of: &Polygon<A>) -> Polygon<B> {
        let mut corners: Vec<_> = of.corners.iter().map(|at| self.point(*at)).collect();
        if self.mirrored {
            corners.reverse();
        }
        Polygon { corners }
    }

    /// This placement followed by another.
    pub fn then<C>(&self, next: &Placement<B, C>) -> Placement<A, C> {
        // Mirroring after a turn is the opposite turn after mirroring.
        let turn = if next.mirrored {
            self.turn.back()
        } else {
            self.turn
        };
        Placement::new(
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
        let linear =
            Placement::<B, A>::new(self.mirrored, turn, Point::new(Length::ZERO, Length::ZERO));
        let origin = linear.point(self.shift);
        Placement::new(self.mirrored, turn, Point::new(-origin.x, -origin.y))
    }

    /// Where a direction of `A` points in `B`; a direction is told by the turn
    /// from upright to it.
    #[must_use]
    pub const fn direction(&self, of: Turn) -> Turn {
        // Mirroring left to right keeps up and down and swaps the sides.
        let mirrored = if self.mirrored { of.back() } else { of };
        mirrored.then(self.turn)
    }
}
