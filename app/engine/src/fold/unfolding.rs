//! What of a folded card opens next, all else lying still.
//!
//! A simple unfolding turns a block of panels by half a turn about a line that
//! creases of the folded card lie on, and lays these creases flat, all at once.
//! What lies on one side of the line rises, what lies on the other side sinks.
//! So on the rising side whatever lies in front of something that moves has to
//! move along, on the sinking side whatever lies behind it.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::axis::{Axis, Reach, Side};
use super::bits::Bits;
use super::state::State;
use crate::laid::LaidOut;
use crate::pattern::LineId;
use crate::plane::{CardFrame, Segment};
use crate::sorted::InOrder as _;

/// Creases that open together, and the panels that turn with them.
#[derive(Debug, Clone)]
pub(super) struct Turn {
    /// The creases, by index among all hinges.
    pub(super) hinges: Vec<usize>,
    /// For each panel whether it turns.
    pub(super) moves: Vec<bool>,
    /// The line they turn about.
    pub(super) axis: Axis,
    /// The side of the line that rises to the front.
    pub(super) rising: Side,
    /// Whether the creases lie on the rising side.
    pub(super) towards_front: bool,
}

/// What can open now, what to open first at the beginning. Lines are looked at
/// more closely only when nothing comes before what may be found there: mostly the
/// first turn is taken, and no other asked for.
pub(super) struct Turns {
    lines: Vec<(Axis, Blocks)>,
    waiting: BinaryHeap<Reverse<Candidate>>,
    /// How many creases lie between each hinge and the resting panel.
    distance: Vec<usize>,
    order: Layers,
    /// Whether some ring of creases will never open so, whatever opens before:
    /// what lies between two of its creases moves only when they do.
    is_dead: bool,
}

/// Something that may open, by what comes first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Candidate {
    rank: Rank,
    /// Its line, by index among all.
    line: usize,
    /// Its index among those of the line, the blocks that turn and the side that
    /// rises; `None` where the line has not been looked at.
    moving: Option<(usize, Bits, Side)>,
}

impl Turns {
    /// Those to try where everything is to open.
    pub(super) fn towards_open(mut self) -> Self {
        if self.is_dead {
            self.waiting.clear();
        }
        self
    }

    /// The next turn of the card they were found for, whose panels may lie in
    /// another order by now where they may change it.
    pub(super) fn next(&mut self, joints: &Joints<'_>, now: &State) -> Option<Turn> {
        while let Some(Reverse(Candidate { line, moving, .. })) = self.waiting.pop() {
            let (axis, blocks) = self.lines.get(line)?;
            if let Some((_, moving, rising)) = moving {
                return Some(blocks.turn(joints, now, *axis, &moving, rising));
            }
            let movable = match self.order {
                Layers::AsTheyLie => blocks.free(joints, now, axis),
                Layers::InAnyOrder => blocks.possible(joints, now, axis),
            };
            for (number, (moving, rising)) in movable.into_iter().enumerate() {
                self.waiting.push(Reverse(Candidate {
                    rank: blocks.rank(joints, now, axis, &self.distance, (&moving, rising)),
                    line,
                    moving: Some((number, moving, rising)),
                }));
            }
        }
        None
    }
}

/// Whether what lies on what is settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Layers {
    AsTheyLie,
    /// As far as creases leave it open.
    InAnyOrder,
}

impl Turn {
    /// Which panels have to lie in front of which for it, one of each two that
    /// moves; `None` where one would have to lie on both sides of another.
    pub(super) fn asks(&self, now: &State) -> Option<Vec<(usize, usize)>> {
        let reach: Vec<_> = now
            .poses
            .iter()
            .map(|pose| self.axis.reach_of(pose))
            .collect();
        let apart = |pair: &(usize, usize)| self.moves[pair.0] != self.moves[pair.1];
        let pairs = now.over.pairs().filter(apart).map(|(a, b)| {
            let (moves, still) = if self.moves[a] { (a, b) } else { (b, a) };
            let (one, other) = (&now.poses[moves], &now.poses[still]);
            let at = self
                .axis
                .overlap((one, reach[moves]), (other, reach[still]));
            (!at.is_both()).then(|| {
                if at.on(self.rising) {
                    (moves, still)
                } else {
                    (still, moves)
                }
            })
        });
        pairs.collect()
    }
}

/// What holds a card together, to find what of it opens.
pub(super) struct Joints<'a> {
    pub(super) laid: &'a LaidOut,
    /// The panel that lies still.
    pub(super) root: usize,
    /// Panels glued to each other.
    pub(super) glue: Vec<[usize; 2]>,
    /// For each hinge the number of the ring it is in.
    pub(super) rings: Vec<usize>,
}

impl Joints<'_> {
    /// Everything that can open now where these hinges are closed; where panels
    /// may change their order, everything that could open in another one.
    pub(super) fn turns(&self, now: &State, closed: &[bool], order: Layers) -> Turns {
        let distance = self.distances();
        let mut opens = vec![false; closed.len()];
        let mut lines = Vec::new();
        let mut waiting = BinaryHeap::new();
        for (axis, hinges) in self.axes(now, closed) {
            let blocks = Blocks::of(self, &hinges);
            let Some(rank) = self.best_rank(&blocks.cut, &distance) else {
                continue;
            };
            for hinge in &blocks.cut {
                if let Some(ring) = opens.get_mut(self.rings[*hinge]) {
                    *ring = true;
                }
            }
            waiting.push(Reverse(Candidate {
                rank,
                line: lines.len(),
                moving: None,
            }));
            lines.push((axis, blocks));
        }
        let mut rings = closed.iter().zip(&self.rings);
        Turns {
            is_dead: rings.any(|(closed, ring)| *closed && !opens[*ring]),
            lines,
            waiting,
            distance,
            order,
        }
    }

    /// How many creases lie between each hinge and the resting panel.
    fn distances(&self) -> Vec<usize> {
        let panels = self.laid.panels.len();
        let mut beside: Vec<Vec<usize>> = vec![Vec::new(); panels];
        let hinges = self.laid.hinges.iter();
        let hinges = hinges.map(|hinge| [hinge.left, hinge.right]);
        for [a, b] in hinges.chain(self.glue.iter().copied()) {
            beside[a].push(b);
            beside[b].push(a);
        }
        let mut of_panel = vec![usize::MAX; panels];
        of_panel[self.root] = 0;
        let mut reached = vec![self.root];
        let mut next = 0;
        while let Some(panel) = reached.get(next).copied() {
            next += 1;
            for beyond in &beside[panel] {
                if of_panel[*beyond] == usize::MAX {
                    of_panel[*beyond] = of_panel[panel] + 1;
                    reached.push(*beyond);
                }
            }
        }
        let nearer = self.laid.hinges.iter();
        nearer
            .map(|hinge| of_panel[hinge.left].min(of_panel[hinge.right]))
            .collect()
    }

    /// The lines of the folded card that closed hinges lie on, with these.
    fn axes(&self, now: &State, closed: &[bool]) -> Vec<(Axis, Vec<usize>)> {
        let mut lines: Vec<(usize, Segment<CardFrame>)> = (0..closed.len())
            .filter(|hinge| closed[*hinge])
            .filter_map(|hinge| Some((hinge, self.in_card(now, hinge)?)))
            .collect();
        // The longest tells the direction best.
        lines.put_in_order_by_key(|(hinge, line)| (Reverse(line.length()), *hinge));
        let mut axes: Vec<(Axis, Vec<usize>)> = Vec::new();
        for (hinge, line) in lines {
            match axes.iter_mut().find(|(axis, _)| axis.holds(&line)) {
                Some((_, hinges)) => hinges.push(hinge),
                None => axes.extend(Axis::through(line).map(|axis| (axis, vec![hinge]))),
            }
        }
        for (_, hinges) in &mut axes {
            hinges.put_in_order();
        }
        axes
    }

    fn in_card(&self, now: &State, hinge: usize) -> Option<Segment<CardFrame>> {
        let hinge = self.laid.hinges.get(hinge)?;
        let pose = now.poses.get(hinge.left).filter(|pose| !pose.stands)?;
        Some(Segment::new(
            pose.place.point(hinge.course.from),
            pose.place.point(hinge.course.to),
        ))
    }

    /// The side of an axis on which the panels of a closed hinge on it lie.
    fn lies(&self, now: &State, axis: &Axis, hinge: usize) -> Reach {
        let panel = self.laid.hinges.get(hinge).map(|hinge| hinge.left);
        let pose = panel.and_then(|panel| now.poses.get(panel));
        pose.map_or_else(Reach::default, |pose| axis.reach_of(pose))
    }

    /// The score a hinge lies on; `None` for other lines.
    fn score(&self, hinge: usize) -> Option<LineId> {
        let line = self.laid.hinges.get(hinge)?.line;
        line.line().is_none().then_some(line)
    }

    /// The rank that nothing which opens some of these hinges comes before; `None`
    /// for no hinges.
    fn best_rank(&self, hinges: &[usize], distance: &[usize]) -> Option<Rank> {
        let mut scores: Vec<LineId> = hinges.iter().filter_map(|it| self.score(*it)).collect();
        scores.put_in_order();
        let on_one = scores.chunk_by(|a, b| a == b).map(<[_]>::len).max();
        Some(Rank {
            scores: 1,
            hinges: Reverse(hinges.len() - scores.len() + on_one.unwrap_or_default()),
            behind: false,
            distance: Reverse(hinges.iter().map(|hinge| distance[*hinge]).max()?),
            first: *hinges.first()?,
        })
    }
}

/// What is opened first, by its parts in their order: one score at a time, as the
/// scoring board and the steps tell them; of other lines as many at once as lie on
/// each other, as paper is folded; what is in front before what is behind; the
/// farthest from the resting panel first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Rank {
    scores: usize,
    hinges: Reverse<usize>,
    behind: bool,
    distance: Reverse<usize>,
    first: usize,
}

/// The panels in blocks that do not come apart at an axis.
struct Blocks {
    /// The block of each panel.
    of: Vec<usize>,
    count: usize,
    /// The block that lies still.
    still: usize,
    /// The hinges on the axis that part two blocks.
    cut: Vec<usize>,
    /// The blocks each of these parts.
    ends: Vec<[usize; 2]>,
}

impl Blocks {
    fn of(joints: &Joints<'_>, on_axis: &[usize]) -> Self {
        let mut leader: Vec<usize> = (0..joints.laid.panels.len()).collect();
        let led = |leader: &mut Vec<usize>, mut one: usize| {
            while leader[one] != one {
                leader[one] = leader[leader[one]];
                one = leader[one];
            }
            one
        };
        let hinges = joints.laid.hinges.iter().enumerate();
        let kept = hinges.filter(|(index, _)| on_axis.binary_search(index).is_err());
        let kept = kept.map(|(_, hinge)| [hinge.left, hinge.right]);
        for [a, b] in kept.chain(joints.glue.iter().copied()) {
            let (a, b) = (led(&mut leader, a), led(&mut leader, b));
            leader[a] = b;
        }
        let mut number = vec![None; leader.len()];
        let mut count = 0;
        let of: Vec<usize> = (0..leader.len())
            .map(|panel| {
                let led = led(&mut leader, panel);
                *number[led].get_or_insert_with(|| {
                    count += 1;
                    count - 1
                })
            })
            .collect();
        let ends = |hinge: usize| {
            let hinge = &joints.laid.hinges[hinge];
            [of[hinge.left], of[hinge.right]]
        };
        let cut = on_axis.iter().copied();
        let cut: Vec<usize> = cut
            .filter(|hinge| ends(*hinge)[0] != ends(*hinge)[1])
            .collect();
        Self {
            count,
            still: of[joints.root],
            ends: cut.iter().map(|hinge| ends(*hinge)).collect(),
            cut,
            of,
        }
    }

    /// Every set of blocks that may move, and which side of the axis rises then.
    fn free(&self, joints: &Joints<'_>, now: &State, axis: &Axis) -> Vec<(Bits, Side)> {
        let along = closed(self.along(now, axis));
        // The other way round whatever had to come along pulls instead.
        let against = transposed(&along);
        let sets = self.sets();
        let mut found: Vec<(Bits, Side)> = Vec::new();
        for (pulls, rising) in [(along, Side::Left), (against, Side::Right)] {
            let hanging = [Side::Left, Side::Right];
            let hanging = hanging.map(|side| self.hanging(now, joints, axis, side, &pulls));
            let whole = |moving: &&Bits| {
                let mut blocks = moving.iter();
                blocks.all(|block| pulls[block].is_within(moving))
            };
            let mut free: Vec<Bits> = sets.iter().filter(whole).cloned().collect();
            free.extend(hanging);
            free.extend(pulls);
            free.retain(|moving| !moving.has(self.still) && self.parts(moving).next().is_some());
            free.put_in_order();
            free.dedup();
            found.extend(free.into_iter().map(|moving| (moving, rising)));
        }
        found
    }

    /// The same where only creases say which panel lies in front of which.
    fn possible(&self, joints: &Joints<'_>, now: &State, axis: &Axis) -> Vec<(Bits, Side)> {
        let mut sets = self.sets();
        sets.retain(|moving| !moving.has(self.still) && self.parts(moving).next().is_some());
        sets.put_in_order();
        sets.dedup();
        let opens = |(moving, rising): &(Bits, Side)| {
            self.parts(moving).all(|number| {
                let hinge = &joints.laid.hinges[number];
                let (turns, stays) = if moving.has(self.of[hinge.left]) {
                    (hinge.left, hinge.right)
                } else {
                    (hinge.right, hinge.left)
                };
                let in_front = joints.lies(now, axis, number).on(*rising);
                now.is_over(turns, stays) == in_front
            })
        };
        let both = [Side::Left, Side::Right];
        let turns = sets
            .iter()
            .flat_map(|moving| both.map(|rising| (moving.clone(), rising)));
        turns.filter(opens).collect()
    }

    /// What hangs on the still block by hinges on one side of the axis, each of
    /// these blocks with what has to come along.
    fn hanging(
        &self,
        now: &State,
        joints: &Joints<'_>,
        axis: &Axis,
        side: Side,
        along: &[Bits],
    ) -> Bits {
        let mut all = Bits::below(self.count);
        for (hinge, [a, b]) in self.cut.iter().zip(&self.ends) {
            let block = match (*a == self.still, *b == self.still) {
                (true, _) => *b,
                (_, true) => *a,
                _ => continue,
            };
            if !along[block].has(self.still) && joints.lies(now, axis, *hinge).on(side) {
                all.join(&along[block]);
            }
        }
        all
    }

    /// For each block those that have to come along where the left side of the
    /// axis rises.
    fn along(&self, now: &State, axis: &Axis) -> Vec<Bits> {
        let reach: Vec<Reach> = now.poses.iter().map(|pose| axis.reach_of(pose)).collect();
        let reaching = |side: Side| {
            let mut reaching = Bits::below(reach.len());
            let there = reach.iter().enumerate().filter(|(_, it)| it.on(side));
            there.for_each(|(panel, _)| reaching.add(panel));
            reaching
        };
        let (left, right) = (reaching(Side::Left), reaching(Side::Right));
        let mut along = vec![Bits::below(self.count); self.count];
        for (front, of_front) in self.of.iter().copied().enumerate() {
            let behind = now.over.behind(front);
            if reach[front].is_both() {
                for back in behind.iter() {
                    let of_back = self.of[back];
                    // Most panels have nothing new to say of their blocks.
                    if of_back == of_front
                        || along[of_back].has(of_front) && along[of_front].has(of_back)
                    {
                        continue;
                    }
                    let one = (&now.poses[front], reach[front]);
                    let both = axis.overlap(one, (&now.poses[back], reach[back]));
                    if both.left {
                        along[of_back].add(of_front);
                    }
                    if both.right {
                        along[of_front].add(of_back);
                    }
                }
            } else if left.has(front) {
                for back in behind.common(&left) {
                    along[self.of[back]].add(of_front);
                }
            } else if right.has(front) {
                for back in behind.common(&right) {
                    along[of_front].add(self.of[back]);
                }
            }
        }
        along
    }

    /// Sets of blocks that are turned before others: for each hinge that is cut
    /// what hangs on the still block by it alone, all but the still block, and
    /// every second block from it, which opens all hinges.
    fn sets(&self) -> Vec<Bits> {
        let mut all = Bits::all(self.count);
        all.drop(self.still);
        let mut beside: Vec<Vec<(usize, usize)>> = vec![Vec::new(); self.count];
        for (cut, [a, b]) in self.ends.iter().enumerate() {
            beside[*a].push((cut, *b));
            beside[*b].push((cut, *a));
        }
        let without = |left_out: Option<usize>| {
            let mut moving = all.clone();
            let mut every_second = Bits::below(self.count);
            let mut still = vec![(self.still, false)];
            while let Some((block, second)) = still.pop() {
                for (cut, across) in &beside[block] {
                    if Some(*cut) != left_out && moving.has(*across) {
                        moving.drop(*across);
                        if !second {
                            every_second.add(*across);
                        }
                        still.push((*across, !second));
                    }
                }
            }
            (moving, every_second)
        };
        let each = (0..self.cut.len()).map(|cut| without(Some(cut)).0);
        let mut sets: Vec<Bits> = each.filter(|moving| moving.count() > 0).collect();
        sets.push(without(None).1);
        sets.push(all);
        sets
    }

    /// The cut hinges between what moves and what does not.
    fn parts<'a>(&'a self, moving: &'a Bits) -> impl Iterator<Item = usize> + 'a {
        let cut = self.cut.iter().zip(&self.ends);
        cut.filter(|(_, [a, b])| moving.has(*a) != moving.has(*b))
            .map(|(hinge, _)| *hinge)
    }

    fn turn(
        &self,
        joints: &Joints<'_>,
        now: &State,
        axis: Axis,
        moving: &Bits,
        rising: Side,
    ) -> Turn {
        Turn {
            hinges: self.parts(moving).collect(),
            moves: self.of.iter().map(|block| moving.has(*block)).collect(),
            axis,
            rising,
            towards_front: self.is_towards_front(joints, now, &axis, (moving, rising)),
        }
    }

    /// Whether what opens lies on the side of the axis that rises.
    fn is_towards_front(
        &self,
        joints: &Joints<'_>,
        now: &State,
        axis: &Axis,
        (moving, rising): (&Bits, Side),
    ) -> bool {
        let first = self.parts(moving).next();
        first.is_some_and(|hinge| joints.lies(now, axis, hinge).on(rising))
    }

    /// When some blocks are turned, `distance` being how far each hinge is from the
    /// resting panel.
    fn rank(
        &self,
        joints: &Joints<'_>,
        now: &State,
        axis: &Axis,
        distance: &[usize],
        (moving, rising): (&Bits, Side),
    ) -> Rank {
        let scores = self.parts(moving).filter_map(|hinge| joints.score(hinge));
        let mut scores: Vec<LineId> = scores.collect();
        scores.put_in_order();
        scores.dedup();
        let farthest = self.parts(moving).map(|hinge| distance[hinge]).max();
        Rank {
            scores: scores.len().max(1),
            hinges: Reverse(self.parts(moving).count()),
            behind: !self.is_towards_front(joints, now, axis, (moving, rising)),
            distance: Reverse(farthest.unwrap_or_default()),
            first: self.parts(moving).next().unwrap_or_default(),
        }
    }
}

/// For each block all that have to come along with it, itself among them, from
/// those that each pulls by itself. (S. Warshall, "A theorem on Boolean
/// matrices", 1962.)
fn closed(mut pulls: Vec<Bits>) -> Vec<Bits> {
    for block in 0..pulls.len() {
        pulls[block].add(block);
        let pulled = pulls[block].clone();
        for other in pulls.iter_mut().filter(|other| other.has(block)) {
            other.join(&pulled);
        }
    }
    pulls
}

fn transposed(pulls: &[Bits]) -> Vec<Bits> {
    let mut back = vec![Bits::below(pulls.len()); pulls.len()];
    for (block, pulled) in pulls.iter().enumerate() {
        for pulled in pulled.iter() {
            back[pulled].add(block);
        }
    }
    back
}
