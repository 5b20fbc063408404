//! How panels hang together: by creases, and by glue.

use super::state::Pose;
use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{CardFrame, PieceFrame, Placement, Point, SAME_WITHIN};
use crate::recipe::{Face, PieceId, Side};

/// A panel of one piece glued onto another piece, as both lie in the closed
/// card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Glued {
    /// The piece, and which of its joins.
    pub join: (PieceId, usize),
    /// The panel that is glued, by its index among all.
    pub part: usize,
    /// The panel that carries it.
    pub on: usize,
    /// What it is glued to.
    pub face: Face,
    /// From the piece to the one that carries it, as they come to lie.
    pub place: Placement<PieceFrame, PieceFrame>,
    /// How far that is from the line it was to be laid along; nothing where
    /// there is no such line, or where it would lie the other side up.
    pub off: Option<Length>,
    /// Whether it was to lie the other side up.
    pub turned_over: bool,
}

impl Glued {
    /// The two panels, the one nearer the front of the card first.
    pub(super) fn in_order(&self, on: &Pose) -> (usize, usize) {
        // A mirrored panel turns its inside to the back.
        if (self.face.side == Side::A) == on.place.mirrored {
            (self.on, self.part)
        } else {
            (self.part, self.on)
        }
    }
}

/// How panels lie to each other across a crease.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// Folded over.
    Shut,
    /// In one plane.
    Flat,
    /// Neither: the one says nothing of the other.
    Parted,
}

type Lie = Placement<PieceFrame, CardFrame>;

/// Where every panel lies that hangs on the `root` by glue or by creases that
/// are shut or flat. Glue is told as the panel that carries, the one that is
/// carried, and how the latter's piece lies in the former's.
///
/// Of several ways to a panel one in quarter turns is taken where there is one:
/// along it nothing is rounded, and the card comes out as wide as its measures
/// say, whatever folds aslant beside it.
pub(super) fn places(
    laid: &LaidOut,
    glue: &[(usize, usize, Placement<PieceFrame, PieceFrame>)],
    root: usize,
    resting: Lie,
    way: &dyn Fn(usize) -> Way,
) -> Vec<Option<Lie>> {
    let mut places: Vec<Option<Lie>> = vec![None; laid.panels.len()];
    // By whether the way there was rounded.
    let mut waiting = [vec![(root, resting)], Vec::new()];
    while let Some((panel, lie, rounded)) = next(&mut waiting) {
        match places.get_mut(panel) {
            Some(place) if place.is_none() => *place = Some(lie),
            _ => continue,
        }
        let mut reach = |beyond: usize, step: Lie| {
            let rounded = rounded || step.turn.quarter().is_none();
            waiting[usize::from(rounded)].push((beyond, step));
        };
        for (number, hinge) in laid.hinges.iter().enumerate() {
            if ![hinge.left, hinge.right].contains(&panel) {
                continue;
            }
            let beyond = match way(number) {
                Way::Shut => Placement::over(&hinge.axis).map(|over| over.then(&lie)),
                Way::Flat => Some(lie),
                Way::Parted => None,
            };
            if let Some(beyond) = beyond {
                reach(hinge.across(panel), beyond);
            }
        }
        for (on, part, place) in glue {
            if *on == panel {
                reach(*part, place.then(&lie));
            } else if *part == panel {
                reach(*on, place.back().then(&lie));
            }
        }
    }
    places
}

/// What waits to be placed next, and whether the way there was rounded.
fn next(waiting: &mut [Vec<(usize, Lie)>; 2]) -> Option<(usize, Lie, bool)> {
    let [exact, rounded] = waiting;
    let next = exact.pop().map(|(panel, lie)| (panel, lie, false));
    next.or_else(|| rounded.pop().map(|(panel, lie)| (panel, lie, true)))
}

/// Every panel in its place; those without one do not lie flat.
///
/// What lies aslant is rounded. Where it reaches as far as a panel that lies
/// straight, it is said to reach just as far.
pub(super) fn poses(laid: &LaidOut, places: Vec<Option<Lie>>) -> Vec<Pose> {
    let panels = laid.panels.iter().zip(places);
    let mut poses: Vec<_> = panels
        .map(|(panel, place)| match place {
            Some(place) => Pose::of(panel, place),
            None => Pose::standing(panel),
        })
        .collect();
    let (straight, aslant): (Vec<_>, Vec<_>) = poses
        .iter_mut()
        .filter(|pose| !pose.stands)
        .partition(|pose| pose.place.turn.quarter().is_some());
    let ends: Vec<_> = straight
        .iter()
        .flat_map(|pose| [pose.covers.low, pose.covers.high])
        .collect();
    let true_to = |at: Length, of: fn(&Point<CardFrame>) -> Length| {
        let near = ends.iter().map(of).min_by_key(|end| (*end - at).abs());
        near.filter(|end| (*end - at).abs() <= SAME_WITHIN)
            .unwrap_or(at)
    };
    for pose in aslant {
        for end in [&mut pose.covers.low, &mut pose.covers.high] {
            *end = Point::new(true_to(end.x, |end| end.x), true_to(end.y, |end| end.y));
        }
    }
    poses
}

/// How the pieces come to be glued where panels lie so.
pub(super) fn glued(laid: &LaidOut, places: &[Option<Lie>]) -> Vec<Glued> {
    let lie = |panel: usize| places.get(panel).copied().flatten();
    let bonds = laid.bonds.iter();
    bonds
        .filter_map(|bond| {
            let place = lie(bond.part)?.then(&lie(bond.on)?.back());
            let wanted = bond.place.unwrap_or(place);
            let turned_over = wanted.mirrored != place.mirrored;
            let corners = laid.panels.get(bond.part)?.facet.corners();
            let off = (bond.place.is_some() && !turned_over).then(|| wanted.apart(&place, corners));
            Some(Glued {
                join: bond.join,
                part: bond.part,
                on: bond.on,
                face: bond.face,
                place,
                off,
                turned_over,
            })
        })
        .collect()
}

/// What becomes of a crease when the card opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// It opens by itself, or along with others of its piece.
    Free,
    /// Glue holds it as it is in the closed card, as in a pocket.
    Held,
    /// It moves with the base, between shut and flat.
    Driven,
}

/// The role of every crease. Creases that glue links in rings move each other:
/// with a crease of the base among them they are driven, else held. Creases of
/// the base are free.
pub(super) fn roles(laid: &LaidOut, glued: &[Glued]) -> Vec<Role> {
    if glued.is_empty() {
        return vec![Role::Free; laid.hinges.len()];
    }
    let with_glue = rings(laid, glued);
    let without = rings(laid, &[]);
    let of_base = |hinge: usize| {
        let hinge = laid.hinges.get(hinge);
        hinge.is_some_and(|hinge| laid.base.panels.contains(&hinge.left))
    };
    let hinges = 0..laid.hinges.len();
    hinges
        .clone()
        .map(|hinge| {
            let ring = with_glue[hinge];
            let same = |other: &usize| with_glue[*other] == ring;
            let count = |rings: &[usize]| {
                let at = rings[hinge];
                rings.iter().filter(|other| **other == at).count()
            };
            if of_base(hinge) || count(&with_glue) == count(&without) {
                Role::Free
            } else if hinges.clone().filter(same).any(of_base) {
                Role::Driven
            } else {
                Role::Held
            }
        })
        .collect()
}

/// For each crease the number of the ring it is in: creases that a chain of
/// rings links share one, a crease in no ring has its own.
pub(super) fn rings(laid: &LaidOut, glued: &[Glued]) -> Vec<usize> {
    // Panels glued to each other are one body.
    let mut body = Leaders::of(laid.panels.len());
    for bond in glued {
        body.join(bond.on, bond.part);
    }
    let ends: Vec<[usize; 2]> = laid
        .hinges
        .iter()
        .map(|hinge| [hinge.left, hinge.right].map(|panel| body.of_one(panel)))
        .collect();
    // A tree of creases reaches every body; each crease left over closes a
    // ring with those between its ends and the tree's.
    let mut above: Vec<Option<(usize, usize)>> = vec![None; laid.panels.len()];
    let mut depth = vec![usize::MAX; laid.panels.len()];
    let mut in_tree = vec![false; ends.len()];
    for root in 0..laid.panels.len() {
        if depth[root] != usize::MAX {
            continue;
        }
        depth[root] = 0;
        let mut waiting = vec![root];
        while let Some(at) = waiting.pop() {
            for (hinge, pair) in ends.iter().enumerate() {
                let beyond = match *pair {
                    [a, b] if a == at => b,
                    [a, b] if b == at => a,
                    _ => continue,
                };
                if depth[beyond] == usize::MAX {
                    depth[beyond] = depth[at] + 1;
                    above[beyond] = Some((at, hinge));
                    in_tree[hinge] = true;
                    waiting.push(beyond);
                }
            }
        }
    }
    let mut ring = Leaders::of(ends.len());
    for (chord, pair) in ends.iter().enumerate() {
        let mut ends = *pair;
        while !in_tree[chord] && ends[0] != ends[1] {
            let deeper = usize::from(depth[ends[1]] > depth[ends[0]]);
            let Some((next, hinge)) = above[ends[deeper]] else {
                break;
            };
            ring.join(chord, hinge);
            ends[deeper] = next;
        }
    }
    (0..ends.len()).map(|hinge| ring.of_one(hinge)).collect()
}

/// Things joined into sets, each known by one of them.
struct Leaders(Vec<usize>);

impl Leaders {
    fn of(count: usize) -> Self {
        Self((0..count).collect())
    }

    fn of_one(&self, mut one: usize) -> usize {
        while self.0[one] != one {
            one = self.0[one];
        }
        one
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.of_one(a), self.of_one(b));
        self.0[a] = b;
    }
}
