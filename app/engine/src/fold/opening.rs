//! Opening the card again.

use std::collections::HashSet;

use super::hang::{self, Glued, Role, Way};
use super::over::Over;
use super::state::{Opened, Pose, State, lined_up};
use super::unfolding::{Joints, Layers, Turn, Turns};
use crate::laid::LaidOut;
use crate::plane::Placement;

/// The card on its way open, fold by fold.
pub(super) struct Opening<'a> {
    joints: Joints<'a>,
    glued: &'a [Glued],
    roles: Vec<Role>,
    /// Which hinges are folded and may open.
    closed: Vec<bool>,
}

/// How often the search takes back what it opened before it gives up. Sheets
/// folded at random take back one in some hundreds. (Our own choice.)
const MOST_TAKEN_BACK: usize = 200;

/// A state on the way, and what can still be tried from there.
struct Stage {
    state: State,
    closed: Vec<bool>,
    turns: Turns,
    /// How it was come to.
    by: Option<Turn>,
    /// Which panels lie in front of which in the closed card so that all turns
    /// so far can be made.
    asked: Vec<(usize, usize)>,
}

/// The closed card with some panels lying in front of others, where that can
/// be.
pub(super) type Reordered<'a> = dyn Fn(&[(usize, usize)]) -> Option<State> + 'a;

impl<'a> Opening<'a> {
    /// The opening of a card whose panels lie so when it is closed.
    pub(super) fn of(laid: &'a LaidOut, glued: &'a [Glued], root: usize, poses: &[Pose]) -> Self {
        let roles = hang::roles(laid, glued);
        let hinges = laid.hinges.iter().zip(&roles);
        let lies = |panel: usize| poses.get(panel).is_some_and(|pose| !pose.stands);
        let closed = hinges.map(|(hinge, role)| {
            hinge.folded && *role != Role::Held && lies(hinge.left) && lies(hinge.right)
        });
        Self {
            joints: Joints {
                laid,
                root,
                glue: glued.iter().map(|bond| [bond.on, bond.part]).collect(),
                rings: hang::rings(laid, glued),
            },
            glued,
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

    /// The card from closed to open: fold by fold, in another order of its
    /// panels if need be, or, where that does not go on to the end, all at once.
    pub(super) fn states(&self, closed: State, reordered: &Reordered<'_>) -> Vec<State> {
        let as_it_lies = self.fold_by_fold(&closed, None);
        let found = as_it_lies.or_else(|| self.fold_by_fold(&closed, Some(reordered)));
        found.unwrap_or_else(|| {
            let open = self.all_open(&closed);
            vec![closed, open]
        })
    }

    /// The states as far as it opens fold by fold.
    pub(super) fn as_far(&self, closed: State) -> Vec<State> {
        let mut still = self.closed.clone();
        let mut states = vec![closed];
        while let Some(now) = states.last() {
            let mut turns = self.joints.turns(now, &still, Layers::AsTheyLie);
            let mut turns = std::iter::from_fn(|| turns.next(&self.joints, now));
            let next = turns.find_map(|turn| Some((self.turned(now, &turn)?, turn)));
            let Some((next, turn)) = next else {
                break;
            };
            for hinge in turn.hinges {
                still[hinge] = false;
            }
            states.push(next);
        }
        states
    }

    /// The states from closed to open by simple unfoldings; `None` where none
    /// are found. What was opened is taken back where it leads no further, and
    /// no state is gone on from twice.
    fn fold_by_fold(
        &self,
        closed: &State,
        reordered: Option<&Reordered<'_>>,
    ) -> Option<Vec<State>> {
        let layers = match reordered {
            None => Layers::AsTheyLie,
            Some(_) => Layers::InAnyOrder,
        };
        let stage = |state: State, closed: Vec<bool>, by, asked| Stage {
            turns: self.joints.turns(&state, &closed, layers).towards_open(),
            state,
            closed,
            by,
            asked,
        };
        let first = stage(closed.clone(), self.closed.clone(), None, Vec::new());
        let mut way = vec![first];
        let mut leads_nowhere: HashSet<(Vec<bool>, Over)> = HashSet::new();
        let key = |state: &State, closed: &[bool]| (closed.to_vec(), state.over.clone());
        while let Some(last) = way.last_mut() {
            if !last.closed.contains(&true) {
                return Some(way.into_iter().map(|stage| stage.state).collect());
            }
            let Some(turn) = last.turns.next(&self.joints, &last.state) else {
                if leads_nowhere.len() >= MOST_TAKEN_BACK {
                    return None;
                }
                let last = way.pop()?;
                leads_nowhere.insert(key(&last.state, &last.closed));
                continue;
            };
            let mut closed = last.closed.clone();
            for hinge in &turn.hinges {
                closed[*hinge] = false;
            }
            let mut asked = Vec::new();
            if let Some(reordered) = reordered {
                let Some(all) = self.ordered_for(&mut way, &turn, reordered) else {
                    continue;
                };
                asked = all;
            }
            let next = way.last().and_then(|last| self.turned(&last.state, &turn));
            if let Some(next) = next
                && (leads_nowhere.is_empty() || !leads_nowhere.contains(&key(&next, &closed)))
            {
                way.push(stage(next, closed, Some(turn), asked));
            }
        }
        None
    }

    /// Gives the closed card, where it has to, another order of its panels in
    /// which one more turn can be made, and goes the same way again; everything
    /// that is then asked of the order. `None` where no order allows it.
    fn ordered_for(
        &self,
        way: &mut [Stage],
        turn: &Turn,
        reordered: &Reordered<'_>,
    ) -> Option<Vec<(usize, usize)>> {
        let last = way.last()?;
        let mut asked = last.asked.clone();
        let mut is_so = true;
        for (front, back) in turn.asks(&last.state)? {
            let so = last.state.is_over(front, back);
            is_so &= so;
            let turns = || way.iter().filter_map(|stage| stage.by.as_ref());
            if turns().any(|turn| turn.moves[front] != turn.moves[back]) {
                // How they came to lie does not depend on the closed card.
                if !so {
                    return None;
                }
                continue;
            }
            let times = turns().filter(|turn| turn.moves[front]).count();
            asked.push(if times % 2 == 0 {
                (front, back)
            } else {
                (back, front)
            });
        }
        if is_so {
            return Some(asked);
        }
        let mut state = reordered(&asked)?;
        if !asked
            .iter()
            .all(|(front, back)| state.is_over(*front, *back))
        {
            return None;
        }
        let mut states = vec![state.clone()];
        for turn in way.iter().filter_map(|stage| stage.by.as_ref()) {
            state = self.turned(&state, turn)?;
            states.push(state.clone());
        }
        for (stage, state) in way.iter_mut().zip(states) {
            stage.state = state;
        }
        Some(asked)
    }

    /// The card after a turn; `None` where what turned would have to lie both
    /// in front of something and behind it.
    fn turned(&self, now: &State, turn: &Turn) -> Option<State> {
        let over = Placement::over(&turn.axis.line)?;
        let panels = now
            .poses
            .iter()
            .zip(&turn.moves)
            .zip(&self.joints.laid.panels);
        let poses: Vec<_> = panels
            .map(|((pose, moves), panel)| {
                if *moves {
                    Pose::of(panel, pose.place.then(&over))
                } else {
                    pose.clone()
                }
            })
            .collect();
        let (moved, still): (Vec<usize>, Vec<usize>) =
            now.order.iter().partition(|panel| turn.moves[**panel]);
        let turned_over = moved.iter().rev().copied();
        let wish: Vec<usize> = if turn.towards_front {
            still.iter().copied().chain(turned_over).collect()
        } else {
            turned_over.chain(still.iter().copied()).collect()
        };
        let mut over = now.over.turned(&turn.moves);
        let reach: Vec<_> = poses.iter().map(|pose| turn.axis.reach_of(pose)).collect();
        for a in &moved {
            for b in &still {
                let (moved, still) = (&poses[*a], &poses[*b]);
                if !moved.overlaps(still) {
                    continue;
                }
                // What rose has come down in front, on the other side.
                let at = turn.axis.overlap((moved, reach[*a]), (still, reach[*b]));
                if at.is_both() {
                    return None;
                }
                let (front, back) = if at.on(turn.rising) {
                    (*b, *a)
                } else {
                    (*a, *b)
                };
                over.add(front, back);
            }
        }
        Some(State {
            opened: Some(Opened {
                moved: moved.clone(),
                ..self.opened(turn.hinges.clone(), turn.towards_front, false)
            }),
            poses,
            order: lined_up(&wish, over.pairs()),
            over,
        })
    }

    /// The card open: the base flat, and with it what no driven crease parts
    /// from it; the rest stands up.
    fn all_open(&self, now: &State) -> State {
        let glue = self.glued.iter();
        let glue: Vec<_> = glue.map(|bond| (bond.on, bond.part, bond.place)).collect();
        let way = |hinge: usize| match self.roles.get(hinge) {
            Some(Role::Driven) => Way::Parted,
            Some(Role::Held) if self.joints.laid.hinges[hinge].folded => Way::Shut,
            _ => Way::Flat,
        };
        let places = hang::places(
            self.joints.laid,
            &glue,
            self.joints.root,
            now.poses[self.joints.root].place,
            &way,
        );
        let poses = hang::poses(self.joints.laid, places);
        let mut over = Over::none(poses.len());
        for (a, one) in poses.iter().enumerate() {
            for (b, other) in poses.iter().enumerate().take(a) {
                if !one.overlaps(other) {
                    continue;
                }
                // What lay on each other does so still, seen from the other
                // side where both were turned over.
                let turned = now.poses[a].place.mirrored != one.place.mirrored;
                let beneath = now.is_over(b, a) == turned;
                let (front, back) = if beneath { (a, b) } else { (b, a) };
                over.add(front, back);
            }
        }
        let hinges = (0..self.closed.len()).filter(|hinge| self.closed[*hinge]);
        State {
            opened: Some(self.opened(hinges.collect(), true, true)),
            order: lined_up(&(0..poses.len()).collect::<Vec<_>>(), over.pairs()),
            poses,
            over,
        }
    }

    fn opened(&self, hinges: Vec<usize>, towards_front: bool, together: bool) -> Opened {
        let first = hinges
            .first()
            .and_then(|hinge| self.joints.laid.hinges.get(*hinge));
        Opened {
            line: first.map_or(crate::pattern::LineId(0), |hinge| hinge.line),
            hinges,
            moved: Vec::new(),
            towards_front,
            together,
        }
    }
}
