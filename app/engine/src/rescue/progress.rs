//! How far the work has come after a rescue, and where it goes on.

use std::collections::BTreeSet;

use super::made::seat_of;
use super::offer::Fate;
use super::work::{About, chart, cutout_key, line_key, score_key};
use super::{Bench, Done};
use crate::card::Card;
use crate::part::{Part, parts};
use crate::recipe::{Bond, Recipe};
use crate::steps::{Step, Trims, steps_with};

/// How far cards have come, and what of them is to be trimmed.
pub(super) struct Course {
    pub(super) done: Done,
    pub(super) trims: Trims,
}

/// What is lost with a part that is cut again.
#[derive(Debug, Default)]
pub(super) struct Lost {
    /// The steps to do again.
    pub(super) keys: Vec<String>,
    /// The layers glued to it, which go with it.
    pub(super) parts: Vec<Part>,
}

/// Everything that is done again when a part is.
pub(super) fn undone(recipe: &Recipe, card: &Card, done: &Done, part: Part) -> Lost {
    let mut lost = Lost::default();
    lose(recipe, card, done, part, &mut lost);
    lost.keys.extend(["dry", "envelope"].map(str::to_owned));
    lost
}

fn lose(recipe: &Recipe, card: &Card, done: &Done, part: Part, lost: &mut Lost) {
    lost.keys.extend([part.cut_key(), part.trim_key()]);
    match part {
        Part::Strip(of) => {
            let passes = chart(card, of).map_or(0, |chart| chart.passes.len());
            lost.keys
                .extend((0..passes).map(|pass| score_key(of, pass)));
            let strip = recipe.strip(of);
            let lines = strip.into_iter().flat_map(|strip| &strip.lines);
            for line in lines {
                lost.keys.push(line_key(line));
                lost.keys.push(format!("fold-line-{}", line.id.0));
            }
            let cutouts = strip.into_iter().flat_map(|strip| &strip.cutouts);
            lost.keys.extend(cutouts.map(cutout_key));
            match of {
                None => {
                    let scores = card.laid.base.creases.len();
                    lost.keys
                        .extend((0..scores).map(|score| format!("fold-{score}")));
                    lost.keys.push("fold-together".to_owned());
                }
                Some(id) => lost.keys.push(format!("fold-piece-{}", id.0)),
            }
            for piece in &recipe.pieces {
                for join in &piece.joins {
                    let on = recipe.strip_with(join.on.panel).map(|(of, ..)| of);
                    if on == Some(of) || of == Some(piece.id) {
                        lost.keys
                            .push(format!("glue-piece-{}-{}", piece.id.0, join.panel.0));
                    }
                }
            }
        }
        Part::Layer(id) => {
            lost.keys.push(format!("decorate-layer-{}", id.0));
            lost.keys.push(format!("put-on-layer-{}", id.0));
        }
    }
    for layer in &recipe.layers {
        if seat_of(recipe, layer.on) != Some(part) {
            continue;
        }
        let put_on = format!("put-on-layer-{}", layer.id.0);
        let glued = layer.bond != Bond::Loose && done.get(&put_on).is_some_and(|done| *done > 0);
        lost.keys.push(put_on);
        let layer = Part::Layer(layer.id);
        if glued && !lost.parts.contains(&layer) {
            lost.parts.push(layer);
            lose(recipe, card, done, layer, lost);
        }
    }
}

/// What is done of cards that go on with another recipe.
pub(super) fn after(
    bench: &Bench<'_>,
    card: &Card,
    had: &Done,
    fates: &[(Part, Fate)],
    cards: u32,
) -> Done {
    let mut done = had.clone();
    let in_hand = bench.part();
    for (part, fate) in fates.iter().filter(|(part, _)| *part != in_hand) {
        let again = match fate {
            Fate::Recut => undone(bench.recipe(), bench.card, had, *part).keys,
            // It stays cut, and is trimmed.
            Fate::Trimmed(_) => vec![part.trim_key()],
        };
        for key in again {
            done.remove(&key);
        }
    }
    if bench.card.finished != card.finished {
        done.remove("envelope");
    }
    // What is in hand is made, for those cards that have it.
    let all_made = bench.miscut.measured.iter().all(Option::is_some);
    let fresh = match bench.miscut.about {
        About::Scores(..) if !all_made => None,
        About::Line(..) | About::Cutout(..) | About::Scores(..) | About::Cut(_) => {
            Some(&bench.miscut.key)
        }
    };
    let made = |key: &str, done: &mut Done| {
        let made = done.entry(key.to_owned()).or_insert(0);
        *made = (*made).max(bench.cards.min(cards));
    };
    if let Some(key) = fresh {
        made(key, &mut done);
    }
    made(&in_hand.cut_key(), &mut done);
    if fates.iter().any(|(part, _)| *part == in_hand) {
        done.remove(&in_hand.trim_key());
    }
    done
}

/// The step the work goes on with: the first that has to be done again or in
/// which something is trimmed, else the present one or the next after it that is
/// not done. Steps that are no longer part of the work are forgotten.
pub(super) fn goes_on(
    bench: &Bench<'_>,
    recipe: &Recipe,
    card: &Card,
    course: Course,
    had: &Done,
) -> (String, Course) {
    let Course {
        mut done,
        mut trims,
    } = course;
    let steps = steps_with(recipe, card, &trims);
    let known: BTreeSet<_> = steps.iter().map(|step| &*step.key).collect();
    done.retain(|key, _| known.contains(&**key));
    let trimmed: BTreeSet<_> = parts(recipe)
        .filter(|part| known.contains(&*part.trim_key()))
        .map(Part::cut_key)
        .collect();
    trims.retain(|key, _| trimmed.contains(key));
    let count = |of: &Done, step: &Step| of.get(&step.key).copied().unwrap_or(0).min(step.times);
    let is_open = |step: &&Step| count(&done, step) < step.times;
    let is_trim = |step: &Step| parts(recipe).any(|part| part.trim_key() == step.key);
    let again = steps
        .iter()
        .find(|step| count(&done, step) < count(had, step) || is_trim(step) && is_open(step));
    let here = steps.iter().position(|step| step.key == bench.plan.at);
    let next = match again {
        Some(step) => Some(step),
        None => match here {
            Some(here) => steps.iter().skip(here).find(is_open),
            None => steps.iter().find(is_open),
        },
    };
    // After the last step, where nothing is left to do.
    let step = next.map_or_else(|| "finish".to_owned(), |step| step.key.clone());
    (step, Course { done, trims })
}
