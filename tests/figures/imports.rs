//! How long the taking in of many recipes takes, and how long the page is held
//! up by it at most.

use foldwright_engine::recipe::{Recipe, starters, write};
use foldwright_server::Site;
use serde::Deserialize;

use crate::client::told_with;
use crate::measure::{Figure, Trouble, Workshop};

/// So many recipes are in the file.
const MANY: usize = 5000;

/// In milliseconds.
#[derive(Deserialize)]
struct Timed {
    added: f64,
    longest: f64,
    refused: f64,
}

/// A file of the starting folds again and again, each under a name of its own.
fn file() -> String {
    let starters = starters().iter().cycle();
    let recipes: Vec<Recipe> = (1..=MANY)
        .zip(starters)
        .map(|(number, starter)| {
            let mut recipe = starter.recipe.clone();
            recipe.name = format!("{} {number}", recipe.name);
            recipe
        })
        .collect();
    write(&recipes)
}

/// A file of many recipes taken in, and one far too large refused.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let text = file();
    let megabytes = text.len().div_ceil(1_000_000);
    let path = std::env::temp_dir().join(format!("imports-{}.json", std::process::id()));
    std::fs::write(&path, text)?;
    let timed = told_with("imports.js", Site::embedded(), &[path.as_os_str()]);
    std::fs::remove_file(&path)?;
    let Timed {
        added,
        longest,
        refused,
    } = timed?;
    let where_ = "headless Chromium, 390x844, processor slowed 4 times";
    Ok(vec![
        Figure {
            name: "import_5000_s",
            value: added / 1000.0,
            unit: "s",
            target: Some(10.0),
            how: format!(
                "{where_}: a file of {MANY} recipes, {megabytes} MB, the starting folds again and \
                 again, from its choice until the notice that they are there"
            ),
        },
        Figure {
            name: "import_5000_longest_task_ms",
            value: longest,
            unit: "ms",
            target: Some(200.0),
            how: format!(
                "{where_}: the longest task meanwhile and after, until 3 s pass without a long \
                 one; 0 where none took 50 ms"
            ),
        },
        Figure {
            name: "import_200mb_ms",
            value: refused,
            unit: "ms",
            target: Some(100.0),
            how: format!(
                "{where_}: a sparse file of 200 MB, from its choice until the notice that \
                 refuses it"
            ),
        },
    ])
}
