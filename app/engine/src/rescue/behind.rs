//! The measures of the recipe behind what a step shows.

use super::work::{Summed, cutout_sizes, layer_sizes, line_ends, line_key, strip_sizes};
use crate::card::Card;
use crate::part::Part;
use crate::recipe::{MeasureId, Recipe, StripId};
use crate::steps::{Along, StepKey};

/// The measures that the maker changes to have other numbers at a step, each once, in
/// the order in which it shows them; none at steps that show no length of the recipe,
/// and where the recipe has no such step.
pub fn measures(recipe: &Recipe, card: &Card, key: StepKey) -> Vec<MeasureId> {
    let mut all = Vec::new();
    for measure in behind(recipe, card, key).unwrap_or_default() {
        if !all.contains(&measure) {
            all.push(measure);
        }
    }
    all
}

fn behind(recipe: &Recipe, card: &Card, key: StepKey) -> Option<Vec<MeasureId>> {
    match key {
        StepKey::Cut(part) | StepKey::Trim(part) => match part {
            Part::Strip(of) => Some(summed(strip_sizes(recipe.strip(of)?))),
            Part::Layer(id) => {
                let layer = recipe.layer(id)?;
                let own = !layer.follows();
                own.then(|| Some(summed(layer_sizes(layer, card.laid.layer(id)?))))?
            }
        },
        StepKey::ScoreLine(_) | StepKey::CutLine(_) => {
            let mut lines = recipe.strips().flat_map(|(_, strip)| &strip.lines);
            Some(summed(line_ends(lines.find(|it| line_key(it) == key)?)))
        }
        StepKey::CutOut(id) => recipe.strips().find_map(|(_, strip)| {
            let cutout = strip.cutouts.iter().find(|it| it.id == id)?;
            Some(summed(cutout_sizes(strip, cutout)))
        }),
        StepKey::Score(of, _) => {
            let panels = recipe.strip(of)?.panels.iter();
            Some(panels.map(|panel| panel.width).collect())
        }
        // A score lies between two panels.
        StepKey::Fold(Along::Score(at), _) => {
            let panels = recipe.strip(StripId::Base)?.panels.iter();
            Some(panels.skip(at).take(2).map(|panel| panel.width).collect())
        }
        StepKey::PutOn(id) => {
            let layer = recipe.layer(id)?;
            Some(vec![layer.left, layer.bottom])
        }
        StepKey::CutAt { .. }
        | StepKey::Gather
        | StepKey::FoldPiece(_)
        | StepKey::Fold(..)
        | StepKey::Decorate(_)
        | StepKey::GlueIn(..)
        | StepKey::Dry
        | StepKey::Envelope
        | StepKey::Own(_) => None,
    }
}

fn summed(all: Vec<Summed>) -> Vec<MeasureId> {
    all.into_iter().flat_map(|it| it.of).collect()
}
