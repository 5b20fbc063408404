//! Which joints move each other.

use super::linkage::{GIVE, Linkage, Step};
use super::space::{Rigid, Vector, add, cross, length, scale, sub};
use crate::sorted::InOrder as _;

/// A joint outside the tree, which closes a loop.
#[derive(Debug)]
pub(super) struct Loop {
    pub joint: usize,
    /// Steps from the common ancestor to the joint's first body, and to its
    /// second.
    pub legs: [Vec<Step>; 2],
    /// Three points of the second body, spread over the size of what the crease
    /// joins, that both ways round have to carry to the same places.
    pub marks: [Vector; 3],
    /// The same points as the way over the joint carries them: where the loop
    /// nearly closes in the closed card, paper takes up the rest.
    pub reached: [Vector; 3],
}

/// Joints that move each other through loops, or one joint alone.
#[derive(Debug)]
pub(super) struct Block {
    /// Every joint; the first drives the others.
    pub joints: Vec<usize>,
    /// Its part of the tree, outwards from `top`.
    pub steps: Vec<Step>,
    pub top: usize,
    pub loops: Vec<Loop>,
    /// What its loops miss by in the closed card and paper takes up, in
    /// millimetres.
    pub miss: f64,
}

impl Linkage {
    /// Parts the joints into blocks: two joints share one when a chain of
    /// loops links them.
    pub(super) fn part(&mut self, main: Option<usize>) {
        let mut step_to: Vec<Option<Step>> = vec![None; self.bodies];
        let mut depth = vec![0_usize; self.bodies];
        for step in &self.steps {
            step_to[step.to] = Some(*step);
            depth[step.to] = depth[step.from] + 1;
        }
        let mut leader: Vec<usize> = (0..self.joints.len()).collect();
        let mut in_tree = vec![false; self.joints.len()];
        for step in &self.steps {
            in_tree[step.joint] = true;
        }
        let mut closed = vec![Rigid::HERE; self.bodies];
        let shut = vec![0.0; self.joints.len()];
        self.place(&self.steps, &shut, &mut closed);
        let mut loops = Vec::new();
        for (chord, joint) in self.joints.iter().enumerate() {
            let hung = |body: usize| body == self.root || step_to[body].is_some();
            if in_tree[chord] || !hung(joint.bodies[0]) {
                continue;
            }
            let mut ends = joint.bodies;
            let mut legs = [Vec::new(), Vec::new()];
            while ends[0] != ends[1] {
                let deeper = usize::from(depth[ends[1]] > depth[ends[0]]);
                let Some(step) = step_to[ends[deeper]] else {
                    break;
                };
                legs[deeper].push(step);
                ends[deeper] = step.from;
                join(&mut leader, chord, step.joint);
            }
            let back = joint.closed.undone();
            let at = back.point(joint.at);
            let along = scale(back.direction(joint.axis), joint.size);
            // Bodies are flat: this lies in the body, across the axis.
            let across = cross([0.0, 0.0, 1.0], along);
            let marks = [at, add(at, along), add(at, across)];
            let [first, second] = joint.bodies.map(|body| closed[body]);
            let via = first.after(&joint.closed);
            let reached = marks.map(|mark| via.undone().point(second.point(mark)));
            let miss = (0..3).fold(0.0, |most: f64, index| {
                most.max(length(sub(reached[index], marks[index])))
            });
            let is_taken_up = miss <= GIVE;
            let taken_up = Loop {
                joint: chord,
                legs,
                marks,
                reached: if is_taken_up { reached } else { marks },
            };
            loops.push((taken_up, if is_taken_up { miss } else { 0.0 }));
        }
        let main_leader = main.map(|joint| led(&mut leader, joint));
        let mut blocks: Vec<(usize, Block)> = Vec::new();
        for step in &self.steps {
            let by = led(&mut leader, step.joint);
            if let Some((_, block)) = blocks.iter_mut().find(|(known, _)| *known == by) {
                block.steps.push(*step);
                block.joints.push(step.joint);
            } else {
                let block = Block {
                    joints: vec![step.joint],
                    steps: vec![*step],
                    top: step.from,
                    loops: Vec::new(),
                    miss: 0.0,
                };
                blocks.push((by, block));
            }
        }
        for (round, miss) in loops {
            let by = led(&mut leader, round.joint);
            if let Some((_, block)) = blocks.iter_mut().find(|(known, _)| *known == by) {
                block.joints.push(round.joint);
                block.loops.push(round);
                block.miss = block.miss.max(miss);
            }
        }
        blocks.put_in_order_by_key(|(by, _)| Some(*by) != main_leader);
        for (by, block) in &mut blocks {
            let driver = if Some(*by) == main_leader {
                block.joints.iter().position(|joint| Some(*joint) == main)
            } else {
                block
                    .joints
                    .iter()
                    .position(|joint| self.joints[*joint].folded)
            };
            block.joints.swap(0, driver.unwrap_or(0));
        }
        self.blocks = blocks.into_iter().map(|(_, block)| block).collect();
    }
}

/// The leader of a joint's block so far.
fn led(leader: &mut [usize], mut joint: usize) -> usize {
    while leader[joint] != joint {
        leader[joint] = leader[leader[joint]];
        joint = leader[joint];
    }
    joint
}

fn join(leader: &mut [usize], a: usize, b: usize) {
    let (a, b) = (led(leader, a), led(leader, b));
    leader[a] = b;
}
