//! A photographed sheet, seen from straight above.

use crate::corners::{Askew, Corners, Spot};
use crate::pixels::Pixels;

/// As many pixels as the longer side of a flattened sheet has at most: more than
/// six a millimetre of a sheet a foot long, which no screen shows of a card.
pub const LARGEST: u32 = 2048;

/// How a photographed sheet is laid flat.
///
/// A camera maps a flat sheet by a perspective map, which four corners tell (P.
/// Heckbert, "Fundamentals of Texture Mapping and Image Warping", 1989, section
/// 2.2.3; from memory).
#[derive(Debug, Clone, PartialEq)]
pub struct Flattening {
    /// From the unit square, y down, to the photograph: x, y and the share by which
    /// both are divided.
    map: [[f64; 3]; 3],
    size: [u32; 2],
}

impl Flattening {
    /// For a sheet of that width and height, in any unit, with its corners there.
    pub fn new(corners: &Corners, [width, height]: [f64; 2]) -> Result<Self, Askew> {
        corners.check()?;
        // As fine as the photograph shows it, and no finer.
        let [across, down] = corners.sides();
        let fine = (across / width).max(down / height);
        let fine = fine.min(f64::from(LARGEST) / width.max(height));
        Ok(Self {
            map: map(&corners.0),
            size: [width, height].map(|side| pixels(side * fine)),
        })
    }

    /// How many pixels it has beside and above each other.
    pub fn size(&self) -> [u32; 2] {
        self.size
    }

    /// Where in the photograph a place of the sheet is seen, which is told by its
    /// shares of the width, from the left, and of the height, from the top.
    pub fn seen_at(&self, [u, v]: [f64; 2]) -> Spot {
        let [x, y, by] = self.map.map(|[a, b, c]| a * u + b * v + c);
        [x / by, y / by]
    }

    /// The pixels of some of its rows, counted from the top, four bytes each.
    pub fn rows(&self, photo: &Pixels, rows: std::ops::Range<u32>) -> Vec<u8> {
        let [width, height] = self.size;
        let rows = rows.start.min(height)..rows.end.min(height);
        let mut out = vec![u8::MAX; rows.len() * width as usize * 4];
        let mut pixels = out.chunks_exact_mut(4);
        for row in rows {
            let v = (f64::from(row) + 0.5) / f64::from(height);
            for (column, pixel) in (0..width).zip(&mut pixels) {
                let u = (f64::from(column) + 0.5) / f64::from(width);
                let colour = photo.between(self.seen_at([u, v]));
                pixel[..3].copy_from_slice(&colour);
            }
        }
        out
    }
}

/// The perspective map from the unit square whose corners come to lie there.
fn map([first, right, far, down]: &[Spot; 4]) -> [[f64; 3]; 3] {
    let from_far = |at: &Spot| [at[0] - far[0], at[1] - far[1]];
    let (one, two) = (from_far(right), from_far(down));
    let bent = [0, 1].map(|i| first[i] - right[i] + far[i] - down[i]);
    let cross = |p: Spot, q: Spot| p[0] * q[1] - p[1] * q[0];
    // More than nothing: the corners bulge everywhere.
    let all = cross(one, two);
    let [across, along] = [cross(bent, two) / all, cross(one, bent) / all];
    let row = |i: usize| {
        [
            right[i] - first[i] + across * right[i],
            down[i] - first[i] + along * down[i],
            first[i],
        ]
    };
    [row(0), row(1), [across, along, 1.0]]
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a cast stops at the ends, and no side is longer than the largest"
)]
fn pixels(side: f64) -> u32 {
    (side.round() as u32).clamp(1, LARGEST)
}
