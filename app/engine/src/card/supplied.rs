//! What a card takes that is not paper.

use super::Card;
use crate::length::Length;
use crate::plane::Region;
use crate::recipe::{Takes, Wraps};

/// How much of something a card takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Supplied {
    /// So many.
    Count(u32),
    /// So much of a length.
    Length(Length),
}

impl Supplied {
    /// For so many cards.
    #[must_use]
    pub fn times(self, cards: u32) -> Self {
        match self {
            Self::Count(count) => Self::Count(count.saturating_mul(cards)),
            Self::Length(length) => Self::Length(length * i64::from(cards)),
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
