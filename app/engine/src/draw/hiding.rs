//! Which of the sheets that are seen hides which.

use super::Spot;
use super::convex::{self, twice_area};
use super::direction::Projection;
use crate::motion::Rigid;
use crate::recipe::Side;

/// How near two sheets may lie to each other and still touch, in millimetres:
/// a thin paper's thickness.
pub(super) const TOUCHING: f64 = 0.05;

/// How wide what two sheets seen have in common must be for one to hide the
/// other, in millimetres: the picture is no finer.
const SEEN: f64 = 0.01;

/// A sheet where it is in space, as it is seen.
pub(super) struct Sheet {
    pub(super) place: Rigid,
    /// How near its paper is to the reader: as it grows to the right, up, and
    /// from where.
    nearness: [f64; 3],
    /// What it covers in the picture, in parts without corners that point
    /// inwards, anticlockwise.
    parts: Vec<(Extent, Vec<Spot>)>,
    pub(super) extent: Extent,
    /// The side the reader sees.
    pub(super) side: Side,
}

impl Sheet {
    /// A sheet at a place, made up of such parts in its own plane.
    pub(super) fn new(place: Rigid, parts: &[Vec<Spot>], from: &Projection) -> Self {
        let side = if from.turned_to(&place) >= 0.0 {
            Side::A
        } else {
            Side::B
        };
        let parts: Vec<_> = parts
            .iter()
            .map(|part| {
                let corners = part.iter().map(|at| from.of_flat(&place, *at));
                let mut corners: Vec<Spot> = corners.collect();
                if side == Side::B {
                    corners.reverse();
                }
                (Extent::of(&corners), corners)
            })
            .collect();
        let extent = Extent::all(parts.iter().map(|(extent, _)| *extent));
        Self {
            nearness: from.nearness(&place),
            place,
            parts,
            extent,
            side,
        }
    }

    /// How near to the reader the sheet's paper is where it is seen at a place.
    pub(super) fn near(&self, at: Spot) -> f64 {
        let [right, up, here] = self.nearness;
        here + at[0] * right + at[1] * up
    }

    /// Whether it is seen at a place where nothing is nearer.
    pub(super) fn covers(&self, at: Spot) -> bool {
        let mut parts = self.parts.iter();
        parts.any(|(extent, part)| extent.holds(at) && convex::holds(part, at))
    }

    /// Whether it covers another one, or is covered by it.
    pub(super) fn meets(&self, other: &Self) -> bool {
        self.nearer_than(other, &mut [Vec::new(), Vec::new()])
            .is_some()
    }

    /// By how much this is nearer to the reader than another sheet where they
    /// cover each other, in millimetres, negative where it is farther: the
    /// least and the most. `None` where they do not cover each other.
    fn nearer_than(&self, other: &Self, room: &mut [Vec<Spot>; 2]) -> Option<[f64; 2]> {
        let mut twice = 0.0;
        let mut extent = Extent::NONE;
        let mut apart = [f64::INFINITY, f64::NEG_INFINITY];
        self.each_common(other, room, |both| {
            twice += twice_area(both);
            extent = Extent::all([extent, Extent::of(both)]);
            for at in both {
                let here = self.near(*at) - other.near(*at);
                apart = [apart[0].min(here), apart[1].max(here)];
            }
        });
        let [width, height] = extent.size();
        (twice > 2.0 * SEEN * (width + height)).then_some(apart)
    }

    /// Where this and another sheet cover each other and this is nearer, or
    /// wherever they do for sheets that are on one side of each other.
    fn hides(&self, other: &Self, is_beside: bool, room: &mut [Vec<Spot>; 2]) -> Vec<Vec<Spot>> {
        let mut all = Vec::new();
        self.each_common(other, room, |both| {
            let apart = |at: Spot| self.near(at) - other.near(at);
            all.push(if is_beside {
                both.to_vec()
            } else {
                convex::where_positive(both, apart)
            });
        });
        all
    }

    /// Does something with each part of what this and another sheet both cover.
    fn each_common(&self, other: &Self, room: &mut [Vec<Spot>; 2], mut run: impl FnMut(&[Spot])) {
        if !self.extent.meets(&other.extent) {
            return;
        }
        for (here, one) in &self.parts {
            if !here.meets(&other.extent) {
                continue;
            }
            for (there, two) in &other.parts {
                if here.meets(there) {
                    let both = convex::common(one, two, room);
                    if twice_area(both) > 0.0 {
                        run(both);
                    }
                }
            }
        }
    }
}

/// The rectangle round something seen.
#[derive(Clone, Copy)]
pub(super) struct Extent {
    pub(super) low: Spot,
    pub(super) high: Spot,
}

impl Extent {
    const NONE: Self = Self {
        low: [f64::INFINITY; 2],
        high: [f64::NEG_INFINITY; 2],
    };

    fn of(corners: &[Spot]) -> Self {
        Self::all(corners.iter().map(|at| Self {
            low: *at,
            high: *at,
        }))
    }

    pub(super) fn all(parts: impl IntoIterator<Item = Self>) -> Self {
        parts.into_iter().fold(Self::NONE, |all, part| Self {
            low: [0, 1].map(|i| all.low[i].min(part.low[i])),
            high: [0, 1].map(|i| all.high[i].max(part.high[i])),
        })
    }

    fn holds(&self, at: Spot) -> bool {
        (0..2).all(|i| self.low[i] <= at[i] && at[i] <= self.high[i])
    }

    fn meets(&self, other: &Self) -> bool {
        (0..2).all(|i| self.low[i] < other.high[i] && other.low[i] < self.high[i])
    }

    fn size(&self) -> Spot {
        [0, 1].map(|i| (self.high[i] - self.low[i]).max(0.0))
    }
}

/// A sheet in the order of painting.
pub(super) struct Turn {
    /// Which of the sheets.
    pub(super) number: usize,
    /// Where sheets painted before are nearer: it does not show there.
    pub(super) hidden: Vec<Vec<Spot>>,
}

/// Two sheets that cover each other, the one that is nearer first, and whether
/// it is so only in part.
struct Met {
    front: usize,
    back: usize,
    only_in_part: bool,
}

/// Sheets from the farthest to the nearest. Of two that cover each other, the
/// one whose paper is nearer there comes later; where they touch, `lies_on`
/// says whether the first lies on the side of the second that is seen. Where
/// no order is right, since sheets go through each other's planes or lie in a
/// ring, what is hidden of the later one is told.
pub(super) fn farthest_first(
    sheets: &[&Sheet],
    lies_on: impl Fn(usize, usize) -> bool,
) -> Vec<Turn> {
    let mut room = [Vec::new(), Vec::new()];
    let mut met = Vec::new();
    for (b, back) in sheets.iter().enumerate() {
        for (a, front) in sheets.iter().enumerate().take(b) {
            let Some([least, most]) = front.nearer_than(back, &mut room) else {
                continue;
            };
            let is_ahead = if most.max(-least) > TOUCHING {
                most > -least
            } else {
                lies_on(a, b)
            };
            let (front, back) = if is_ahead { (a, b) } else { (b, a) };
            met.push(Met {
                front,
                back,
                only_in_part: most > TOUCHING && -least > TOUCHING,
            });
        }
    }
    let over: Vec<_> = met.iter().map(|met| (met.front, met.back)).collect();
    let order = crate::fold::lined_up(&(0..sheets.len()).collect::<Vec<_>>(), over.iter().copied());
    let mut position = vec![0; sheets.len()];
    for (at, number) in order.iter().enumerate() {
        position[*number] = at;
    }
    let mut turns: Vec<Turn> = order
        .into_iter()
        .map(|number| Turn {
            number,
            hidden: Vec::new(),
        })
        .collect();
    for Met {
        front,
        back,
        only_in_part,
    } in met
    {
        let is_in_turn = position[front] > position[back];
        if is_in_turn && !only_in_part {
            continue;
        }
        let (first, last) = if is_in_turn {
            (back, front)
        } else {
            (front, back)
        };
        let hidden = sheets[first].hides(sheets[last], !only_in_part, &mut room);
        turns[position[last]].hidden.extend(hidden);
    }
    turns
}
