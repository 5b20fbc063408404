//! What a card takes that is not paper, what that costs and weighs, and what of it is
//! bought.

use std::num::NonZeroU32;

use super::Card;
use crate::length::{Length, half_even};
use crate::paper::{Mass, Money, ToBuy};
use crate::plane::Region;
use crate::recipe::{Bought, InPack, Recipe, Supply, Takes, Wraps};

/// How much of something a card takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Supplied {
    /// So many.
    Count(u32),
    /// So much of a length.
    Length(Length),
    /// A part of one, which lasts for so many cards.
    Share(NonZeroU32),
}

impl Supplied {
    /// For so many cards; what is shared, in whole ones.
    #[must_use]
    pub fn times(self, cards: u32) -> Self {
        match self {
            Self::Count(count) => Self::Count(count.saturating_mul(cards)),
            Self::Length(length) => Self::Length(length * i64::from(cards)),
            Self::Share(of) => Self::Count(cards.div_ceil(of.get())),
        }
    }
}

impl Card {
    /// How much a card takes of a supply; `None` of a ribbon where the card does not
    /// close.
    ///
    /// A ribbon goes twice over the closed card and twice over its edges, as thick as
    /// its thickest place; by how much it lies on itself where it crosses is left out.
    pub fn supplied(&self, takes: Takes) -> Option<Supplied> {
        let (wraps, knot) = match takes {
            Takes::Count(count) => return Some(Supplied::Count(count)),
            Takes::Share(of) => return NonZeroU32::new(of).map(Supplied::Share),
            Takes::Ribbon { wraps, knot } => (wraps, knot),
        };
        self.folded.as_ref()?;
        let thickness = self.thickest.map_or(Length::ZERO, |place| place.thickness);
        let round = |side: Length| (side + thickness) * 2;
        let (across, upright) = (round(self.finished.width), round(self.finished.height));
        Some(Supplied::Length(
            knot + match wraps {
                Wraps::Across => across,
                Wraps::Upright => upright,
                Wraps::BothWays => across + upright,
            },
        ))
    }

    /// What part of a pack one card takes, as a fraction; `None` where it is not bought
    /// in what it is counted by.
    fn share(&self, supply: &Supply) -> Option<(i128, i128)> {
        let holds = supply.bought?.holds;
        let (taken, held) = match (self.supplied(supply.takes)?, holds) {
            (Supplied::Count(count), InPack::Count(held)) => (count.into(), held.into()),
            (Supplied::Share(of), InPack::Count(held)) => {
                (1, i128::from(of.get()) * i128::from(held))
            }
            (Supplied::Length(length), InPack::Length(held)) => {
                (length.units().into(), held.units().into())
            }
            _ => return None,
        };
        (held > 0).then_some((taken, held))
    }

    /// What so many cards take of a supply costs, to the nearest hundredth, ties to
    /// even; `None` where that is not known. What is left of a pack costs nothing here.
    pub fn supply_cost(&self, supply: &Supply, cards: u32) -> Option<Money> {
        let price = supply.bought?.price?;
        let (taken, held) = self.share(supply)?;
        Some(price.part(taken * i128::from(cards), held))
    }

    /// What one card takes of a supply weighs, to the nearest microgram, ties to even;
    /// `None` where that is not known.
    pub fn supply_mass(&self, supply: &Supply) -> Option<Mass> {
        let mass = supply.bought?.mass?;
        let (taken, held) = self.share(supply)?;
        let mass = half_even(i128::from(mass.micrograms()) * taken, held);
        Some(Mass::from_micrograms(
            i64::try_from(mass).unwrap_or(i64::MAX),
        ))
    }

    /// What all that is not paper weighs on one card, as far as that is known.
    pub fn supplies_mass(&self, recipe: &Recipe) -> Mass {
        let supplies = recipe.supplies.iter();
        supplies.filter_map(|it| self.supply_mass(it)).sum()
    }

    /// What so many cards take of something beyond what is on hand, which is a count or a
    /// length; `None` where it is not counted so. A ribbon is cut for each card in one
    /// piece, and what is on hand of it is taken to be in one as well.
    pub fn short_of(&self, takes: Takes, cards: u32, on_hand: Supplied) -> Option<Supplied> {
        match (self.supplied(takes)?, on_hand) {
            (Supplied::Length(each), Supplied::Length(held)) => {
                let cards = i64::from(cards).saturating_sub(of_one(held, each));
                Some(Supplied::Length(each * cards.max(0)))
            }
            (each, Supplied::Count(held)) => match each.times(cards) {
                Supplied::Count(all) => Some(Supplied::Count(all.saturating_sub(held))),
                Supplied::Length(_) | Supplied::Share(_) => None,
            },
            _ => None,
        }
    }

    /// What is bought of a supply for so many cards beyond what is on hand, in whole
    /// packs; `None` where that is nothing or not known. A ribbon is cut from a roll for
    /// each card in one piece.
    pub fn to_buy(&self, supply: &Supply, cards: u32, on_hand: Option<Supplied>) -> Option<ToBuy> {
        let Bought { holds, price, .. } = supply.bought?;
        let each = self.supplied(supply.takes)?;
        let needed = match on_hand {
            Some(on_hand) => self.short_of(supply.takes, cards, on_hand)?,
            None => each.times(cards),
        };
        let packs = match (needed, holds) {
            (Supplied::Length(needed), InPack::Length(held)) => {
                let Supplied::Length(each) = each else {
                    return None;
                };
                let cards = of_one(needed, each);
                let of_roll = of_one(held, each);
                let rolls = (of_roll > 0).then(|| (cards + of_roll - 1) / of_roll);
                u32::try_from(rolls?).ok()?
            }
            (Supplied::Count(needed), InPack::Count(held)) => needed.div_ceil(held.max(1)),
            _ => return None,
        };
        (packs > 0).then_some(ToBuy {
            packs,
            costs: price.map(|price| price.times(packs)),
        })
    }

    /// How long a line of glue or a tape is that goes once round the edge of all that is
    /// glued behind the layers, as [`Card::adhesive`] covers it: exact along the edges
    /// of the sheet, and rounded up to a unit on each edge that runs at a slant.
    pub fn glue_run(&self) -> Length {
        let regions = self.glued().flat_map(Region::contours);
        let rings = regions.map(|ring| {
            let next = ring.iter().cycle().skip(1);
            let edges = ring.iter().zip(next);
            let edges = edges.map(|(from, to)| {
                let [x, y] = [to.x - from.x, to.y - from.y].map(|by| by.units().unsigned_abs());
                let square = u128::from(x).pow(2) + u128::from(y).pow(2);
                let whole = square.isqrt();
                let up = whole + u128::from(whole * whole < square);
                Length::from_units(i64::try_from(up).unwrap_or(i64::MAX))
            });
            edges.sum::<Length>()
        });
        rings.sum()
    }
}

/// How many pieces of a length are cut from one that is longer.
fn of_one(whole: Length, each: Length) -> i64 {
    whole.units().max(0) / each.units().max(1)
}
