//! A strip as a stack: facets side by side along a line.

use super::{Facet, Hinge, Orders, Stack};
use crate::length::Length;
use crate::plane::{Point, Rect, Region};
use crate::recipe::Fold;

/// The height a strip is given; its order does not depend on it.
const HEIGHT: Length = Length::mm(10);

impl Orders {
    /// The strip of panels of these lengths with these folds between them (one
    /// fewer), side A of the first panel to the front.
    pub fn of(lengths: &[Length], folds: &[Fold]) -> Self {
        Self::stacked(&strip(lengths, folds))
    }
}

fn strip(lengths: &[Length], folds: &[Fold]) -> Stack {
    let mut at = Length::ZERO;
    let mut stack = Stack::default();
    for (index, length) in lengths.iter().enumerate() {
        let from = at;
        let mirrored = index % 2 == 1;
        at = if mirrored { at - *length } else { at + *length };
        let covers = Rect::spanning(Point::new(from, Length::ZERO), Point::new(at, HEIGHT));
        stack.facets.push(Facet {
            area: Region::from(covers),
            mirrored,
        });
        // The fold before a panel is at its beginning.
        if let Some(a) = index.checked_sub(1)
            && let Some(fold) = folds.get(a)
        {
            stack.hinges.push(Hinge {
                a,
                b: index,
                from: Point::new(from, Length::ZERO),
                to: Point::new(from, HEIGHT),
                fold: Some(*fold),
            });
        }
    }
    stack
}
