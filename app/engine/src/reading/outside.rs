//! Which faces of the bare base show when it is closed, and which lie inside.

use super::shape::Shape;
use crate::faces::{Part, View, readings, shown};
use crate::fold::fold;
use crate::laid::lay_out;
use crate::plane::{Region, Size, bounds};
use crate::problem::{Extent, Hand, Spot, Where};
use crate::recipe::{Face, Recipe, Side};
use crate::sorted::InOrder as _;

/// A face of the panel at an index.
pub(super) type At = (usize, Side);

/// The faces of a base, by where they lie in the closed card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Outside {
    /// In front: those that show whole from the left, then the nearest first.
    pub(super) front: Vec<At>,
    /// Inside, those at the back first.
    pub(super) inside: Vec<At>,
    /// Behind, in the same order.
    pub(super) back: Vec<At>,
    /// Side B, hidden between folds.
    pub(super) hidden: Vec<At>,
    /// Width and height of the closed card.
    pub(super) closed: Size,
    /// How far the face in front lies from the left and from the bottom of the
    /// closed card.
    pub(super) front_at: Size,
}

impl Outside {
    /// From a recipe without layers; `None` where its base does not fold flat.
    pub(super) fn of(recipe: &Recipe) -> Option<Self> {
        let laid = lay_out(recipe);
        let folded = fold(recipe, &laid).ok()?;
        let closed = folded.states.first()?;
        let read = readings(&laid, &folded);
        let seen = |view: View| -> Vec<At> {
            // What only shows in part is the inside looking out past a narrower
            // front, unless it is an outside.
            let whole = |face: Face, region: &Region<_>| {
                let pose = closed.poses.iter().find(|pose| pose.panel == face.panel);
                pose.is_some_and(|pose| pose.area().region().area() == region.area())
            };
            let parts = shown(closed, view, &[], &read).into_iter();
            let mut faces: Vec<(Option<usize>, At)> = parts
                .filter_map(|part| {
                    let Part::Face(face) = part.part else {
                        return None;
                    };
                    let at = (laid.index_of(face.panel)?, face.side);
                    let whole = whole(face, &part.region).then_some(at.0);
                    (whole.is_some() || face.side == Side::B).then_some((whole, at))
                })
                .collect();
            // Those that show whole are equally near: from the left.
            faces.put_in_order_by_key(|(whole, _)| (whole.is_none(), *whole));
            faces.into_iter().map(|(_, at)| at).collect()
        };
        let front = seen(View::Front);
        let panel = front.first().and_then(|(index, _)| laid.panels.get(*index));
        let covers = panel.and_then(|panel| {
            let pose = closed.poses.iter().find(|pose| pose.panel == panel.id)?;
            Some(pose.covers)
        });
        let corners: Vec<_> = closed
            .poses
            .iter()
            .flat_map(|it| it.covers.corners())
            .collect();
        let within = bounds(&corners).unwrap_or_default();
        let low = covers.map_or(within.low, |covers| covers.low);
        let count = recipe.base.panels.len();
        Some(Self {
            front_at: Size {
                width: low.x - within.low.x,
                height: low.y - within.low.y,
            },
            ..Self::parted(count, front, seen(View::Back), closed.size())
        })
    }

    /// As a book lies, where the base does not fold flat.
    pub(super) fn of_book(shape: &Shape) -> Self {
        let front = vec![(0, Side::B)];
        let back = match shape.widths.len() {
            0 | 1 => Vec::new(),
            _ => vec![(shape.rests, Side::B)],
        };
        let closed = shape.panel(shape.rests).unwrap_or_default();
        Self::parted(shape.widths.len(), front, back, closed)
    }

    fn parted(count: usize, front: Vec<At>, back: Vec<At>, closed: Size) -> Self {
        let back: Vec<At> = back.into_iter().filter(|at| !front.contains(at)).collect();
        let rest = |side: Side| {
            let all = (0..count).rev().map(move |index| (index, side));
            all.filter(|at| !front.contains(at) && !back.contains(at))
                .collect()
        };
        Self {
            inside: rest(Side::A),
            hidden: rest(Side::B),
            front,
            back,
            closed,
            front_at: Size::default(),
        }
    }

    /// Every face, in the order they are usually covered.
    pub(super) fn faces(&self) -> impl Iterator<Item = At> + '_ {
        let outer = self.front.iter().chain(&self.inside);
        outer.chain(&self.back).chain(&self.hidden).copied()
    }

    /// Whether a face is where the list says a layer goes.
    pub(super) fn is_at(&self, at: At, spot: Spot, shape: &Shape) -> bool {
        let side = match spot.side {
            Where::Front => &self.front,
            Where::Inside => &self.inside,
            Where::Back => &self.back,
        };
        let width = |at: &At| shape.widths.get(at.0).copied().unwrap_or_default();
        let mut indices: Vec<usize> = side.iter().map(|(index, _)| *index).collect();
        indices.put_in_order();
        let (first, last) = (
            indices.first() == Some(&at.0),
            indices.last() == Some(&at.0),
        );
        side.contains(&at)
            && match spot.hand {
                None => true,
                Some(Hand::Left) => first,
                Some(Hand::Right) => last,
                Some(Hand::Middle) => !first && !last,
            }
            && match spot.extent {
                None => true,
                Some(Extent::Large) => side.iter().all(|other| width(other) <= width(&at)),
                Some(Extent::Small) => side.iter().all(|other| width(other) >= width(&at)),
            }
    }
}
