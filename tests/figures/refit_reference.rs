//! Refits of forty measures in any relations, and whether refits and clashes are
//! as an independent solver has them.

use std::hint::black_box;
use std::process::{Command, Stdio};
use std::time::Instant;

use foldwright_engine::refit::{Clash, Wish, refit};
use serde::Deserialize;

use crate::measure::{Figure, Trouble, Workshop, median};
use crate::refit_systems::system;

const RUNS: u32 = 3;
const SYSTEMS: u64 = 60;
const MEASURES: usize = 40;

/// How many cases the independent solver works out again.
const CASES: u32 = 500;

/// Forty measures under random relations of whole numbers: the slowest.
pub(crate) fn large(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let wish = Wish::default();
    let mut slowest: Option<f64> = None;
    let (mut cards, mut clashes, mut unproven) = (0, 0, 0);
    for seed in 0..SYSTEMS {
        let Some(recipe) = system(seed, MEASURES) else {
            continue;
        };
        match refit(&recipe, &wish) {
            Ok(found) if found.nearest => cards += 1,
            Err(Clash::Between { smallest: true, .. }) => clashes += 1,
            _ => unproven += 1,
        }
        let times = (0..RUNS).map(|_| {
            let begin = Instant::now();
            let _ = black_box(refit(&recipe, &wish));
            begin.elapsed().as_secs_f64() * 1000.0
        });
        slowest = slowest
            .into_iter()
            .chain(median(times.collect()))
            .reduce(f64::max);
    }
    let value = slowest.ok_or_else(|| Trouble(String::from("there are no systems")))?;
    Ok(vec![Figure {
        name: "refit_large_ms",
        value,
        unit: "ms",
        target: Some(200.0),
        how: format!(
            "native release build: one refit of {MEASURES} measures under random relations of \
             whole numbers, a clash searched for where there is no card; median of {RUNS} runs, \
             slowest of {SYSTEMS} systems ({cards} proven nearest, {clashes} smallest clashes, \
             {unproven} said not to be)"
        ),
    }])
}

/// What the reference says of all cases together.
#[derive(Deserialize)]
struct Said {
    cases: u32,
    /// Those that are as the reference has them.
    alike: u32,
    ways: u32,
    /// Those of the ways out that lead to a card.
    work: u32,
}

/// Refits, clashes and ways out that are as CP-SAT has them.
pub(crate) fn alike(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let said = said()?;
    let share = |of: u32, all: u32| f64::from(of) / f64::from(all.max(1));
    Ok(vec![
        Figure {
            name: "refit_vs_reference",
            value: share(said.alike, said.cases),
            unit: "",
            target: None,
            how: format!(
                "1 is wanted; refits and clashes that are the same as, or no worse than, what \
                 CP-SAT (OR-tools) comes to by a model of its own: {} of {}",
                said.alike, said.cases
            ),
        },
        Figure {
            name: "clash_ways_true",
            value: share(said.work, said.ways),
            unit: "",
            target: None,
            how: format!(
                "1 is wanted; ways out of clashes that lead to a card each by itself, by the same \
                 solver: {} of {}",
                said.work, said.ways
            ),
        },
    ])
}

/// Prints the cases and lets the reference read them.
fn said() -> Result<Said, Trouble> {
    let folder = Workshop::root().join("tests/reference");
    let target = std::env::var_os("CARGO_TARGET_DIR");
    let built = target.map_or_else(|| Workshop::root().join("target"), Into::into);
    let mut cases = Command::new("cargo")
        .args(["run", "--locked", "--release", "--quiet"])
        .args(["-p", "foldwright-engine", "--example", "refits", "--"])
        .arg(CASES.to_string())
        .current_dir(Workshop::root())
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()?;
    let lines = cases.stdout.take().map_or_else(Stdio::null, Stdio::from);
    let told = Command::new("python3")
        .arg(folder.join("refits.py"))
        .arg("--figures")
        .env("PYTHONPATH", built.join("reference"))
        .stdin(lines)
        .stderr(Stdio::inherit())
        .output()?;
    cases.wait()?;
    serde_json::from_slice(&told.stdout).map_err(|_| {
        Trouble(String::from(
            "the reference says nothing; tests/run installs it",
        ))
    })
}
