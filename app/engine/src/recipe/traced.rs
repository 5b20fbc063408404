//! Outlines taken from a drawing: any way round, and holes in it.

use serde::{Deserialize, Serialize};

use super::edit::Edited;
use super::outline::{Drawn, Flaw, part};
use super::{Added, EditError, LayerId, LayerKind, Naming, Outline, Recipe, Seat};
use crate::plane::{Point, Polygon, Rect, Region, Size, bounds};

/// The most corners of one, those of its holes among them. Our own bound: a ring of
/// forty scallops as large as a card has seven hundred, drawn as finely as arcs are.
pub const MOST_TRACED: usize = 1000;

/// A corner of an outline, from the left and from below, in hundred-thousandths of its
/// width and its height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Dot(pub u32, pub u32);

impl Dot {
    /// Shares are told in hundred-thousandths: three micrometres of a card.
    const WHOLE: u32 = 100_000;

    const fn is_sound(self) -> bool {
        self.0 <= Self::WHOLE && self.1 <= Self::WHOLE
    }

    fn within<F>(self, rect: &Rect<F>) -> Point<F> {
        let size = rect.size();
        Point::new(
            rect.low.x + part(size.width, self.0.into(), Self::WHOLE.into()),
            rect.low.y + part(size.height, self.1.into(), Self::WHOLE.into()),
        )
    }

    fn of<F>(at: Point<F>, within: &Rect<F>) -> Self {
        let size = within.size();
        let share = |from: i64, of: i64| {
            let share = i128::from(from) * i128::from(Self::WHOLE) * 2 + i128::from(of);
            let share = share.checked_div(i128::from(of) * 2).unwrap_or_default();
            u32::try_from(share).unwrap_or(Self::WHOLE).min(Self::WHOLE)
        };
        Self(
            share((at.x - within.low.x).units(), size.width.units()),
            share((at.y - within.low.y).units(), size.height.units()),
        )
    }
}

/// An outline taken from a drawing, within a width and a height.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Traced {
    /// The corners all round, the last one joined to the first.
    pub rim: Vec<Dot>,
    /// The same of each hole.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<Vec<Dot>>,
}

/// Why an outline can't be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Untraced {
    /// It encloses nothing.
    Empty,
    /// It crosses or touches itself, or a hole crosses another or its edge.
    Crossed,
    /// It has so many corners, more than [`MOST_TRACED`].
    TooFine(usize),
}

impl Traced {
    /// An outline with its holes, and how large it is. What reaches the last unit is
    /// rounded to the shares it is kept in.
    pub fn of<F>(rim: &Polygon<F>, holes: &[Polygon<F>]) -> Result<(Self, Size), Untraced> {
        let corners = |of: &Polygon<F>| of.corners.len();
        let count = corners(rim) + holes.iter().map(corners).sum::<usize>();
        if count > MOST_TRACED {
            return Err(Untraced::TooFine(count));
        }
        let within = bounds(&rim.corners).ok_or(Untraced::Empty)?;
        if within.is_empty() {
            return Err(Untraced::Empty);
        }
        if Region::with_holes(rim, holes).is_none() {
            return Err(Untraced::Crossed);
        }
        let dots = |of: &Polygon<F>| {
            let mut dots: Vec<_> = of.corners.iter().map(|at| Dot::of(*at, &within)).collect();
            dots.dedup();
            dots
        };
        let traced = Self {
            rim: dots(rim),
            holes: holes.iter().map(dots).collect(),
        };
        // It may be so narrow somewhere that its shares meet there.
        match traced.within(&within).flaw {
            None if traced.is_sound() => Ok((traced, within.size())),
            _ => Err(Untraced::Crossed),
        }
    }

    /// Whether all of it lies within its size, and it has no more corners than one may
    /// have.
    pub fn is_sound(&self) -> bool {
        let rings = || self.holes.iter().chain([&self.rim]);
        rings().flatten().all(|dot| dot.is_sound())
            && rings().all(|ring| ring.len() >= 3)
            && rings().map(Vec::len).sum::<usize>() <= MOST_TRACED
    }

    /// The outline within a rectangle.
    pub(crate) fn within<F>(&self, rect: &Rect<F>) -> Drawn<F> {
        let ring = |dots: &Vec<Dot>| Polygon {
            corners: dots.iter().map(|dot| dot.within(rect)).collect(),
        };
        let holes: Vec<_> = self.holes.iter().map(ring).collect();
        let region = Region::with_holes(&ring(&self.rim), &holes);
        let flaw = region.is_none().then_some(Flaw::Crossed);
        Drawn { region, flaw }
    }
}

impl Recipe {
    /// Puts a die-cut layer of an outline from a drawing on a face or on another layer,
    /// as large as it is there and in the middle.
    pub fn add_traced(
        &mut self,
        on: Seat,
        traced: Traced,
        size: Size,
        naming: &dyn Naming,
    ) -> Edited<Added<LayerId>> {
        self.whole(|recipe| {
            let Added { id, .. } = recipe.add_layer(on, LayerKind::Focal, naming)?;
            let layer = recipe.layers.iter_mut().find(|layer| layer.id == id);
            let layer = layer.ok_or(EditError::NoLayer)?;
            layer.outline = Outline::Traced(traced);
            let asked = [(layer.width, size.width), (layer.height, size.height)];
            let changes = recipe.settle(&asked, &[], &[])?;
            Ok(Added { id, changes })
        })
    }
}
