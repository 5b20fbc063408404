//! What a proposal that is taken adds to the recipe.

use super::proposal::{Makes, Proposal};
use crate::length::Length;
use crate::recipe::{Measure, MeasureId, Place, Recipe, Relation, Seat, Term};

impl Proposal {
    /// Adds the relation to the recipe it was proposed for.
    pub(super) fn apply(&self, recipe: &mut Recipe) {
        let panel = |recipe: &Recipe, at: usize| recipe.base.panels.get(at).map(|it| it.width);
        match &self.makes {
            Makes::SamePanels(places) => {
                let ids: Vec<MeasureId> =
                    places.iter().filter_map(|at| panel(recipe, *at)).collect();
                same(recipe, &ids);
            }
            Makes::FoldedIn { inner, middle } => {
                let allowance = recipe.folding_in.allowance;
                if let (Some(inner), Some(middle)) = (panel(recipe, *inner), panel(recipe, *middle))
                {
                    let relation = Relation::less(inner, 1, allowance, middle);
                    recipe.relations.push(relation);
                }
            }
            Makes::Leaves { gap } => {
                if let (Some(first), Some(middle), Some(last)) =
                    (panel(recipe, 0), panel(recipe, 1), panel(recipe, 2))
                {
                    let mut parts = vec![first, last];
                    if *gap != Length::ZERO {
                        parts.push(insert(recipe, first, "gap between the leaves", *gap));
                    }
                    recipe.relations.push(Relation::sum(middle, parts));
                }
            }
            Makes::Sum { whole, parts } => {
                let parts = parts.map(|at| panel(recipe, at));
                if let (Some(whole), [Some(a), Some(b)]) = (panel(recipe, *whole), parts) {
                    recipe.relations.push(Relation::sum(whole, [a, b]));
                }
            }
            Makes::Double { whole, half } => {
                if let (Some(whole), Some(half)) = (panel(recipe, *whole), panel(recipe, *half)) {
                    let mut relation = Relation::same(whole, half);
                    relation.right = vec![Term { times: 2, of: half }];
                    recipe.relations.push(relation);
                }
            }
            Makes::Square(place) => {
                let height = recipe.base.height;
                if let Some(width) = panel(recipe, *place) {
                    recipe.relations.push(Relation::same(height, width));
                }
            }
            Makes::Border { layer, border } => {
                let Some((name, width)) = recipe
                    .layers
                    .get(*layer)
                    .map(|it| (it.name.clone(), it.width))
                else {
                    return;
                };
                let id = insert(recipe, width, &format!("{name} border"), *border);
                if let Some(layer) = recipe.layers.get_mut(*layer) {
                    layer.place = Place::Border(id);
                }
            }
            Makes::SameBorders(places) => {
                let borders = places
                    .iter()
                    .filter_map(|at| match recipe.layers.get(*at)?.place {
                        Place::Border(border) => Some(border),
                        _ => None,
                    });
                let borders: Vec<MeasureId> = borders.collect();
                same(recipe, &borders);
            }
            Makes::SameSizes(places) => {
                let layers = places.iter().filter_map(|at| recipe.layers.get(*at));
                let (widths, heights): (Vec<_>, Vec<_>) =
                    layers.map(|layer| (layer.width, layer.height)).unzip();
                same(recipe, &widths);
                same(recipe, &heights);
            }
            Makes::Whole(place) => {
                let sizes = recipe.layers.get(*place).and_then(|layer| {
                    let seat = recipe.seat_size(layer.on)?;
                    Some(((layer.width, layer.height), seat))
                });
                if let Some(((width, height), (across, up))) = sizes {
                    recipe.relations.push(Relation::same(width, across));
                    recipe.relations.push(Relation::same(height, up));
                }
            }
            Makes::Across { layer, tall } => {
                let relation = across(recipe, *layer, *tall);
                recipe.relations.extend(relation);
            }
            Makes::Envelope(envelope, rule) => {
                recipe.posting.envelope = Some((*envelope).to_owned());
                (*rule).clone_into(&mut recipe.posting.rule);
            }
        }
    }
}

/// That a layer is as tall, or as wide, as the panel under it.
fn across(recipe: &Recipe, layer: usize, tall: bool) -> Option<Relation> {
    let layer = recipe.layers.get(layer)?;
    let (across, up) = recipe.seat_size(bottom(recipe, layer.on))?;
    Some(if tall {
        Relation::same(layer.height, up)
    } else {
        Relation::same(layer.width, across)
    })
}

/// The face at the bottom of what a layer lies on.
fn bottom(recipe: &Recipe, on: Seat) -> Seat {
    let below = |on: &Seat| match on {
        Seat::Face(_) => None,
        Seat::Layer(id) => recipe.layer(*id).map(|layer| layer.on),
    };
    let all = std::iter::successors(Some(on), below);
    all.take(recipe.layers.len() + 1).last().unwrap_or(on)
}

/// Each of them is the first one.
fn same(recipe: &mut Recipe, ids: &[MeasureId]) {
    if let [first, others @ ..] = ids {
        let relations = others.iter().map(|other| Relation::same(*other, *first));
        recipe.relations.extend(relations);
    }
}

/// A new measure, firmer than the one before which it stands.
fn insert(recipe: &mut Recipe, before: MeasureId, name: &str, value: Length) -> MeasureId {
    let most = recipe.measures.iter().map(|measure| measure.id.0).max();
    let id = MeasureId(most.unwrap_or(0).saturating_add(1));
    let place = recipe.measures.iter().position(|it| it.id == before);
    let place = place.unwrap_or(recipe.measures.len());
    let measure = Measure::new(id, name.to_owned(), value);
    recipe.measures.insert(place, measure);
    id
}
