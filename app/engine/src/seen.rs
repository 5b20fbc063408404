//! A drawing in words, for those who cannot see it.

use crate::card::Card;
use crate::length::Length;
use crate::pattern::{LineId, LineKind};
use crate::plane::Size;
use crate::recipe::{Face, Fold, LayerId, PieceId, Recipe, Side};
use crate::show::{Part, View, shown};
use crate::words::{face_name, fallen_words, line_name, piece_name, stop_words};

/// More of a kind than these are counted, not told one by one.
const MOST_TOLD: usize = 12;

/// The base, or a piece glued in, flat with one side up: its size, its panels
/// with their widths, its scores and lines, and what lies on it.
pub fn flat_in_words(recipe: &Recipe, card: &Card, of: Option<PieceId>, up: Side) -> String {
    let (Some(piece), Some(strip)) = (card.laid.piece(of), recipe.strip(of)) else {
        return "There is no such piece.".to_owned();
    };
    let notation = recipe.notation;
    let size = notation.size(piece.size.width, piece.size.height);
    let panels = strip.panels.iter();
    let panels = panels.map(|panel| {
        format!(
            "{} {}",
            panel.name,
            notation.with_unit(recipe.value(panel.width))
        )
    });
    let mut told = vec![
        format!("{}, {size}", piece_name(recipe, of)),
        format!(
            "from the left {}",
            listed(&panels.collect::<Vec<_>>(), "panels")
        ),
    ];
    let kind = |fold: Fold| match up {
        Side::A => fold.word(),
        Side::B => fold.flipped().word(),
    };
    let scores = strip.folds.iter().zip(&strip.panels).enumerate();
    let scores = scores.map(|(place, (fold, panel))| {
        let line = match of {
            None => LineId::of_score(place),
            Some(_) => LineId::of_piece_score(panel.id),
        };
        format!("{}, {}", line_name(recipe, line), kind(*fold))
    });
    let lines = strip.lines.iter().map(|line| {
        let name = line_name(recipe, LineId::of_line(line.id));
        match line.kind {
            LineKind::Crease(fold) => format!("{name}, {}", kind(fold)),
            LineKind::Cut => name,
        }
    });
    let lines: Vec<_> = scores.chain(lines).collect();
    if !lines.is_empty() {
        told.push(listed(&lines, "scores, creases and cuts"));
    }
    let fallen = (0..piece.fallen.len()).filter_map(|part| fallen_words(recipe, card, of, part));
    let fallen: Vec<_> = fallen.collect();
    if !fallen.is_empty() {
        told.push(format!("falling off {}", listed(&fallen, "parts")));
    }
    let on = card.laid.layers.iter().filter(|layer| {
        let place = card.laid.place_of(layer.face.panel);
        layer.face.side == up && place.is_some_and(|place| piece.panels.contains(&place))
    });
    let on: Vec<_> = on
        .map(|layer| layer_words(recipe, card, layer.id))
        .collect();
    if !on.is_empty() {
        told.push(format!("on it {}", listed(&on, "layers")));
    }
    sentences(told)
}

/// A state of the folded card from one side: its size, and what shows of it
/// from the nearest to the farthest.
pub fn state_in_words(recipe: &Recipe, card: &Card, number: usize, view: View) -> String {
    let Some(folded) = &card.folded else {
        return "The card does not fold flat.".to_owned();
    };
    let Some(state) = folded.states.get(number) else {
        return "There is no such state.".to_owned();
    };
    let together = state.opened.as_ref().is_some_and(|opened| opened.together);
    if let (true, Some(words)) = (together, stop_words(card)) {
        return format!("{words}.");
    }
    let size = state.size();
    let parts = shown(state, view, &card.laid.layers, &card.readings);
    let parts = parts.iter().map(|shown| match shown.part {
        Part::Face(face) => panel_words(recipe, card, face),
        Part::Layer(id) => layer_words(recipe, card, id),
        Part::LayerBack(id) => format!("the back of {}", layer_words(recipe, card, id)),
    });
    let mut told = vec![
        recipe.notation.size(size.width, size.height),
        format!(
            "from the nearest, {}",
            listed(&parts.collect::<Vec<_>>(), "parts")
        ),
    ];
    let standing: Vec<_> = state.poses.iter().filter(|pose| pose.stands).collect();
    if !standing.is_empty() {
        let names = standing.iter().map(|pose| recipe.panel_name(pose.panel));
        told.push(format!(
            "standing up, {}",
            listed(&names.collect::<Vec<_>>(), "panels")
        ));
    }
    sentences(told)
}

fn panel_words(recipe: &Recipe, card: &Card, face: Face) -> String {
    let panel = card.laid.place_of(face.panel);
    let panel = panel.and_then(|place| card.laid.panels.get(place));
    let bounds = panel.and_then(|panel| panel.facet.outline.bounds());
    sized(recipe, &face_name(recipe, face), bounds.map(|it| it.size()))
}

fn layer_words(recipe: &Recipe, card: &Card, id: LayerId) -> String {
    let name = recipe.layer(id).map_or("a layer", |layer| &layer.name);
    let size = card.laid.layer(id).map(|layer| layer.at.size());
    sized(recipe, name, size)
}

fn sized(recipe: &Recipe, name: &str, size: Option<Size>) -> String {
    let size = size.filter(|size| size.width > Length::ZERO);
    size.map_or_else(
        || name.to_owned(),
        |size| format!("{name} {}", recipe.notation.size(size.width, size.height)),
    )
}

/// Some words in a row, or how many there are.
fn listed(words: &[String], kind: &str) -> String {
    match words.len() {
        0 => format!("no {kind}"),
        count if count > MOST_TOLD => format!("{count} {kind}"),
        _ => words.join("; "),
    }
}

fn sentences(parts: Vec<String>) -> String {
    let parts = parts.into_iter().map(crate::problem::sentence);
    let parts: Vec<_> = parts.collect();
    format!("{}.", parts.join(". "))
}
