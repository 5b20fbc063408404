//! The folded card: where each panel lies, closed and as it is opened.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use super::hang::{self, Glued, Way};
use super::opening::Opening;
use super::over::Over;
use super::overhang::{self, Overhang};
use super::stack::{About, Bond, Facet, Hinge as Joint, Orders, Stack};
use super::state::{Pose, State, lined_up};
use super::{Stuck, Undecided, stack_of};
use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{CardFrame, PieceFrame, Placement, Point, SAME_WITHIN};
use crate::recipe::{PanelId, Recipe, Stacked};
use crate::sorted::InOrder as _;

/// The folded card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folded {
    /// The card closed, and after each fold opened one by one until it lies
    /// flat; where folds only move together, closed and open. The panel that
    /// rests stays where it is.
    pub states: Vec<State>,
    /// How the pieces are glued together in the closed card.
    pub glued: Vec<Glued>,
    /// The creases, by index among all, that glue keeps as they are in the
    /// closed card, as in a pocket.
    pub held: Vec<usize>,
    /// The layers that reach past their panels, where they were counted in.
    pub overhangs: Vec<Overhang>,
    /// Whether it opens no further than its last state, because something holds
    /// it.
    pub stops: bool,
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

/// Folds the recipe's base with what is glued in, layers left aside, and opens
/// it again.
///
/// Errors with what keeps it from folding flat.
pub fn fold(recipe: &Recipe, laid: &LaidOut) -> Result<Folded, Unfoldable> {
    fold_with(recipe, laid, Vec::new())
}

/// The same with layers that reach past their panels.
pub fn fold_with(
    recipe: &Recipe,
    laid: &LaidOut,
    overhangs: Vec<Overhang>,
) -> Result<Folded, Unfoldable> {
    let shut = Shut::of(recipe, laid, &overhangs)?;
    let opening = Opening::of(laid, &shut.glued, shut.root, &shut.closed.poses);
    // Where the order of panels is open, one is taken that opens.
    let orders = OnceCell::new();
    let poses = shut.closed.poses.clone();
    let reordered = |asked: &[(usize, usize)]| {
        let (orders, preferred) = orders.get_or_init(|| {
            let orders = Orders::stacked(&stack(laid, &shut.glued, &overhangs, &poses));
            let wanted = wanted(recipe, laid, &overhangs);
            let wanted = if shut.answers_kept {
                wanted
            } else {
                Vec::new()
            };
            let preferred = preferred(&orders, &wanted, &overhangs, &poses);
            (orders, preferred.unwrap_or(wanted))
        });
        let order = orders.first(&[preferred, asked].concat()).ok()??;
        Some(ordered(poses.clone(), &overhangs, &order))
    };
    let states = opening.states(shut.closed.clone(), &reordered);
    Ok(Folded {
        held: opening.held(),
        states,
        stops: false,
        glued: shut.glued,
        overhangs,
        answers_kept: shut.answers_kept,
    })
}

/// The panel that rests on the table.
fn root(recipe: &Recipe, laid: &LaidOut) -> Option<usize> {
    let rests = laid.index_of(recipe.base.rests);
    rests.or_else(|| (!laid.base.panels.is_empty()).then_some(0))
}

/// Whether the card closes with some layers that reach past their panels, and
/// if so, whether the maker's answers are kept then.
pub(crate) fn closes_with(recipe: &Recipe, laid: &LaidOut, overhangs: &[Overhang]) -> Option<bool> {
    let shut = Shut::of(recipe, laid, overhangs).ok()?;
    Some(shut.answers_kept)
}

/// Every panel where it lies in the closed card, its order among the others left
/// open, and the index of the one that rests; `None` where panels do not come
/// together.
pub(crate) fn lying_shut(recipe: &Recipe, laid: &LaidOut) -> Option<(usize, Vec<Pose>)> {
    let (root, places) = shut(recipe, laid).ok()?;
    Some((root, hang::poses(laid, places)))
}

/// Where a panel lies in the closed card; `None` for what hangs on nothing.
type Lie = Option<Placement<PieceFrame, CardFrame>>;

/// The panel that rests, and where every panel lies in the closed card.
fn shut(recipe: &Recipe, laid: &LaidOut) -> Result<(usize, Vec<Lie>), Unfoldable> {
    if laid.all_pieces().any(|piece| !piece.misfits.is_empty()) {
        return Err(Unfoldable::Misfits);
    }
    let root = root(recipe, laid).ok_or(Unfoldable::NoPanel)?;
    let places = closed_places(recipe, laid, root).ok_or(Unfoldable::NoPanel)?;
    Ok((root, places))
}

/// The card closed, not opened yet.
struct Shut {
    root: usize,
    glued: Vec<Glued>,
    closed: State,
    answers_kept: bool,
}

impl Shut {
    fn of(recipe: &Recipe, laid: &LaidOut, overhangs: &[Overhang]) -> Result<Self, Unfoldable> {
        let (root, places) = shut(recipe, laid)?;
        let glued = hang::glued(laid, &places);
        let poses = hang::poses(laid, places);
        let (closed, answers_kept) = closed(recipe, laid, root, &glued, overhangs, poses)?;
        Ok(Self {
            root,
            glued,
            closed,
            answers_kept,
        })
    }
}

/// Where every panel lies in the closed card; nothing for what hangs on
/// nothing.
fn closed_places(recipe: &Recipe, laid: &LaidOut, root: usize) -> Option<Vec<Lie>> {
    let turn: Placement<PieceFrame, CardFrame> = Placement::turned(recipe.base.runs.turn());
    let outline = turn.polygon(&laid.panels.get(root)?.facet.outline);
    let origin = outline.bounds()?.low;
    let resting = Placement::at_bearing(turn.mirrored, turn.turn, Point::new(-origin.x, -origin.y));
    // The first join of a piece settles where it lies.
    let first = laid.bonds.iter().filter(|bond| bond.join.1 == 0);
    let first: Vec<_> = first
        .filter_map(|bond| Some((bond.on, bond.part, bond.place?)))
        .collect();
    let way = |hinge: usize| match laid.hinges.get(hinge) {
        Some(hinge) if !hinge.folded => Way::Flat,
        _ => Way::Shut,
    };
    Some(hang::places(laid, &first, root, resting, &way))
}

/// The closed card with its panels in order, and whether the maker's answers
/// were kept.
fn closed(
    recipe: &Recipe,
    laid: &LaidOut,
    root: usize,
    glued: &[Glued],
    overhangs: &[Overhang],
    poses: Vec<Pose>,
) -> Result<(State, bool), Unfoldable> {
    // Of a whole strip with nothing but scores it is known at once whether it
    // folds flat and, if not, what is in the way.
    let strip = if recipe.base.lines.is_empty() && !laid.base.is_cut_out {
        let order = strip_order(recipe, root).map_err(Unfoldable::Stuck)?;
        (recipe.pieces.is_empty() && overhangs.is_empty()).then_some(order)
    } else {
        None
    };
    let wanted = wanted(recipe, laid, overhangs);
    if let (Some(order), true) = (&strip, wanted.is_empty()) {
        return Ok((State::in_line(poses, order.clone()), true));
    }
    let orders = Orders::stacked(&stack(laid, glued, overhangs, &poses));
    let preferred = preferred(&orders, &wanted, overhangs, &poses)?;
    if let Some(order) = orders.first(&preferred)? {
        return Ok((ordered(poses, overhangs, &order), true));
    }
    if wanted.is_empty() {
        return Err(conflict(laid, &orders)?);
    }
    match strip {
        Some(order) => Ok((State::in_line(poses, order), false)),
        None => match orders.first(&[])? {
            Some(order) => Ok((ordered(poses, overhangs, &order), false)),
            None => Err(conflict(laid, &orders)?),
        },
    }
}

/// The order of a strip's panels, from the one at the back to the one in front.
fn strip_order(recipe: &Recipe, root: usize) -> Result<Vec<usize>, Stuck> {
    let panels = recipe.base.panels.iter();
    let widths: Vec<_> = panels.map(|panel| recipe.value(panel.width)).collect();
    let folds = &recipe.base.folds;
    let mut order = match stack_of(&widths, folds) {
        Ok(order) => order,
        // The reduction is exact. What paper does not show may not trap a
        // panel, and of this the search for an order has the last word.
        Err(stuck) if stack_of(&evened(&widths), folds).is_err() => return Err(stuck),
        Err(stuck) => match Orders::of(&widths, folds).first(&[]) {
            Ok(Some(order)) => order.lined_up().ok_or(stuck)?,
            _ => return Err(stuck),
        },
    };
    // It is told with the first panel's inside to the front; in the card it is
    // the resting panel's, which lies the other way up at every second panel.
    if root % 2 == 1 {
        order.reverse();
    }
    Ok(order)
}

/// Widths of a strip's panels with every two creases on one line that come to
/// lie so near each other in the folded strip that paper does not show it.
fn evened(widths: &[Length]) -> Vec<Length> {
    let mut at = Length::ZERO;
    let mut ends = vec![at];
    for (index, width) in widths.iter().enumerate() {
        at = if index % 2 == 0 {
            at + *width
        } else {
            at - *width
        };
        ends.push(at);
    }
    let mut sorted = ends.clone();
    sorted.put_in_order();
    let mut near: BTreeMap<Length, Length> = BTreeMap::new();
    let mut last: Option<(Length, Length)> = None;
    for end in sorted {
        let first = match last {
            Some((before, first)) if end - before <= SAME_WITHIN => first,
            _ => end,
        };
        near.insert(end, first);
        last = Some((end, first));
    }
    let even = |end: Length| near.get(&end).copied().unwrap_or(end);
    let gap = |two: &[Length]| {
        let (a, b) = (even(two[0]), even(two[1]));
        a.max(b) - a.min(b)
    };
    ends.windows(2).map(gap).collect()
}

/// The maker's answers by indices among the panels and then the layers, the front
/// one first.
fn wanted(recipe: &Recipe, laid: &LaidOut, overhangs: &[Overhang]) -> Vec<(usize, usize)> {
    let index = |sheet: Stacked| match sheet {
        Stacked::Panel(panel) => laid.index_of(panel),
        Stacked::Layer { layer } => {
            let index = overhangs.iter().position(|it| it.layer == layer);
            index.map(|index| laid.panels.len() + index)
        }
    };
    let answers = recipe.base.on_top.iter();
    answers
        .filter_map(|answer| Some((index(answer.upper)?, index(answer.lower)?)))
        .collect()
}

/// The maker's answers, and where these leave it open, each layer that reaches
/// past its panel over what it reaches, not tucked under it.
fn preferred(
    orders: &Orders,
    wanted: &[(usize, usize)],
    overhangs: &[Overhang],
    poses: &[Pose],
) -> Result<Vec<(usize, usize)>, Undecided> {
    let outermost = overhang::outermost(overhangs, poses).into_iter();
    let ways = outermost.flat_map(|(layer, front)| {
        (0..poses.len()).map(move |panel| {
            if front {
                (layer, panel)
            } else {
                (panel, layer)
            }
        })
    });
    let told = |way: &(usize, usize)| wanted.contains(way) || wanted.contains(&(way.1, way.0));
    let open: Vec<_> = ways.filter(|way| !told(way)).collect();
    let kept = orders.preferring(wanted, &open)?;
    Ok(wanted.iter().copied().chain(kept).collect())
}

impl Folded {
    /// Whether some creases only open together.
    pub fn opens_together(&self) -> bool {
        let mut opened = self.states.iter().filter_map(|state| state.opened.as_ref());
        opened.any(|opened| opened.together)
    }

    /// Lets it open no further than what opens by itself: the rest is held.
    pub(crate) fn hold(&mut self, recipe: &Recipe, laid: &LaidOut) {
        let (Some(closed), Some(root)) = (self.states.first(), root(recipe, laid)) else {
            return;
        };
        let opening = Opening::of(laid, &self.glued, root, &closed.poses);
        self.states = opening.as_far(closed.clone());
        self.stops = true;
    }

    /// Whether the first of two sheets lies nearer the front of the closed card
    /// than the second; `None` where nothing says so.
    pub fn on_top(&self, recipe: &Recipe, laid: &LaidOut, a: Stacked, b: Stacked) -> Option<bool> {
        let mut answers = recipe.base.on_top.iter();
        let answer = answers.find(|answer| answer.sheets().iter().all(|it| [a, b].contains(it)));
        if let Some(answer) = answer.filter(|_| self.answers_kept) {
            return Some(answer.upper == a);
        }
        let closed = self.states.first()?;
        // A layer lies over what it reaches, unless it is told otherwise.
        let layer = |sheet: Stacked| {
            let Stacked::Layer { layer } = sheet else {
                return None;
            };
            let found = self.overhangs.iter().find(|it| it.layer == layer)?;
            Some(found.is_in_front(closed.poses.get(found.panel)?))
        };
        match (a, b) {
            (Stacked::Panel(a), Stacked::Panel(b)) => {
                Some(closed.is_over(laid.index_of(a)?, laid.index_of(b)?))
            }
            _ => layer(a).or_else(|| layer(b).map(|front| !front)),
        }
    }
}

/// What the maker may say about which of two panels lies on top: the answers
/// given that the creases leave open, and then the one question that settles
/// most of what is still open about how the closed card looks.
pub fn questions(recipe: &Recipe, laid: &LaidOut, folded: &Folded) -> Vec<(Stacked, Stacked)> {
    let panels = &laid.panels;
    let Some(closed) = folded.states.first() else {
        return Vec::new();
    };
    let orders = Orders::stacked(&stack(
        laid,
        &folded.glued,
        &folded.overhangs,
        &closed.poses,
    ))
    .knowing(closed.over.pairs());
    let mut answered = Vec::new();
    for answer in wanted(recipe, laid, &folded.overhangs) {
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
    let sheet = |index: usize| match index.checked_sub(panels.len()) {
        None => panels.get(index).map(|panel| Stacked::Panel(panel.id)),
        Some(layer) => folded
            .overhangs
            .get(layer)
            .map(|it| Stacked::Layer { layer: it.layer }),
    };
    // A search that takes too long asks nothing more.
    let next = orders.question(&answered, About::Outside).ok().flatten();
    answered
        .into_iter()
        .chain(next)
        .filter_map(|(a, b)| Some((sheet(a)?, sheet(b)?)))
        .collect()
}

/// The folded pieces as a stack whose order is sought.
fn stack(laid: &LaidOut, all: &[Glued], overhangs: &[Overhang], poses: &[Pose]) -> Stack {
    let facets = poses.iter().map(|pose| Facet {
        area: pose.area().region(),
        mirrored: pose.place.mirrored,
    });
    let hinges = laid.hinges.iter().filter_map(|hinge| {
        let place = poses.get(hinge.left)?.place;
        Some(Joint {
            a: hinge.left,
            b: hinge.right,
            from: place.point(hinge.course.from),
            to: place.point(hinge.course.to),
            fold: Some(hinge.fold),
        })
    });
    let bonds = all.iter().filter_map(|glued| {
        let (on, part) = (poses.get(glued.on)?, poses.get(glued.part)?);
        let (front, back) = glued.in_order(on);
        let touching = on.area().region().common(&part.area().region());
        // Where tabs overlap, either may lie on the other.
        let beside = all.iter();
        let beside = beside.filter(|it| it.part != glued.part && it.face == glued.face);
        let glue = beside.fold(touching, |glue, other| match poses.get(other.part) {
            Some(other) => glue.minus(&other.area().region()),
            None => glue,
        });
        Some(Bond { front, back, glue })
    });
    Stack {
        facets: facets.chain(overhang::facets(overhangs, poses)).collect(),
        hinges: hinges.collect(),
        bonds: bonds
            .chain(overhang::bonds(overhangs, poses, poses.len()))
            .collect(),
    }
}

/// The closed card, each layer that reaches past its panel taken as part of it.
fn ordered(poses: Vec<Pose>, overhangs: &[Overhang], order: &super::Order) -> State {
    let panels = 0..poses.len();
    let owner = |facet: usize| match facet.checked_sub(poses.len()) {
        Some(layer) => overhangs.get(layer).map_or(0, |layer| layer.panel),
        None => facet,
    };
    let mut over = Over::none(poses.len());
    // Panels that lie on each other themselves have the last word.
    for layers_too in [false, true] {
        for back in 0..poses.len() + overhangs.len() {
            for front in order.in_front_of(back) {
                if layers_too == (front.max(back) < poses.len()) {
                    continue;
                }
                let (front, back) = (owner(front), owner(back));
                let known = over.has(front, back) || over.has(back, front);
                if front != back && !(layers_too && known) {
                    over.add(front, back);
                }
            }
        }
    }
    State {
        opened: None,
        poses,
        order: lined_up(&panels.collect::<Vec<_>>(), over.pairs()),
        over,
    }
}

fn conflict(laid: &LaidOut, orders: &Orders) -> Result<Unfoldable, Undecided> {
    let core = orders.core()?;
    let facets = core.map(|core| core.facets).unwrap_or_default();
    let panels = facets.iter().filter_map(|facet| laid.panels.get(*facet));
    Ok(Unfoldable::Conflict(panels.map(|panel| panel.id).collect()))
}

impl State {
    /// All closed, the panels in one line from back to front.
    fn in_line(poses: Vec<Pose>, order: Vec<usize>) -> Self {
        let mut over = Over::none(poses.len());
        for (height, front) in order.iter().enumerate() {
            for back in order.iter().take(height) {
                let both = poses.get(*front).zip(poses.get(*back));
                if both.is_some_and(|(front, back)| front.overlaps(back)) {
                    over.add(*front, *back);
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
