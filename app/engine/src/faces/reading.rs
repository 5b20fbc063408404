//! How each face of the card is read: in which state, from which view.

use std::collections::BTreeSet;

use super::{View, faces_shown};
use crate::fold::{Folded, Pose, State};
use crate::laid::{LaidOut, LaidPanel};
use crate::length::Length;
use crate::plane::{CardFrame, FaceFrame, PieceFrame, Placement, Point, Turn};
use crate::recipe::{Face, Side};
use crate::sorted::InOrder as _;

/// How a face is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    /// The face.
    pub face: Face,
    /// The state, by its index in the order of opening, in which it first
    /// shows.
    pub state: usize,
    /// From where it shows then.
    pub view: View,
    /// From the flat piece to the face as its reader sees it.
    pub place: Placement<PieceFrame, FaceFrame>,
}

impl Reading {
    /// From the face to the card in some state.
    pub fn in_card(&self, state: &State) -> Option<Placement<FaceFrame, CardFrame>> {
        let pose = state
            .poses
            .iter()
            .find(|pose| pose.panel == self.face.panel && !pose.stands)?;
        Some(self.place.back().then(&pose.place))
    }
}

/// How every face of every panel is read: both sides of the first panel, then
/// of the next. A face is read where it first shows, in front before behind;
/// one that never lies flat to be seen, as its piece is drawn.
pub fn readings(laid: &LaidOut, folded: &Folded) -> Vec<Reading> {
    let mut found: Vec<Reading> = Vec::new();
    let mut known: BTreeSet<Face> = BTreeSet::new();
    for view in [View::Front, View::Back] {
        for (number, state) in folded.states.iter().enumerate() {
            if known.len() >= 2 * state.poses.len() {
                break;
            }
            for face in faces_shown(state, view, |face| !known.contains(&face)) {
                if let Some(reading) = reading(state, number, view, face) {
                    known.insert(face);
                    found.push(reading);
                }
            }
        }
    }
    let last = folded.states.len().saturating_sub(1);
    for panel in laid.pieces.iter().flat_map(|piece| laid.panels_of(piece)) {
        for side in [Side::A, Side::B] {
            let face = Face {
                panel: panel.id,
                side,
            };
            if known.insert(face) {
                found.push(as_drawn(panel, face, last));
            }
        }
    }
    found.put_in_order_by_key(|reading| (reading.face.panel, reading.face.side));
    found
}

/// How a face is read; where the card does not fold, as its piece is drawn.
/// `None` where its panel is not there.
pub fn reading_of(laid: &LaidOut, readings: &[Reading], face: Face) -> Option<Reading> {
    let read = readings.iter().find(|reading| reading.face == face);
    let panel = || laid.panels.iter().find(|panel| panel.id == face.panel);
    read.copied().or_else(|| Some(as_drawn(panel()?, face, 0)))
}

fn as_drawn(panel: &LaidPanel, face: Face, state: usize) -> Reading {
    let seen: Placement<PieceFrame, FaceFrame> = match face.side {
        Side::A => Placement::unmoved(),
        Side::B => Placement::over_upright(Length::ZERO),
    };
    let outline = seen.polygon(&panel.facet.outline);
    let low = outline.bounds().unwrap_or_default().low;
    let moved: Placement<FaceFrame, FaceFrame> =
        Placement::new(false, Turn::None, Point::new(-low.x, -low.y));
    Reading {
        face,
        state,
        view: View::Front,
        place: seen.then(&moved),
    }
}

fn reading(state: &State, number: usize, view: View, face: Face) -> Option<Reading> {
    let pose = state.poses.iter().find(|pose| pose.panel == face.panel)?;
    let seen: Placement<CardFrame, FaceFrame> = match view {
        View::Front => Placement::unmoved(),
        View::Back => Placement::over_upright(Length::ZERO),
    };
    let low = seen.rect(&pose.covers).low;
    let moved: Placement<FaceFrame, FaceFrame> =
        Placement::new(false, Turn::None, Point::new(-low.x, -low.y));
    Some(Reading {
        face,
        state: number,
        view,
        place: pose.place.then(&seen).then(&moved),
    })
}

/// The face of a panel that a view sees, and the one behind it.
pub fn near_and_far(pose: &Pose, view: View) -> [Face; 2] {
    // A mirrored panel turns its outside to the front.
    let side = if pose.place.mirrored == (view == View::Front) {
        Side::B
    } else {
        Side::A
    };
    let panel = pose.panel;
    [side, side.other()].map(|side| Face { panel, side })
}
