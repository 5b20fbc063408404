//! What is written is read as it was: every starting fold with its pieces, and generated
//! patterns.

use std::collections::BTreeMap;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::recipe::{Fold, Naming, Recipe, StripId, starters};
use foldwright_export::fold;
use foldwright_export::read::Refusal;
use foldwright_words::{Language, starter};
use serde_json::{Value, json};

use crate::common::{Dice, made, set, sound};

/// How far an edge may be from where it was, in millimetres: points that are nearer to
/// each other than a hundredth become one, and outlines are kept in shares of their size.
const WITHIN: f64 = 0.015;

type Spot = [f64; 2];

fn written(recipe: &Recipe) -> Value {
    let card = work_out(recipe, &Tools::default());
    let text = fold(recipe, &card, Language::English.tongue());
    serde_json::from_str(&text).expect("it is JSON")
}

/// The edges of a frame by their letters, its border's lower left corner at the origin.
fn edges(frame: &Value) -> Vec<(String, [Spot; 2])> {
    let list = |name: &str| frame[name].as_array().expect("a list").clone();
    let number = |value: &Value| value.as_f64().expect("a number");
    let spots: Vec<Spot> = list("vertices_coords")
        .iter()
        .map(|at| [number(&at[0]), number(&at[1])])
        .collect();
    let ends = list("edges_vertices").into_iter();
    let mut edges: Vec<(String, [Spot; 2])> = ends
        .zip(list("edges_assignment"))
        .map(|(ends, letter)| {
            let end = |index: usize| {
                let at = ends[index].as_u64().expect("an index");
                spots[usize::try_from(at).expect("small")]
            };
            (
                letter.as_str().expect("a letter").to_owned(),
                [end(0), end(1)],
            )
        })
        .collect();
    let borders = edges.iter().filter(|(letter, _)| letter == "B");
    let corners: Vec<Spot> = borders.flat_map(|(_, ends)| *ends).collect();
    let low = [0, 1].map(|axis| corners.iter().map(|at| at[axis]).fold(f64::MAX, f64::min));
    for (_, ends) in &mut edges {
        *ends = ends.map(|at| [at[0] - low[0], at[1] - low[1]]);
    }
    edges
}

fn off(at: Spot, [from, to]: [Spot; 2]) -> f64 {
    let (along, step) = (
        [to[0] - from[0], to[1] - from[1]],
        [at[0] - from[0], at[1] - from[1]],
    );
    let long = along[0].powi(2) + along[1].powi(2);
    let share = ((along[0] * step[0] + along[1] * step[1]) / long).clamp(0.0, 1.0);
    (step[0] - share * along[0]).hypot(step[1] - share * along[1])
}

/// Every edge of one is on edges of its kind of the other: points of it are looked up.
fn covers(one: &[(String, [Spot; 2])], other: &[(String, [Spot; 2])], what: &str) {
    for (letter, [from, to]) in one.iter().filter(|(letter, _)| "BMVC".contains(&**letter)) {
        // What is shorter than what is let pass may be lost.
        if (to[0] - from[0]).hypot(to[1] - from[1]) <= WITHIN {
            continue;
        }
        for share in [0.02, 0.2, 0.4, 0.5, 0.6, 0.8, 0.98] {
            let at = [0, 1].map(|axis| from[axis] + share * (to[axis] - from[axis]));
            let mut same = other.iter().filter(|(of, _)| of == letter);
            assert!(
                same.any(|(_, ends)| off(at, *ends) <= WITHIN),
                "{what}: {letter} at {at:?}"
            );
        }
    }
}

/// Reads a frame and writes what comes of it: the same pattern.
fn comes_back(frame: &Value, what: &str) {
    let made = sound(frame);
    let again = written(&made.recipe);
    let (before, after) = (edges(frame), edges(&again));
    covers(&before, &after, what);
    covers(&after, &before, what);
}

#[test]
fn every_starting_fold_comes_back_as_it_was() {
    let mut count = 0;
    for it in starters() {
        let recipe = starter(Language::English.tongue(), it, it.recipe.notation);
        let file = written(&recipe);
        comes_back(&file, &it.id);
        count += 1;
        for frame in file["file_frames"].as_array().into_iter().flatten() {
            comes_back(frame, &format!("{}, a piece", it.id));
            count += 1;
        }
        let made = sound(&file);
        if recipe.base.lines.is_empty() && recipe.base.cutouts.is_empty() {
            let panels = |recipe: &Recipe| {
                let panels = recipe.base.panels.iter();
                panels
                    .map(|panel| recipe.value(panel.width))
                    .collect::<Vec<_>>()
            };
            assert_eq!(panels(&made.recipe), panels(&recipe), "{}", it.id);
            assert_eq!(made.recipe.base.folds, recipe.base.folds, "{}", it.id);
        }
    }
    assert!(count > 30, "{count}");
}

/// A place on a lattice of the sheet, so that lines meet.
fn place(dice: &mut Dice, size: [Length; 2]) -> Point<PieceFrame> {
    let [x, y] = size.map(|side| {
        let share = i64::try_from(dice.below(9)).expect("small");
        Length::from_units(side.units() * share / 8)
    });
    Point::new(x, y)
}

/// A strip with creases, cuts and windows anywhere.
fn any(dice: &mut Dice, naming: &dyn Naming) -> Recipe {
    let folds = [
        "own",
        "letter",
        "quarter",
        "window",
        "slanted",
        "arched-gate",
    ];
    let id = dice.one(&folds);
    let it = starters().iter().find(|it| it.id == *id).expect("there is");
    let mut recipe = starter(Language::English.tongue(), it, it.recipe.notation);
    let size = [recipe.base.length, recipe.base.height].map(|side| recipe.value(side));
    let kinds = [
        LineKind::Cut,
        LineKind::Crease(Fold::Mountain),
        LineKind::Crease(Fold::Valley),
    ];
    for _ in 0..dice.below(9) {
        let kind = *dice.one(&kinds);
        let (from, to) = (place(dice, size), place(dice, size));
        // What is refused is not drawn.
        let _ = recipe.add_line(StripId::Base, kind, from, to, naming);
    }
    if dice.below(3) == 0 {
        let panel = dice.one(&recipe.base.panels).id;
        let _ = recipe.add_window(panel, naming);
    }
    recipe
}

/// Whether two parts of the border meet at a point, as where cuts end in one.
fn touches_itself(frame: &Value) -> bool {
    let mut count = BTreeMap::new();
    for (letter, ends) in edges(frame) {
        for end in ends.iter().filter(|_| letter == "B") {
            *count.entry(end.map(f64::to_bits)).or_insert(0) += 1;
        }
    }
    count.values().any(|borders| *borders > 2)
}

/// `SEED=… ROUNDS=… cargo test -p foldwright-export --test read generated` goes on with
/// others.
#[test]
fn generated_patterns_come_back_as_they_were() {
    let (first, rounds) = (set("SEED", 1), set("ROUNDS", 60));
    println!("seeds from {first}, {rounds} of them");
    let mut with_lines = 0;
    for seed in first..first + rounds {
        let mut dice = Dice(seed);
        let recipe = any(&mut dice, Language::English.tongue());
        let mut file = written(&recipe);
        if file["edges_assignment"] == json!([]) {
            continue;
        }
        if touches_itself(&file) {
            // No outline of one sheet does.
            let refused = made(&file).err();
            assert!(
                matches!(refused, Some(Refusal::Border { .. })),
                "seed {seed}: {refused:?}"
            );
            continue;
        }
        comes_back(&file, &format!("seed {seed}"));
        with_lines += usize::from(!recipe.base.lines.is_empty());
        // Faces and angles need not be there.
        for field in ["faces_vertices", "edges_faces", "edges_foldAngle"] {
            file.as_object_mut().expect("an object").remove(field);
        }
        comes_back(&file, &format!("seed {seed}, without faces"));
    }
    assert!(
        with_lines * 2 > usize::try_from(rounds).expect("few"),
        "{with_lines}"
    );
}
