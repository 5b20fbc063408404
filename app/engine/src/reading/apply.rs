//! What a proposal that is taken adds to the recipe.

use super::proposal::{Proposal, Suggestion};
use crate::length::Length;
use crate::recipe::{
    LayerId, Listed, Measure, MeasureId, MeasureOf, Naming, New, Owner, PanelId, Placing, Recipe,
    Relation, Role, Seat, Term,
};

impl Proposal {
    /// Adds the relation to the recipe it was proposed for.
    pub(super) fn apply(&self, recipe: &mut Recipe, naming: &dyn Naming) {
        let panel = |recipe: &Recipe, id: PanelId| recipe.panel(id).map(|(_, it)| it.width);
        match &self.is {
            Suggestion::SamePanels(panels) => {
                let ids = panels.iter().filter_map(|id| panel(recipe, *id));
                let ids: Vec<MeasureId> = ids.collect();
                same(recipe, &ids);
            }
            Suggestion::FoldedIn { inner, middle } => {
                let allowance = recipe.folding_in.allowance;
                if let (Some(inner), Some(middle)) = (panel(recipe, *inner), panel(recipe, *middle))
                {
                    let relation = Relation::less(inner, 1, allowance, middle);
                    recipe.relations.push(relation);
                }
            }
            Suggestion::Leaves { gap } => {
                let widths: Vec<_> = recipe.base.panels.iter().map(|it| it.width).collect();
                if let [first, middle, last] = widths[..] {
                    let mut parts = vec![first, last];
                    if *gap != Length::ZERO {
                        let name = naming.name(New::Listed(Listed::Gap));
                        parts.push(insert(recipe, first, name, None, *gap));
                    }
                    recipe.relations.push(Relation::sum(middle, parts));
                }
            }
            Suggestion::Sum { whole, parts } => {
                let parts = parts.map(|id| panel(recipe, id));
                if let (Some(whole), [Some(a), Some(b)]) = (panel(recipe, *whole), parts) {
                    recipe.relations.push(Relation::sum(whole, [a, b]));
                }
            }
            Suggestion::Double { whole, half } => {
                if let (Some(whole), Some(half)) = (panel(recipe, *whole), panel(recipe, *half)) {
                    let mut relation = Relation::same(whole, half);
                    relation.right = vec![Term { times: 2, of: half }];
                    recipe.relations.push(relation);
                }
            }
            Suggestion::Square(id) => {
                let height = recipe.base.height;
                if let Some(width) = panel(recipe, *id) {
                    recipe.relations.push(Relation::same(height, width));
                }
            }
            Suggestion::Border { layer, border } => {
                let Some((name, width)) =
                    recipe.layer(*layer).map(|it| (it.name.clone(), it.width))
                else {
                    return;
                };
                let of = MeasureOf {
                    part: Owner::Layer(*layer),
                    is: Role::Border,
                };
                let name = naming.name(New::Measure(&name, Role::Border));
                let id = insert(recipe, width, name, Some(of), *border);
                let mut layers = recipe.layers.iter_mut();
                if let Some(layer) = layers.find(|it| it.id == *layer) {
                    layer.place = Placing::Border(id);
                }
            }
            Suggestion::SameBorders(layers) => {
                let borders = layers
                    .iter()
                    .filter_map(|id| match recipe.layer(*id)?.place {
                        Placing::Border(border) => Some(border),
                        _ => None,
                    });
                let borders: Vec<MeasureId> = borders.collect();
                same(recipe, &borders);
            }
            Suggestion::SameSizes(layers) => {
                let layers = layers.iter().filter_map(|id| recipe.layer(*id));
                let (widths, heights): (Vec<_>, Vec<_>) =
                    layers.map(|layer| (layer.width, layer.height)).unzip();
                same(recipe, &widths);
                same(recipe, &heights);
            }
            Suggestion::Whole(id) => {
                let sizes = recipe.layer(*id).and_then(|layer| {
                    let seat = recipe.seat_size(layer.on)?;
                    Some(((layer.width, layer.height), seat))
                });
                if let Some(((width, height), (across, up))) = sizes {
                    recipe.relations.push(Relation::same(width, across));
                    recipe.relations.push(Relation::same(height, up));
                }
            }
            Suggestion::Across { layer, tall } => {
                let relation = across(recipe, *layer, *tall);
                recipe.relations.extend(relation);
            }
            Suggestion::Envelope(envelope, rule) => {
                recipe.posting.envelope = Some(envelope.id.to_owned());
                rule.id.clone_into(&mut recipe.posting.rule);
            }
        }
    }
}

/// That a layer is as tall, or as wide, as the panel under it.
fn across(recipe: &Recipe, layer: LayerId, tall: bool) -> Option<Relation> {
    let layer = recipe.layer(layer)?;
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
fn insert(
    recipe: &mut Recipe,
    before: MeasureId,
    name: String,
    of: Option<MeasureOf>,
    value: Length,
) -> MeasureId {
    let most = recipe.measures.iter().map(|measure| measure.id.0).max();
    let id = MeasureId(most.unwrap_or(0).saturating_add(1));
    let index = recipe.measures.iter().position(|it| it.id == before);
    let index = index.unwrap_or(recipe.measures.len());
    let measure = Measure {
        of,
        ..Measure::new(id, name, value)
    };
    recipe.measures.insert(index, measure);
    id
}
