//! Decorating, gluing, drying, and the envelope.

use super::{Kind, Seen, Step, layer_key};
use crate::card::Card;
use crate::care::Hazard;
use crate::glue::Gluing;
use crate::laid::LaidLayer;
use crate::outlines::seat_corner;
use crate::recipe::{Layer, Recipe, Seat};
use crate::words::face_name;

/// Decorating what should be seen first, while it still lies flat.
pub(super) fn decorate(recipe: &Recipe) -> Vec<Step> {
    recipe
        .layers
        .iter()
        .filter(|layer| layer.focal)
        .map(|layer| {
            let title = format!("Decorate {}", layer.name);
            let mut step = Step::new(
                layer_key("decorate", layer.id),
                Kind::Decorate,
                title,
                recipe,
            );
            step.does.push(
                "Stamp, colour or emboss it now, while it lies flat, and let it dry.".to_owned(),
            );
            step.tools = vec!["stamps, inks or whatever you decorate with"];
            step.care = vec![Hazard::HeatTool, Hazard::SmallParts];
            step
        })
        .collect()
}

/// Gluing each layer on, in the recipe's order, or slipping it in.
pub(super) fn put_on(recipe: &Recipe, card: &Card) -> Vec<Step> {
    card.laid
        .layers
        .iter()
        .filter_map(|laid| {
            let layer = recipe.layer(laid.id)?;
            let gluing = card.gluings.iter().find(|gluing| gluing.layer == laid.id);
            Some(one_layer(recipe, card, layer, laid, gluing))
        })
        .collect()
}

fn one_layer(
    recipe: &Recipe,
    card: &Card,
    layer: &Layer,
    laid: &LaidLayer,
    gluing: Option<&Gluing>,
) -> Step {
    let seat = match layer.on {
        Seat::Face(face) => face_name(recipe, face),
        Seat::Layer(id) => recipe
            .layer(id)
            .map_or("what carries it", |under| under.name.as_str())
            .to_owned(),
    };
    let wanted = gluing.and_then(|gluing| Some((gluing, gluing.wanted.as_ref()?)));
    let (kind, title) = if wanted.is_some() {
        (Kind::Glue, format!("Glue {} to {seat}", layer.name))
    } else {
        (Kind::Insert, format!("Slip {} onto {seat}", layer.name))
    };
    let mut step = Step::new(layer_key("put-on", layer.id), kind, title, recipe);
    let written = |length| recipe.notation.with_unit(length);
    let (at, under) = (laid.at.low, seat_corner(&card.laid, layer));
    step.figure("from the left edge", written(at.x - under.x));
    step.figure("from the bottom edge", written(at.y - under.y));
    if let Some((gluing, wanted)) = wanted {
        let edges = gluing.edges(wanted);
        step.does.push(format!(
            "Turn it over like a page. Put glue only where shown: {} from the left, {} from the \
             right, {} from the top, {} from the bottom.",
            written(edges.left),
            written(edges.right),
            written(edges.top),
            written(edges.bottom)
        ));
        if gluing.refused {
            step.does.push(
                "Glue there would spoil the card: see the recipe's problems first.".to_owned(),
            );
        }
        step.picture("Glue on its back", Seen::Back(layer.id));
        step.tools = vec!["glue", "scrap paper"];
        step.care = vec![Hazard::HotGlue];
    }
    step.does
        .push("Set it in its place and press it down from the middle.".to_owned());
    let readings = &card.readings;
    if readings.iter().any(|reading| reading.face == laid.face) {
        step.picture("In its place", Seen::PutOn(layer.id));
    }
    step
}

/// Waiting for the glue, where there is any.
pub(super) fn dry(recipe: &Recipe) -> Option<Step> {
    let glued = recipe
        .layers
        .iter()
        .any(|layer| layer.bond != crate::recipe::Bond::Loose);
    (glued || !recipe.pieces.is_empty()).then(|| {
        let mut step = Step::new("dry", Kind::Dry, "Let it dry", recipe);
        step.does.push(
            "Close the card and press it under a weight for as long as the glue's maker says."
                .to_owned(),
        );
        step.does.push(
            "Open it once before it is quite dry: nothing may hold where it should part."
                .to_owned(),
        );
        step.tools = vec!["clean paper", "a weight"];
        step
    })
}

/// The envelope.
pub(super) fn envelope(recipe: &Recipe, card: &Card) -> Step {
    let mut step = Step::new("envelope", Kind::Envelope, "Find its envelope", recipe);
    step.figure(
        "closed card",
        recipe
            .notation
            .size(card.finished.width, card.finished.height),
    );
    if let Some(thickest) = card.thickest {
        step.figure("thickest", recipe.notation.with_unit(thickest.thickness));
    }
    let chosen = recipe.posting.envelope.as_deref();
    let fit = card
        .envelopes
        .iter()
        .find(|fit| Some(fit.envelope.id) == chosen)
        .or_else(|| card.envelopes.first().filter(|_| chosen.is_none()));
    step.does.push(match fit {
        Some(fit) => format!(
            "It goes into {}, {}.",
            fit.envelope.name,
            fit.envelope.size_words(recipe.notation.decimal)
        ),
        None => "No standard envelope takes it by your rule: make one, or choose another rule."
            .to_owned(),
    });
    step.does
        .push("Try the first card in a real envelope before you make the rest.".to_owned());
    step
}
