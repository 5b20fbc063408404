//! Whether the panels come together again after folding once round a point, a
//! hole or a cut.
//!
//! Kawasaki and Justin: creases that meet in a point fold flat together only
//! if, of the angles between them, every second one makes 180° in all.
//! Maekawa and Justin: and only if mountains and valleys differ by two. Round
//! a hole or a cut the mirrorings one after another must cancel.

use super::flat::{folded_over, places};
use super::{Angle, Divided, Fold, Hinge, LineId, Opening, Vertex};
use crate::length::Length;
use crate::plane::{PieceFrame, Placement, Point, SAME_WITHIN, step};

/// The most a crease is turned by to mend a point: beyond, it helps more to move
/// the point. (Own choice.)
const SMALL_TURN: Angle = Angle::thousandths(15_000);

/// A place at which the piece cannot be folded flat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Misfit {
    /// An odd number of creases meets in a point, so that folding round it
    /// comes back with the wrong side up.
    OddCreases {
        /// The point.
        at: Point<PieceFrame>,
        /// How many creases.
        count: usize,
    },
    /// Every second angle round a point does not make half a turn.
    Angles {
        /// The point.
        at: Point<PieceFrame>,
        /// The sums of every second angle: of the first, the third and so on,
        /// anticlockwise from the right, and of the others.
        sums: [Angle; 2],
        /// How far a corner of the panels misses itself.
        gap: Length,
    },
    /// Mountains and valleys round a point do not differ by two.
    Folds {
        /// The point.
        at: Point<PieceFrame>,
        /// How many creases are mountains, seen from side A.
        mountains: usize,
        /// How many are valleys.
        valleys: usize,
    },
    /// Round a hole or a cut the panels do not come back to where they began.
    Opening {
        /// A corner of the hole or cut.
        at: Point<PieceFrame>,
        /// Whether it is a hole.
        is_hole: bool,
        /// Whether they come back with the wrong side up.
        turned_over: bool,
        /// How far a corner of the panels misses itself.
        gap: Length,
    },
    /// Small misses add up over the piece, none of them too large by itself.
    Drift {
        /// A crease at which it shows.
        line: LineId,
        /// A point of that crease.
        at: Point<PieceFrame>,
        /// How far a corner of the panels misses itself.
        gap: Length,
    },
}

impl Misfit {
    /// By how much to turn one of the creases that meet, where that is little:
    /// otherwise they were meant to lie differently altogether.
    pub fn small_turn(&self) -> Option<Angle> {
        match self {
            Self::Angles { sums, .. } => {
                let off = sums[0].off(Angle::thousandths(180_000));
                (off <= SMALL_TURN).then_some(off)
            }
            _ => None,
        }
    }

    /// Where to point at.
    pub const fn at(&self) -> Point<PieceFrame> {
        match self {
            Self::OddCreases { at, .. }
            | Self::Angles { at, .. }
            | Self::Folds { at, .. }
            | Self::Opening { at, .. }
            | Self::Drift { at, .. } => *at,
        }
    }
}

/// Every place at which a pattern with all its creases folded does not come
/// together. When there is none, every two panels that a crease joins agree
/// along it to within [`SAME_WITHIN`].
pub fn misfits(divided: &Divided) -> Vec<Misfit> {
    let mut found: Vec<_> = divided
        .vertices
        .iter()
        .flat_map(|vertex| at_vertex(divided, vertex))
        .collect();
    let openings = divided.openings.iter();
    found.extend(openings.filter_map(|opening| at_opening(divided, opening)));
    let apart = |misfit: &Misfit| !matches!(misfit, Misfit::Folds { .. });
    if !found.iter().any(apart) {
        found.extend(drift(divided));
    }
    found
}

/// Where a panel comes to lie, against where it lay, after folding once round.
struct Round {
    turned_over: bool,
    gap: Length,
}

impl Round {
    fn over(divided: &Divided, hinges: &[usize]) -> Option<Self> {
        let still: Placement<PieceFrame, PieceFrame> = Placement::unmoved();
        let mut place = still;
        let mut corners = Vec::new();
        for number in hinges {
            let hinge = divided.hinges.get(*number)?;
            place = folded_over(hinge, place)?;
            corners.extend(corners_beside(divided, hinge));
        }
        Some(Self {
            turned_over: place.mirrored,
            gap: place.apart(&still, corners),
        })
    }

    fn is_closed(&self) -> bool {
        !self.turned_over && self.gap <= SAME_WITHIN
    }
}

fn corners_beside<'a>(
    divided: &'a Divided,
    hinge: &Hinge,
) -> impl Iterator<Item = Point<PieceFrame>> + use<'a> {
    let facets = [hinge.left, hinge.right];
    let facets = facets
        .into_iter()
        .filter_map(|facet| divided.facets.get(facet));
    facets.flat_map(super::Facet::corners)
}

fn at_vertex(divided: &Divided, vertex: &Vertex) -> Vec<Misfit> {
    let at = vertex.at;
    let count = vertex.hinges.len();
    if count % 2 == 1 {
        return vec![Misfit::OddCreases { at, count }];
    }
    let hinges = || {
        vertex
            .hinges
            .iter()
            .filter_map(|hinge| divided.hinges.get(*hinge))
    };
    let mut found = Vec::new();
    if let Some(round) = Round::over(divided, &vertex.hinges)
        && !round.is_closed()
    {
        let directions: Vec<_> = hinges().map(|hinge| direction(hinge, at)).collect();
        found.push(Misfit::Angles {
            at,
            sums: every_second(&directions),
            gap: round.gap,
        });
    }
    let mountains = hinges()
        .filter(|hinge| hinge.fold == Fold::Mountain)
        .count();
    let valleys = count - mountains;
    if mountains.abs_diff(valleys) != 2 {
        found.push(Misfit::Folds {
            at,
            mountains,
            valleys,
        });
    }
    found
}

/// The direction of a crease away from its end at a point, in radians
/// anticlockwise from the right.
#[expect(
    clippy::cast_precision_loss,
    reason = "exact for every length that can be typed"
)]
fn direction(hinge: &Hinge, at: Point<PieceFrame>) -> f64 {
    let away = if hinge.course.from == at {
        hinge.axis
    } else {
        hinge.axis.reversed()
    };
    let (x, y) = step(away.from, away.to);
    (y as f64).atan2(x as f64)
}

/// The sums of every second angle between directions in anticlockwise order.
fn every_second(directions: &[f64]) -> [Angle; 2] {
    let whole = std::f64::consts::TAU;
    let next = directions.iter().cycle().skip(1);
    let angles = directions.iter().zip(next).map(|(from, to)| {
        let turn = to - from;
        if turn < 0.0 { turn + whole } else { turn }
    });
    let first: f64 = angles.step_by(2).sum();
    [first, whole - first].map(Angle::from_radians)
}

fn at_opening(divided: &Divided, opening: &Opening) -> Option<Misfit> {
    let round = Round::over(divided, &opening.hinges)?;
    (!round.is_closed()).then_some(Misfit::Opening {
        at: *opening.corners.first()?,
        is_hole: opening.is_hole,
        turned_over: round.turned_over,
        gap: round.gap,
    })
}

/// The crease at which panels placed one after another miss each other most.
fn drift(divided: &Divided) -> Option<Misfit> {
    let mut all = vec![None; divided.facets.len()];
    for root in 0..all.len() {
        if all[root].is_none() {
            let still: Placement<PieceFrame, PieceFrame> = Placement::unmoved();
            let joined = places(divided, root, still, &|_| true);
            for (place, found) in all.iter_mut().zip(joined) {
                *place = place.or(found);
            }
        }
    }
    let gaps = divided.hinges.iter().filter_map(|hinge| {
        let left = all.get(hinge.left).copied().flatten()?;
        let right = all.get(hinge.right).copied().flatten()?;
        let gap = folded_over(hinge, left)?.apart(&right, corners_beside(divided, hinge));
        Some((gap, hinge))
    });
    let (gap, hinge) = gaps.max_by_key(|(gap, _)| *gap)?;
    (gap > SAME_WITHIN).then_some(Misfit::Drift {
        line: hinge.line,
        at: hinge.course.middle(),
        gap,
    })
}
