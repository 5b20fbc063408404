//! Opening the card again.

use super::hang::{self, Glued, Role, Way};
use super::state::{Opened, Pose, State, lined_up};
use crate::laid::LaidOut;
use crate::plane::{CardFrame, Placement, SAME_WITHIN, Segment};

/// The card on its way open, fold by fold.
pub(super) struct Opening<'a> {
    laid: &'a LaidOut,
    glued: &'a [Glued],
    root: usize,
    roles: Vec<Role>,
    /// Which hinges are still folded and may open.
    closed: Vec<bool>,
}

impl<'a> Opening<'a> {
    pub(super) fn of(laid: &'a LaidOut, glued: &'a [Glued], root: usize) -> Self {
        let roles = hang::roles(laid, glued);
        let hinges = laid.hinges.iter().zip(&roles);
        let closed = hinges.map(|(hinge, role)| hinge.folded && *role != Role::Held);
        Self {
            laid,
            glued,
            root,
            closed: closed.collect(),
            roles,
        }
    }

    /// The creases that glue keeps as they are.
    pub(super) fn held(&self) -> Vec<usize> {
        let roles = self.roles.iter().enumerate();
        roles
            .filter(|(_, role)| **role == Role::Held)
            .map(|(hinge, _)| hinge)
            .collect()
    }

    /// The card from closed to open: fold by fold or, where that does not go
    /// on to the end, all at once.
    pub(super) fn states(mut self, closed: State) -> Vec<State> {
        let all = self.closed.clone();
        let mut states = vec![closed];
        while self.closed.contains(&true) {
            if let Some(next) = states.last().and_then(|now| self.next(now)) {
                states.push(next);
                continue;
            }
            self.closed = all;
            states.truncate(1);
            let open = states.first().map(|now| self.all_open(now));
            states.extend(open);
            break;
        }
        states
    }

    /// Opens what lets go first: what it moves lies wholly in front of what
    /// stays (or wholly behind it), the farthest from the resting panel first.
    /// `None` where nothing does by itself.
    fn next(&mut self, now: &State) -> Option<State> {
        let distance = self.distances();
        let mut waiting: Vec<usize> = (0..self.closed.len())
            .filter(|hinge| self.closed[*hinge])
            .collect();
        waiting.sort_by_key(|hinge| (std::cmp::Reverse(distance[*hinge]), *hinge));
        let swings: Vec<_> = waiting
            .iter()
            .filter_map(|hinge| self.swing(now, *hinge))
            .collect();
        let free = |swing: &&(Vec<usize>, Vec<bool>), towards_front: bool| {
            now.over.iter().all(|(front, back)| {
                let moves = (swing.1[*front], swing.1[*back]);
                moves.0 == moves.1 || moves.0 == towards_front
            })
        };
        let found = [true, false].into_iter().find_map(|towards_front| {
            let swing = swings.iter().find(|swing| free(swing, towards_front))?;
            Some((towards_front, swing.clone()))
        });
        let (towards_front, (hinges, moving)) = found?;
        Some(self.swung(now, towards_front, &hinges, &moving))
    }

    /// How many creases lie between each hinge and the resting panel.
    fn distances(&self) -> Vec<usize> {
        let hinges = &self.laid.hinges;
        let mut of_panel = vec![usize::MAX; self.laid.panels.len()];
        of_panel[self.root] = 0;
        let mut reached = vec![self.root];
        let mut next = 0;
        while let Some(panel) = reached.get(next).copied() {
            next += 1;
            let across = hinges
                .iter()
                .filter(|hinge| [hinge.left, hinge.right].contains(&panel))
                .map(|hinge| hinge.across(panel));
            for beyond in across.chain(self.glued_to(panel)) {
                if of_panel[beyond] == usize::MAX {
                    of_panel[beyond] = of_panel[panel] + 1;
                    reached.push(beyond);
                }
            }
        }
        let nearer = hinges.iter();
        nearer
            .map(|hinge| of_panel[hinge.left].min(of_panel[hinge.right]))
            .collect()
    }

    /// The panels glued to one.
    fn glued_to(&self, panel: usize) -> impl Iterator<Item = usize> + '_ {
        self.glued.iter().filter_map(move |bond| {
            if bond.on == panel {
                Some(bond.part)
            } else {
                (bond.part == panel).then_some(bond.on)
            }
        })
    }

    /// The folded hinges that turn with one of them and which panels they move:
    /// itself where that is enough, else those in one line with it; `None`
    /// where more would have to turn.
    fn swing(&self, now: &State, hinge: usize) -> Option<(Vec<usize>, Vec<bool>)> {
        let moves = self.moved_by(&[hinge]);
        if self.is_between(hinge, &moves) {
            return Some((vec![hinge], moves));
        }
        let axis = self.in_card(now, hinge)?;
        let in_line = |other: usize| {
            self.in_card(now, other).is_some_and(|other| {
                axis.is_in_line(other.from, SAME_WITHIN) && axis.is_in_line(other.to, SAME_WITHIN)
            })
        };
        let turning: Vec<usize> = (0..self.closed.len())
            .filter(|other| self.closed[*other] && in_line(*other))
            .collect();
        let moves = self.moved_by(&turning);
        // Only those between what moves and what stays turn.
        let between: Vec<usize> = turning
            .into_iter()
            .filter(|hinge| self.is_between(*hinge, &moves))
            .collect();
        between.contains(&hinge).then_some((between, moves))
    }

    fn is_between(&self, hinge: usize, moves: &[bool]) -> bool {
        let hinge = &self.laid.hinges[hinge];
        moves[hinge.left] != moves[hinge.right]
    }

    /// The panels that hang on the resting one by these hinges alone.
    fn moved_by(&self, turning: &[usize]) -> Vec<bool> {
        let mut moves = vec![true; self.laid.panels.len()];
        moves[self.root] = false;
        let mut still = vec![self.root];
        while let Some(panel) = still.pop() {
            let hinges = self.laid.hinges.iter().enumerate();
            let across = hinges
                .filter(|(place, hinge)| {
                    [hinge.left, hinge.right].contains(&panel) && !turning.contains(place)
                })
                .map(|(_, hinge)| hinge.across(panel));
            for beyond in across.chain(self.glued_to(panel)) {
                if std::mem::replace(&mut moves[beyond], false) {
                    still.push(beyond);
                }
            }
        }
        moves
    }

    fn in_card(&self, now: &State, hinge: usize) -> Option<Segment<CardFrame>> {
        let hinge = self.laid.hinges.get(hinge)?;
        let place = now.poses.get(hinge.left)?.place;
        Some(Segment::new(
            place.point(hinge.course.from),
            place.point(hinge.course.to),
        ))
    }

    fn swung(
        &mut self,
        now: &State,
        towards_front: bool,
        hinges: &[usize],
        moving: &[bool],
    ) -> State {
        for hinge in hinges {
            self.closed[*hinge] = false;
        }
        let first = hinges.first().copied().unwrap_or(0);
        let over = self
            .in_card(now, first)
            .and_then(|axis| Placement::over(&axis));
        let poses: Vec<_> = now
            .poses
            .iter()
            .zip(moving)
            .zip(&self.laid.panels)
            .map(|((pose, moves), panel)| match (moves, over) {
                (true, Some(over)) => Pose::of(panel, pose.place.then(&over)),
                _ => pose.clone(),
            })
            .collect();
        let (moved, still): (Vec<usize>, Vec<usize>) =
            now.order.iter().partition(|panel| moving[**panel]);
        let turned_over = moved.iter().rev().copied();
        let wish: Vec<usize> = if towards_front {
            still.iter().copied().chain(turned_over).collect()
        } else {
            turned_over.chain(still.iter().copied()).collect()
        };
        let mut over: Vec<_> = now
            .over
            .iter()
            .filter(|(front, back)| moving[*front] == moving[*back])
            .map(|(front, back)| {
                if moving[*front] {
                    (*back, *front)
                } else {
                    (*front, *back)
                }
            })
            .collect();
        for a in &moved {
            for b in &still {
                if poses[*a].overlaps(&poses[*b]) {
                    over.push(if towards_front { (*a, *b) } else { (*b, *a) });
                }
            }
        }
        State {
            opened: Some(self.opened(hinges.to_vec(), towards_front, false)),
            poses,
            order: lined_up(&wish, &over),
            over,
        }
    }

    /// The card open: the base flat, and with it what no driven crease parts
    /// from it; the rest stands up.
    fn all_open(&self, now: &State) -> State {
        let glue = self.glued.iter();
        let glue: Vec<_> = glue.map(|bond| (bond.on, bond.part, bond.place)).collect();
        let way = |hinge: usize| match self.roles.get(hinge) {
            Some(Role::Driven) => Way::Parted,
            Some(Role::Held) if self.laid.hinges[hinge].folded => Way::Shut,
            _ => Way::Flat,
        };
        let places = hang::places(
            self.laid,
            &glue,
            self.root,
            now.poses[self.root].place,
            &way,
        );
        let poses = hang::poses(self.laid, places);
        let mut over = Vec::new();
        for (a, one) in poses.iter().enumerate() {
            for (b, other) in poses.iter().enumerate().take(a) {
                if !one.overlaps(other) {
                    continue;
                }
                // What lay on each other does so still, seen from the other
                // side where both were turned over.
                let turned = now.poses[a].place.mirrored != one.place.mirrored;
                let beneath = now.is_over(b, a) == turned;
                over.push(if beneath { (a, b) } else { (b, a) });
            }
        }
        let hinges = (0..self.closed.len()).filter(|hinge| self.closed[*hinge]);
        State {
            opened: Some(self.opened(hinges.collect(), true, true)),
            order: lined_up(&(0..poses.len()).collect::<Vec<_>>(), &over),
            poses,
            over,
        }
    }

    fn opened(&self, hinges: Vec<usize>, towards_front: bool, together: bool) -> Opened {
        let first = hinges
            .first()
            .and_then(|hinge| self.laid.hinges.get(*hinge));
        Opened {
            line: first.map_or(crate::pattern::LineId(0), |hinge| hinge.line),
            hinges,
            towards_front,
            together,
        }
    }
}
