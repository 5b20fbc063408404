//! How far the work has come after a rescue, and where it goes on.

use std::collections::BTreeSet;

use super::made::seat_of;
use super::offer::Fate;
use super::work::{About, Part, chart, cutout_key, line_key, score_key};
use super::{Bench, Done};
use crate::card::Card;
use crate::recipe::{Bond, Recipe};
use crate::steps::{Step, steps};

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
    lost.keys.push(part.cut_key());
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
    recipe: &Recipe,
    card: &Card,
    had: &Done,
    fates: &[(Part, Fate)],
    cards: u32,
) -> Done {
    let mut done = had.clone();
    let in_hand = bench.miscut.about.part();
    for (part, fate) in fates.iter().filter(|(part, _)| *part != in_hand) {
        let again = match fate {
            Fate::Recut => undone(bench.recipe(), bench.card, had, *part).keys,
            Fate::Trimmed(_) => vec![part.cut_key()],
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
    // What is cut down is cut once more.
    if fates.iter().any(|(part, _)| *part == in_hand)
        && let Some(done) = done.get_mut(&in_hand.cut_key())
    {
        *done = (*done).saturating_sub(bench.cards);
    }
    let known: BTreeSet<_> = steps(recipe, card)
        .into_iter()
        .map(|step| step.key)
        .collect();
    done.retain(|key, _| known.contains(key));
    done
}

/// The step the work goes on with: the first that has to be done again, else
/// the present one or the next after it that is not done.
pub(super) fn goes_on(
    bench: &Bench<'_>,
    recipe: &Recipe,
    card: &Card,
    done: Done,
    had: &Done,
) -> (String, Done) {
    let steps = steps(recipe, card);
    let count = |of: &Done, step: &Step| of.get(&step.key).copied().unwrap_or(0).min(step.times);
    let again = steps
        .iter()
        .find(|step| count(&done, step) < count(had, step));
    let here = steps.iter().position(|step| step.key == bench.plan.at);
    let is_open = |step: &&Step| count(&done, step) < step.times;
    let next = match again {
        Some(step) => Some(step),
        None => match here {
            Some(here) => steps.iter().skip(here).find(is_open),
            None => steps.iter().find(is_open),
        },
    };
    // After the last step, where nothing is left to do.
    let step = next.map_or_else(|| "finish".to_owned(), |step| step.key.clone());
    (step, done)
}
