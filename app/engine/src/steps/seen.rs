//! What the pictures of steps show: the card as far as it is made by then, and nothing
//! that comes later.

use std::sync::Arc;

use crate::card::{Card, Tools, work_out};
use crate::cut_plan::Setting;
use crate::draw::{
    Drawing, Moment, at_board, at_fence, at_line, back_of_layer, bare, cut_layer, folding,
    part_on_sheet, place_on, state,
};
use crate::part::Part;
use crate::recipe::{DrawnLineId, LayerId, PieceId, Recipe, Side, StripId};
use crate::score::Pass;

/// What a picture shows.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Seen {
    /// The base, or a piece, before its lines are scored.
    Bare(StripId),
    /// The same once they are.
    Scored(StripId),
    /// A strip on the scoring board, as a pass has it.
    AtBoard(StripId, Pass),
    /// A strip as one of its lines is scored or cut.
    AtLine(StripId, DrawnLineId),
    /// The sheet a part is cut from, with as many as it gives, as they are to lie
    /// there.
    Laid(Part),
    /// What is laid on the trimmer, with what comes off each.
    AtFence(Arc<Setting>, usize),
    /// The outline a layer is cut along.
    Outline(LayerId),
    /// Where glue goes on the back of a layer.
    Back(LayerId),
    /// A layer in its place, with the layers that are on by then, and no piece glued in.
    PutOn(Option<Arc<Bare>>, LayerId, Arc<[LayerId]>),
    /// The card on its way closed before anything is glued on.
    Folding(Option<Arc<Bare>>, Moment),
    /// Where a panel of a piece is glued on a side of a strip.
    PlaceOn(StripId, Side, (PieceId, usize)),
    /// The open card with a piece and those before it glued in, and the layers that are
    /// on by then.
    GluedIn(PieceId, Arc<[LayerId]>),
}

/// A recipe without what is glued in, worked out.
#[derive(Debug, PartialEq)]
pub(super) struct Bare {
    pub(super) recipe: Recipe,
    pub(super) card: Card,
}

impl Bare {
    /// A recipe without its pieces; nothing where it has none.
    pub(super) fn of(recipe: &Recipe) -> Option<Arc<Self>> {
        (!recipe.pieces.is_empty()).then(|| Arc::new(Self::worked_out(recipe.without_pieces())))
    }

    fn worked_out(recipe: Recipe) -> Self {
        let card = work_out(&recipe, &Tools::default());
        Self { recipe, card }
    }
}

impl Seen {
    pub(super) fn drawing(&self, recipe: &Recipe, card: &Card) -> Drawing {
        let without_pieces =
            |bare: Option<&Arc<Bare>>, drawn: &dyn Fn(&Recipe, &Card) -> Drawing| {
                let (recipe, card) = bare.map_or((recipe, card), |bare| (&bare.recipe, &bare.card));
                drawn(recipe, card)
            };
        match self {
            Self::Bare(of) => bare(recipe, card, *of, false),
            Self::Scored(of) => bare(recipe, card, *of, true),
            Self::AtBoard(of, pass) => at_board(recipe, card, *of, pass),
            Self::AtLine(of, line) => at_line(recipe, card, *of, *line),
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
            Self::PutOn(Some(bare), layer, on) if bare.recipe.layer(*layer).is_none() => {
                put_on_piece(recipe, card, *layer, on)
            }
            Self::PutOn(bare, layer, on) => without_pieces(bare.as_ref(), &|recipe, card| {
                put_on(recipe, card, *layer, on).unwrap_or_else(nothing)
            }),
            Self::Folding(bare, moment) => without_pieces(bare.as_ref(), &|recipe, card| {
                folding(recipe, &with_layers(card, &[]), *moment)
            }),
            Self::PlaceOn(of, side, join) => place_on(recipe, card, *of, *side, Some(*join)),
            Self::GluedIn(piece, on) => glued_in(recipe, &with_layers(card, on), *piece, on),
        }
    }
}

fn nothing() -> Drawing {
    Drawing::framed(Vec::new(), 0.0)
}

/// The card with only those of its layers on.
fn with_layers(card: &Card, on: &[LayerId]) -> Card {
    let mut now = card.clone();
    now.laid.layers.retain(|laid| on.contains(&laid.id));
    now
}

/// Only what has been put on by then is in the picture.
fn put_on(recipe: &Recipe, card: &Card, layer: LayerId, on: &[LayerId]) -> Option<Drawing> {
    let face = card.laid.layer(layer)?.face;
    let reading = card.readings.iter().find(|reading| reading.face == face)?;
    let now = with_layers(card, on);
    Some(state(recipe, &now, reading.state, reading.view))
}

/// The same of a piece that is yet to be glued in.
fn put_on_piece(recipe: &Recipe, card: &Card, layer: LayerId, on: &[LayerId]) -> Drawing {
    let face = card.laid.layer(layer).map(|laid| laid.face);
    let of = face.and_then(|face| recipe.strip_with(face.panel));
    let (Some(face), Some((of, ..))) = (face, of) else {
        return nothing();
    };
    place_on(recipe, &with_layers(card, on), of, face.side, None)
}

/// The card as far as it opens, with no piece that is glued in later.
fn glued_in(recipe: &Recipe, card: &Card, piece: PieceId, on: &[LayerId]) -> Drawing {
    let after = recipe.pieces.iter().skip_while(|it| it.id != piece);
    let after: Vec<_> = after.skip(1).map(|it| it.id).collect();
    let open = |recipe: &Recipe, card: &Card| {
        let states = card.folded.as_ref().map_or(0, |folded| folded.states.len());
        let moment = Moment {
            state: states.saturating_sub(1),
            part: 0.0,
        };
        folding(recipe, card, moment)
    };
    if after.is_empty() {
        return open(recipe, card);
    }
    let mut by_then = recipe.clone();
    for id in after {
        // What is there can be taken away.
        let _ = by_then.remove_piece(id);
    }
    let Bare { recipe, card } = Bare::worked_out(by_then);
    open(&recipe, &with_layers(&card, on))
}
