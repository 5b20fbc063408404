//! Round outlines as polygons.

use super::{Point, Polygon, Rect, Size};
use crate::length::Length;

/// How far the straight pieces that stand for an arc may lie from it. A blade
/// or a die holds a line to a tenth of a millimetre, so that a fiftieth is
/// nothing on paper, and a circle as wide as a card is still drawn by a hundred
/// corners.
pub const FLAT_WITHIN: Length = Length::hundredths_mm(2);

/// The most straight pieces for one arc; only arcs of several metres need as
/// many.
const MOST_PIECES: u32 = 400;

/// Into how many straight pieces an arc over so many radians is broken.
fn pieces(radius: f64, over: f64) -> u32 {
    let within = FLAT_WITHIN.as_units_f64();
    if radius <= within {
        return 1;
    }
    let each = 2.0 * (1.0 - within / radius).acos();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a cast to an integer stops at its ends"
    )]
    let count = (over / each).ceil() as u32;
    count.clamp(1, MOST_PIECES)
}

impl<F> Polygon<F> {
    /// A rectangle whose corners are rounded, each with a quarter of an ellipse
    /// of these radii; an ellipse where they are half of its sides. Radii that
    /// leave no straight side are made smaller.
    pub fn rounded(rect: &Rect<F>, radii: Size) -> Self {
        let size = rect.size();
        let held = |radius: Length, side: Length| radius.min(side.half_down()).max(Length::ZERO);
        let (across, up) = (
            held(radii.width, size.width),
            held(radii.height, size.height),
        );
        if across == Length::ZERO || up == Length::ZERO {
            return Self::from(*rect);
        }
        let (a, b) = (across.as_units_f64(), up.as_units_f64());
        let count = pieces(a.max(b), std::f64::consts::FRAC_PI_2);
        // How far the curve stays from the two sides, from one to the other.
        let insets: Vec<_> = (0..=count)
            .map(|step| {
                let turn = std::f64::consts::FRAC_PI_2 * f64::from(step) / f64::from(count);
                let (sin, cos) = turn.sin_cos();
                (
                    Length::near_units(a * (1.0 - sin)),
                    Length::near_units(b * (1.0 - cos)),
                )
            })
            .collect();
        let (low, high) = (rect.low, rect.high);
        let mut corners = Vec::with_capacity(insets.len() * 4);
        for (x, y) in &insets {
            corners.push(Point::new(high.x - *x, low.y + *y));
        }
        for (x, y) in insets.iter().rev() {
            corners.push(Point::new(high.x - *x, high.y - *y));
        }
        for (x, y) in &insets {
            corners.push(Point::new(low.x + *x, high.y - *y));
        }
        for (x, y) in insets.iter().rev() {
            corners.push(Point::new(low.x + *x, low.y + *y));
        }
        corners.dedup();
        if corners.first() == corners.last() {
            corners.pop();
        }
        Self { corners }
    }
}

/// The points of an arc between its ends. In its middle it lies `rise` to the
/// right of the straight way from one end to the other, to the left for less
/// than nothing. None where it is no more than that way.
pub fn arc<F>(from: Point<F>, to: Point<F>, rise: Length) -> Vec<Point<F>> {
    let (x, y) = (
        (to.x - from.x).as_units_f64(),
        (to.y - from.y).as_units_f64(),
    );
    let (chord, high) = (x.hypot(y), rise.as_units_f64());
    if chord <= 0.0 || high.abs() <= FLAT_WITHIN.as_units_f64() {
        return Vec::new();
    }
    let radius = (chord * chord / 4.0 + high * high) / (2.0 * high.abs());
    let half = 2.0 * (2.0 * high.abs() / chord).atan();
    let count = pieces(radius, 2.0 * half);
    let (right, along) = ([y / chord, -x / chord], [x / chord, y / chord]);
    (1..count)
        .map(|step| {
            let turn = half * (2.0 * f64::from(step) / f64::from(count) - 1.0);
            let way = chord / 2.0 + radius * turn.sin();
            let out = radius * (turn.cos() - half.cos()) * high.signum();
            Point::new(
                from.x + Length::near_units(along[0] * way + right[0] * out),
                from.y + Length::near_units(along[1] * way + right[1] * out),
            )
        })
        .collect()
}
