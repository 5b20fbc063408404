//! Which of the sheets that are seen hides which.

use super::convex::{self, twice_area};
use super::{Spot, space};
use crate::motion::Rigid;
use crate::recipe::Side;

/// How near two sheets may lie to each other and still touch, in millimetres:
/// a thin paper's thickness.
const TOUCHING: f64 = 0.05;

/// How wide what two sheets seen have in common must be for one to hide the
/// other, in millimetres: the picture is no finer.
const SEEN: f64 = 0.01;

/// A sheet where it is in space, as it is seen.
pub(super) struct Sheet {
    pub(super) place: Rigid,
    /// What it covers in the picture, in parts without corners that point
    /// inwards, anticlockwise.
    parts: Vec<(Extent, Vec<Spot>)>,
    extent: Extent,
    /// The side the reader sees.
    pub(super) side: Side,
}

impl Sheet {
    /// A sheet at a place, made up of such parts in its own plane.
    pub(super) fn new(place: Rigid, parts: &[Vec<Spot>]) -> Self {
        let side = if towards(&place) >= 0.0 {
            Side::A
        } else {
            Side::B
        };
        let parts: Vec<_> = parts
            .iter()
            .map(|part| {
                let corners = part.iter().map(|at| space::projected(&place, *at));
                let mut corners: Vec<Spot> = corners.collect();
                if side == Side::B {
                    corners.reverse();
                }
                (Extent::of(&corners), corners)
            })
            .collect();
        let extent = Extent::all(parts.iter().map(|(extent, _)| *extent));
        Self {
            place,
            parts,
            extent,
            side,
        }
    }

    /// How far above the table the sheet's paper is where it is seen at a
    /// place.
    fn height(&self, at: Spot) -> f64 {
        let [nx, ny, nz] = self.place.turn[2];
        let [px, py, pz] = self.place.shift;
        (nx * (px - at[0]) + ny * (py - at[1]) + nz * pz) / towards(&self.place)
    }

    /// By how much this is nearer to the reader than another sheet where they
    /// cover each other, in millimetres, negative where it is farther; there
    /// where they are the farthest apart. `None` where they do not cover each
    /// other.
    fn nearer_than(&self, other: &Self, room: &mut [Vec<Spot>; 2]) -> Option<f64> {
        if !self.extent.meets(&other.extent) {
            return None;
        }
        let mut twice = 0.0;
        let mut extent = Extent::NONE;
        let mut farthest = 0.0_f64;
        for (here, one) in &self.parts {
            if !here.meets(&other.extent) {
                continue;
            }
            for (there, two) in &other.parts {
                if !here.meets(there) {
                    continue;
                }
                let both = convex::common(one, two, room);
                let part = twice_area(both);
                if part <= 0.0 {
                    continue;
                }
                twice += part;
                extent = Extent::all([extent, Extent::of(both)]);
                for at in both {
                    let apart = self.height(*at) - other.height(*at);
                    if apart.abs() > farthest.abs() {
                        farthest = apart;
                    }
                }
            }
        }
        let [width, height] = extent.size();
        (twice > 2.0 * SEEN * (width + height)).then_some(farthest)
    }
}

/// How much of the side A of a sheet is turned to the reader, who looks from
/// the foot of the table.
fn towards(place: &Rigid) -> f64 {
    let [x, y, z] = place.turn[2];
    z - x * super::folded::LIFT[0] - y * super::folded::LIFT[1]
}

/// The rectangle round something seen.
#[derive(Clone, Copy)]
struct Extent {
    low: Spot,
    high: Spot,
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

    fn all(parts: impl IntoIterator<Item = Self>) -> Self {
        parts.into_iter().fold(Self::NONE, |all, part| Self {
            low: [0, 1].map(|i| all.low[i].min(part.low[i])),
            high: [0, 1].map(|i| all.high[i].max(part.high[i])),
        })
    }

    fn meets(&self, other: &Self) -> bool {
        (0..2).all(|i| self.low[i] < other.high[i] && other.low[i] < self.high[i])
    }

    fn size(&self) -> Spot {
        [0, 1].map(|i| (self.high[i] - self.low[i]).max(0.0))
    }
}

/// Sheets from the farthest to the nearest. Of two that cover each other, the
/// one whose paper is nearer there comes later; where they touch, `lies_on`
/// says whether the first lies on the side of the second that is seen.
pub(super) fn farthest_first(
    sheets: &[Sheet],
    lies_on: impl Fn(usize, usize) -> bool,
) -> Vec<usize> {
    let mut room = [Vec::new(), Vec::new()];
    let mut over = Vec::new();
    for (b, back) in sheets.iter().enumerate() {
        for (a, front) in sheets.iter().enumerate().take(b) {
            let Some(nearer) = front.nearer_than(back, &mut room) else {
                continue;
            };
            let ahead = if nearer.abs() > TOUCHING {
                nearer > 0.0
            } else {
                lies_on(a, b)
            };
            over.push(if ahead { (a, b) } else { (b, a) });
        }
    }
    crate::fold::lined_up(&(0..sheets.len()).collect::<Vec<_>>(), &over)
}
