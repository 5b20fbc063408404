//! Windows, corners, edges and outlines of any kind, and how they are told.

use crate::plain::Plain;
use foldwright_engine::card::Card;
use foldwright_engine::faces::{View, near_and_far};
use foldwright_engine::length::Length;
use foldwright_engine::plane::{Area, PieceFrame, Rect};
use foldwright_engine::recipe::{
    Cut, CutoutId, Die, EdgeForm, EdgeSide, LayerId, Outline, OutlineKind, Placing, Recipe, Shaped,
    Which,
};
use serde_json::{Value, json};

use crate::{Dice, ring};

/// Cuts a window, corners or an edge, or nothing.
pub(crate) fn cut_out(recipe: &mut Recipe, dice: &mut Dice) {
    for _ in 0..dice.roll(3) {
        let panels = &recipe.base.panels;
        let count = panels.len() as u64;
        let Some(panel) = usize::try_from(dice.roll(count))
            .ok()
            .and_then(|at| panels.get(at))
        else {
            continue;
        };
        let panel = panel.id;
        // A recipe without room for it stays as it is.
        let _ = match dice.roll(3) {
            0 => recipe
                .add_window(panel, &Plain)
                .map(|added| window(recipe, added.id, dice)),
            1 => recipe
                .add_corners(panel, &Plain)
                .map(|added| corners(recipe, added.id, dice)),
            _ => {
                let sides = [
                    EdgeSide::Left,
                    EdgeSide::Right,
                    EdgeSide::Top,
                    EdgeSide::Bottom,
                ];
                let side = sides[usize::try_from(dice.roll(4)).unwrap_or(0)];
                recipe
                    .add_edge(panel, side, &Plain)
                    .map(|added| edge(recipe, added.id, dice))
            }
        };
    }
}

fn kind(dice: &mut Dice) -> OutlineKind {
    match dice.roll(5) {
        0 => OutlineKind::Straight,
        1 => OutlineKind::Rounded,
        2 => OutlineKind::Round,
        3 => OutlineKind::Arched,
        _ => OutlineKind::Cut,
    }
}

fn shape(recipe: &mut Recipe, of: Shaped, dice: &mut Dice) {
    let kind = kind(dice);
    let _ = recipe.shape(of, kind, &Plain);
    if kind == OutlineKind::Cut {
        let count = Die::ALL.len() as u64;
        let chosen = Die::ALL[usize::try_from(dice.roll(count)).unwrap_or(0)];
        let _ = recipe.cut_shape(of, chosen.bends());
    }
    if let Some(measure) = recipe.outline(of).and_then(Outline::measure) {
        let _ = recipe.set(measure, dice.mm(14) + Length::mm(1));
    }
}

fn window(recipe: &mut Recipe, id: CutoutId, dice: &mut Dice) {
    let window = recipe.cutout(id).and_then(|it| it.cut.window()).cloned();
    let Some(window) = window else { return };
    for measure in [window.width, window.height] {
        let _ = recipe.set(measure, dice.mm(40) + Length::mm(4));
    }
    if dice.roll(2) == 0 {
        let by = (dice.mm(30) - Length::mm(15), dice.mm(40) - Length::mm(20));
        let _ = recipe.move_window(id, by);
    }
    shape(recipe, Shaped::Window(id), dice);
}

fn corners(recipe: &mut Recipe, id: CutoutId, dice: &mut Dice) {
    let chosen = [Which::Both, Which::Upper, Which::Lower];
    let chosen = chosen[usize::try_from(dice.roll(3)).unwrap_or(0)];
    let to = dice.mm(20) + Length::mm(1);
    let _ = recipe.recut(id, |it| {
        if let Cut::Corners { which, .. } = &mut it.cut {
            *which = chosen;
        }
    });
    if let Some(Cut::Corners { radius, .. }) = recipe.cutout(id).map(|it| it.cut.clone()) {
        let _ = recipe.set(radius, to);
    }
}

fn edge(recipe: &mut Recipe, id: CutoutId, dice: &mut Dice) {
    let count = u8::try_from(dice.roll(7) + 1).unwrap_or(1);
    let chosen = match dice.roll(4) {
        0 => EdgeForm::Arch,
        1 => EdgeForm::Hollow,
        2 => EdgeForm::Scallops(count),
        _ => EdgeForm::Points(count),
    };
    let to = dice.mm(20) + Length::mm(1);
    let _ = recipe.recut(id, |it| {
        if let Cut::Edge { form, .. } = &mut it.cut {
            *form = chosen;
        }
    });
    if let Some(Cut::Edge { depth, .. }) = recipe.cutout(id).map(|it| it.cut.clone()) {
        let _ = recipe.set(depth, to);
    }
}

/// Gives a layer any outline, or an even border that follows its panel.
pub(crate) fn outline(recipe: &mut Recipe, id: LayerId, dice: &mut Dice) {
    if dice.roll(4) > 0 {
        shape(recipe, Shaped::Layer(id), dice);
        return;
    }
    let _ = recipe.shape(Shaped::Layer(id), OutlineKind::Follows, &Plain);
    if let Some(Placing::Border(border)) = recipe.layer(id).map(|layer| layer.place) {
        let _ = recipe.set(border, dice.mm(8) + Length::mm(1));
    }
}

fn rect(of: Rect<PieceFrame>) -> [i64; 4] {
    [of.low.x, of.low.y, of.high.x, of.high.y].map(Length::units)
}

/// What is cut out of the base, by the numbers it is drawn by, and the paper
/// that leaves; nothing where something could not be cut as it was asked for.
pub(crate) fn told(recipe: &Recipe, card: &Card) -> Value {
    let cut_so = |id: CutoutId| {
        let place = foldwright_engine::problem::Place::Cutout(id);
        card.problems.iter().all(|problem| problem.place != place)
    };
    let strip = &recipe.base.strip;
    let value = |id| recipe.value(id).units();
    let mut taken = Vec::new();
    for cutout in &strip.cutouts {
        if !cut_so(cutout.id) {
            return Value::Null;
        }
        let before = strip
            .panels
            .iter()
            .take(strip.index_of(cutout.panel).unwrap_or(0));
        let start: Length = before.map(|panel| recipe.value(panel.width)).sum();
        let width = recipe.panel(cutout.panel).map(|(_, panel)| panel.width);
        let end = start + width.map_or(Length::ZERO, |width| recipe.value(width));
        let ground = [start.units(), 0, end.units(), value(strip.height)];
        taken.push(match &cutout.cut {
            Cut::Window(window) => {
                let at = recipe.window_on_strip(cutout.id).unwrap_or_default();
                let (kind, number) = match &window.outline {
                    Outline::Rounded(radius) => ("rounded", value(*radius)),
                    Outline::Round => ("round", 0),
                    Outline::Arched(rise) => ("arched", value(*rise)),
                    Outline::Cut(bends) => {
                        let bends = bends.iter().map(|bend| json!([bend.x, bend.y, bend.bow]));
                        let bends: Vec<_> = bends.collect();
                        taken.push(json!({"kind": "die", "at": rect(at), "bends": bends}));
                        continue;
                    }
                    Outline::Traced(_) => return Value::Null,
                    Outline::Straight | Outline::Follows => ("straight", 0),
                };
                json!({"kind": kind, "at": rect(at), "number": number})
            }
            Cut::Corners { radius, which } => {
                let free = |side| strip.is_free(cutout.panel, side);
                json!({
                    "kind": "corners",
                    "at": ground,
                    "number": value(*radius),
                    "left": free(EdgeSide::Left),
                    "right": free(EdgeSide::Right),
                    "upper": *which != Which::Lower,
                    "lower": *which != Which::Upper,
                })
            }
            Cut::Edge { side, form, depth } => {
                let (form, count) = match form {
                    EdgeForm::Arch => ("arch", 1),
                    EdgeForm::Hollow => ("hollow", 1),
                    EdgeForm::Scallops(count) => ("scallops", *count),
                    EdgeForm::Points(count) => ("points", *count),
                    EdgeForm::Cut(_) => return Value::Null,
                };
                json!({
                    "kind": form,
                    "at": ground,
                    "number": value(*depth),
                    "side": format!("{side:?}"),
                    "count": count,
                })
            }
        });
    }
    let piece = &card.laid.base;
    let mut paper = vec![ring(piece.outline.corners.clone())];
    paper.extend(piece.holes.iter().map(|hole| {
        let mut corners = hole.corners.clone();
        corners.reverse();
        ring(corners)
    }));
    json!({
        "sheet": [0, 0, piece.size.width.units(), piece.size.height.units()],
        "taken": taken,
        "paper": paper,
    })
}

/// The layer in the closed card, on which panel, whether on the side that the
/// front sees, and what shows of it from the front and the back.
pub(crate) fn layer(recipe: &Recipe, card: &Card, shows: [Area; 2]) -> Value {
    let told = || {
        let layer = card.laid.layers.first()?;
        let closed = card.folded.as_ref()?.states.first()?;
        let reading = card.readings.iter().find(|it| it.face == layer.face)?;
        let place = card.laid.index_of(layer.face.panel)?;
        let pose = closed.poses.get(place)?;
        let region = reading.in_card(closed)?.region(&layer.region());
        let [near, _] = near_and_far(pose, View::Front);
        let kind = recipe.layer(layer.id).map(|layer| layer.outline.kind());
        Some(json!({
            "kind": kind.map(|kind| format!("{kind:?}")),
            "at": region.contours().map(ring).collect::<Vec<_>>(),
            "panel": place,
            "near": near == layer.face,
            "shows": shows.map(|area| area.to_string()),
        }))
    };
    told().unwrap_or(Value::Null)
}
