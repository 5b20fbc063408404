//! Sheets folded by simple folds open again, fold by fold.
//!
//! The sheets are folded by a program of this test (`folder`) that knows
//! nothing of the engine; every step of the opening is judged from where the
//! panels lie (`judge`).

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

mod folder;
mod judge;
#[path = "../strips/mod.rs"]
mod strips;

use folder::{Folded, Line, Spot};
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::fold::{self, Unfoldable, fold};
use foldwright_engine::laid::{LaidOut, lay_out};
use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{Fold, OnTop, Recipe, Runs, Stacked};

/// Twentieths of a millimetre in one.
const MM: i64 = 20;

fn at([x, y]: Spot) -> Point<PieceFrame> {
    Point::new(
        Length::hundredths_mm(x * 100 / MM),
        Length::hundredths_mm(y * 100 / MM),
    )
}

/// A sheet in millimetres with the creases that folding it left.
fn recipe(width: i64, height: i64, folded: &Folded) -> Recipe {
    let mut recipe = strips::strip(
        &[Length::mm(width)],
        Length::mm(height),
        "",
        0,
        Runs::Across,
    );
    for crease in &folded.creases {
        let way = if crease.valley {
            Fold::Valley
        } else {
            Fold::Mountain
        };
        recipe
            .add_line(None, LineKind::Crease(way), at(crease.from), at(crease.to))
            .expect("there is room for another line");
    }
    recipe
}

/// The layer of the folded sheet that each panel is.
fn layers(laid: &LaidOut, folded: &Folded) -> Vec<usize> {
    let panels = laid.panels.iter();
    panels
        .map(|panel| {
            let corners: Vec<_> = panel.facet.outline.corners.clone();
            let layers = folded.layers.iter();
            let same = |layer: &folder::Layer| {
                let all = layer.corners.iter().map(|corner| at(*corner));
                let found = all.filter(|corner| corners.contains(corner)).count();
                found >= 3
            };
            let found: Vec<_> = layers
                .enumerate()
                .filter(|(_, layer)| same(layer))
                .map(|(number, _)| number)
                .collect();
            assert_eq!(found.len(), 1, "{panel:?}");
            found[0]
        })
        .collect()
}

/// The order in which the layers lie as the maker's answers: of each two panels
/// that overlap the one in front first, seen with the inside of the resting one
/// to the front.
fn answers(recipe: &Recipe, laid: &LaidOut, folded: &Folded) -> Vec<OnTop> {
    let layer_of = layers(laid, folded);
    let root = laid.place_of(recipe.base.rests).expect("it has panels");
    let turned = folded.layers[layer_of[root]].lay.is_turned_over();
    let mut answers = Vec::new();
    for (a, panel) in laid.panels.iter().enumerate() {
        for (b, other) in laid.panels.iter().enumerate() {
            let [one, two] = [a, b].map(|panel| folded.layers[layer_of[panel]].placed());
            let front = (layer_of[a] > layer_of[b]) != turned;
            if a != b && front && folder::overlap(&one, &two) {
                answers.push(OnTop {
                    upper: Stacked::Panel(panel.id),
                    lower: Stacked::Panel(other.id),
                });
            }
        }
    }
    answers
}

/// Upright and level lines in millimetres, what is beyond folded over them.
fn upright(x: i64) -> Line {
    Line {
        normal: [1, 0],
        off: x * MM,
    }
}

fn level(y: i64) -> Line {
    Line {
        normal: [0, 1],
        off: y * MM,
    }
}

fn back(line: Line) -> Line {
    Line {
        normal: line.normal.map(|part| -part),
        off: -line.off,
    }
}

fn folded(width: i64, height: i64, folds: &[(Line, bool)]) -> Folded {
    let sheet = Folded::sheet(width * MM, height * MM);
    folds.iter().fold(sheet, |sheet, (line, to_front)| {
        sheet.folded(*line, *to_front).expect("it meets the paper")
    })
}

/// Opens a folded sheet as it lies, and says in how many steps.
fn opened(width: i64, height: i64, sheet: &Folded, own: bool) -> Result<usize, String> {
    let mut recipe = recipe(width, height, sheet);
    let laid = lay_out(&recipe);
    if laid.panels.len() != sheet.layers.len() {
        return Err(format!("{} panels", laid.panels.len()));
    }
    if !own {
        recipe.base.on_top = answers(&recipe, &laid, sheet);
    }
    let found = fold(&recipe, &laid).map_err(|why: Unfoldable| format!("{why:?}"))?;
    if !found.answers_kept {
        return Err("it lies in another order".to_owned());
    }
    judge::opening(&laid, &found.states)?;
    Ok(found.states.len() - 1)
}

/// A stream of numbers (a linear congruential generator; its constants by
/// Knuth, MMIX).
struct Chance(u64);

impl Chance {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).expect("31 bits") % limit
    }
}

/// A sheet folded so many times along lines on a grid of 10 mm, some of them
/// at 45°.
fn at_random(seed: u64, folds: usize) -> (i64, i64, Folded, Vec<(Line, bool)>) {
    let mut chance = Chance(seed);
    let side = |chance: &mut Chance| 80 + 20 * i64::try_from(chance.below(6)).expect("small");
    let (width, height) = (side(&mut chance), side(&mut chance));
    let mut sheet = Folded::sheet(width * MM, height * MM);
    let mut done = Vec::new();
    while done.len() < folds {
        let normal = match chance.below(6) {
            0 | 1 => [1, 0],
            2 | 3 => [0, 1],
            4 => [1, 1],
            _ => [1, -1],
        };
        let sign = if chance.below(2) == 0 { 1 } else { -1 };
        let off = (i64::try_from(chance.below(60)).expect("small") - 30) * 10 * MM;
        let line = Line {
            normal: normal.map(|part: i64| part * sign),
            off,
        };
        let to_front = chance.below(2) == 0;
        if let Some(next) = sheet.folded(line, to_front)
            && next.creases.len() <= 60
        {
            sheet = next;
            done.push((line, to_front));
        }
    }
    (width, height, sheet, done)
}

#[test]
fn look() {
    let mut tally = std::collections::BTreeMap::new();
    for own in [true, false] {
        for mask in 0..64_u32 {
            for last in [110, 120] {
                let lines = [upright(80), level(60), upright(last)];
                let folds: Vec<_> = (0..3)
                    .map(|at| {
                        let line = lines[at];
                        let line = if mask >> (2 * at) & 1 == 0 { line } else { back(line) };
                        (line, mask >> (2 * at + 1) & 1 == 0)
                    })
                    .collect();
                let sheet = Folded::sheet(160 * MM, 120 * MM);
                let sheet = folds.iter().try_fold(sheet, |sheet, (line, to_front)| sheet.folded(*line, *to_front));
                if let Some(sheet) = sheet {
                    let result = opened(160, 120, &sheet, own);
                    let mut recipe = recipe(160, 120, &sheet);
                    let laid = lay_out(&recipe);
                    if !own { recipe.base.on_top = answers(&recipe, &laid, &sheet); }
                    let card = work_out(&recipe, &Tools::default());
                    let stops: Vec<_> = card.problems.iter().filter(|it| it.weight > Weight::Note && it.place != foldwright_engine::problem::Place::Paper).map(|it| &it.what).collect();
                    if result != Ok(3) || !stops.is_empty() { println!("{own} {mask:b} {last} {result:?} {stops:?}"); }
                    *tally.entry(format!("named {own} {result:?}")).or_insert(0) += 1;
                }
            }
        }
    }
    for own in [true, false] {
    for seed in 0..600 {
        let folds = 2 + (seed as usize) % 4;
        let (width, height, sheet, done) = at_random(seed, folds);
        let clock = std::time::Instant::now();
        let result = opened(width, height, &sheet, own);
        let took = clock.elapsed().as_millis();
        let key = match &result {
            Ok(steps) => format!("{own} {folds} folds {steps} steps"),
            Err(why) => format!("{own} {folds} folds: {why}"),
        };
        if (!own && result != Ok(folds)) || took > 50 || result.is_err() {
            println!("{own} {seed} {folds} {} panels {took} ms: {width}x{height} {done:?}: {result:?}", sheet.layers.len());
        }
        *tally.entry(key).or_insert(0) += 1;
    }
    }
    println!("{tally:#?}");
}
