//! What the pictures of steps show.

use std::sync::Arc;

use crate::card::Card;
use crate::cut_plan::Setting;
use crate::draw::{
    Drawing, Moment, at_fence, back_of_layer, cut_layer, flat, opening, part_on_sheet, state,
};
use crate::part::Part;
use crate::recipe::{LayerId, Recipe, Side, StripId};

/// What a picture shows.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Seen {
    /// The base, or a piece glued in, before it is folded, one side up.
    Flat(StripId, Side),
    /// The sheet a part is cut from, with as many as it gives, as they are to lie
    /// there.
    Laid(Part),
    /// What is laid on the trimmer, with what comes off each.
    AtFence(Arc<Setting>, usize),
    /// The outline a layer is cut along.
    Outline(LayerId),
    /// Where glue goes on the back of a layer.
    Back(LayerId),
    /// A layer in its place, with what was put on before it.
    PutOn(LayerId),
    /// The card on its way open.
    Opening(Moment),
    /// The same of the base before anything is glued in.
    OpeningBare(Arc<Bare>, Moment),
}

/// A recipe without what is glued in, worked out.
#[derive(Debug, PartialEq)]
pub(super) struct Bare {
    pub(super) recipe: Recipe,
    pub(super) card: Card,
}

impl Seen {
    pub(super) fn drawing(&self, recipe: &Recipe, card: &Card) -> Drawing {
        match self {
            Self::Flat(of, side) => flat(recipe, card, *of, *side),
            Self::Opening(moment) => opening(recipe, card, *moment),
            Self::OpeningBare(bare, moment) => opening(&bare.recipe, &bare.card, *moment),
            Self::Outline(layer) => cut_layer(recipe, card, *layer),
            Self::AtFence(setting, load) => {
                at_fence(recipe, setting, *load).unwrap_or_else(nothing)
            }
            Self::Laid(part) => part_on_sheet(recipe, card, *part).unwrap_or_else(nothing),
            Self::Back(layer) => {
                let mut gluings = card.gluings.iter();
                let gluing = gluings.find(|gluing| gluing.layer == *layer);
                gluing.map_or_else(nothing, |gluing| back_of_layer(recipe, card, gluing))
            }
            Self::PutOn(layer) => put_on(recipe, card, *layer).unwrap_or_else(nothing),
        }
    }
}

fn nothing() -> Drawing {
    Drawing::framed(Vec::new(), 0.0)
}

/// Only what has been put on by then is in the picture.
fn put_on(recipe: &Recipe, card: &Card, layer: LayerId) -> Option<Drawing> {
    let mut layers = card.laid.layers.iter();
    let number = layers.position(|laid| laid.id == layer)?;
    let face = card.laid.layers.get(number)?.face;
    let reading = card.readings.iter().find(|reading| reading.face == face)?;
    let mut now = card.clone();
    now.laid.layers.truncate(number + 1);
    Some(state(recipe, &now, reading.state, reading.view))
}
