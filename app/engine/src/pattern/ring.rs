//! The ways round what is not paper: round a point where creases meet, round a
//! hole, round a cut. Going once round must bring a panel back to where it
//! lies; every closed way over the piece is made of these.

use super::net::{Net, Source};
use super::web::{Web, back};
use crate::plane::{PieceFrame, Point};

/// A point within the paper where creases meet and nothing else does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Vertex {
    /// Where.
    pub at: Point<PieceFrame>,
    /// The creases round it, anticlockwise from the right, by their indices
    /// among the hinges.
    pub hinges: Vec<usize>,
}

/// A hole, or cuts that hang together, with the creases that end there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opening {
    /// Whether a hole is part of it; otherwise it is of cuts alone.
    pub is_hole: bool,
    /// Corners of it at which creases end, in the order of the creases.
    pub corners: Vec<Point<PieceFrame>>,
    /// The creases in the order in which they are crossed going round, by
    /// their indices among the hinges.
    pub hinges: Vec<usize>,
}

/// Every way round, from the edges in the web and the hinge that each crease
/// edge became.
pub(super) fn rings(
    net: &Net,
    web: &Web<'_>,
    hinge_of: &[Option<usize>],
) -> (Vec<Vertex>, Vec<Opening>) {
    let hinge = |way: usize| hinge_of[way / 2];
    // Round a knot a crease is crossed to the next edge; along anything else
    // the walk goes to its other end, where the same panel goes on.
    let walks = web.walks(|way| {
        if hinge(way).is_some() {
            web.anticlockwise(way)
        } else {
            web.anticlockwise(back(way))
        }
    });
    let mut vertices = Vec::new();
    let mut openings = Vec::new();
    for walk in walks {
        let hinges: Vec<_> = walk.iter().filter_map(|way| hinge(*way)).collect();
        let along = |source| walk.iter().any(|way| net.edges[*way / 2].source == source);
        if hinges.is_empty() || along(Source::Outline) {
            continue;
        }
        if hinges.len() == walk.len() {
            let knot = web.start(walk[0]);
            vertices.push(Vertex {
                at: net.knots[knot],
                hinges: web
                    .leaving(knot)
                    .iter()
                    .filter_map(|way| hinge(*way))
                    .collect(),
            });
        } else {
            let creases = walk.iter().filter(|way| hinge(**way).is_some());
            let corners = creases.map(|way| net.knots[web.start(*way)]).collect();
            openings.push(Opening {
                is_hole: along(Source::Hole),
                corners,
                hinges,
            });
        }
    }
    (vertices, openings)
}
