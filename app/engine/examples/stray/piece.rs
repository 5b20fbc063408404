//! An arbitrary piece, most of them nonsense, and whether it folds flat.

use foldwright_engine::fold::{Facet, Hinge, Orders, Stack};
use foldwright_engine::laid::pattern_problems;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Line, LineId, LineKind, Pattern, divide, fold_flat, misfits};
use foldwright_engine::plane::{CardFrame, PieceFrame, Placement, Point, Polygon, Region};
use foldwright_engine::recipe::{Fold, StripId};

/// Whatever decides what a piece is like.
pub(crate) trait Choices {
    /// A number from 0 up to and without `sides`.
    fn roll(&mut self, sides: u64) -> u64;

    /// A length: mostly on a coarse grid, so that lines meet, sometimes any.
    fn length(&mut self) -> Length {
        match self.roll(40) {
            0 => Length::from_units(self.roll(u64::MAX).cast_signed()),
            1 => Length::from_units(self.roll(20_000_000).cast_signed()),
            _ => Length::mm(self.roll(7).cast_signed() * 10),
        }
    }

    /// A point of the piece, or beside it.
    fn point(&mut self) -> Point<PieceFrame> {
        Point::new(self.length(), self.length())
    }

    /// An outline, which may cross itself or be too short.
    fn polygon(&mut self) -> Polygon<PieceFrame> {
        let corners = 2 + self.roll(5);
        Polygon {
            corners: (0..corners).map(|_| self.point()).collect(),
        }
    }
}

/// Divides, folds and stacks a piece. Whether it folds flat in some order.
pub(crate) fn folds(dice: &mut impl Choices) -> bool {
    let outline = if dice.roll(3) == 0 {
        dice.polygon()
    } else {
        let far = Length::mm(60);
        let zero = Length::ZERO;
        Polygon {
            corners: vec![
                Point::new(zero, zero),
                Point::new(far, zero),
                Point::new(far, far),
                Point::new(zero, far),
            ],
        }
    };
    let holes = (0..dice.roll(8) / 6).map(|_| dice.polygon()).collect();
    let lines = (0..dice.roll(7)).map(|number| Line {
        id: LineId(u32::try_from(number).unwrap_or(0)),
        from: dice.point(),
        to: dice.point(),
        kind: match dice.roll(3) {
            0 => LineKind::Cut,
            1 => LineKind::Crease(Fold::Mountain),
            _ => LineKind::Crease(Fold::Valley),
        },
    });
    let pattern = Pattern {
        outline,
        holes,
        lines: lines.collect(),
    };
    let divided = divide(&pattern);
    let wrong = misfits(&divided);
    let said = pattern_problems(StripId::Base, &pattern, &divided.faults, &wrong);
    assert!(said.len() <= divided.faults.len() + wrong.len());
    if !wrong.is_empty() || divided.facets.is_empty() {
        return false;
    }
    let flat = fold_flat(&divided, 0, Placement::<PieceFrame, CardFrame>::unmoved());
    let facets = divided.facets.iter().zip(&flat.places);
    let facets = facets.map(|(facet, place)| {
        let place = place.unwrap_or(Placement::unmoved());
        Facet {
            area: Region::from(&place.polygon(&facet.outline)),
            mirrored: place.mirrored,
        }
    });
    let hinges = divided.hinges.iter().filter_map(|hinge| {
        let place = (*flat.places.get(hinge.left)?)?;
        Some(Hinge {
            a: hinge.left,
            b: hinge.right,
            from: place.point(hinge.course.from),
            to: place.point(hinge.course.to),
            fold: Some(hinge.fold),
        })
    });
    let stack = Stack {
        facets: facets.collect(),
        hinges: hinges.collect(),
        bonds: Vec::new(),
    };
    matches!(Orders::stacked(&stack).first(&[]), Ok(Some(_)))
}
