//! The assembly as a mechanism: rigid bodies, joints, and the blocks of joints
//! that move each other.

use super::assembly::{Assembly, Facet, Hinge};
use super::space::{Rigid, Vector, add, cross, dot, flat, length, scale, sub};
use super::verdict::{Finding, Item};

/// Millimetres by which parts that fit may miss each other: nothing to a sheet
/// of paper, and above the rounding of points to 1/72 µm even where a short
/// crease magnifies it over the whole card. (Own choice.)
pub(super) const GIVE: f64 = 0.002;

/// Longest coordinate that is taken for a card's, in millimetres.
const FARTHEST: f64 = 10_000.0;

/// Shortest crease that still has a direction, in millimetres.
const SHORTEST_AXIS: f64 = 1e-3;

/// Bodies `a` and `b` (`a` first by number) turning about a common line.
#[derive(Debug)]
pub(super) struct Joint {
    pub bodies: [usize; 2],
    /// The middle of the axis, in the first body.
    pub at: Vector,
    /// Along the axis, a unit vector in the first body; turning the second
    /// body about it by a positive angle opens the crease.
    pub axis: Vector,
    /// How the second body lies in the first when closed.
    pub closed: Rigid,
    /// The creases that turn here; those of one fold interrupted by a slit
    /// turn together.
    pub hinges: Vec<usize>,
    pub folded: bool,
}

impl Joint {
    /// How the second body lies in the first after opening by `angle`.
    pub(super) fn lay(&self, angle: f64) -> Rigid {
        Rigid::about(self.at, self.axis, angle).after(&self.closed)
    }

    /// The same joint seen from its second body.
    fn seen_from_second(self) -> Self {
        let back = self.closed.undone();
        Self {
            bodies: [self.bodies[1], self.bodies[0]],
            at: back.point(self.at),
            axis: scale(back.direction(self.axis), -1.0),
            closed: back,
            ..self
        }
    }

    /// Whether both turn the same bodies the same way about the same line.
    fn turns_with(&self, other: &Self, reach: f64) -> bool {
        let aside = sub(other.at, self.at);
        self.bodies == other.bodies
            && self.folded == other.folded
            // Lines that stray by less than the give over the whole card.
            && length(cross(self.axis, other.axis)) * reach <= GIVE
            && dot(self.axis, other.axis) > 0.0
            && length(cross(self.axis, aside)) <= GIVE
            && apart(&self.closed, &other.closed, reach) <= GIVE
    }
}

/// How far two placements carry points within `reach` of the origin apart.
fn apart(a: &Rigid, b: &Rigid, reach: f64) -> f64 {
    let turned = (0..3).fold(0.0, |most: f64, way| {
        most.max(length(sub(a.turn[way], b.turn[way])))
    });
    length(sub(a.shift, b.shift)) + turned * reach
}

/// A joint of the spanning tree, from the body nearer the root outwards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub joint: usize,
    pub from: usize,
    pub to: usize,
    /// Whether it leads from the joint's first body to its second.
    pub forward: bool,
}

/// A joint outside the tree, which closes a loop.
#[derive(Debug)]
pub(super) struct Loop {
    pub joint: usize,
    /// Steps from the common ancestor to the joint's first body, and to its
    /// second.
    pub legs: [Vec<Step>; 2],
    /// Three points of the second body, spread over the size of the card, that
    /// both ways round have to carry to the same places.
    pub marks: [Vector; 3],
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
}

/// The whole mechanism.
#[derive(Debug)]
pub(super) struct Linkage {
    /// Body of each facet, and how the facet lies in it.
    pub lays: Vec<(usize, Rigid)>,
    pub bodies: usize,
    pub joints: Vec<Joint>,
    /// Joint of each hinge; none where glue holds the hinge or it is refused.
    pub joint_of: Vec<Option<usize>>,
    pub root: usize,
    pub table: Rigid,
    /// Outwards from the root.
    pub steps: Vec<Step>,
    /// The main fold's first, then outwards from the root.
    pub blocks: Vec<Block>,
    /// The size over which turns are compared with lengths, in millimetres.
    pub reach: f64,
}

impl Linkage {
    /// The mechanism of an assembly; what is wrong with it goes to `findings`.
    pub(super) fn of(assembly: &Assembly, findings: &mut Vec<Finding>) -> Option<Self> {
        let facets = &assembly.facets;
        let sound = |at: &[f64; 2]| at.iter().all(|part| part.abs() <= FARTHEST);
        for (facet, Facet { corners, holes, .. }) in facets.iter().enumerate() {
            let all = corners.iter().chain(holes.iter().flatten()).all(sound);
            if corners.len() < 3 || !all {
                findings.push(Finding::Malformed(Item::Facet(facet)));
            }
        }
        if assembly.root >= facets.len() {
            findings.push(Finding::Malformed(Item::Root));
        }
        let table = &assembly.table;
        if !(sound(&table.shift) && table.turn.is_finite()) {
            findings.push(Finding::Malformed(Item::Table));
        }
        if assembly.main >= assembly.hinges.len() {
            findings.push(Finding::Malformed(Item::Main));
        }
        if !findings.is_empty() {
            return None;
        }
        let reach = facets.iter().map(size).fold(1.0, f64::max);
        let (lays, bodies) = glued(assembly, reach, findings);
        let mut linkage = Self {
            root: lays[assembly.root].0,
            table: table.in_space().after(&lays[assembly.root].1.undone()),
            lays,
            bodies,
            joints: Vec::new(),
            joint_of: vec![None; assembly.hinges.len()],
            steps: Vec::new(),
            blocks: Vec::new(),
            reach,
        };
        for (place, hinge) in assembly.hinges.iter().enumerate() {
            let known = hinge.facets.iter().all(|facet| *facet < facets.len());
            let [from, to] = hinge.axis;
            let long = (to[0] - from[0]).hypot(to[1] - from[1]) >= SHORTEST_AXIS;
            if !(known && sound(&from) && sound(&to) && long) {
                findings.push(Finding::Malformed(Item::Hinge(place)));
                continue;
            }
            linkage.hang(place, hinge, place == assembly.main, findings);
        }
        linkage.grow(findings);
        linkage.part(linkage.joint_of[assembly.main]);
        Some(linkage)
    }

    /// Adds a hinge as a joint of its own or as part of one.
    fn hang(&mut self, place: usize, hinge: &Hinge, main: bool, findings: &mut Vec<Finding>) {
        let [(first, lay), (second, other)] = hinge.facets.map(|facet| self.lays[facet]);
        let [from, to] = hinge.axis.map(flat);
        let along = sub(to, from);
        // In the flat piece the first facet lies on the left, so that turning
        // the second about the axis backwards lifts it towards side A.
        let axis = lay.direction(scale(along, -1.0 / length(along)));
        let at = lay.point(scale(add(from, to), 0.5));
        let flat_lay = lay.after(&other.undone());
        let closed = Rigid::about(at, axis, hinge.angle(0.0)).after(&flat_lay);
        if first == second {
            // Glue may well hold a fold shut, as in a hem; it must not hold the
            // main fold, nor one that has to move.
            let shut = hinge.folded && apart(&closed, &Rigid::HERE, self.reach) <= GIVE;
            if main || !shut {
                findings.push(Finding::Locked { hinge: place });
            }
            return;
        }
        let opens = hinge.angle(1.0) - hinge.angle(0.0);
        let mut joint = Joint {
            bodies: [first, second],
            at,
            axis: scale(axis, opens.signum()),
            closed,
            hinges: vec![place],
            folded: hinge.folded,
        };
        if first > second {
            joint = joint.seen_from_second();
        }
        let reach = self.reach;
        let same = |known: &Joint| known.turns_with(&joint, reach);
        if let Some(known) = self.joints.iter().position(same) {
            self.joints[known].hinges.push(place);
            self.joint_of[place] = Some(known);
        } else {
            self.joint_of[place] = Some(self.joints.len());
            self.joints.push(joint);
        }
    }

    /// Spans the tree, breadth first so that loops stay short.
    fn grow(&mut self, findings: &mut Vec<Finding>) {
        let mut at = vec![Vec::new(); self.bodies];
        for (joint, Joint { bodies: [a, b], .. }) in self.joints.iter().enumerate() {
            at[*a].push((joint, *b, true));
            at[*b].push((joint, *a, false));
        }
        let mut seen = vec![false; self.bodies];
        seen[self.root] = true;
        let mut queue = vec![self.root];
        let mut next = 0;
        while let Some(&from) = queue.get(next) {
            next += 1;
            for &(joint, to, forward) in &at[from] {
                if !seen[to] {
                    seen[to] = true;
                    queue.push(to);
                    self.steps.push(Step {
                        joint,
                        from,
                        to,
                        forward,
                    });
                }
            }
        }
        for (facet, (body, _)) in self.lays.iter().enumerate() {
            if !seen[*body] {
                findings.push(Finding::Loose { facet });
            }
        }
    }

    /// Parts the joints into blocks: two joints share one when a chain of
    /// loops links them.
    fn part(&mut self, main: Option<usize>) {
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
            let along = scale(back.direction(joint.axis), self.reach);
            // Bodies are flat: this lies in the body, across the axis.
            let across = cross([0.0, 0.0, 1.0], along);
            loops.push(Loop {
                joint: chord,
                legs,
                marks: [at, add(at, along), add(at, across)],
            });
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
                };
                blocks.push((by, block));
            }
        }
        for round in loops {
            let by = led(&mut leader, round.joint);
            if let Some((_, block)) = blocks.iter_mut().find(|(known, _)| *known == by) {
                block.joints.push(round.joint);
                block.loops.push(round);
            }
        }
        blocks.sort_by_key(|(by, _)| Some(*by) != main_leader);
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

    /// Places the bodies reached by `steps` from bodies already placed.
    pub(super) fn place(&self, steps: &[Step], opened: &[f64], bodies: &mut [Rigid]) {
        for step in steps {
            let lay = self.joints[step.joint].lay(opened[step.joint]);
            let lay = if step.forward { lay } else { lay.undone() };
            bodies[step.to] = bodies[step.from].after(&lay);
        }
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

/// The diagonal of the rectangle round a facet.
fn size(facet: &Facet) -> f64 {
    let side = |way: usize| {
        let along = || facet.corners.iter().map(|corner| corner[way]);
        along().fold(f64::MIN, f64::max) - along().fold(f64::MAX, f64::min)
    };
    side(0).hypot(side(1))
}

/// Joins facets that are glued to each other into bodies.
fn glued(
    assembly: &Assembly,
    reach: f64,
    findings: &mut Vec<Finding>,
) -> (Vec<(usize, Rigid)>, usize) {
    let facets = assembly.facets.len();
    let mut at = vec![Vec::new(); facets];
    for (place, bond) in assembly.bonds.iter().enumerate() {
        let shift = bond.lay.shift.iter().all(|part| part.abs() <= FARTHEST);
        if bond.on >= facets || bond.part >= facets || !shift || !bond.lay.turn.is_finite() {
            findings.push(Finding::Malformed(Item::Bond(place)));
            continue;
        }
        let lay = bond.lay.in_space();
        at[bond.on].push((place, bond.part, lay));
        at[bond.part].push((place, bond.on, lay.undone()));
    }
    let mut lays: Vec<Option<(usize, Rigid)>> = vec![None; facets];
    let mut bodies = 0;
    let mut torn = vec![false; assembly.bonds.len()];
    for first in 0..facets {
        if lays[first].is_some() {
            continue;
        }
        lays[first] = Some((bodies, Rigid::HERE));
        let mut queue = vec![(first, Rigid::HERE)];
        while let Some((facet, lay)) = queue.pop() {
            for (bond, next, on_it) in &at[facet] {
                let here = lay.after(on_it);
                match &lays[*next] {
                    None => {
                        lays[*next] = Some((bodies, here));
                        queue.push((*next, here));
                    }
                    Some((_, known)) => torn[*bond] |= apart(known, &here, reach) > GIVE,
                }
            }
        }
        bodies += 1;
    }
    let torn = (0..).zip(torn).filter(|(_, torn)| *torn);
    findings.extend(torn.map(|(bond, _)| Finding::Contradiction { bond }));
    (lays.into_iter().flatten().collect(), bodies)
}
