//! The files of the crate lie in layers, and each uses only those below it.

#[path = "../../engine/tests/arrows/mod.rs"]
mod arrows;

/// Its single files, the lowest first.
const UPWARDS: [&str; 19] = [
    "trouble", "paper", "photo", "typeface", "text", "tags", "code", "flow", "figure", "write",
    "compose", "sheet", "card", "labels", "kits", "tiles", "leaf", "template", "lib",
];

#[test]
fn no_arrow_runs_back_up() {
    let (wrong, arrows) = arrows::running_up(env!("CARGO_MANIFEST_DIR"), &UPWARDS).unwrap();
    assert!(arrows > 15, "only {arrows} arrows were found");
    assert!(wrong.is_empty(), "{wrong:#?}");
}
