//! The folded card: where each panel lies, closed and as it is opened.

use super::stack::{About, Facet, Hinge as Joint, Orders, Stack};
use super::state::{Opened, Pose, State, lined_up};
use super::{Stuck, Undecided, stack_of};
use crate::laid::{LaidOut, Piece};
use crate::plane::{CardFrame, PieceFrame, Placement, Point, SAME_WITHIN, Segment};
use crate::recipe::{PanelId, Recipe};

/// The folded card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folded {
    /// The card closed, and after each fold opened one by one until it lies
    /// flat. The panel that rests stays where it is.
    pub states: Vec<State>,
    /// Whether the maker's answers about which panel lies on top could be kept
    /// together; otherwise none of them was.
    pub answers_kept: bool,
}

/// Why a card does not fold flat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unfoldable {
    /// There is no panel to begin with.
    NoPanel,
    /// The creases do not come together; the piece's misfits say where.
    Misfits,
    /// Scores of a strip that trap panels.
    Stuck(Stuck),
    /// Panels that cannot lie on each other in any order.
    Conflict(Vec<PanelId>),
    /// The search for an order took too long.
    Undecided,
}

impl From<Undecided> for Unfoldable {
    fn from(_: Undecided) -> Self {
        Self::Undecided
    }
}

/// Folds the recipe's base and opens it again.
///
/// Errors with what keeps it from folding flat.
pub fn fold(recipe: &Recipe, laid: &LaidOut) -> Result<Folded, Unfoldable> {
    let base = &laid.base;
    if !base.misfits.is_empty() {
        return Err(Unfoldable::Misfits);
    }
    let root = base
        .place_of(recipe.base.rests)
        .or_else(|| (!base.panels.is_empty()).then_some(0))
        .ok_or(Unfoldable::NoPanel)?;
    let closed_poses = closed_poses(recipe, base, root).ok_or(Unfoldable::NoPanel)?;
    let (closed, answers_kept) = closed(recipe, base, root, closed_poses)?;
    let mut opening = Opening {
        base,
        root,
        closed: vec![true; base.hinges.len()],
    };
    let mut states = vec![closed];
    while let Some(next) = states.last().and_then(|now| opening.next(now)) {
        states.push(next);
    }
    Ok(Folded {
        states,
        answers_kept,
    })
}

/// Where every panel lies when all creases are folded.
fn closed_poses(recipe: &Recipe, base: &Piece, root: usize) -> Option<Vec<Pose>> {
    let turn: Placement<PieceFrame, CardFrame> = Placement::turned(recipe.base.runs.turn());
    let outline = turn.polygon(&base.panels.get(root)?.facet.outline);
    let origin = outline.bounds()?.low;
    let resting = Placement::at_bearing(turn.mirrored, turn.turn, Point::new(-origin.x, -origin.y));
    let mut places = vec![None; base.panels.len()];
    places[root] = Some(resting);
    let mut waiting = vec![root];
    while let Some(panel) = waiting.pop() {
        let before: Placement<PieceFrame, CardFrame> = places[panel]?;
        for hinge in &base.hinges {
            if ![hinge.left, hinge.right].contains(&panel) {
                continue;
            }
            let beyond = hinge.across(panel);
            if places[beyond].is_none() {
                places[beyond] = Some(Placement::over(&hinge.axis)?.then(&before));
                waiting.push(beyond);
            }
        }
    }
    let poses = base.panels.iter().zip(places);
    poses
        .map(|(panel, place)| Some(Pose::of(panel, place?)))
        .collect()
}

/// The closed card with its panels in order, and whether the maker's answers
/// were kept.
fn closed(
    recipe: &Recipe,
    base: &Piece,
    root: usize,
    poses: Vec<Pose>,
) -> Result<(State, bool), Unfoldable> {
    // Of a whole strip with nothing but scores it is known at once whether it
    // folds flat and, if not, what is in the way.
    let strip = if recipe.base.lines.is_empty() && !base.is_cut_out {
        Some(strip_order(recipe, root).map_err(Unfoldable::Stuck)?)
    } else {
        None
    };
    let wanted = wanted(recipe, base);
    if let (Some(order), true) = (&strip, wanted.is_empty()) {
        return Ok((State::in_line(poses, order.clone()), true));
    }
    let orders = Orders::stacked(&stack(base, &poses));
    if let Some(order) = orders.first(&wanted)? {
        return Ok((ordered(poses, &order), true));
    }
    if wanted.is_empty() {
        return Err(conflict(base, &orders)?);
    }
    match strip {
        Some(order) => Ok((State::in_line(poses, order), false)),
        None => match orders.first(&[])? {
            Some(order) => Ok((ordered(poses, &order), false)),
            None => Err(conflict(base, &orders)?),
        },
    }
}

/// The order of a strip's panels, from the one at the back to the one in front.
fn strip_order(recipe: &Recipe, root: usize) -> Result<Vec<usize>, Stuck> {
    let panels = recipe.base.panels.iter();
    let widths: Vec<_> = panels.map(|panel| recipe.value(panel.width)).collect();
    let mut order = stack_of(&widths, &recipe.base.folds)?;
    // It is told with the first panel's inside to the front; in the card it is
    // the resting panel's, which lies the other way up at every second place.
    if root % 2 == 1 {
        order.reverse();
    }
    Ok(order)
}

/// The maker's answers by places among the panels, the front one first.
fn wanted(recipe: &Recipe, base: &Piece) -> Vec<(usize, usize)> {
    let answers = recipe.base.on_top.iter();
    answers
        .filter_map(|answer| Some((base.place_of(answer.upper)?, base.place_of(answer.lower)?)))
        .collect()
}

/// What the maker may say about which of two panels lies on top: the answers
/// given that the creases leave open, and then the one question that settles
/// most of what is still open about how the closed card looks.
pub fn questions(recipe: &Recipe, laid: &LaidOut, folded: &Folded) -> Vec<(PanelId, PanelId)> {
    let panels = &laid.base.panels;
    let Some(closed) = folded.states.first() else {
        return Vec::new();
    };
    let orders = Orders::stacked(&stack(&laid.base, &closed.poses));
    let mut answered = Vec::new();
    for answer in wanted(recipe, &laid.base) {
        let other_way = (answer.1, answer.0);
        // An answer that follows from those before it is none.
        let is_open = |way| {
            let mut all = answered.clone();
            all.push(way);
            matches!(orders.first(&all), Ok(Some(_)))
        };
        if is_open(answer) && is_open(other_way) {
            answered.push(answer);
        }
    }
    // A search that takes too long asks nothing more.
    let next = orders.question(&answered, About::Outside).ok().flatten();
    answered
        .into_iter()
        .chain(next)
        .filter_map(|(a, b)| Some((panels.get(a)?.id, panels.get(b)?.id)))
        .collect()
}

/// The folded piece as a stack whose order is sought.
fn stack(base: &Piece, poses: &[Pose]) -> Stack {
    let facets = poses.iter().map(|pose| Facet {
        area: pose.area().region(),
        mirrored: pose.place.mirrored,
    });
    let hinges = base.hinges.iter().filter_map(|hinge| {
        let place = poses.get(hinge.left)?.place;
        Some(Joint {
            a: hinge.left,
            b: hinge.right,
            from: place.point(hinge.course.from),
            to: place.point(hinge.course.to),
            fold: Some(hinge.fold),
        })
    });
    Stack {
        facets: facets.collect(),
        hinges: hinges.collect(),
        bonds: Vec::new(),
    }
}

fn ordered(poses: Vec<Pose>, order: &super::Order) -> State {
    let panels = 0..poses.len();
    let over: Vec<_> = panels
        .clone()
        .flat_map(|back| order.in_front_of(back).map(move |front| (front, back)))
        .collect();
    State {
        opened: None,
        poses,
        order: lined_up(&panels.collect::<Vec<_>>(), &over),
        over,
    }
}

fn conflict(base: &Piece, orders: &Orders) -> Result<Unfoldable, Undecided> {
    let conflict = orders.conflict()?;
    let facets = conflict.map(|conflict| conflict.facets).unwrap_or_default();
    let names = facets.into_iter();
    Ok(Unfoldable::Conflict(
        names
            .filter_map(|place| Some(base.panels.get(place)?.id))
            .collect(),
    ))
}

impl State {
    /// All closed, the panels in one line from back to front.
    fn in_line(poses: Vec<Pose>, order: Vec<usize>) -> Self {
        let mut over = Vec::new();
        for (height, front) in order.iter().enumerate() {
            for back in order.iter().take(height) {
                let both = poses.get(*front).zip(poses.get(*back));
                if both.is_some_and(|(front, back)| front.overlaps(back)) {
                    over.push((*front, *back));
                }
            }
        }
        Self {
            opened: None,
            poses,
            order,
            over,
        }
    }
}

/// The card on its way open, fold by fold.
struct Opening<'a> {
    base: &'a Piece,
    root: usize,
    /// Which of the piece's hinges are still folded.
    closed: Vec<bool>,
}

impl Opening<'_> {
    /// Opens what lets go first: what it moves lies wholly in front of what
    /// stays (or wholly behind it), the farthest from the resting panel first.
    /// Where nothing does by itself, all that is left opens together.
    fn next(&mut self, now: &State) -> Option<State> {
        let distance = self.distances();
        let mut waiting: Vec<usize> = (0..self.closed.len())
            .filter(|hinge| self.closed[*hinge])
            .collect();
        if waiting.is_empty() {
            return None;
        }
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
        Some(match found {
            Some((towards_front, (hinges, moving))) => {
                self.swung(now, towards_front, &hinges, &moving)
            }
            None => self.all_open(now, waiting),
        })
    }

    /// How many creases lie between each hinge and the resting panel.
    fn distances(&self) -> Vec<usize> {
        let hinges = &self.base.hinges;
        let mut of_panel = vec![usize::MAX; self.base.panels.len()];
        of_panel[self.root] = 0;
        let mut reached = vec![self.root];
        let mut next = 0;
        while let Some(panel) = reached.get(next).copied() {
            next += 1;
            for hinge in hinges {
                if [hinge.left, hinge.right].contains(&panel) {
                    let beyond = hinge.across(panel);
                    if of_panel[beyond] == usize::MAX {
                        of_panel[beyond] = of_panel[panel] + 1;
                        reached.push(beyond);
                    }
                }
            }
        }
        let nearer = hinges.iter();
        nearer
            .map(|hinge| of_panel[hinge.left].min(of_panel[hinge.right]))
            .collect()
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
        let hinge = &self.base.hinges[hinge];
        moves[hinge.left] != moves[hinge.right]
    }

    /// The panels that hang on the resting one by these hinges alone.
    fn moved_by(&self, turning: &[usize]) -> Vec<bool> {
        let mut moves = vec![true; self.base.panels.len()];
        moves[self.root] = false;
        let mut still = vec![self.root];
        while let Some(panel) = still.pop() {
            for (place, other) in self.base.hinges.iter().enumerate() {
                if [other.left, other.right].contains(&panel) && !turning.contains(&place) {
                    let beyond = other.across(panel);
                    if std::mem::replace(&mut moves[beyond], false) {
                        still.push(beyond);
                    }
                }
            }
        }
        moves
    }

    fn in_card(&self, now: &State, hinge: usize) -> Option<Segment<CardFrame>> {
        let hinge = self.base.hinges.get(hinge)?;
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
            .zip(&self.base.panels)
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

    /// The piece flat.
    fn all_open(&mut self, now: &State, hinges: Vec<usize>) -> State {
        let resting = now.poses[self.root].place;
        let panels = self.base.panels.iter();
        let poses = panels.map(|panel| Pose::of(panel, resting)).collect();
        self.closed.fill(false);
        State {
            opened: Some(self.opened(hinges, true, true)),
            poses,
            order: (0..self.base.panels.len()).collect(),
            over: Vec::new(),
        }
    }

    fn opened(&self, hinges: Vec<usize>, towards_front: bool, together: bool) -> Opened {
        let first = hinges
            .first()
            .and_then(|hinge| self.base.hinges.get(*hinge));
        Opened {
            line: first.map_or(crate::pattern::LineId(0), |hinge| hinge.line),
            hinges,
            towards_front,
            together,
        }
    }
}
