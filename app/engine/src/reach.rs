//! What reaches past the closed card, past the panel that carries it, or into a
//! fold: past which edges, by how much, and how large it could be.

use crate::faces::{Reading, beyond_panel};
use crate::fold::{Folded, State};
use crate::laid::{LaidLayer, LaidOut};
use crate::length::Length;
use crate::pattern::Hinge;
use crate::plane::{
    CardFrame, Edge, FaceFrame, PieceFrame, Point, Polygon, Rect, Region, SAME_WITHIN, Segment,
    Turn, bounds,
};
use crate::problem::{Past, Reach, Reacher};
use crate::recipe::{Fold, Layer, LayerId, Placing, Recipe, Side};

/// Everything that reaches past what should hold it: layers in the order they
/// are put on, then panels of pieces. `trapped` is a layer that keeps the card
/// from closing.
pub fn reaches(
    recipe: &Recipe,
    laid: &LaidOut,
    folded: &Folded,
    readings: &[Reading],
    trapped: Option<LayerId>,
) -> Vec<Reach> {
    let Some(closed) = folded.states.first() else {
        return Vec::new();
    };
    let layers = laid.layers.iter().filter_map(|layer| {
        let mut readings = readings.iter();
        let reading = readings.find(|reading| reading.face == layer.face)?;
        beyond_panel(laid, reading, layer)?;
        Some((layer, reading))
    });
    let layers: Vec<_> = layers.collect();
    if layers.is_empty() && laid.pieces.is_empty() {
        return Vec::new();
    }
    let card = outline(laid, closed);
    let layers = layers.into_iter().filter_map(|(layer, reading)| {
        let is_trapped = trapped == Some(layer.id);
        of_layer(recipe, laid, (closed, &card), reading, layer, is_trapped)
    });
    let pieces = laid.pieces.iter().flat_map(|piece| piece.panels.clone());
    let panels = pieces.filter_map(|index| of_panel(laid, closed, &card, index));
    layers.chain(panels).collect()
}

/// What the panels of the base cover in the closed card, windows filled.
fn outline(laid: &LaidOut, closed: &State) -> Region<CardFrame> {
    let panels = laid.panels_of(&laid.base).iter().zip(&closed.poses);
    let corners: Vec<_> = panels
        .clone()
        .flat_map(|(_, pose)| pose.covers.corners())
        .collect();
    let all = bounds(&corners).unwrap_or_default();
    let is_all = |cover: crate::fold::Cover| cover.shape.is_none() && cover.within == all;
    if panels.clone().any(|(_, pose)| is_all(pose.area())) {
        return Region::from(all);
    }
    panels.fold(Region::default(), |region, (panel, pose)| {
        region.and(&Region::from(&pose.place.polygon(&panel.facet.outline)))
    })
}

fn of_layer(
    recipe: &Recipe,
    laid: &LaidOut,
    (closed, card): (&State, &Region<CardFrame>),
    reading: &Reading,
    placed: &LaidLayer,
    is_trapped: bool,
) -> Option<Reach> {
    let layer = recipe.layer(placed.id)?;
    let panel = laid.panels.get(laid.index_of(placed.face.panel)?)?;
    let seat = Region::from(&reading.place.polygon(&panel.facet.outline));
    let what = placed.region();
    let shut = match placed.face.side {
        Side::A => Fold::Valley,
        Side::B => Fold::Mountain,
    };
    let crossed = creases_crossed(laid, reading, &what);
    let shuts = crossed.iter().filter(|crease| crease.fold == shut);
    let shuts: Vec<_> = shuts.map(|crease| crease.line).collect();
    let card = reading
        .in_card(closed)
        .map(|place| place.back().region(card));
    let sticks_out = card.filter(|card| over(&what, card).is_some());
    let (past, room, across) = match sticks_out {
        _ if is_trapped || !shuts.is_empty() => (Past::Fold, seat, shuts),
        Some(card) => (Past::Card, card, Vec::new()),
        None => {
            let lines = crossed.iter().map(|crease| crease.line);
            (Past::Panel, seat, lines.collect())
        }
    };
    let over = over(&what, &room)?;
    let at = fitted(recipe, layer, &placed.at, &room, &over);
    Some(Reach {
        of: Reacher::Layer(placed.id),
        past,
        edges: over.edges,
        most: over.most,
        across,
        fits: at.map(|at| at.size()),
        in_rectangle: room.is_rectangle(),
        at,
    })
}

fn of_panel(
    laid: &LaidOut,
    closed: &State,
    card: &Region<CardFrame>,
    index: usize,
) -> Option<Reach> {
    let panel = laid.panels.get(index)?;
    let pose = closed.poses.get(index).filter(|pose| !pose.stands)?;
    let what = Region::from(&pose.place.polygon(&panel.facet.outline));
    let over = over(&what, card)?;
    let held = card.bounds().and_then(|card| pose.covers.common(&card));
    let fits = held.zip(pose.place.turn.quarter());
    let fits = fits.map(|(held, turn)| match turn {
        Turn::None | Turn::Half => held.size(),
        Turn::Left | Turn::Right => held.size().turned(),
    });
    Some(Reach {
        of: Reacher::Panel(panel.id),
        past: Past::Card,
        edges: over.edges,
        most: over.most,
        across: Vec::new(),
        fits,
        in_rectangle: card.is_rectangle(),
        at: None,
    })
}

/// How one part of a plane reaches past another.
pub(crate) struct Over {
    /// Past which edges of the rectangle round the other, and by how much.
    pub(crate) edges: Vec<(Edge, Length)>,
    /// The farthest it reaches past.
    pub(crate) most: Length,
}

/// How `what` reaches past `room` by more than a line; `None` where it does not.
pub(crate) fn over<F>(what: &Region<F>, room: &Region<F>) -> Option<Over> {
    let beyond = what.minus(room);
    if beyond.inset(SAME_WITHIN).is_empty() {
        return None;
    }
    let (all, within) = (what.bounds()?, room.bounds().unwrap_or_default());
    let edges = [
        (Edge::Left, within.low.x - all.low.x),
        (Edge::Right, all.high.x - within.high.x),
        (Edge::Top, all.high.y - within.high.y),
        (Edge::Bottom, within.low.y - all.low.y),
    ];
    let edges: Vec<_> = edges
        .into_iter()
        .filter(|(_, by)| *by > SAME_WITHIN)
        .collect();
    let off = |at: Point<F>| {
        let outlines = room.contours();
        let sides = outlines.flat_map(|corners| {
            let next = corners.iter().copied().cycle().skip(1);
            let sides = corners.iter().copied().zip(next);
            let offs = sides.map(|(from, to)| Segment::new(from, to).off(at));
            offs.collect::<Vec<_>>()
        });
        sides.min().unwrap_or_default()
    };
    // Of a shape that bulges nowhere inwards the farthest point is a corner.
    let most = beyond.contours().flatten().map(off).max();
    Some(Over {
        edges,
        most: most.unwrap_or_default(),
    })
}

/// The largest rectangle for a layer that fits in a room and is held as the
/// layer is: an even border stays even, what is centred stays so, and of
/// anything else what reaches past is cut off.
fn fitted(
    recipe: &Recipe,
    layer: &Layer,
    at: &Rect<FaceFrame>,
    room: &Region<FaceFrame>,
    over: &Over,
) -> Option<Rect<FaceFrame>> {
    let within = room.bounds()?;
    let whole = match layer.place {
        Placing::Border(_) => {
            let most = over.edges.iter().map(|(_, by)| *by).max();
            at.inset(most.unwrap_or_default())?
        }
        Placing::At(_) | Placing::Distances => {
            let is_centred = |distance| layer.centred().any(|it| it == distance);
            let across = [at.low.x, at.high.x, within.low.x, within.high.x];
            let up = [at.low.y, at.high.y, within.low.y, within.high.y];
            let (left, right) = held(across, is_centred(layer.left));
            let (bottom, top) = held(up, is_centred(layer.bottom));
            let fits = left < right && bottom < top;
            fits.then(|| Rect::spanning(Point::new(left, bottom), Point::new(right, top)))?
        }
    };
    if room.is_rectangle() {
        return Some(whole);
    }
    // Smaller by a mark all round until it fits: halved from what is left.
    let step = recipe.notation.step.length();
    let smaller = |marks: i64| {
        let rect = whole.inset(step * marks)?;
        let region = layer.outline.within(recipe, &rect).region;
        let region = region.unwrap_or_else(|| Region::from(rect));
        self::over(&region, room).is_none().then_some(rect)
    };
    let side = whole.size().width.min(whole.size().height).units();
    let (mut too_few, mut enough) = (-1, side / (2 * step.units().max(1)) + 1);
    while enough - too_few > 1 {
        let middle = i64::midpoint(too_few, enough);
        if smaller(middle).is_some() {
            enough = middle;
        } else {
            too_few = middle;
        }
    }
    smaller(enough)
}

/// From where to where something may reach that reaches from `from` to `to`,
/// between `low` and `high`; what is centred keeps its middle.
fn held([from, to, low, high]: [Length; 4], is_centred: bool) -> (Length, Length) {
    if is_centred {
        let off = (low - from).max(to - high).max(Length::ZERO);
        (from + off, to - off)
    } else {
        (from.max(low), to.min(high))
    }
}

/// The creases within a part of a face, laid on the open piece; of each line
/// one.
pub(crate) fn creases_crossed<'a>(
    laid: &'a LaidOut,
    reading: &Reading,
    part: &Region<FaceFrame>,
) -> Vec<&'a Hinge> {
    let on_piece = reading.place.back().region(part);
    let mut crossed: Vec<&Hinge> = Vec::new();
    let index = laid.index_of(reading.face.panel);
    let piece = index.and_then(|index| laid.piece_with(index));
    let is_own = |hinge: &&Hinge| piece.is_some_and(|it| it.panels.contains(&hinge.left));
    for hinge in laid.hinges.iter().filter(is_own) {
        let said = crossed.iter().any(|other| other.line == hinge.line);
        if !said && runs_within(hinge, &on_piece) {
            crossed.push(hinge);
        }
    }
    crossed
}

/// Whether a crease runs through the inside of a region, not just along its
/// edge: paper to its left and to its right belongs to it.
fn runs_within(crease: &Hinge, region: &Region<PieceFrame>) -> bool {
    let has_paper = |left: Length, right: Length| {
        let band = Polygon::band(crease.course.from, crease.course.to, left, right);
        !region.common(&Region::from(&band)).is_empty()
    };
    has_paper(SAME_WITHIN, Length::ZERO) && has_paper(Length::ZERO, SAME_WITHIN)
}
