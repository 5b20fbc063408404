//! What was before a rescue at the bench, so that it can be taken back.

use foldwright_engine::recipe::{self, Recipe};
use serde::{Deserialize, Serialize};

use super::{Progress, versioned};

const RESCUED: &str = "foldwright/rescued/";

/// How many rescues of a recipe can be taken back. Our own bound.
const MOST: usize = 20;

/// The key under which the rescues of a recipe are kept.
pub(crate) fn rescued_key(id: &str) -> String {
    format!("{RESCUED}{id}")
}

/// A recipe and its progress before a rescue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rescued {
    /// The recipe before.
    pub before: Recipe,
    /// How far it had come.
    pub progress: Progress,
    /// The name in the store of the cards that parted from it.
    pub apart: Option<String>,
}

/// The same as it is kept.
#[derive(Serialize, Deserialize)]
struct Kept {
    before: String,
    progress: Progress,
    #[serde(default)]
    apart: Option<String>,
}

/// All rescues of a recipe that can be taken back, the last one last. What
/// can't be read any more can't be taken back.
pub(super) fn parse(text: &str) -> Vec<Rescued> {
    let kept = versioned::body(text).and_then(|body| Vec::<Kept>::deserialize(body).ok());
    let kept = kept.into_iter().flatten();
    kept.filter_map(|kept| {
        let [before] = <[Recipe; 1]>::try_from(recipe::read_kept(&kept.before).ok()?).ok()?;
        Some(Rescued {
            before,
            progress: kept.progress,
            apart: kept.apart,
        })
    })
    .collect()
}

pub(super) fn text(rescues: &[Rescued]) -> String {
    let from = rescues.len().saturating_sub(MOST);
    let kept = rescues.iter().skip(from).map(|rescued| Kept {
        before: recipe::write(std::slice::from_ref(&rescued.before)),
        progress: rescued.progress.clone(),
        apart: rescued.apart.clone(),
    });
    versioned::text(&kept.collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use foldwright_engine::recipe::starters;

    use super::{MOST, Rescued, parse, text};
    use crate::store::Progress;

    #[test]
    fn what_is_kept_comes_back_and_the_oldest_goes_first() {
        let all: Vec<_> = (0..MOST + 2)
            .map(|number| {
                let mut before = starters()[0].recipe.clone();
                before.name = format!("number {number}");
                Rescued {
                    before,
                    progress: Progress {
                        step: "cut-strip".to_owned(),
                        done: [("gather".to_owned(), 1)].into(),
                        ..Progress::default()
                    },
                    apart: (number == 3).then(|| "a1".to_owned()),
                }
            })
            .collect();
        assert_eq!(parse(&text(&all)), all[2..]);
        assert_eq!(parse("something else"), []);
    }
}
