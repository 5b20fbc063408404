//! Whatever a file holds, reading it ends, and what comes of it can be kept.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_export::read::{LARGEST, Refusal, read};
use foldwright_words::Language;
use serde_json::{Value, json};

use crate::common::{Dice, METRIC, file, made, set};

fn refusal(text: &str) -> Refusal {
    match read(text) {
        Err(why) => why,
        Ok(sheet) => panic!("{sheet:?}"),
    }
}

#[test]
fn no_pattern_is_refused() {
    for text in [
        "",
        "quay",
        "[]",
        "7",
        "null",
        "\"{}\"",
        "{",
        "{\"a\":NaN}",
        "{\"a\":1e999}",
    ] {
        assert_eq!(refusal(text), Refusal::NoFold, "{text}");
    }
    let deep = format!("{{\"a\":{}", "[".repeat(1_000_000));
    assert_eq!(refusal(&deep), Refusal::NoFold);
    assert_eq!(refusal(&" ".repeat(LARGEST + 1)), Refusal::TooLarge);
    assert_eq!(refusal("{}"), Refusal::NoPattern);
}

#[test]
fn no_file_is_larger_than_is_worked_on() {
    let many = json!({
        "vertices_coords": vec![[0, 0]; 4001],
        "edges_vertices": [[0, 1]],
    });
    assert_eq!(refusal(&many.to_string()), Refusal::TooMuch);
    let many = json!({
        "vertices_coords": [[0, 0], [1, 0]],
        "edges_vertices": vec![[0, 1]; 8001],
    });
    assert_eq!(refusal(&many.to_string()), Refusal::TooMuch);
    let many = json!({"file_frames": vec![json!({}); 1000]});
    assert_eq!(refusal(&many.to_string()), Refusal::TooMuch);
}

/// As many vertices and edges as are read, all of them in line, or all at one place.
#[test]
fn the_most_is_worked_on() {
    let count = 4000;
    let line: Vec<[f64; 2]> = (0..count).map(|at| [f64::from(at) / 10.0, 0.0]).collect();
    let edges: Vec<(usize, usize, &str)> = (0..3999).map(|at| (at, at + 1, "M")).collect();
    assert!(made(&file(&line, &edges)).is_err());
    let unassigned: Vec<_> = edges.iter().map(|(a, b, _)| (*a, *b, "U")).collect();
    assert!(made(&file(&line, &unassigned)).is_err());
    let heap = vec![[1.0, 1.0]; 4000];
    assert!(made(&file(&heap, &edges)).is_err());
}

fn number(dice: &mut Dice) -> Value {
    let numbers = [
        json!(0),
        json!(1),
        json!(2),
        json!(3),
        json!(-1),
        json!(0.5),
        json!(100),
        json!(1e-300),
        json!(1e308),
        json!(-1e308),
        json!(1e9),
        json!(u64::MAX),
        json!(i64::MIN),
        json!(null),
        json!("7"),
        json!([]),
        json!({}),
    ];
    // Mostly what makes sense.
    let among = if dice.below(20) == 0 {
        &numbers[..]
    } else {
        &numbers[..4]
    };
    dice.one(among).clone()
}

/// A file in which anything may stand, mostly of few vertices that lie near each other.
fn any(dice: &mut Dice) -> Value {
    let letters = ["B", "B", "B", "M", "V", "U", "F", "C", "J", "b", ""];
    let units = ["mm", "in", "m", "nm", "unit", "", "ell"];
    let count = dice.below(12);
    let vertices: Vec<Value> = (0..count)
        .map(|_| {
            let axes = if dice.below(30) == 0 { 3 } else { 2 };
            (0..axes).map(|_| number(dice)).collect()
        })
        .collect();
    let pairs = dice.below(24);
    let edges: Vec<Value> = (0..pairs)
        .map(|_| {
            let mut end = || match dice.below(60) {
                0 => number(dice),
                _ => json!(dice.below(count.max(1))),
            };
            json!([end(), end()])
        })
        .collect();
    let told: Vec<&str> = (0..pairs).map(|_| *dice.one(&letters)).collect();
    let mut file = json!({
        "frame_unit": dice.one(&units),
        "vertices_coords": vertices,
        "edges_vertices": edges,
        "edges_assignment": told,
        "edges_foldAngle": [number(dice), number(dice)],
        "faceOrders": number(dice),
        "file_title": number(dice),
    });
    if dice.below(4) == 0 {
        file["file_frames"] = json!([{
            "frame_parent": number(dice),
            "frame_inherit": dice.below(2) == 0,
            "frame_classes": ["creasePattern"],
        }]);
    }
    if dice.below(9) == 0 {
        let fields = ["edges_assignment", "edges_vertices", "vertices_coords"];
        file[*dice.one(&fields)] = number(dice);
    }
    if dice.below(4) == 0 {
        file.as_object_mut()
            .expect("an object")
            .remove("edges_assignment");
    }
    file
}

/// `SEED=… ROUNDS=… cargo test -p foldwright-export --test read anything` goes on with
/// others.
#[test]
fn anything_is_read_or_refused() {
    let (first, rounds) = (set("SEED", 1), set("ROUNDS", 4000));
    println!("seeds from {first}, {rounds} of them");
    let mut read_whole = 0;
    for seed in first..first + rounds {
        let mut dice = Dice(seed);
        let file = any(&mut dice).to_string();
        let longest = [
            Length::ZERO,
            Length::mm(-5),
            Length::mm(120),
            Length::from_units(i64::MAX),
        ];
        let longest = *dice.one(&longest);
        let naming = Language::English.tongue();
        let made = read(&file).and_then(|it| it.recipe(longest, "Quay", METRIC, naming));
        if let Ok(made) = made {
            read_whole += 1;
            assert_eq!(made.recipe.check(), [], "seed {seed}: {file}");
            if seed % 8 == 0 {
                work_out(&made.recipe, &Tools::default());
            }
        }
    }
    assert!(read_whole > 10, "{read_whole}");
}
