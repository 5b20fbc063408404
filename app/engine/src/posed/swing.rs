//! Panels that swing about a crease, from one state of the card to the next.

use std::f64::consts::PI;

use crate::card::{Card, lay_in_plane};
use crate::fold::State;
use crate::motion::{Rigid, Vector, cross, dot, length, scale, sub};

/// The turn that panels have made when a part of the next opening is done; `None`
/// where nothing swings by itself.
pub(super) fn swing(card: &Card, now: &State, next: &State, part: f64) -> Option<Rigid> {
    let opened = next.opened.as_ref().filter(|opened| !opened.together)?;
    let hinge = card.laid.hinges.get(*opened.hinges.first()?)?;
    let moving = if opened.moved.contains(&hinge.left) {
        hinge.left
    } else {
        hinge.right
    };
    let place = lay_in_plane(&now.poses.get(moving)?.place).in_space();
    let at = |x: crate::length::Length, y: crate::length::Length| -> Vector {
        place.point([x.as_mm_f64(), y.as_mm_f64(), 0.0])
    };
    let (from, to) = (hinge.course.from, hinge.course.to);
    let (from, to) = (at(from.x, from.y), at(to.x, to.y));
    let long = length(sub(to, from));
    if long <= 0.0 {
        return None;
    }
    let along = scale(sub(to, from), 1.0 / long);
    let left = cross([0.0, 0.0, 1.0], along);
    // A panel lies wholly on one side of its crease.
    let outline = &card.laid.panels.get(moving)?.facet.outline;
    let corners = outline.corners.iter().map(|corner| at(corner.x, corner.y));
    let aside: f64 = corners.map(|at| dot(left, sub(at, from))).sum();
    let rises = next.towards_front() == (aside >= 0.0);
    let angle = if rises { part * PI } else { -part * PI };
    Some(Rigid::about(from, along, angle))
}
