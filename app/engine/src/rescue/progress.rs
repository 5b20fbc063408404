//! How far the work has come after a rescue, and where it goes on.

use std::collections::BTreeSet;

use super::made::seat_of;
use super::offer::Fate;
use super::work::{About, line_key};
use super::{Bench, Done};
use crate::card::Card;
use crate::part::Part;
use crate::pattern::LineId;
use crate::recipe::{Bond, Recipe, StripId};
use crate::steps::{Along, Step, StepKey, Trims, steps_with};

/// How far cards have come, and what of them is to be trimmed.
pub(super) struct Course {
    pub(super) done: Done,
    pub(super) trims: Trims,
}

/// What is lost with a part that is cut again.
#[derive(Debug, Default)]
pub(super) struct Lost {
    /// The steps to do again.
    pub(super) keys: Vec<StepKey>,
    /// The layers glued to it, which go with it.
    pub(super) parts: Vec<Part>,
}

/// Everything that is done again when a part is.
pub(super) fn undone(recipe: &Recipe, card: &Card, done: &Done, part: Part) -> Lost {
    let mut lost = Lost::default();
    lose(recipe, card, done, part, &mut lost);
    lost.keys.extend([StepKey::Dry, StepKey::Envelope]);
    lost
}

fn lose(recipe: &Recipe, card: &Card, done: &Done, part: Part, lost: &mut Lost) {
    lost.keys.extend([StepKey::Cut(part), StepKey::Trim(part)]);
    match part {
        Part::Strip(of) => {
            let passes = card.chart_of(of).map_or(0, |chart| chart.passes.len());
            lost.keys
                .extend((0..passes).map(|pass| StepKey::Score(of, pass)));
            let strip = recipe.strip(of);
            let lines = strip.into_iter().flat_map(|strip| &strip.lines);
            for line in lines {
                lost.keys.push(line_key(line));
                let along = Along::Line(LineId::of_line(line.id));
                // Parts of one line may fold one after another.
                let folds = (1..).map(|time| StepKey::Fold(along, time));
                lost.keys
                    .extend(folds.take_while(|key| done.contains_key(key)));
            }
            let cutouts = strip.into_iter().flat_map(|strip| &strip.cutouts);
            lost.keys.extend(cutouts.map(|it| StepKey::CutOut(it.id)));
            match of {
                StripId::Base => {
                    let scores = card.laid.base.creases.len();
                    let along = (0..scores).map(Along::Score).chain([Along::Together]);
                    lost.keys.extend(along.map(|along| StepKey::Fold(along, 1)));
                }
                StripId::Piece(id) => lost.keys.push(StepKey::FoldPiece(id)),
            }
            for piece in &recipe.pieces {
                for join in &piece.joins {
                    let on = recipe.strip_with(join.on.panel).map(|(of, ..)| of);
                    if on == Some(of) || of == StripId::Piece(piece.id) {
                        lost.keys.push(StepKey::GlueIn(piece.id, join.panel));
                    }
                }
            }
        }
        Part::Layer(id) => {
            lost.keys
                .extend([StepKey::Decorate(id), StepKey::PutOn(id)]);
        }
    }
    for layer in &recipe.layers {
        if seat_of(recipe, layer.on) != Some(part) {
            continue;
        }
        let put_on = StepKey::PutOn(layer.id);
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
            Fate::Trimmed(_) => vec![StepKey::Trim(*part)],
        };
        for key in again {
            done.remove(&key);
        }
    }
    if bench.card.finished != card.finished {
        done.remove(&StepKey::Envelope);
    }
    // What is in hand is made, for those cards that have it.
    let all_made = bench.miscut.measured.iter().all(Option::is_some);
    let fresh = match bench.miscut.about {
        About::Scores(..) if !all_made => None,
        About::Line(..) | About::Cutout(..) | About::Scores(..) | About::Cut(_) => {
            Some(bench.miscut.key)
        }
    };
    let made = |key: StepKey, done: &mut Done| {
        let made = done.entry(key).or_insert(0);
        *made = (*made).max(bench.cards.min(cards));
    };
    if let Some(key) = fresh {
        made(key, &mut done);
    }
    made(StepKey::Cut(in_hand), &mut done);
    if fates.iter().any(|(part, _)| *part == in_hand) {
        done.remove(&StepKey::Trim(in_hand));
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
) -> (Option<StepKey>, Course) {
    let Course {
        mut done,
        mut trims,
    } = course;
    let steps = steps_with(recipe, card, &trims);
    let known: BTreeSet<_> = steps.iter().map(|step| step.key).collect();
    done.retain(|key, _| known.contains(key));
    trims.retain(|part, _| known.contains(&StepKey::Trim(*part)));
    let count = |of: &Done, step: &Step| of.get(&step.key).copied().unwrap_or(0).min(step.times);
    let is_open = |step: &&Step| count(&done, step) < step.times;
    let is_trim = |step: &Step| matches!(step.key, StepKey::Trim(_));
    let again = steps
        .iter()
        .find(|step| count(&done, step) < count(had, step) || is_trim(step) && is_open(step));
    let here = steps
        .iter()
        .position(|step| Some(step.key) == bench.plan.at);
    let next = match again {
        Some(step) => Some(step),
        None => match here {
            Some(here) => steps.iter().skip(here).find(is_open),
            None => steps.iter().find(is_open),
        },
    };
    (next.map(|step| step.key), Course { done, trims })
}
