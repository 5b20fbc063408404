//! Layers that reach past the panel they lie on, and so lie between or over
//! other panels of the closed card.

use super::stack::{Bond, Facet};
use super::state::Pose;
use crate::plane::{CardFrame, Region};
use crate::recipe::{LayerId, Side};

/// A layer that reaches past its panel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overhang {
    /// The layer.
    pub layer: LayerId,
    /// The panel that carries it, by its index among all.
    pub panel: usize,
    /// The side of that panel it lies on.
    pub side: Side,
    /// What it covers in the closed card.
    pub area: Region<CardFrame>,
}

/// Each layer, numbered after all panels, and whether it lies in front of its
/// panel.
pub(super) fn outermost(overhangs: &[Overhang], poses: &[Pose]) -> Vec<(usize, bool)> {
    let all = overhangs.iter().enumerate();
    all.filter_map(|(number, layer)| {
        let pose = poses.get(layer.panel)?;
        Some((poses.len() + number, layer.is_in_front(pose)))
    })
    .collect()
}

impl Overhang {
    pub(super) fn is_in_front(&self, panel: &Pose) -> bool {
        (self.side == Side::A) != panel.place.mirrored
    }
}

/// The layers as facets, turned as their panels are.
pub(super) fn facets(overhangs: &[Overhang], poses: &[Pose]) -> Vec<Facet> {
    let facets = overhangs.iter().map(|it| Facet {
        area: it.area.clone(),
        mirrored: poses.get(it.panel).is_some_and(|pose| pose.place.mirrored),
    });
    facets.collect()
}

/// The glue that holds the layers: each touches what was put on before it, and
/// beside that its panel. The layers are numbered after so many panels.
pub(super) fn bonds(overhangs: &[Overhang], poses: &[Pose], panels: usize) -> Vec<Bond> {
    let extents: Vec<_> = overhangs.iter().map(|layer| layer.area.bounds()).collect();
    let mut bonds = Vec::new();
    for (number, layer) in overhangs.iter().enumerate() {
        let Some(pose) = poses.get(layer.panel) else {
            continue;
        };
        let in_front = layer.is_in_front(pose);
        let mut touch = |under: usize, glue: Region<CardFrame>| {
            let over = panels + number;
            let (front, back) = if in_front {
                (over, under)
            } else {
                (under, over)
            };
            if !glue.is_empty() {
                bonds.push(Bond { front, back, glue });
            }
        };
        let mut rest = layer.area.clone();
        for (before, under) in overhangs.iter().enumerate().take(number).rev() {
            let is_beside = (under.panel, under.side) == (layer.panel, layer.side);
            if is_beside
                && extents[number]
                    .zip(extents[before])
                    .is_some_and(|(a, b)| a.common(&b).is_some())
            {
                touch(panels + before, rest.common(&under.area));
                rest = rest.minus(&under.area);
            }
        }
        touch(layer.panel, rest.common(&pose.area().region()));
    }
    bonds
}
