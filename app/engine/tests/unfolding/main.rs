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
#[path = "../common/naming.rs"]
mod plain;
#[path = "../strips/mod.rs"]
mod strips;

use std::collections::HashSet;

use folder::{Folded, Line, Spot};
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{Mark, Moment, opening};
use foldwright_engine::faces::Part;
use foldwright_engine::fold::{Unfoldable, fold};
use foldwright_engine::laid::{LaidOut, lay_out};
use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::problem::Finding;
use foldwright_engine::recipe::{Fold, OnTop, Recipe, Runs, Stacked, StripId};
use foldwright_engine::stage::{Stage, Swung, stage};
use foldwright_engine::steps::{Instruction, Kind, Title, steps};
use plain::Plain;

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
            .add_line(
                StripId::Base,
                LineKind::Crease(way),
                at(crease.from),
                at(crease.to),
                &Plain,
            )
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
    let root = laid.index_of(recipe.base.rests).expect("it has panels");
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

/// Whose order the panels are to lie in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Order {
    /// As they came to lie when the sheet was folded.
    AsFolded,
    /// Any that the creases allow.
    Own,
}

/// The sheet as a recipe, its panels in that order.
fn lying(width: i64, height: i64, sheet: &Folded, order: Order) -> Recipe {
    let mut recipe = recipe(width, height, sheet);
    if order == Order::AsFolded {
        let laid = lay_out(&recipe);
        recipe.base.on_top = answers(&recipe, &laid, sheet);
    }
    recipe
}

/// Folds and opens a sheet with the engine, and says in how many steps.
fn opened(recipe: &Recipe, sheet: &Folded) -> Result<usize, String> {
    let laid = lay_out(recipe);
    if laid.panels.len() != sheet.layers.len() {
        return Err(format!("{} panels", laid.panels.len()));
    }
    let found = fold(recipe, &laid).map_err(|why: Unfoldable| format!("{why:?}"))?;
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

/// Every sheet of 160 × 120 mm folded at x = 80, at y = 60, and then through all
/// layers at x = 110 or 120, each time either side over the other, to the front
/// or to the back.
fn three_folds() -> Vec<(String, Folded)> {
    let mut all = Vec::new();
    for last in [110, 120] {
        for ways in 0..64_u32 {
            let lines = [upright(80), level(60), upright(last)];
            let sheet = Folded::sheet(160 * MM, 120 * MM);
            let sheet = (0..).zip(lines).try_fold(sheet, |sheet, (turn, line)| {
                let line = if ways >> (2 * turn) & 1 == 0 {
                    line
                } else {
                    back(line)
                };
                sheet.folded(line, ways >> (2 * turn + 1) & 1 == 0)
            });
            all.extend(sheet.map(|sheet| (format!("{last} {ways:06b}"), sheet)));
        }
    }
    all
}

/// Three simple folds open in three simple unfoldings, whether the panels lie as
/// folded or the order is left to the engine, and nothing is said to be in the
/// way.
#[test]
fn a_sheet_folded_three_times_opens_in_three_steps() {
    let all = three_folds();
    assert_eq!(all.len(), 64, "the others miss the paper");
    for (name, sheet) in all {
        for order in [Order::AsFolded, Order::Own] {
            let recipe = lying(160, 120, &sheet, order);
            assert_eq!(opened(&recipe, &sheet), Ok(3), "{name} {order:?}");
            let card = work_out(&recipe, &Tools::default());
            assert!(card.whole.is_none(), "{name} {order:?}");
            let mut problems = card.problems.iter();
            let shut = problems.find(|problem| matches!(problem.finding, Finding::Opening(_)));
            assert_eq!(shut, None, "{name} {order:?}");
        }
    }
}

/// What is folded through all layers at once is told as one fold, with every
/// crease it makes; seen closing, the fold at 80 comes first.
#[test]
fn a_fold_through_all_layers_is_one_step() {
    let sheet = folded(
        160,
        120,
        &[(upright(80), true), (level(60), true), (upright(40), true)],
    );
    let recipe = lying(160, 120, &sheet, Order::AsFolded);
    let card = work_out(&recipe, &Tools::default());
    let all = steps(&recipe, &card);
    let folds: Vec<_> = all.iter().filter(|step| step.kind == Kind::Fold).collect();
    let creases: Vec<_> = folds.iter().map(|step| step.figures.len()).collect();
    assert_eq!(creases, [1, 2, 4]);
    assert!(
        matches!(folds[2].title, Title::Fold { more: 3, .. }),
        "{:?}",
        folds[2].title
    );
    let over = Instruction::FoldAllOver(recipe.base.rests);
    assert!(folds[2].does.contains(&over), "{:?}", folds[2].does);
    let keys: HashSet<_> = all.iter().map(|step| &step.key).collect();
    assert_eq!(keys.len(), all.len());
    let Stage::Opening(Swung::Panels(swung)) = stage(&card, 0.5) else {
        panic!("panels swing");
    };
    assert_eq!(swung.len(), 4, "half of the layers swing");
    // On the way the four that swing are drawn above the four that lie still.
    let way = opening(
        &recipe,
        &card,
        Moment {
            state: 0,
            part: 0.3,
        },
    );
    let moved = card.folded.as_ref().map(|folded| {
        let opened = folded.states[1].opened.as_ref().expect("it was opened");
        let panels = opened.moved.iter().map(|place| card.laid.panels[*place].id);
        panels.collect::<Vec<_>>()
    });
    let moved = moved.expect("it folds");
    assert_eq!(moved.len(), 4);
    let drawn = way.marks.iter().filter_map(|mark| match mark {
        Mark::Area {
            part: Some(Part::Face(face)),
            ..
        } => Some(moved.contains(&face.panel)),
        _ => None,
    });
    let drawn: Vec<_> = drawn.collect();
    assert_eq!(drawn, [[false; 4], [true; 4]].concat());
}

/// Two hundred sheets folded at random two to five times, half of the lines at
/// 45° among them. As they lie they open in as many steps, or one more where a
/// fold turned flaps that do not lie on each other. Left to itself, the engine
/// finds some order in which they open as well.
#[test]
fn sheets_folded_at_random_open_fold_by_fold() {
    let mut more = 0;
    for seed in 0..200 {
        let folds = 2 + usize::try_from(seed % 4).expect("small");
        let (width, height, sheet, done) = at_random(seed, folds);
        let told = format!("seed {seed}: {width} × {height} mm, {done:?}");
        let recipe = lying(width, height, &sheet, Order::AsFolded);
        match opened(&recipe, &sheet) {
            Ok(steps) if steps == folds => {}
            Ok(steps) if steps == folds + 1 => more += 1,
            other => panic!("{told}: {other:?}"),
        }
        let recipe = lying(width, height, &sheet, Order::Own);
        let own = opened(&recipe, &sheet);
        assert!(own.is_ok(), "{told}: {own:?}");
    }
    assert!(more <= 4, "{more} in 200");
}
