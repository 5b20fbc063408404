//! What hides what while the card opens, told place by place: the paper that is
//! nearest there must be what is seen. The reference knows nothing of areas; it
//! compares distances at single places.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "../../../tests/figures/ladder.rs"]
mod ladder;
#[path = "common/naming.rs"]
mod plain;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{
    Colouring, Direction, Mark, Moment, Spot, first_look, on_table, opening,
};
use foldwright_engine::faces::Part;
use foldwright_engine::length::Length;
use foldwright_engine::motion::Rigid;
use foldwright_engine::plane::{PieceFrame, Polygon};
use foldwright_engine::recipe::{
    Bond, EditError, Face, LayerId, LayerKind, Placing, Recipe, Seat, Side, starters,
};
use plain::Plain;

/// From where something is looked at: what each millimetre of space adds to the
/// right and up in the picture.
#[derive(Clone, Copy)]
struct Eye {
    right: [f64; 3],
    up: [f64; 3],
}

/// The opening is seen from the foot of the table.
const FOOT: Eye = Eye {
    right: [1.0, 0.0, 0.12],
    up: [0.0, 1.0, 0.36],
};

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    (0..3).map(|i| a[i] * b[i]).sum()
}

impl Eye {
    /// Of a reader who has gone so far round the table to the right and is so far
    /// above it, in degrees.
    fn of(direction: Direction) -> Self {
        let (sin, cos) = direction.round.to_radians().sin_cos();
        let (high, level) = direction.above.to_radians().sin_cos();
        Self {
            right: [cos, sin, 0.0],
            up: [-sin * high, cos * high, level],
        }
    }

    fn seen(&self, at: [f64; 3]) -> Spot {
        [dot(self.right, at), dot(self.up, at)]
    }

    /// How near a place is, in millimetres along the ray.
    fn near(&self, at: [f64; 3]) -> f64 {
        let (right, up) = (self.right, self.up);
        let turn = |i: usize, j: usize| right[i] * up[j] - right[j] * up[i];
        let towards = [turn(1, 2), turn(2, 0), turn(0, 1)];
        dot(towards, at) / dot(towards, towards).sqrt()
    }
}

/// Sheets nearer to each other than this lie as they do in the closed card.
const TOUCHING: f64 = 0.06;
/// Places this near to an edge belong to either side.
const EDGE: f64 = 0.05;

/// A number from 0 to 1 that looks random (the finaliser of `SplitMix64`).
fn random(seed: &mut u64) -> f64 {
    *seed = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mixed = (*seed ^ (*seed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    let [a, b, c, ..] = (mixed ^ (mixed >> 31)).to_be_bytes().map(f64::from);
    (a + (b + c / 256.0) / 256.0) / 256.0
}

/// A place of the picture on a sheet's own plane, and how near it is there;
/// nothing where the sheet is seen nearly edge on.
fn on_sheet(sheet: &Rigid, at: Spot, eye: Eye) -> Option<(Spot, f64)> {
    let [right, up, _] = sheet.turn;
    let ([a, c], [b, d]) = (eye.seen(right), eye.seen(up));
    let steep = a * d - b * c;
    if steep.abs() < 0.02 {
        return None;
    }
    let from = eye.seen(sheet.shift);
    let off = [at[0] - from[0], at[1] - from[1]];
    let on = [
        (d * off[0] - b * off[1]) / steep,
        (a * off[1] - c * off[0]) / steep,
    ];
    Some((on, eye.near(sheet.point([on[0], on[1], 0.0]))))
}

fn spots(ring: &Polygon<PieceFrame>) -> Vec<Spot> {
    let corners = ring.corners.iter();
    corners
        .map(|at| [at.x.as_mm_f64(), at.y.as_mm_f64()])
        .collect()
}

/// Whether a place lies within a ring (an odd number of crossings to its
/// right), and how far from its nearest edge.
fn within(corners: &[Spot], [x, y]: Spot) -> (bool, f64) {
    let mut inside = false;
    let mut off = f64::INFINITY;
    for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        if (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) {
            inside = !inside;
        }
        let (way, to) = ([b[0] - a[0], b[1] - a[1]], [x - a[0], y - a[1]]);
        let long = (way[0] * way[0] + way[1] * way[1]).max(f64::MIN_POSITIVE);
        let part = ((to[0] * way[0] + to[1] * way[1]) / long).clamp(0.0, 1.0);
        off = off.min((to[0] - part * way[0]).hypot(to[1] - part * way[1]));
    }
    (inside, off)
}

/// Something painted: a panel, or a layer in the plane of its panel.
struct Painted<'a> {
    part: Part,
    panel: usize,
    /// Its outline and holes on the piece.
    rings: Vec<Polygon<PieceFrame>>,
    /// What of it is painted.
    outlines: &'a [Vec<Spot>],
}

impl<'a> Painted<'a> {
    fn of(card: &Card, part: Part, outlines: &'a [Vec<Spot>]) -> Self {
        let (face, rings) = match part {
            Part::Face(face) => {
                let panel = card.laid.panels.iter().find(|it| it.id == face.panel);
                let facet = &panel.expect("it was laid").facet;
                let rings = std::iter::once(&facet.outline).chain(&facet.holes);
                (face, rings.cloned().collect())
            }
            Part::Layer(id) | Part::LayerBack(id) => {
                let layer = card.laid.layer(id).expect("it was laid");
                let mut readings = card.readings.iter();
                let reading = readings.find(|reading| reading.face == layer.face);
                let place = reading.expect("it can be read").place.back();
                (layer.face, vec![place.polygon(&layer.at.into())])
            }
        };
        let panel = card.laid.index_of(face.panel).expect("it was laid");
        Self {
            part,
            panel,
            rings,
            outlines,
        }
    }

    /// Whether it is painted at a place. The error stands for a place too near
    /// to an edge to tell.
    fn covers(&self, at: Spot) -> Result<bool, ()> {
        self.outlines.iter().try_fold(false, |inside, ring| {
            let (is_within, off) = within(ring, at);
            (off >= EDGE).then_some(inside != is_within).ok_or(())
        })
    }

    /// How near it is where it is seen at a place.
    fn near(&self, sheet: &Rigid, at: Spot, eye: Eye) -> Result<Option<f64>, ()> {
        let (on, near) = on_sheet(sheet, at, eye).ok_or(())?;
        let inside = self.rings.iter().try_fold(false, |inside, ring| {
            let (is_within, off) = within(&spots(ring), on);
            (off >= EDGE).then_some(inside != is_within).ok_or(())
        })?;
        Ok(inside.then_some(near))
    }
}

/// Compares what is painted last with what is nearest at random places; at how
/// many there was more than one sheet.
fn check(recipe: &Recipe, seed: &mut u64) -> u32 {
    let card = work_out(recipe, &Tools::default());
    let (Some(folded), Some(whole)) = (&card.folded, &card.whole) else {
        return 0;
    };
    let together = folded.states.iter().position(|state| {
        let opened = state.opened.as_ref();
        opened.is_some_and(|opened| opened.together)
    });
    let Some(together) = together else { return 0 };
    let mut told = 0;
    for step in 1..=12 {
        let share = f64::from(step) / 12.5;
        let moment = Moment {
            state: together - 1,
            part: share,
        };
        let drawing = opening(recipe, &card, moment);
        let marks = drawing.marks.iter().filter_map(|mark| match mark {
            Mark::Area { part, outlines, .. } => Some(Painted::of(&card, (*part)?, outlines)),
            _ => None,
        });
        let painted: Vec<Painted> = marks.collect();
        let all = card.laid.panels.len() + card.laid.layers.len();
        assert_eq!(painted.len(), all, "{}", recipe.name);
        let pose = whole.pose_at(share);
        for _ in 0..400 {
            let mut between =
                |i: usize| drawing.low[i] + random(seed) * (drawing.high[i] - drawing.low[i]);
            let at = [between(0), between(1)];
            told += u32::from(compare(recipe, &painted, &pose.facets, (at, FOOT)).unwrap_or(false));
        }
    }
    told
}

/// Compares what is seen at a place with what is nearest there, and says
/// whether there was more than one sheet.
fn compare(
    recipe: &Recipe,
    painted: &[Painted],
    poses: &[Rigid],
    (at, eye): (Spot, Eye),
) -> Result<bool, ()> {
    let mut sheets = Vec::new();
    let mut seen = None;
    for this in painted {
        if let Some(near) = this.near(&poses[this.panel], at, eye)? {
            sheets.push((this, near));
        }
        if this.covers(at)? {
            seen = Some(this);
        }
    }
    let nearest = sheets.iter().map(|(_, near)| *near).reduce(f64::max);
    let (Some(most), Some(seen)) = (nearest, seen) else {
        assert!(
            nearest.is_none() && seen.is_none(),
            "{}, at {at:?}",
            recipe.name
        );
        return Ok(false);
    };
    let nearest = sheets.iter().filter(|(_, near)| most - near < TOUCHING);
    let nearest: Vec<_> = nearest.map(|(this, _)| this.part).collect();
    assert!(
        nearest.contains(&seen.part),
        "{}, at {at:?}: {:?} is seen, and {nearest:?} is nearest",
        recipe.name,
        seen.part
    );
    // What is glued on shows from its front, and not from behind.
    let on_it = sheets
        .iter()
        .any(|(this, _)| this.panel == seen.panel && matches!(this.part, Part::Layer(_)));
    assert!(
        !on_it || matches!(seen.part, Part::Layer(_)),
        "{}, at {at:?}: {:?} hides what is glued on it",
        recipe.name,
        seen.part
    );
    Ok(sheets.len() > 1)
}

#[test]
fn the_nearest_paper_is_seen() {
    let mut seed = 7;
    println!("seed {seed}");
    let ladder = ladder::ladder(&Plain).expect("the ladder can be drawn");
    let told = check(&ladder, &mut seed);
    assert!(told > 300, "only {told} places had more than one sheet");
    let mut opened = 0;
    for starter in starters() {
        opened += u32::from(check(&starter.recipe, &mut seed) > 0);
    }
    assert!(opened >= 3, "only {opened} starting folds open as a whole");
}

/// Of every starting fold, partly open on its table, from wherever it is looked
/// at.
#[test]
fn the_nearest_paper_is_seen_from_anywhere() {
    let mut seed = 11;
    println!("seed {seed}");
    let mut told = 0;
    for starter in starters() {
        let recipe = &starter.recipe;
        let card = work_out(recipe, &Tools::default());
        let posed = first_look(recipe, &card).expect("it folds").posed;
        let places = posed.panels.iter().copied();
        let places: Vec<Rigid> = places
            .map(|place| place.expect("it hangs together"))
            .collect();
        for _ in 0..12 {
            let direction = Direction {
                round: 360.0 * random(&mut seed),
                above: 5.0 + 80.0 * random(&mut seed),
            };
            let drawing = on_table(recipe, &card, &posed, (direction, Colouring::Paper));
            let marks = drawing.marks.iter().filter_map(|mark| match mark {
                Mark::Area { part, outlines, .. } => Some(Painted::of(&card, (*part)?, outlines)),
                _ => None,
            });
            let painted: Vec<Painted> = marks.collect();
            for _ in 0..300 {
                let mut between = |i: usize| {
                    let [low, high] = [drawing.low[i], drawing.high[i]];
                    low + random(&mut seed) * (high - low)
                };
                let at = ([between(0), between(1)], Eye::of(direction));
                told += u32::from(compare(recipe, &painted, &places, at).unwrap_or(false));
            }
        }
    }
    assert!(told > 5000, "only {told} places had more than one sheet");
}

/// A piece of paper on a face that reaches past one of its edges, counted from
/// the left against the clock.
fn past_its_panel(recipe: &mut Recipe, face: Face, edge: usize) -> Result<LayerId, EditError> {
    let card = work_out(recipe, &Tools::default());
    let panel = card.laid.panels.iter().find(|it| it.id == face.panel);
    let outline = &panel.expect("it was laid").facet.outline;
    let size = outline.bounds().expect("it has corners").size();
    let id = recipe
        .add_layer(Seat::Face(face), LayerKind::Focal, &Plain)?
        .id;
    recipe.place_layer(id, Placing::Distances)?;
    let layer = recipe.layer(id).expect("it was put on");
    let kept = [layer.left, layer.bottom, layer.width, layer.height];
    let [left, below, right, above] =
        [0, 1, 2, 3].map(|it| Length::mm(if it == edge { 12 } else { -3 }));
    let values = [
        -left,
        -below,
        size.width + left + right,
        size.height + below + above,
    ];
    for (measure, value) in kept.into_iter().zip(values) {
        recipe.set(measure, value)?;
    }
    let layer = recipe.layers.iter_mut().find(|layer| layer.id == id);
    layer.expect("it was put on").bond = Bond::Safe;
    Ok(id)
}

/// A picture on a step is often larger than the step.
#[test]
fn what_reaches_past_its_panel_hides_and_is_hidden() {
    let mut seed = 11;
    println!("seed {seed}");
    let (mut cards, mut told) = (0, 0);
    for starter in starters() {
        let card = work_out(&starter.recipe, &Tools::default());
        for panel in card.laid.panels.iter().map(|panel| panel.id) {
            for side in [Side::A, Side::B] {
                for edge in 0..4 {
                    let mut recipe = starter.recipe.clone();
                    if past_its_panel(&mut recipe, Face { panel, side }, edge).is_ok() {
                        let places = check(&recipe, &mut seed);
                        cards += u32::from(places > 0);
                        told += places;
                    }
                }
            }
        }
    }
    assert!(cards > 20, "only {cards} cards open as a whole");
    assert!(told > 2000, "only {told} places had more than one sheet");
}
