//! What a body rests on, and whether it stays there.

use crate::length::Length;
use crate::sorted::InOrder as _;

/// How near the edge of what it rests on the centre of mass may be for nobody to
/// know whether it stays, in millimetres: a draught, or how straight it was cut,
/// decides. (Own choice.)
const UNCERTAIN: f64 = 0.5;

/// Whether something stays where it rests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Footing {
    /// It stays: its centre of mass is so many millimetres within what it rests
    /// on.
    Firm(f64),
    /// It balances, and nobody knows: so many millimetres within, or beyond
    /// where negative.
    Uncertain(f64),
    /// It tips: its centre of mass is so many millimetres beyond what it rests
    /// on.
    Tips(f64),
}

/// Whether a card that is set down partly open stays standing, as makers ask.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// It does: its weight can move so far before it tips.
    Firm(Length),
    /// It balances, and the paper decides.
    Barely,
    /// It does not.
    Falls,
}

impl Stands {
    /// By how it rests.
    pub(crate) fn of(footing: Footing) -> Self {
        match footing {
            Footing::Firm(margin) => Self::Firm(Length::near_mm(margin)),
            Footing::Uncertain(_) => Self::Barely,
            Footing::Tips(_) => Self::Falls,
        }
    }
}

/// What a body rests on: the corners of the smallest area without dents round
/// the places where it touches the table, anticlockwise.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Support(pub(super) Vec<[f64; 2]>);

/// Where a centre of mass lies over what a body rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Over {
    /// How far within, or beyond where negative, in millimetres.
    pub(super) margin: f64,
    /// The nearest place of the edge.
    pub(super) nearest: [f64; 2],
}

impl Support {
    /// Round some places (A. M. Andrew, "Another efficient algorithm for convex
    /// hulls in two dimensions", 1979).
    pub(super) fn round(mut places: Vec<[f64; 2]>) -> Self {
        places.put_in_order_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
        places.dedup();
        if places.len() < 3 {
            return Self(places);
        }
        let half = |places: &mut dyn Iterator<Item = [f64; 2]>| {
            let mut chain: Vec<[f64; 2]> = Vec::new();
            for at in places {
                while let [.., a, b] = chain[..] {
                    if turn(a, b, at) > 0.0 {
                        break;
                    }
                    chain.pop();
                }
                chain.push(at);
            }
            chain.pop();
            chain
        };
        let mut ring = half(&mut places.iter().copied());
        ring.extend(half(&mut places.iter().rev().copied()));
        Self(ring)
    }

    /// Where a place lies over it; `None` where there is nothing to rest on.
    pub(super) fn over(&self, at: [f64; 2]) -> Option<Over> {
        let ring = &self.0;
        let edges = ring.iter().zip(ring.iter().cycle().skip(1));
        let mut is_within = ring.len() > 2;
        let mut best: Option<(f64, [f64; 2])> = None;
        for (from, to) in edges {
            is_within &= turn(*from, *to, at) > 0.0;
            let nearest = nearest_of([*from, *to], at);
            let far = (at[0] - nearest[0]).hypot(at[1] - nearest[1]);
            if best.is_none_or(|(least, _)| far < least) {
                best = Some((far, nearest));
            }
        }
        let (far, nearest) = best?;
        let margin = if is_within { far } else { -far };
        Some(Over { margin, nearest })
    }
}

impl Over {
    pub(super) fn footing(&self) -> Footing {
        if self.margin.abs() <= UNCERTAIN {
            Footing::Uncertain(self.margin)
        } else if self.margin > 0.0 {
            Footing::Firm(self.margin)
        } else {
            Footing::Tips(-self.margin)
        }
    }
}

fn nearest_of([from, to]: [[f64; 2]; 2], at: [f64; 2]) -> [f64; 2] {
    let way = [to[0] - from[0], to[1] - from[1]];
    let square = way[0] * way[0] + way[1] * way[1];
    if square <= 0.0 {
        return from;
    }
    let along = (at[0] - from[0]) * way[0] + (at[1] - from[1]) * way[1];
    let share = (along / square).clamp(0.0, 1.0);
    [0, 1].map(|i| from[i] + share * way[i])
}

/// Twice the area of a triangle; positive where its corners go anticlockwise.
fn turn(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}
