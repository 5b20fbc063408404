//! What generated histories of several devices lose or leave unsaid.

use std::process::Command;

use crate::measure::{Figure, Trouble, Workshop};

/// How many histories are tried.
const HISTORIES: u32 = 10_000;
const NAMES: [&str; 3] = ["merge_unsolved", "merge_untold", "counts_lost"];

/// Recipes whose numbers do not go together in the end, decisions that are
/// neither in the recipe nor in its history on every device, and presses of a
/// count that are not counted.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let tried = Command::new("cargo")
        .args([
            "test",
            "--release",
            "--locked",
            "-p",
            "foldwright-app",
            "--lib",
            "sync::tests::histories",
            "--",
            "--nocapture",
        ])
        .env("HISTORIES", HISTORIES.to_string())
        .current_dir(Workshop::root())
        .output()?;
    let said = String::from_utf8_lossy(&tried.stdout).into_owned();
    let value = |name: &str| {
        let line = said.lines().find_map(|line| line.strip_prefix(name));
        line.and_then(|count| count.trim().parse().ok())
    };
    let figure = |name: &'static str| {
        let value = value(name).ok_or_else(|| {
            let last = said.lines().rev().take(3).collect::<Vec<_>>().join(" ");
            Trouble(format!("the histories did not come to an end: {last}"))
        })?;
        Ok(Figure {
            name,
            value,
            unit: "",
            target: Some(0.0),
            how: format!(
                "{HISTORIES} generated histories of 2 to 5 devices with numbers, relations, \
                 names, panels, notes and counts, over the app's own store and documents, each \
                 replayed in yjs"
            ),
        })
    };
    NAMES.into_iter().map(figure).collect()
}
