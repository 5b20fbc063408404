//! By how much lengths on printed templates miss those of their recipe.

use std::process::{Command, Stdio};

use serde::Deserialize;

use crate::measure::{Figure, Trouble, Workshop};

/// What the reference says of all templates together.
#[derive(Deserialize)]
struct Said {
    files: u32,
    drawings: u32,
    /// In millimetres.
    worst: f64,
    /// Files in which something is wrong.
    wrong: u32,
}

/// The templates of all starting folds, in each language, on each paper, from both
/// sides, measured by an independent reader of PDF.
pub(crate) fn error(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let folder = std::env::temp_dir().join(format!("templates-{}", std::process::id()));
    std::fs::create_dir_all(&folder)?;
    let target = std::env::var_os("CARGO_TARGET_DIR");
    let built = target.map_or_else(|| Workshop::root().join("target"), Into::into);
    let made = Command::new("cargo")
        .args(["run", "--locked", "--release", "--quiet"])
        .args(["-p", "foldwright-print", "--example", "templates", "--"])
        .arg(&folder)
        .current_dir(Workshop::root())
        .status()?;
    let told = Command::new("python3")
        .arg(Workshop::root().join("tests/reference/templates.py"))
        .arg(&folder)
        .arg("--figures")
        .env("PYTHONPATH", built.join("reference"))
        .stderr(Stdio::inherit())
        .output()?;
    std::fs::remove_dir_all(&folder)?;
    let said: Result<Said, _> = serde_json::from_slice(&told.stdout);
    let said = said.ok().filter(|said| made.success() && said.wrong == 0);
    let said = said.ok_or_else(|| {
        Trouble(String::from(
            "the reference finds faults or says nothing; tests/run installs it",
        ))
    })?;
    Ok(vec![Figure {
        name: "template_error_mm",
        value: said.worst,
        unit: "mm",
        target: Some(0.01),
        how: format!(
            "how far a corner of a cut or a score lies from where the recipe has it, at most, and \
             a ruler from its length; paths read with pypdf from {} drawings in {} files, all \
             starting folds in each language on each paper from both sides, joined pages included",
            said.drawings, said.files
        ),
    }])
}
