//! Trimming what is cut already to a smaller size.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::cutting::trimmer;
use super::order::in_order;
use super::{Caption, Instruction, Kind, Label, Off, Seen, Step, StepKey, Title, Tool};
use crate::card::Card;
use crate::care::Hazard;
use crate::length::Length;
use crate::part::{Part, parts};
use crate::plane::Size;
use crate::recipe::{LayerId, Outline, Recipe, StripId};

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

/// What is to be trimmed.
pub type Trims = BTreeMap<Part, Trim>;

/// Every step of the card with what is on the table: besides those of
/// [`super::steps`] one for each part that is trimmed, behind the one it is cut
/// in. What is no larger than the recipe has it can't be trimmed and is left
/// out.
pub fn steps_with(recipe: &Recipe, card: &Card, trims: &Trims) -> Vec<Step> {
    let mut steps = super::usual_steps(recipe, card, None);
    for part in parts(recipe) {
        let step = trims.get(&part);
        let step = step.and_then(|trim| trim_step(recipe, card, part, trim));
        let cut = StepKey::Cut(part);
        let index = steps.iter().position(|step| step.key == cut);
        if let (Some(step), Some(index)) = (step, index) {
            steps.insert(index + 1, step);
        }
    }
    in_order(recipe, card, None, steps)
}

fn trim_step(recipe: &Recipe, card: &Card, part: Part, trim: &Trim) -> Option<Step> {
    let size = card.cut_list.size_of(part)?;
    let fits = size.width <= trim.width && size.height <= trim.height;
    if !fits || size == trim.size() || trim.pieces == 0 {
        return None;
    }
    let title = Title::Trim { part, to: size };
    let mut step = Step::new(StepKey::Trim(part), Kind::Cut, title, recipe);
    step.times = trim.pieces.min(recipe.copies.max(1));
    let label = match part {
        Part::Strip(_) => Label::Length,
        Part::Layer(_) => Label::Width,
    };
    step.length(label, size.width);
    step.length(Label::Height, size.height);
    step.does = vec![
        Instruction::MeasureOff(part),
        Instruction::CutAlready {
            part,
            pieces: step.times,
            size: trim.size(),
        },
    ];
    step.does.extend(trimming(recipe, card, part, trim));
    trimmer(&mut step);
    match part {
        Part::Strip(of) => step.bare(of),
        Part::Layer(id) => {
            let layer = recipe.layer(id)?;
            let round = matches!(layer.outline, Outline::Round | Outline::Rounded(_));
            step.picture(Caption::Outline, Seen::Outline(id));
            if round {
                step.tools.push(Tool::DieOrScissors);
                step.care.extend([Hazard::Die, Hazard::Scissors]);
            }
        }
    }
    Some(step)
}

/// What to cut off which edge, one thing at a time.
pub fn trimming(recipe: &Recipe, card: &Card, part: Part, trim: &Trim) -> Vec<Instruction> {
    let size = card.cut_list.size_of(part).unwrap_or_default();
    let off = Size {
        width: trim.width - size.width,
        height: trim.height - size.height,
    };
    match part {
        Part::Strip(of) => of_strip(recipe, of, trim, off),
        Part::Layer(id) => of_layer(recipe, id, size, off),
    }
}

fn of_strip(recipe: &Recipe, of: StripId, trim: &Trim, off: Size) -> Vec<Instruction> {
    let Some(strip) = recipe.strip(of) else {
        return Vec::new();
    };
    let ends = [
        (strip.panels.first(), trim.first),
        (strip.panels.last(), off.width - trim.first),
    ];
    let ends = ends.into_iter().filter(|(_, off)| *off > Length::ZERO);
    let ends = ends.filter_map(|(panel, off)| {
        let panel = panel?;
        Some(Instruction::OffEnd {
            panel: panel.id,
            off,
            stays: recipe.value(panel.width),
        })
    });
    let top = (off.height > Length::ZERO).then_some(Instruction::OffTop(of, off.height));
    ends.chain(top).collect()
}

fn of_layer(recipe: &Recipe, id: LayerId, size: Size, off: Size) -> Vec<Instruction> {
    let outline = recipe.layer(id).map(|layer| &layer.outline);
    if outline == Some(&Outline::Round) {
        return vec![Instruction::CutAgain(id, size)];
    }
    let off = match (off.width > Length::ZERO, off.height > Length::ZERO) {
        (true, false) => Off::Width(off.width),
        (false, true) => Off::Height(off.height),
        (true, true) => Off::Both(off),
        (false, false) => return Vec::new(),
    };
    match outline {
        Some(Outline::Arched(_)) => vec![Instruction::OffStraight(id, off)],
        Some(Outline::Rounded(radius)) => vec![
            Instruction::OffAny(id, off),
            Instruction::CornersAgain(id, recipe.value(*radius)),
        ],
        _ => vec![Instruction::OffAny(id, off), Instruction::AnyEdge],
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
