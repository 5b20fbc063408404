//! Straight lines between two points, and exact questions about them.

use std::cmp::Ordering;
use std::fmt;

use super::Point;
use crate::length::Length;

/// A straight line from one point to another.
///
/// Every yes or no about segments is exact, for any coordinates; only
/// [`Segment::crossing`] has to round.
pub struct Segment<F> {
    /// Where it begins.
    pub from: Point<F>,
    /// Where it ends.
    pub to: Point<F>,
}

impl<F> Clone for Segment<F> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<F> Copy for Segment<F> {}
impl<F> PartialEq for Segment<F> {
    fn eq(&self, other: &Self) -> bool {
        (self.from, self.to) == (other.from, other.to)
    }
}
impl<F> Eq for Segment<F> {}
impl<F> fmt::Debug for Segment<F> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?} to {:?}", self.from, self.to)
    }
}

/// A difference of two points; each part fits in 65 bits.
type Step = (i128, i128);

/// From one point to another.
pub(crate) fn step<F>(from: Point<F>, to: Point<F>) -> Step {
    let part = |from: Length, to: Length| i128::from(to.units()) - i128::from(from.units());
    (part(from.x, to.x), part(from.y, to.y))
}

/// How `a · b` compares with `c · d`, where the products may need 130 bits.
fn compare_products(a: i128, b: i128, c: i128, d: i128) -> Ordering {
    let product = |a: i128, b: i128| (a.signum() * b.signum(), a.unsigned_abs() * b.unsigned_abs());
    match (product(a, b), product(c, d)) {
        ((this, _), (other, _)) if this != other => this.cmp(&other),
        ((-1, this), (_, other)) => other.cmp(&this),
        ((_, this), (_, other)) => this.cmp(&other),
    }
}

/// Whether `b` points to the left of `a` (`Greater`), to the right (`Less`),
/// or along it, either way.
fn side(a: Step, b: Step) -> Ordering {
    compare_products(a.0, b.1, a.1, b.0)
}

/// Directions in anticlockwise order, beginning with the one to the right;
/// those that point the same way are equal.
pub(crate) fn by_direction(a: Step, b: Step) -> Ordering {
    let lower = |(x, y): Step| y < 0 || (y == 0 && x < 0);
    lower(a).cmp(&lower(b)).then_with(|| side(b, a))
}

impl<F> Segment<F> {
    /// The line from one point to another.
    pub const fn new(from: Point<F>, to: Point<F>) -> Self {
        Self { from, to }
    }

    /// The same line the other way.
    #[must_use]
    pub const fn reversed(self) -> Self {
        Self::new(self.to, self.from)
    }

    /// Whether it has no length.
    pub fn is_point(&self) -> bool {
        self.from == self.to
    }

    /// On which side of the line through both ends a point lies: `Greater` to
    /// the left as one walks along it, `Less` to the right, `Equal` on it.
    pub fn side_of(&self, at: Point<F>) -> Ordering {
        side(step(self.from, self.to), step(self.from, at))
    }

    /// Whether a point lies on it, ends included.
    pub fn touches(&self, at: Point<F>) -> bool {
        self.side_of(at) == Ordering::Equal && self.spans(at)
    }

    /// Whether a point lies in the rectangle spanned by the ends.
    fn spans(&self, at: Point<F>) -> bool {
        let between = |a: Length, b: Length, at: Length| a.min(b) <= at && at <= a.max(b);
        between(self.from.x, self.to.x, at.x) && between(self.from.y, self.to.y, at.y)
    }

    /// Whether the two cross at a point within both, an end of neither.
    pub fn crosses(&self, other: &Self) -> bool {
        let parts = |line: &Self, of: &Self| {
            let sides = (line.side_of(of.from), line.side_of(of.to));
            sides.0 != Ordering::Equal && sides.0 == sides.1.reverse()
        };
        parts(self, other) && parts(other, self)
    }

    /// Whether the two have any point in common.
    pub fn meets(&self, other: &Self) -> bool {
        if self.is_beside(other) {
            return false;
        }
        self.crosses(other)
            || self.touches(other.from)
            || self.touches(other.to)
            || other.touches(self.from)
            || other.touches(self.to)
    }

    /// Whether the upright rectangles round the two have no point in common.
    fn is_beside(&self, other: &Self) -> bool {
        let apart =
            |a: Length, b: Length, c: Length, d: Length| a.max(b) < c.min(d) || c.max(d) < a.min(b);
        apart(self.from.x, self.to.x, other.from.x, other.to.x)
            || apart(self.from.y, self.to.y, other.from.y, other.to.y)
    }

    /// Whether the two lie on one line and share more than a point.
    pub fn overlaps(&self, other: &Self) -> bool {
        let on_one_line = [self.side_of(other.from), self.side_of(other.to)];
        if self.is_point() || other.is_point() || on_one_line != [Ordering::Equal; 2] {
            return false;
        }
        // On one line, points come in the order of their coordinates.
        let ends = |of: &Self| (of.from.min(of.to), of.from.max(of.to));
        let (this, other) = (ends(self), ends(other));
        this.0.max(other.0) < this.1.min(other.1)
    }

    /// Where the two cross, rounded to the nearest unit; `None` where they do
    /// not, and where they are longer than arithmetic in 128 bits carries,
    /// some thousands of kilometres.
    pub fn crossing(&self, other: &Self) -> Option<Point<F>> {
        if !self.crosses(other) {
            return None;
        }
        let (this, that) = (step(self.from, self.to), step(other.from, other.to));
        let apart = step(self.from, other.from);
        let cross = |a: Step, b: Step| {
            let (left, right) = (a.0.checked_mul(b.1)?, a.1.checked_mul(b.0)?);
            left.checked_sub(right)
        };
        let (over, under) = (cross(apart, that)?, cross(this, that)?);
        let part = |along: i128| {
            let doubled = along.checked_mul(over)?.checked_mul(2)?;
            let (doubled, under) = (doubled * under.signum(), under.abs().checked_mul(2)?);
            let nearest = doubled.checked_add(under / 2)?.div_euclid(under);
            i64::try_from(nearest).ok().map(Length::from_units)
        };
        Some(Point::new(
            self.from.x + part(this.0)?,
            self.from.y + part(this.1)?,
        ))
    }

    /// Whether a point beside it, past neither end, is at most `reach` away.
    /// Answers no for lines of more than some thousands of kilometres.
    pub fn is_near(&self, at: Point<F>, reach: Length) -> bool {
        let (along, to) = (step(self.from, self.to), step(self.from, at));
        let beside = || {
            let dot = along
                .0
                .checked_mul(to.0)?
                .checked_add(along.1.checked_mul(to.1)?)?;
            Some((0..=square(along)?).contains(&dot))
        };
        beside() == Some(true) && self.is_in_line(at, reach)
    }

    /// Whether a point is at most `reach` away from the line it is part of,
    /// which goes on past its ends. Answers no for lines of more than some
    /// thousands of kilometres.
    pub fn is_in_line(&self, at: Point<F>, reach: Length) -> bool {
        let (along, to) = (step(self.from, self.to), step(self.from, at));
        let compare = || {
            let cross = along
                .0
                .checked_mul(to.1)?
                .checked_sub(along.1.checked_mul(to.0)?)?;
            let long = square(along)?;
            if long == 0 {
                return Some(false);
            }
            // The distance is cross / √long, and cross is a whole number.
            let reach = i128::from(reach.units());
            let most = reach.checked_mul(reach)?.checked_mul(long)?;
            Some(cross.unsigned_abs() <= most.unsigned_abs().isqrt())
        };
        compare().unwrap_or(false)
    }

    /// How far it stays from another, rounded to a unit; nothing where they
    /// meet.
    pub fn apart(&self, other: &Self) -> Length {
        if self.meets(other) {
            return Length::ZERO;
        }
        let ends = [
            self.off(other.from),
            self.off(other.to),
            other.off(self.from),
            other.off(self.to),
        ];
        ends.into_iter().min().unwrap_or_default()
    }

    /// How far a point is from it, rounded to a unit.
    pub(crate) fn off(&self, at: Point<F>) -> Length {
        Self::new(self.nearest_to(at), at).length()
    }

    /// The point of it that is nearest to another, to the nearest unit.
    pub fn nearest_to(&self, at: Point<F>) -> Point<F> {
        let mm = |a: Point<F>, b: Point<F>| [(b.x - a.x).as_mm_f64(), (b.y - a.y).as_mm_f64()];
        let (along, to) = (mm(self.from, self.to), mm(self.from, at));
        let long = along[0].mul_add(along[0], along[1] * along[1]);
        let share = along[0].mul_add(to[0], along[1] * to[1]) / long.max(f64::MIN_POSITIVE);
        let share = share.clamp(0.0, 1.0);
        Point::new(
            self.from.x + super::part_of(self.to.x - self.from.x, share),
            self.from.y + super::part_of(self.to.y - self.from.y, share),
        )
    }

    /// Its length, rounded down to a unit.
    pub fn length(&self) -> Length {
        let (x, y) = step(self.from, self.to);
        let (x, y) = (x.unsigned_abs(), y.unsigned_abs());
        let square = x.checked_mul(x).zip(y.checked_mul(y));
        let square = square
            .and_then(|(x, y)| x.checked_add(y))
            .unwrap_or(u128::MAX);
        Length::from_units(i64::try_from(square.isqrt()).unwrap_or(i64::MAX))
    }

    /// The point half-way, rounded down to a unit.
    pub fn middle(&self) -> Point<F> {
        let half = |a: Length, b: Length| {
            let sum = i128::from(a.units()) + i128::from(b.units());
            Length::from_units(i64::try_from(sum.div_euclid(2)).unwrap_or_default())
        };
        Point::new(half(self.from.x, self.to.x), half(self.from.y, self.to.y))
    }
}

/// The square of a step's length; `None` where it is too large to tell.
fn square((x, y): Step) -> Option<i128> {
    x.checked_mul(x)?.checked_add(y.checked_mul(y)?)
}
