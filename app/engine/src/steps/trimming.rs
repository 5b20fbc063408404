//! Trimming what is cut already to a smaller size.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Kind, Seen, Step, side_up};
use crate::card::Card;
use crate::care::Hazard;
use crate::length::Length;
use crate::part::{Part, parts};
use crate::plane::Size;
use crate::recipe::{Outline, PieceId, Recipe, Side};

/// Pieces on the table that are larger than the recipe has them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trim {
    /// How wide they are: a strip's length.
    pub width: Length,
    /// How high they are.
    pub height: Length,
    /// How much comes off a strip's first end; the rest of its length comes
    /// off its last.
    #[serde(default)]
    pub first: Length,
    /// How many pieces.
    pub pieces: u32,
}

/// What is to be trimmed, by the lasting names of the steps it is cut in.
pub type Trims = BTreeMap<String, Trim>;

/// Every step of the card with what is on the table: besides those of
/// [`super::steps`] one for each part that is trimmed, behind the one it is cut
/// in. What is no larger than the recipe has it can't be trimmed and is left
/// out.
pub fn steps_with(recipe: &Recipe, card: &Card, trims: &Trims) -> Vec<Step> {
    let mut steps = super::steps(recipe, card);
    for part in parts(recipe) {
        let key = part.cut_key();
        let step = trims.get(&key);
        let step = step.and_then(|trim| trim_step(recipe, card, part, trim));
        let place = steps.iter().position(|step| step.key == key);
        if let (Some(step), Some(place)) = (step, place) {
            steps.insert(place + 1, step);
        }
    }
    steps
}

fn trim_step(recipe: &Recipe, card: &Card, part: Part, trim: &Trim) -> Option<Step> {
    let size = size_of(card, part)?;
    let fits = size.width <= trim.width && size.height <= trim.height;
    if !fits || size == trim.size() || trim.pieces == 0 {
        return None;
    }
    let to = recipe.notation.size(size.width, size.height);
    let title = format!("Trim {} to {to}", part.named(recipe));
    let mut step = Step::new(part.trim_key(), Kind::Cut, title, recipe);
    step.times = trim.pieces.min(recipe.copies.max(1));
    let label = match part {
        Part::Strip(_) => "length",
        Part::Layer(_) => "width",
    };
    step.figure(label, recipe.notation.with_unit(size.width));
    step.figure("height", recipe.notation.with_unit(size.height));
    let was = recipe.notation.size(trim.width, trim.height);
    step.does = vec![match step.times {
        1 => format!("It is cut already, {was}. It needs no new paper."),
        pieces => format!("{pieces} pieces are cut already, {was}. They need no new paper."),
    }];
    step.does.extend(trim_words(recipe, card, part, trim));
    step.tools = vec!["trimmer"];
    step.care = vec![Hazard::Trimmer];
    match part {
        Part::Strip(of) => {
            let (caption, view) = side_up(recipe, of, Side::A);
            step.picture(caption, view);
        }
        Part::Layer(id) => {
            let layer = recipe.layer(id)?;
            let round = matches!(layer.outline, Outline::Round | Outline::Rounded(_));
            step.picture("Its outline", Seen::Outline(id));
            if round {
                step.tools.push("die, or a template and scissors");
                step.care.push(Hazard::Die);
            }
        }
    }
    Some(step)
}

/// What to cut off which edge, sentence by sentence.
pub fn trim_words(recipe: &Recipe, card: &Card, part: Part, trim: &Trim) -> Vec<String> {
    let size = size_of(card, part).unwrap_or_default();
    let (width, height) = (trim.width - size.width, trim.height - size.height);
    match part {
        Part::Strip(of) => strip_words(recipe, of, trim, width, height),
        Part::Layer(id) => {
            let outline = recipe.layer(id).map(|layer| &layer.outline);
            layer_words(recipe, outline, size, width, height)
        }
    }
}

fn strip_words(
    recipe: &Recipe,
    of: Option<PieceId>,
    trim: &Trim,
    width: Length,
    height: Length,
) -> Vec<String> {
    let written = |length| recipe.notation.with_unit(length);
    let mut words = Vec::new();
    let Some(strip) = recipe.strip(of) else {
        return words;
    };
    let ends = [
        (strip.panels.first(), trim.first),
        (strip.panels.last(), width - trim.first),
    ];
    for (panel, off) in ends {
        if let Some(panel) = panel.filter(|_| off > Length::ZERO) {
            words.push(format!(
                "Cut {} off the edge of {}: it stays {} wide.",
                written(off),
                panel.name,
                written(recipe.value(panel.width))
            ));
        }
    }
    if height > Length::ZERO {
        words.push(format!(
            "Cut {} off its upper edge, seen from the inside.",
            written(height)
        ));
    }
    words
}

fn layer_words(
    recipe: &Recipe,
    outline: Option<&Outline>,
    size: Size,
    width: Length,
    height: Length,
) -> Vec<String> {
    let written = |length| recipe.notation.with_unit(length);
    let off: Vec<_> = [(width, "width"), (height, "height")]
        .into_iter()
        .filter(|(off, _)| *off > Length::ZERO)
        .map(|(off, word)| format!("{} off its {word}", written(off)))
        .collect();
    let off = off.join(" and ");
    match outline {
        Some(Outline::Round) if size.width == size.height => vec![format!(
            "Cut it round once more, {} across, from the same middle.",
            written(size.width)
        )],
        Some(Outline::Round) => vec![format!(
            "Cut it oval once more, {}, from the same middle.",
            recipe.notation.size(size.width, size.height)
        )],
        Some(Outline::Arched(_)) => {
            vec![format!("Cut {off}, from its straight edge: the arc stays.")]
        }
        Some(Outline::Rounded(radius)) => vec![
            format!("Cut {off}."),
            format!(
                "Round the corners that are cut away again with a radius of {}.",
                written(recipe.value(*radius))
            ),
        ],
        _ => vec![
            format!("Cut {off}."),
            "Any edge will do. Where a picture is to stay in its middle, cut half off each side."
                .to_owned(),
        ],
    }
}

/// Width and height of a part as it is cut: length and height of a strip.
pub(crate) fn size_of(card: &Card, part: Part) -> Option<Size> {
    match part {
        Part::Strip(of) => card.laid.piece(of).map(|piece| piece.size),
        Part::Layer(id) => card.laid.layer(id).map(|layer| layer.at.size()),
    }
}

impl Trim {
    /// The size of the pieces before they are trimmed.
    pub const fn size(&self) -> Size {
        Size {
            width: self.width,
            height: self.height,
        }
    }
}
