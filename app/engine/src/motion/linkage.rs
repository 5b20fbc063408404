//! The assembly as a mechanism: rigid bodies and joints, hung on a tree.

use super::assembly::{Assembly, Facet, Hinge};
use super::blocks::Block;
use super::bodies::{apart, glued, size, sound};
use super::space::{Rigid, Vector, add, cross, dot, flat, length, scale, sub};
use super::verdict::{Finding, Item};
use crate::plane::SAME_WITHIN;

/// Millimetres by which parts that fit may miss each other.
pub(super) const GIVE: f64 = SAME_WITHIN.as_mm_f64();

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
    /// The size of the larger facet beside it, in millimetres.
    pub size: f64,
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

/// A joint of the spanning tree, from the body nearer the root outwards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub joint: usize,
    pub from: usize,
    pub to: usize,
    /// Whether it leads from the joint's first body to its second.
    pub forward: bool,
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
        for (index, hinge) in assembly.hinges.iter().enumerate() {
            let known = hinge.facets.iter().all(|facet| *facet < facets.len());
            let [from, to] = hinge.axis;
            let long = (to[0] - from[0]).hypot(to[1] - from[1]) >= SHORTEST_AXIS;
            if !(known && sound(&from) && sound(&to) && long) {
                findings.push(Finding::Malformed(Item::Hinge(index)));
                continue;
            }
            linkage.hang(index, hinge, assembly, findings);
        }
        linkage.grow(findings);
        linkage.part(linkage.joint_of[assembly.main]);
        Some(linkage)
    }

    /// Adds a hinge as a joint of its own or as part of one.
    fn hang(
        &mut self,
        index: usize,
        hinge: &Hinge,
        assembly: &Assembly,
        findings: &mut Vec<Finding>,
    ) {
        let (main, facets) = (index == assembly.main, &assembly.facets);
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
                findings.push(Finding::Locked {
                    hinge: index,
                    blamed: None,
                });
            }
            return;
        }
        let opens = hinge.angle(1.0) - hinge.angle(0.0);
        let mut joint = Joint {
            bodies: [first, second],
            at,
            axis: scale(axis, opens.signum()),
            closed,
            size: hinge
                .facets
                .iter()
                .filter_map(|facet| facets.get(*facet))
                .map(size)
                .fold(0.0, f64::max),
            hinges: vec![index],
            folded: hinge.folded,
        };
        if first > second {
            joint = joint.seen_from_second();
        }
        let reach = self.reach;
        let same = |known: &Joint| known.turns_with(&joint, reach);
        if let Some(known) = self.joints.iter().position(same) {
            self.joints[known].hinges.push(index);
            self.joint_of[index] = Some(known);
        } else {
            self.joint_of[index] = Some(self.joints.len());
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

    /// Places the bodies reached by `steps` from bodies already placed.
    pub(super) fn place(&self, steps: &[Step], opened: &[f64], bodies: &mut [Rigid]) {
        for step in steps {
            let lay = self.joints[step.joint].lay(opened[step.joint]);
            let lay = if step.forward { lay } else { lay.undone() };
            bodies[step.to] = bodies[step.from].after(&lay);
        }
    }
}
