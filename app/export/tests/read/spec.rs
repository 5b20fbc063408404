//! Fields, letters and units as the specification has them. The files are written here,
//! some after the examples of the specification (`examples/diagonal-cp.fold`,
//! `examples/simple.fold`).

use foldwright_engine::drawn::Undrawn;
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::recipe::{Fold, Parts};
use foldwright_export::read::{Change, Field, Refusal, read};
use serde_json::json;

use crate::common::{file, made, size, sound};

const SQUARE: [[f64; 2]; 4] = [[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]];
const RIM: [(usize, usize, &str); 4] = [(0, 1, "B"), (1, 2, "B"), (2, 3, "B"), (3, 0, "B")];

/// A sheet with an edge of some kind from corner to corner.
fn diagonal(letter: &'static str) -> serde_json::Value {
    let mut edges = RIM.to_vec();
    edges.push((3, 1, letter));
    file(&SQUARE, &edges)
}

/// “Edge information”: `M` is a mountain and `V` a valley crease, seen from the side to
/// which the counterclockwise faces point; `U` is either, `F` is not folded, `C` is cut,
/// and `J` is no line of the paper.
#[test]
fn letters_are_those_of_the_specification() {
    let kinds = |letter| {
        let made = sound(&diagonal(letter));
        let lines = made.recipe.base.lines.iter().map(|line| line.kind);
        (lines.collect::<Vec<_>>(), made.changes)
    };
    let crease = |fold| vec![LineKind::Crease(fold)];
    assert_eq!(kinds("M"), (crease(Fold::Mountain), vec![]));
    assert_eq!(kinds("V"), (crease(Fold::Valley), vec![]));
    assert_eq!(kinds("C"), (vec![LineKind::Cut], vec![]));
    assert_eq!(kinds("J"), (vec![], vec![]));
    let unassigned = vec![(Change::Unassigned, 1)];
    assert_eq!(kinds("U"), (crease(Fold::Valley), unassigned));
    assert_eq!(kinds("F"), (vec![], vec![(Change::Flat, 1)]));
    assert_eq!(kinds("X"), (vec![], vec![(Change::Unknown, 1)]));
}

/// “Frame metadata”: the units that `frame_unit` may name, in millimetres; “unit” and no
/// unit have “no physical meaning”, and a custom one is probably not understood.
#[test]
fn units_are_those_of_the_specification() {
    let mut told = diagonal("V");
    for (unit, millimetres) in [("in", 25.4), ("pt", 25.4 / 72.0), ("cm", 10.0), ("mm", 1.0)] {
        told["frame_unit"] = json!(unit);
        let [width, height] = size(&sound(&told).recipe).map(Length::as_mm_f64);
        let due = 100.0 * millimetres;
        assert!(
            (width - due).abs() < 1e-4 && (height - due).abs() < 1e-4,
            "{unit}"
        );
    }
    for (unit, side) in [("m", 0.1), ("um", 1e5), ("nm", 1e8)] {
        let mut told = diagonal("V");
        told["frame_unit"] = json!(unit);
        told["vertices_coords"] = json!([[0, 0], [side, 0], [side, side], [0, side]]);
        let [width, _] = size(&sound(&told).recipe).map(Length::as_mm_f64);
        assert!((width - 100.0).abs() < 1e-4, "{unit}: {width}");
    }
    for unit in [json!("unit"), json!("cubit"), json!(null), json!(7)] {
        told["frame_unit"] = unit;
        let sheet = read(&told.to_string()).expect("it is one");
        assert!(!sheet.tells_size());
        assert_eq!(size(&sound(&told).recipe), [Length::mm(150); 2]);
    }
}

/// The least that a file of a crease pattern has: places and edges, which are unassigned
/// where nothing is said of them. What lies outermost bounds the paper.
#[test]
fn a_file_without_letters_is_unassigned() {
    let told = json!({
        "vertices_coords": [[0, 0], [1, 0], [1, 1], [0, 1]],
        "edges_vertices": [[0, 1], [1, 2], [2, 3], [3, 0], [3, 1]],
    });
    let made = sound(&told);
    assert_eq!(made.changes, [(Change::Unassigned, 1)]);
    assert_eq!(made.recipe.base.lines.len(), 1);
    assert_eq!(made.recipe.name, "Quay");
    let all = Length::mm(150);
    let line = &made.recipe.base.lines[0];
    let [from, to] = [line.from, line.to].map(|it| made.recipe.corner(it));
    assert_eq!((from.x + to.x, from.y + to.y), (all, all));
}

/// Names and descriptions are metadata of the file, and of a frame.
#[test]
fn a_pattern_has_the_name_and_the_words_of_its_file() {
    let mut told = diagonal("V");
    told["frame_title"] = json!("Pilot boat");
    told["frame_description"] = json!("One fold.");
    let sheet = read(&told.to_string()).expect("it is one");
    assert_eq!((&*sheet.title, &*sheet.about), ("Pilot boat", "One fold."));
    told["file_title"] = json!("Boats");
    assert_eq!(read(&told.to_string()).expect("it is one").title, "Boats");
    assert_eq!(sound(&told).recipe.about, "One fold.");
}

/// “Multiple frames”: frames inherit what they do not say from their parents where they
/// ask for it.
#[test]
fn the_first_crease_pattern_is_read_of_several_frames() {
    let mut told = diagonal("M");
    told["frame_classes"] = json!(["foldedForm"]);
    told["file_frames"] = json!([
        {"frame_classes": ["foldedForm"], "frame_parent": 0, "frame_inherit": true},
        {
            "frame_classes": ["creasePattern"],
            "frame_parent": 0,
            "frame_inherit": true,
            "edges_assignment": ["B", "B", "B", "B", "V"],
        },
    ]);
    let made = sound(&told);
    assert_eq!(
        made.recipe.base.lines[0].kind,
        LineKind::Crease(Fold::Valley)
    );
    assert_eq!(made.changes, [(Change::Frames, 2)]);
    assert_eq!(size(&made.recipe), [Length::mm(100); 2]);
    // Frames may name each other in a circle.
    told["file_frames"][0]["frame_parent"] = json!(1);
    assert!(made.recipe.check().is_empty() && read(&told.to_string()).is_ok());
}

/// A folded state in space, as `examples/simple.fold` of the specification.
#[test]
fn what_is_folded_or_in_space_is_refused() {
    let mut told = diagonal("V");
    told["vertices_coords"] = json!([[0, 0, 0], [100, 0, 0], [100, 100, 40], [0, 100]]);
    assert_eq!(made(&told).err(), Some(Refusal::InSpace));
    // “z coordinates are all implicitly or explicitly 0”.
    told["vertices_coords"] = json!([[0], [100, 0, 0], [100, 100, 0.0], [0, 100, 0]]);
    assert_eq!(size(&sound(&told).recipe), [Length::mm(100); 2]);
    told["frame_classes"] = json!(["foldedForm"]);
    assert_eq!(made(&told).err(), Some(Refusal::Folded));
    let abstract_one = json!({"edges_vertices": [[0, 1]], "frame_attributes": ["abstract"]});
    assert_eq!(made(&abstract_one).err(), Some(Refusal::NoPattern));
    told["file_spec"] = json!(2);
    assert_eq!(made(&told).err(), Some(Refusal::Version));
}

/// `edges_foldAngle` lies from −180 to 180; what is not shut there is folded flat here.
#[test]
fn creases_folded_part_of_the_way_are_told() {
    let mut told = diagonal("V");
    told["edges_foldAngle"] = json!([0, 0, 0, 0, 90]);
    assert_eq!(sound(&told).changes, [(Change::Partly, 1)]);
    told["edges_foldAngle"] = json!([0, 0, 0, 0, 180]);
    assert_eq!(sound(&told).changes, []);
}

/// Edges are split at every vertex; what goes straight on is one line, and what runs from
/// edge to edge across the sheet is a score.
#[test]
fn edges_that_continue_one_another_are_one_line() {
    // Folded in quarters; the upright fold turns from valley to mountain in the middle.
    let vertices = [
        [0.0, 0.0],
        [50.0, 0.0],
        [100.0, 0.0],
        [100.0, 60.0],
        [100.0, 120.0],
        [50.0, 120.0],
        [0.0, 120.0],
        [0.0, 60.0],
        [50.0, 60.0],
    ];
    let rim = (0..8).map(|it| (it, (it + 1) % 8, "B"));
    let spokes = |upper| [(8, 1, "V"), (8, 3, "V"), (8, 5, upper), (8, 7, "V")];
    let quarters = file(
        &vertices,
        &rim.clone().chain(spokes("M")).collect::<Vec<_>>(),
    );
    let recipe = sound(&quarters).recipe;
    assert_eq!((recipe.base.panels.len(), recipe.base.lines.len()), (1, 3));
    let laid = lay_out(&recipe);
    assert_eq!(laid.problems, []);
    assert_eq!((laid.panels.len(), laid.hinges.len()), (4, 4));
    let crossed = file(&vertices, &rim.chain(spokes("V")).collect::<Vec<_>>());
    let recipe = sound(&crossed).recipe;
    assert_eq!(recipe.base.folds, [Fold::Valley]);
    assert_eq!((recipe.base.panels.len(), recipe.base.lines.len()), (2, 1));
}

/// What ends on a score follows it, and what lies in line is one number.
#[test]
fn lines_follow_the_scores_they_end_on() {
    let vertices = [
        [0.0, 0.0],
        [30.0, 0.0],
        [60.0, 0.0],
        [100.0, 0.0],
        [100.0, 40.0],
        [60.0, 40.0],
        [30.0, 40.0],
        [0.0, 40.0],
        [60.0, 20.0],
        [100.0, 20.0],
    ];
    let rim = [0, 1, 2, 3, 9, 4, 5, 6, 7];
    let next = rim.iter().cycle().skip(1);
    let rim = rim.iter().zip(next).map(|(from, to)| (*from, *to, "B"));
    let inner = [(1, 6, "V"), (2, 8, "M"), (8, 5, "M"), (8, 9, "V")];
    let mut recipe = sound(&file(&vertices, &rim.chain(inner).collect::<Vec<_>>())).recipe;
    assert_eq!(recipe.base.folds, [Fold::Valley, Fold::Mountain]);
    let line = recipe.base.lines[0].clone();
    assert_eq!(recipe.corner(line.from).y, recipe.corner(line.to).y);
    let first = recipe.base.panels[0].width;
    recipe.set(first, Length::mm(35)).expect("it can be");
    assert_eq!(size(&recipe)[0], Length::mm(105));
    let ends = [line.from, line.to].map(|it| recipe.corner(it).x);
    assert_eq!(ends, [Length::mm(65), Length::mm(105)]);
    // The line still parts the last panel.
    assert_eq!(lay_out(&recipe).panels.len(), 4);
}

/// Before 1.2 a slit was two borders at one place, as `C` still stands for two (“Boundary
/// edges”).
#[test]
fn two_borders_at_one_place_are_a_slit() {
    let vertices = [
        SQUARE.as_slice(),
        &[[30.0, 50.0], [70.0, 50.0], [30.0, 50.0]],
    ]
    .concat();
    let mut edges = RIM.to_vec();
    edges.extend([(4, 5, "B"), (5, 6, "B")]);
    let made = sound(&file(&vertices, &edges));
    assert_eq!(made.changes, []);
    let lines = &made.recipe.base.lines;
    assert_eq!((lines.len(), lines[0].kind), (1, LineKind::Cut));
}

/// Rings of borders within the border are holes, and what is beside the sheet in the
/// rectangle round it is cut off.
#[test]
fn shaped_sheets_and_holes_are_cut_out() {
    // A house with a window, scored down its middle.
    let vertices = [
        [0.0, 0.0],
        [50.0, 0.0],
        [100.0, 0.0],
        [100.0, 70.0],
        [50.0, 110.0],
        [0.0, 70.0],
        [10.0, 20.0],
        [30.0, 20.0],
        [30.0, 40.0],
        [10.0, 40.0],
    ];
    let mut edges: Vec<_> = (0..6).map(|it| (it, (it + 1) % 6, "B")).collect();
    edges.extend([
        (6, 7, "B"),
        (7, 8, "B"),
        (8, 9, "B"),
        (9, 6, "B"),
        (1, 4, "M"),
    ]);
    let made = sound(&file(&vertices, &edges));
    assert_eq!((made.changes, made.moved), (vec![], Length::ZERO));
    let laid = lay_out(&made.recipe);
    assert_eq!(laid.problems, []);
    assert_eq!(made.recipe.base.cutouts.len(), 3);
    assert_eq!((laid.base.holes.len(), laid.panels.len()), (1, 2));
    let area = laid.base.outline.area() / i128::from(Length::PER_MM).pow(2);
    assert_eq!(area, 9000);
    assert_eq!(made.recipe.base.folds, [Fold::Mountain]);
}

/// What reads badly is told with its list and its place in it.
#[test]
fn what_no_recipe_can_hold_is_refused() {
    let refused = |vertices: &[[f64; 2]], edges: &[_]| made(&file(vertices, edges)).err();
    // A border that is open.
    let open = refused(&SQUARE, &RIM[..3]);
    assert!(matches!(open, Some(Refusal::Border { .. })), "{open:?}");
    // Two sheets in one frame.
    let beside = SQUARE.map(|[x, y]| [x + 200.0, y]);
    let both = [SQUARE, beside].concat();
    let rims: Vec<_> = RIM
        .iter()
        .flat_map(|(a, b, is)| [(*a, *b, *is), (a + 4, b + 4, *is)])
        .collect();
    assert_eq!(refused(&both, &rims), Some(Refusal::Sheets));
    // Creases outermost, and no border.
    let creases = RIM.map(|(a, b, _)| (a, b, "M"));
    assert_eq!(refused(&SQUARE, &creases), Some(Refusal::NoBorder));
    // More lines than a recipe holds.
    let mut vertices = SQUARE.to_vec();
    let mut edges = RIM.to_vec();
    for number in 0..130_u32 {
        let y = 0.5 + f64::from(number) * 0.7;
        let at = vertices.len();
        vertices.extend([[10.0, y], [90.0, y]]);
        edges.push((at, at + 1, "C"));
    }
    let many = Undrawn::TooMany {
        parts: Parts::Lines,
        number: 130,
    };
    assert_eq!(refused(&vertices, &edges), Some(Refusal::Undrawn(many)));
    // Longer than ten metres.
    let far = SQUARE.map(|at| at.map(|it| it * 101.0));
    assert_eq!(refused(&far, &RIM), Some(Refusal::TooLong));
    // A vertex that is not there.
    let astray = refused(&SQUARE, &[(0, 9, "B")]);
    let damaged = |field, at| Some(Refusal::Damaged { field, at });
    assert_eq!(astray, damaged(Field::Edges, Some(0)));
    let mut told = diagonal("V");
    told["edges_assignment"] = json!(["B"]);
    assert_eq!(made(&told).err(), damaged(Field::Assignment, None));
    told["vertices_coords"] = json!([[0, 0], [1, null]]);
    assert_eq!(made(&told).err(), damaged(Field::Vertices, Some(1)));
}

/// A border that is nearly straight becomes straight, and it is told how far it moved.
#[test]
fn a_border_that_is_nearly_straight_is_made_straight() {
    let nearly = [[0.0, 0.004], [100.0, 0.0], [100.0, 100.0], [0.002, 100.0]];
    let made = sound(&file(&nearly, &RIM));
    assert_eq!(made.moved, Length::microns(4));
    assert_eq!(made.recipe.base.cutouts, []);
    assert_eq!(size(&made.recipe), [Length::mm(100); 2]);
    let slanted = [[0.0, 0.5], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]];
    assert_eq!(sound(&file(&slanted, &RIM)).recipe.base.cutouts.len(), 1);
}

/// What lies on something else, beside the paper, or is no edge at all, is left out and
/// counted.
#[test]
fn edges_that_are_left_out_are_told() {
    let mut vertices = SQUARE.to_vec();
    vertices.extend([[150.0, 0.0], [150.0, 50.0]]);
    let mut edges = RIM.to_vec();
    edges.extend([
        (3, 1, "V"),
        (1, 3, "M"),
        (1, 3, "V"),
        (2, 2, "V"),
        (4, 5, "M"),
    ]);
    let made = sound(&file(&vertices, &edges));
    let due = [(Change::Twice, 1), (Change::Point, 1), (Change::Beside, 1)];
    assert_eq!(made.changes, due);
    assert_eq!(made.recipe.base.lines.len(), 1);
    // Nothing is as large as nothing.
    assert_eq!(made_of_nothing(), Some(Refusal::NoPattern));
}

fn made_of_nothing() -> Option<Refusal> {
    let mut told = file(&[[1.0, 1.0]; 4], &RIM);
    told["frame_unit"] = json!("unit");
    made(&told).err()
}
