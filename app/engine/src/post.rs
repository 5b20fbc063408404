//! How a card is posted: in an envelope that is bought, or in one made for it.

use crate::card::{Card, Tools, work_out};
use crate::envelope::envelope_for;
use crate::length::Length;
use crate::paper::{Envelope, Mail, StockId};
use crate::plane::Size;
use crate::recipe::{Naming, New, Recipe};

/// What a card is posted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PostedIn {
    /// An envelope that is bought.
    Bought(&'static Envelope),
    /// One made for it.
    Made {
        /// Of which of the card's papers.
        of: StockId,
        /// How large it is closed.
        size: Size,
    },
}

/// A card as it is posted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Posted {
    /// Its envelope.
    pub envelope: PostedIn,
    /// Both together.
    pub mail: Mail,
}

/// The card in an envelope made for it, where its maker says so and it can be made; or
/// else in the one its maker chose, or in the tightest that takes it. `None` where there
/// is none, or the card does not close.
///
/// What a made envelope weighs and how thick it is comes of its own pattern and paper;
/// of a bought one it is estimated.
pub fn posted(recipe: &Recipe, card: &Card) -> Option<Posted> {
    let of_card = Mail {
        length: Length::ZERO,
        height: Length::ZERO,
        thickness: card.thickest.map_or(Length::ZERO, |place| place.thickness),
        uneven: card.uneven(recipe),
        mass: card.mass,
    };
    let made = recipe.posting.made_of.and_then(|of| made(recipe, card, of));
    if let Some((of, envelope)) = made {
        let size = envelope.finished;
        let thickness = envelope.thickest.map_or(Length::ZERO, |it| it.thickness);
        return Some(Posted {
            envelope: PostedIn::Made { of, size },
            mail: Mail {
                length: size.width.max(size.height),
                height: size.width.min(size.height),
                thickness: of_card.thickness + thickness,
                mass: of_card.mass + envelope.mass,
                ..of_card
            },
        });
    }
    let envelope = card.envelope(recipe)?;
    Some(Posted {
        envelope: PostedIn::Bought(envelope),
        mail: envelope.around(of_card),
    })
}

/// An envelope for the card as it is made of one of the card's papers.
fn made(recipe: &Recipe, card: &Card, of: StockId) -> Option<(StockId, Card)> {
    recipe.stock(of)?;
    let mut envelope = envelope_for(recipe, card, &Unnamed, &|_| String::new())?;
    envelope.base.strip.stock = of;
    let envelope = work_out(&envelope, &Tools::default());
    envelope.folded.as_ref()?;
    Some((of, envelope))
}

/// Calls nothing anything, where nobody reads a name.
struct Unnamed;

impl Naming for Unnamed {
    fn name(&self, _: New<'_>) -> String {
        String::new()
    }
}
