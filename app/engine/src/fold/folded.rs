//! The folded card: where each panel lies, closed and as it is opened.

use super::{Orders, Stuck, stack_of};
use crate::length::Length;
use crate::plane::{CardFrame, PieceFrame, Placement, Point, Rect, Size};
use crate::recipe::{PanelId, Recipe};

/// Where a panel lies in the card. A mirrored panel shows its side B to the
/// front.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pose {
    /// The panel.
    pub panel: PanelId,
    /// From the flat piece to the card.
    pub place: Placement<PieceFrame, CardFrame>,
    /// What the panel covers.
    pub covers: Rect<CardFrame>,
}

/// The card with some folds closed and the others open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct State {
    /// The score opened last to come here, by its place along the strip;
    /// `None` while all are closed.
    pub opened: Option<usize>,
    /// Whether that opened towards the front.
    pub towards_front: bool,
    /// The panels in the order of the strip.
    pub poses: Vec<Pose>,
    /// Places along the strip, from the panel at the back to the one in front.
    pub order: Vec<usize>,
}

impl State {
    /// Width and height of all panels together.
    pub fn size(&self) -> Size {
        let corners: Vec<_> = self
            .poses
            .iter()
            .flat_map(|pose| pose.covers.corners())
            .collect();
        crate::plane::bounds(&corners).map_or_else(Size::default, |all| all.size())
    }
}

/// The strip from one fold to the next, as exact lengths.
struct Strip<'a> {
    recipe: &'a Recipe,
    /// Where each panel begins along the strip, and where the last one ends.
    marks: Vec<Length>,
    height: Length,
    rests: usize,
}

impl<'a> Strip<'a> {
    fn of(recipe: &'a Recipe) -> Self {
        let mut at = Length::ZERO;
        let mut marks = vec![at];
        for panel in &recipe.base.panels {
            at += recipe.value(panel.width);
            marks.push(at);
        }
        let rests = recipe.panel(recipe.base.rests);
        Self {
            recipe,
            marks,
            height: recipe.value(recipe.base.height),
            rests: rests.map_or(0, |(place, _)| place),
        }
    }

    fn panel(&self, place: usize) -> Rect<PieceFrame> {
        let mark = |at: usize| self.marks.get(at).copied().unwrap_or_default();
        Rect::spanning(
            Point::new(mark(place), Length::ZERO),
            Point::new(mark(place + 1), self.height),
        )
    }

    /// Every panel's pose when the scores marked in `closed` are folded.
    fn poses(&self, closed: &[bool]) -> Vec<Pose> {
        let panels = &self.recipe.base.panels;
        let turn = self.recipe.base.runs.turn();
        let turned: Placement<PieceFrame, CardFrame> = Placement::turned(turn);
        let origin = turned.rect(&self.panel(self.rests)).low;
        let resting = Placement::new(false, turn, Point::new(-origin.x, -origin.y));
        let step = |place: Placement<PieceFrame, CardFrame>, score: usize| {
            if closed.get(score) == Some(&true) {
                let over: Placement<PieceFrame, PieceFrame> =
                    Placement::over_upright(self.marks.get(score + 1).copied().unwrap_or_default());
                over.then(&place)
            } else {
                place
            }
        };
        let mut places = vec![resting; panels.len()];
        for place in self.rests + 1..panels.len() {
            places[place] = step(places[place - 1], place - 1);
        }
        for place in (0..self.rests).rev() {
            places[place] = step(places[place + 1], place);
        }
        panels
            .iter()
            .zip(places)
            .enumerate()
            .map(|(at, (panel, place))| Pose {
                panel: panel.id,
                place,
                covers: place.rect(&self.panel(at)),
            })
            .collect()
    }

    /// Whether a panel moves when a score opens: it lies beyond the score as
    /// seen from the resting panel.
    fn moves(&self, panel: usize, score: usize) -> bool {
        if score < self.rests {
            panel <= score
        } else {
            panel > score
        }
    }
}

/// The folded card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folded {
    /// The card closed, and after each score opened one by one until it lies
    /// flat. The panel that rests stays where it is.
    pub states: Vec<State>,
    /// Whether the maker's answers about which panel lies on top could be kept
    /// together; otherwise none of them was.
    pub answers_kept: bool,
}

/// Folds the recipe's strip and opens it again.
///
/// Errors with the panels that trap each other where the strip does not fold
/// flat.
pub fn fold(recipe: &Recipe) -> Result<Folded, Stuck> {
    let strip = Strip::of(recipe);
    let widths: Vec<_> = recipe
        .base
        .panels
        .iter()
        .map(|panel| recipe.value(panel.width))
        .collect();
    let reduced = stack_of(&widths, &recipe.base.folds)?;
    // Orders are told with the first panel's inside to the front; in the card
    // it is the resting panel's, which lies the other way up at every second
    // place.
    let turned_over = strip.rests % 2 == 1;
    let wanted = wanted(recipe, turned_over);
    let asked = if wanted.is_empty() {
        None
    } else {
        let found = Orders::of(&widths, &recipe.base.folds).first(&wanted);
        // A search that gives up keeps no answers either.
        found.ok().flatten().and_then(|order| order.lined_up())
    };
    let answers_kept = wanted.is_empty() || asked.is_some();
    let mut order = asked.unwrap_or(reduced);
    if turned_over {
        order.reverse();
    }
    let mut closed = vec![true; recipe.base.folds.len()];
    let mut states = vec![State {
        opened: None,
        towards_front: true,
        poses: strip.poses(&closed),
        order,
    }];
    while let Some(next) = states
        .last()
        .and_then(|now| open_next(&strip, now, &mut closed))
    {
        states.push(next);
    }
    Ok(Folded {
        states,
        answers_kept,
    })
}

/// The maker's answers by places along the strip, the front one first, as seen
/// with the first panel's inside to the front.
fn wanted(recipe: &Recipe, turned_over: bool) -> Vec<(usize, usize)> {
    recipe
        .base
        .on_top
        .iter()
        .filter_map(|answer| {
            let (upper, _) = recipe.panel(answer.upper)?;
            let (lower, _) = recipe.panel(answer.lower)?;
            Some(if turned_over {
                (lower, upper)
            } else {
                (upper, lower)
            })
        })
        .collect()
}

/// Opens the score that lets go first: what it moves lies wholly in front of
/// what stays (or wholly behind it), the farthest from the resting panel first.
fn open_next(strip: &Strip<'_>, now: &State, closed: &mut [bool]) -> Option<State> {
    let mut waiting: Vec<usize> = (0..closed.len()).filter(|score| closed[*score]).collect();
    waiting.sort_by_key(|score| {
        let distance = if *score < strip.rests {
            strip.rests - score
        } else {
            score + 1 - strip.rests
        };
        (std::cmp::Reverse(distance), *score)
    });
    let mut height = vec![0; now.poses.len()];
    for (layer, panel) in now.order.iter().enumerate() {
        height[*panel] = layer;
    }
    let free = |score: usize, towards_front: bool| {
        let panels = 0..now.poses.len();
        panels.clone().filter(|a| strip.moves(*a, score)).all(|a| {
            panels.clone().filter(|b| !strip.moves(*b, score)).all(|b| {
                let apart = now.poses[a].covers.common(&now.poses[b].covers).is_none();
                apart || (height[a] > height[b]) == towards_front
            })
        })
    };
    let (towards_front, score) = [true, false].into_iter().find_map(|towards_front| {
        let score = waiting.iter().find(|score| free(**score, towards_front))?;
        Some((towards_front, *score))
    })?;
    closed[score] = false;
    let (moved, still): (Vec<usize>, Vec<usize>) = now
        .order
        .iter()
        .partition(|panel| strip.moves(**panel, score));
    let turned_over = moved.into_iter().rev();
    let order = if towards_front {
        still.into_iter().chain(turned_over).collect()
    } else {
        turned_over.chain(still).collect()
    };
    Some(State {
        opened: Some(score),
        towards_front,
        poses: strip.poses(closed),
        order,
    })
}
