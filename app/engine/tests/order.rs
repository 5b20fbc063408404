//! The folders of the engine lie in layers, and each uses only those below it.

mod arrows;

/// The folders and single files of the engine, the lowest first.
const UPWARDS: [&str; 39] = [
    "sorted",
    "length",
    "program",
    "plane",
    "pattern",
    "paper",
    "recipe",
    "part",
    "problem",
    "laid",
    "drawn",
    "fold",
    "faces",
    "outlines",
    "motion",
    "thickness",
    "allowance",
    "reach",
    "glue",
    "score",
    "lay",
    "cut_list",
    "cut_plan",
    "card",
    "template",
    "stage",
    "seen",
    "sight",
    "care",
    "posed",
    "draw",
    "reading",
    "refit",
    "steps",
    "pace",
    "envelope",
    "post",
    "rescue",
    "lib",
];

#[test]
fn no_arrow_runs_back_up() {
    let (wrong, arrows) = arrows::running_up(env!("CARGO_MANIFEST_DIR"), &UPWARDS).unwrap();
    assert!(arrows > 500, "only {arrows} arrows were found");
    assert!(wrong.is_empty(), "{wrong:#?}");
}
