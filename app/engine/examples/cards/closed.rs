//! Cards as they are drawn flat, for a program that folds them by itself, and the
//! closed size that the engine gives them.

use crate::plain::Plain;
use foldwright_engine::card::{Tools, closed_size, work_out};
use foldwright_engine::envelope::{EnvelopeName, envelope_for};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, nearest};
use foldwright_engine::pattern::{LineId, LineKind};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{
    Corner, LayerKind, Outline, PanelId, Piece, Placing, Recipe, Runs, Seat, Side, Strip, starters,
};
use foldwright_engine::refit::{Wish, refit};
use serde_json::{Value, json};

use crate::shaped;

const NOTATIONS: [Notation; 2] = [
    Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    },
    Notation {
        step: Step::HalfMillimetre,
        decimal: DecimalMark::Point,
    },
];

/// Prints each starting fold and an envelope for it, with mats that reach past its panels where faces
/// are read as the strip is drawn, and refitted to a tenth less and more.
pub(crate) fn print_starters() {
    for starter in starters() {
        for notation in NOTATIONS {
            let mut recipe = starter.recipe_in(notation);
            for stock in &mut recipe.stocks {
                (stock.width, stock.height) = (Length::mm(900), Length::mm(900));
            }
            print(&starter.id, "starters", &recipe);
            let card = work_out(&recipe, &Tools::default());
            let named = |of: EnvelopeName<'_>| format!("{of:?}");
            if let Some(made) = envelope_for(&recipe, &card, &Plain, &named) {
                print(&starter.id, "envelopes", &made);
            }
            let size = card.finished;
            for tenths in [9, 11] {
                let part = |length: Length| {
                    let length = Length::from_units(length.units() * tenths / 10);
                    nearest(length, notation.step).at
                };
                let wish = Wish {
                    finished: Some(Size {
                        width: part(size.width),
                        height: part(size.height),
                    }),
                    ..Wish::default()
                };
                if let Ok(found) = refit(&recipe, &wish) {
                    print(&starter.id, "refitted", &found.recipe);
                }
            }
            for panel in 0..recipe.base.panels.len() {
                let with = overhung(&recipe, panel);
                if let Some(with) = with {
                    print(&starter.id, "with a mat past its panel", &with);
                }
            }
        }
    }
}

fn print(id: &str, kind: &str, recipe: &Recipe) {
    if let Some(closed) = told(recipe) {
        println!("{}", json!({"name": id, "kind": kind, "closed": closed}));
    }
}

/// A card with a mat on a panel that reaches past it to the left and upwards;
/// `None` where it does not close with that.
fn overhung(recipe: &Recipe, panel: usize) -> Option<Recipe> {
    let mut recipe = recipe.clone();
    let panel = recipe.base.panels.get(panel)?.id;
    let face = foldwright_engine::recipe::Face {
        panel,
        side: Side::B,
    };
    let added = recipe
        .add_layer(Seat::Face(face), LayerKind::Focal, &Plain)
        .ok()?;
    recipe.place_layer(added.id, Placing::Distances).ok()?;
    let layer = recipe.layer(added.id)?.clone();
    recipe.set(layer.left, Length::mm(-3)).ok()?;
    let height = recipe.value(recipe.base.height);
    recipe.set(layer.height, height + Length::mm(2)).ok()?;
    recipe.set(layer.bottom, Length::mm(1)).ok()?;
    (closed_size(&recipe) != Size::default()).then_some(recipe)
}

/// A card as it is drawn flat, with its closed size. Layers are left aside where
/// their faces are not read as the strip is drawn. `None` where something is not
/// cut as it was asked for.
pub(crate) fn told(recipe: &Recipe) -> Option<Value> {
    let mut recipe = recipe.clone();
    let base = &recipe.base;
    let is_plain = base.runs == Runs::Across && base.lines.is_empty() && base.cutouts.is_empty();
    let is_told = |layer: &foldwright_engine::recipe::Layer| {
        matches!(layer.on, Seat::Face(face) if base.strip.index_of(face.panel).is_some())
            && layer.outline == Outline::Straight
    };
    if !(is_plain && recipe.layers.iter().all(is_told)) {
        recipe.layers.clear();
    }
    let size = closed_size(&recipe);
    let pieces = recipe.pieces.iter();
    let pieces = pieces.map(|piece| glued(&recipe, piece));
    let layers = recipe.layers.iter().filter_map(|layer| {
        let Seat::Face(face) = layer.on else {
            return None;
        };
        let at = [layer.left, layer.bottom, layer.width, layer.height];
        Some(json!({
            "panel": recipe.base.strip.index_of(face.panel)?,
            "outside": face.side == Side::B,
            "at": at.map(|id| recipe.value(id).units()),
        }))
    });
    let mut flat = strip(&recipe, &recipe.base.strip, None);
    if !recipe.base.cutouts.is_empty() {
        let cut = shaped::told(&recipe, &work_out(&recipe, &Tools::default()));
        if cut.is_null() {
            return None;
        }
        flat["cut"] = cut;
    }
    Some(json!({
        "size": [size.width.units(), size.height.units()],
        "down": recipe.base.runs == Runs::Down,
        "rests": recipe.base.strip.index_of(recipe.base.rests)?,
        "base": flat,
        "pieces": pieces.collect::<Option<Vec<_>>>()?,
        "layers": layers.collect::<Vec<_>>(),
    }))
}

fn corner(recipe: &Recipe, at: Corner) -> [i64; 2] {
    [at.x, at.y].map(|id| recipe.value(id).units())
}

/// What is drawn on a strip.
fn strip(recipe: &Recipe, strip: &Strip, piece: Option<&Piece>) -> Value {
    let flat = |line| piece.is_some_and(|piece| piece.flat.contains(&line));
    let mut end = Length::ZERO;
    let ends = strip.panels.iter().map(|panel| {
        end += recipe.value(panel.width);
        end.units()
    });
    let ends: Vec<_> = ends.collect();
    let scores = strip.panels.iter().take(strip.folds.len());
    let scores = scores.map(|panel| flat(LineId::of_piece_score(panel.id)));
    let lines = strip.lines.iter().map(|line| {
        json!({
            "line": [corner(recipe, line.from), corner(recipe, line.to)],
            "crease": line.kind != LineKind::Cut,
            "flat": flat(LineId::of_line(line.id)),
        })
    });
    json!({
        "ends": ends,
        "height": recipe.value(strip.height).units(),
        "scores_flat": scores.collect::<Vec<_>>(),
        "lines": lines.collect::<Vec<_>>(),
        "cut": Value::Null,
    })
}

/// A piece and where its first join lays it.
fn glued(recipe: &Recipe, piece: &Piece) -> Option<Value> {
    let join = piece.joins.first()?;
    let mark = join.at?;
    let place = |panel: PanelId| {
        let strips = recipe.strips().enumerate();
        let mut found = strips.filter_map(|(at, (_, strip))| Some((at, strip.index_of(panel)?)));
        found.next()
    };
    let (carrier, on) = place(join.on.panel)?;
    let mut told = strip(recipe, &piece.strip, Some(piece));
    told["panel"] = json!(place(join.panel)?.1);
    told["part"] = json!(join.panel.part_number());
    told["on"] = json!({"strip": carrier, "panel": on, "part": join.on.panel.part_number()});
    told["along"] = json!([corner(recipe, mark.from), corner(recipe, mark.to)]);
    told["mirrored"] = json!(mark.shows != join.on.side);
    Some(told)
}
