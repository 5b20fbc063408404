//! Arrows that show which way a print runs.

use super::{Drawing, Fill, Mark, Spot};
use crate::paper::Print;

/// How many places across an area, and up it, an arrow is tried at.
const TRIED: u32 = 9;

impl Drawing {
    /// The same with an arrow on every part of the card whose print has a
    /// direction, from its feet to its head; with one in each direction where
    /// it reads both ways. What lies over a part lies over its arrow.
    #[must_use]
    pub fn with_heads(self) -> Self {
        let marks = self.marks.into_iter().flat_map(|mark| {
            let arrows = arrows(&mark);
            std::iter::once(mark).chain(arrows)
        });
        Self {
            marks: marks.collect(),
            ..self
        }
    }
}

fn arrows(mark: &Mark) -> Vec<Mark> {
    let Mark::Area {
        outlines,
        fill: Fill::Paper { print, place, .. },
        part: Some(_),
        ..
    } = mark
    else {
        return Vec::new();
    };
    let Some((middle, room)) = roomiest(outlines) else {
        return Vec::new();
    };
    let half = 0.7 * room / place.y[0].hypot(place.y[1]).max(f64::MIN_POSITIVE);
    let at = |share: f64| [0, 1].map(|i| middle[i] + share * half * place.y[i]);
    let arrow = |from, to| Mark::Arrow { from, to };
    match print {
        Print::Plain | Print::AllOver => Vec::new(),
        Print::OneWay => vec![arrow(at(-1.0), at(1.0))],
        Print::TwoWay => vec![arrow(at(0.0), at(1.0)), arrow(at(0.0), at(-1.0))],
    }
}

/// The place within some outlines that is farthest from them, of a few tried,
/// and how far it is.
fn roomiest(outlines: &[Vec<Spot>]) -> Option<(Spot, f64)> {
    let corners = || outlines.iter().flatten();
    let low = [0, 1].map(|i| corners().map(|at| at[i]).fold(f64::INFINITY, f64::min));
    let high = [0, 1].map(|i| corners().map(|at| at[i]).fold(f64::NEG_INFINITY, f64::max));
    let share = |step: u32| (f64::from(step) + 0.5) / f64::from(TRIED);
    let tried = (0..TRIED).flat_map(|x| (0..TRIED).map(move |y| [share(x), share(y)]));
    let spots = tried.map(|share| [0, 1].map(|i| low[i] + share[i] * (high[i] - low[i])));
    let found = spots.filter(|at| is_within(*at, outlines));
    let found = found.map(|at| {
        (
            at,
            edges(outlines)
                .map(|edge| off(at, edge))
                .fold(f64::INFINITY, f64::min),
        )
    });
    found.max_by(|a, b| a.1.total_cmp(&b.1))
}

fn edges(outlines: &[Vec<Spot>]) -> impl Iterator<Item = (Spot, Spot)> + '_ {
    outlines.iter().flat_map(|outline| {
        let next = outline.iter().cycle().skip(1);
        outline.iter().copied().zip(next.copied())
    })
}

/// Whether a place lies within some outlines, of which one in another is a
/// hole.
pub(super) fn is_within(at: Spot, outlines: &[Vec<Spot>]) -> bool {
    let crossed = edges(outlines).filter(|(from, to)| {
        let share = (at[1] - from[1]) / (to[1] - from[1]);
        (from[1] > at[1]) != (to[1] > at[1]) && at[0] < from[0] + share * (to[0] - from[0])
    });
    crossed.count() % 2 == 1
}

/// How far a place is from a straight line.
pub(super) fn off(at: Spot, (from, to): (Spot, Spot)) -> f64 {
    let [along, way] = [to, at].map(|end| [0, 1].map(|i| end[i] - from[i]));
    let long = along[0] * along[0] + along[1] * along[1];
    let share = (along[0] * way[0] + along[1] * way[1]) / long.max(f64::MIN_POSITIVE);
    let share = share.clamp(0.0, 1.0);
    (way[0] - share * along[0]).hypot(way[1] - share * along[1])
}
