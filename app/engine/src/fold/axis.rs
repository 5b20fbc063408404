//! The lines that panels turn about, and what lies on which side of them.

use super::state::Pose;
use crate::plane::{CardFrame, Point, SAME_WITHIN, Segment};

/// A line that panels turn about, in the card.
#[derive(Debug, Clone, Copy)]
pub(super) struct Axis {
    pub(super) line: Segment<CardFrame>,
    /// A point of it and its direction of length one, in millimetres.
    at: [f64; 2],
    along: [f64; 2],
}

/// A side of an axis, as one walks along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Side {
    Left,
    Right,
}

/// Whether something reaches to the left of an axis, and to its right.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Reach {
    pub(super) left: bool,
    pub(super) right: bool,
}

impl Reach {
    /// What both reach.
    pub(super) const fn common(self, other: Self) -> Self {
        Self {
            left: self.left && other.left,
            right: self.right && other.right,
        }
    }

    pub(super) const fn is_both(self) -> bool {
        self.left && self.right
    }

    pub(super) const fn on(self, side: Side) -> bool {
        match side {
            Side::Left => self.left,
            Side::Right => self.right,
        }
    }

    /// The same, looked at more closely where it is both sides.
    fn and_then_exactly(self, closely: impl FnOnce() -> Self) -> Self {
        if self.is_both() { closely() } else { self }
    }
}

impl Axis {
    pub(super) fn through(line: Segment<CardFrame>) -> Option<Self> {
        let mm = |at: Point<CardFrame>| [at.x.as_mm_f64(), at.y.as_mm_f64()];
        let (from, to) = (mm(line.from), mm(line.to));
        let long = (to[0] - from[0]).hypot(to[1] - from[1]);
        (long > SAME_WITHIN.as_mm_f64()).then(|| Self {
            line,
            at: from,
            along: [0, 1].map(|way| (to[way] - from[way]) / long),
        })
    }

    pub(super) fn holds(&self, line: &Segment<CardFrame>) -> bool {
        let on_it = |at| self.line.is_in_line(at, SAME_WITHIN);
        on_it(line.from) && on_it(line.to)
    }

    /// Which sides some points reach, by more than paper shows.
    fn reach(&self, points: impl IntoIterator<Item = Point<CardFrame>>) -> Reach {
        let near = SAME_WITHIN.as_mm_f64();
        let mut reach = Reach::default();
        for at in points {
            let (x, y) = (at.x.as_mm_f64() - self.at[0], at.y.as_mm_f64() - self.at[1]);
            let off = y * self.along[0] - x * self.along[1];
            reach.left |= off > near;
            reach.right |= off < -near;
        }
        reach
    }

    /// Which sides a panel reaches.
    pub(super) fn reach_of(&self, pose: &Pose) -> Reach {
        if pose.stands {
            return Reach::default();
        }
        self.reach(pose.covers.corners()).and_then_exactly(|| {
            let area = pose.area();
            self.reach(area.contours().into_iter().flatten())
        })
    }

    /// On which sides two panels that overlap do so.
    pub(super) fn overlap(&self, one: (&Pose, Reach), other: (&Pose, Reach)) -> Reach {
        one.1.common(other.1).and_then_exactly(|| {
            let Some(both) = one.0.common(other.0) else {
                return Reach::default();
            };
            match both.shape {
                None => self.reach(both.within.corners()),
                Some(shape) => self.reach(shape.contours().flatten()),
            }
        })
    }
}
