//! The files of the planner lie in layers, and each uses only those below it.

#[path = "../../engine/tests/arrows/mod.rs"]
mod arrows;

/// The folders and single files of the planner, the lowest first.
const UPWARDS: [&str; 22] = [
    "dice",
    "length",
    "tally",
    "raster",
    "simplex",
    "job",
    "layout",
    "sequence",
    "plan",
    "relaxed",
    "builds",
    "ground",
    "bound",
    "plot",
    "recut",
    "pool",
    "greedy",
    "search",
    "planner",
    "one_sheet",
    "class",
    "lib",
];

#[test]
fn no_arrow_runs_back_up() {
    let (wrong, arrows) = arrows::running_up(env!("CARGO_MANIFEST_DIR"), &UPWARDS).unwrap();
    assert!(arrows > 60, "only {arrows} arrows were found");
    assert!(wrong.is_empty(), "{wrong:#?}");
}
