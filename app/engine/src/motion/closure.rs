//! Closing the loops of a block: the angles at which both ways round every
//! loop meet.
//!
//! Damped Gauss–Newton (Levenberg–Marquardt) on the distances between three
//! points of each closing body, reached both ways round. The points lie as far
//! apart as what the crease joins is large, so that a turn counts by what it
//! moves and planar, spherical and spatial loops need no special case.

use super::blocks::{Block, Loop};
use super::dense;
use super::linkage::Linkage;
use super::space::{Rigid, Vector, cross, dot, length, scale, sub};

/// Residual at which nothing more is gained, as a share of the card's size:
/// well above rounding, far below [`super::linkage::GIVE`].
const FINE: f64 = 1e-12;

/// Largest change of an angle in one step, in radians: beyond it the linear
/// model says nothing.
const STRIDE: f64 = 0.5;

/// The equations of one block, with room to work in.
pub(super) struct Closure<'a> {
    linkage: &'a Linkage,
    block: &'a Block,
    /// Index of each joint among the unknowns; the driver has none.
    unknown: Vec<Option<usize>>,
    /// The angle by which each joint of the linkage is open, in radians.
    pub opened: Vec<f64>,
    /// Joints of the block that keep their angle, by index in the block.
    pub held: Vec<bool>,
    bodies: Vec<Rigid>,
    matrix: Vec<f64>,
    right: Vec<f64>,
}

impl<'a> Closure<'a> {
    pub(super) fn new(linkage: &'a Linkage, block: &'a Block) -> Self {
        let mut unknown = vec![None; linkage.joints.len()];
        for (index, joint) in block.joints.iter().skip(1).enumerate() {
            unknown[*joint] = Some(index);
        }
        let count = block.joints.len().saturating_sub(1);
        Self {
            linkage,
            block,
            unknown,
            opened: vec![0.0; linkage.joints.len()],
            held: vec![false; block.joints.len()],
            bodies: vec![Rigid::HERE; linkage.bodies],
            matrix: vec![0.0; count * count],
            right: vec![0.0; count],
        }
    }

    /// The angles of the block's joints, in its order.
    pub(super) fn angles(&self) -> Vec<f64> {
        self.block
            .joints
            .iter()
            .map(|joint| self.opened[*joint])
            .collect()
    }

    pub(super) fn set(&mut self, angles: &[f64]) {
        for (joint, angle) in self.block.joints.iter().zip(angles) {
            self.opened[*joint] = *angle;
        }
    }

    /// Places the bodies; the largest distance by which a loop misses, and the
    /// sum of all squares.
    fn miss(&mut self) -> (f64, f64) {
        self.bodies[self.block.top] = Rigid::HERE;
        self.linkage
            .place(&self.block.steps, &self.opened, &mut self.bodies);
        let (mut largest, mut squares) = (0.0_f64, 0.0);
        for round in &self.block.loops {
            let (via, end) = self.ends(round);
            for (reached, mark) in round.reached.iter().zip(round.marks) {
                let off = sub(via.point(*reached), end.point(mark));
                let square = dot(off, off);
                largest = largest.max(square);
                squares += square;
            }
        }
        (largest.sqrt(), squares)
    }

    /// Where the closing body lies, reached both ways.
    fn ends(&self, round: &Loop) -> (Rigid, Rigid) {
        let joint = &self.linkage.joints[round.joint];
        let lay = joint.lay(self.opened[round.joint]);
        (
            self.bodies[joint.bodies[0]].after(&lay),
            self.bodies[joint.bodies[1]],
        )
    }

    /// The gap at which the loops are closed as well as in the closed card: a
    /// solver's `rest`, and at the other end once more what paper takes up.
    pub(super) fn settled(&self, rest: f64) -> f64 {
        rest + 2.0 * self.block.miss
    }

    /// The largest distance by which a loop misses now, in millimetres.
    pub(super) fn gap(&mut self) -> f64 {
        self.miss().0
    }

    /// How the bodies placed last miss, linearised: fills the normal equations.
    fn linearise(&mut self) {
        let count = self.right.len();
        self.matrix.fill(0.0);
        self.right.fill(0.0);
        let mut columns: Vec<(usize, [Vector; 3])> = Vec::new();
        for round in &self.block.loops {
            let (via, end) = self.ends(round);
            let on_first = round.reached.map(|mark| via.point(mark));
            let on_second = round.marks.map(|mark| end.point(mark));
            columns.clear();
            let chord = std::iter::once((round.joint, 1.0, &on_first));
            let first = round.legs[0].iter().map(|step| (step, 1.0, &on_first));
            let second = round.legs[1].iter().map(|step| (step, -1.0, &on_second));
            let legs = first.chain(second).map(|(step, side, points)| {
                let way = if step.forward { side } else { -side };
                (step.joint, way, points)
            });
            for (joint, way, points) in chord.chain(legs) {
                let Some(index) = self.unknown[joint] else {
                    continue;
                };
                let known = &self.linkage.joints[joint];
                let body = &self.bodies[known.bodies[0]];
                let axis = scale(body.direction(known.axis), way);
                let at = body.point(known.at);
                columns.push((index, points.map(|point| cross(axis, sub(point, at)))));
            }
            for (row, ways) in &columns {
                for mark in 0..3 {
                    let off = sub(on_first[mark], on_second[mark]);
                    self.right[*row] -= dot(ways[mark], off);
                }
                for (column, others) in &columns {
                    let product: f64 = (0..3).map(|mark| dot(ways[mark], others[mark])).sum();
                    self.matrix[row * count + column] += product;
                }
            }
        }
        for (index, held) in self.held.iter().skip(1).enumerate() {
            if *held {
                self.right[index] = 0.0;
                for other in 0..count {
                    self.matrix[index * count + other] = 0.0;
                    self.matrix[other * count + index] = 0.0;
                }
            }
        }
    }

    /// Moves the joints that are not held until the loops close, as far as
    /// they do within `rounds`; the gap that is left, in millimetres.
    pub(super) fn close(&mut self, rounds: u32) -> f64 {
        let count = self.right.len();
        let reach = self.linkage.reach;
        let (mut gap, mut squares) = self.miss();
        let mut damping = 1e-10;
        let mut matrix = vec![0.0; count * count];
        let mut step = vec![0.0; count];
        let mut stale = true;
        for _ in 0..rounds {
            if gap <= FINE * reach {
                break;
            }
            if stale {
                self.linearise();
                stale = false;
            }
            matrix.copy_from_slice(&self.matrix);
            step.copy_from_slice(&self.right);
            for index in 0..count {
                matrix[index * count + index] += damping * reach * reach;
            }
            let solved = dense::solve(&mut matrix, &mut step);
            let longest = step
                .iter()
                .fold(0.0, |most: f64, part| most.max(part.abs()));
            let before = self.angles();
            let by = (STRIDE / longest).min(1.0);
            for (joint, part) in self.block.joints.iter().skip(1).zip(&step) {
                self.opened[*joint] += part * by;
            }
            let (next_gap, next_squares) = self.miss();
            if solved && next_squares < squares {
                // Where the parts do not fit exactly the gap ends at what is
                // left, not at nothing.
                let settled = damping < 1e-6 && squares - next_squares < 1e-6 * squares;
                let still = longest < 1e-12 || settled;
                (gap, squares) = (next_gap, next_squares);
                damping = (damping * 0.1).max(1e-14);
                stale = true;
                if still {
                    break;
                }
            } else {
                self.set(&before);
                self.miss();
                damping *= 30.0;
                if longest < 1e-12 || damping > 1e4 {
                    break;
                }
            }
        }
        gap
    }

    /// Which joints of the block, by index in it, the driver does not
    /// determine at the present angles.
    pub(super) fn undetermined(&mut self) -> Vec<bool> {
        self.miss();
        self.linearise();
        let mut free = vec![false];
        free.extend(dense::undetermined(self.matrix.clone(), self.right.len()));
        free
    }

    /// The joint, by index in the block, whose crease would have to bend the
    /// farthest past its end, by more than `slack` radians; and that end.
    pub(super) fn bent_back(&self, slack: f64) -> Option<(usize, f64)> {
        let mut worst = None;
        let mut most = slack;
        for (index, joint) in self.block.joints.iter().enumerate().skip(1) {
            let angle = self.opened[*joint];
            let end = angle.clamp(0.0, std::f64::consts::PI);
            if (angle - end).abs() > most {
                most = (angle - end).abs();
                worst = Some((index, end));
            }
        }
        worst
    }

    /// The names of a loop's creases, one for each joint round it, of every
    /// loop that misses by more than `give` at the present angles.
    pub(super) fn misses(&mut self, give: f64) -> Vec<(Vec<usize>, f64)> {
        self.miss();
        let mut missed = Vec::new();
        for round in &self.block.loops {
            let (via, end) = self.ends(round);
            let gap = round.marks.iter().fold(0.0, |most: f64, mark| {
                most.max(length(sub(via.point(*mark), end.point(*mark))))
            });
            if gap > give {
                let legs = round.legs.iter().flatten().map(|step| step.joint);
                let joints = legs.chain(std::iter::once(round.joint));
                let first = |joint: usize| self.linkage.joints[joint].hinges.first().copied();
                missed.push((joints.filter_map(first).collect(), gap));
            }
        }
        missed
    }
}
