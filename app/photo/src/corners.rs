//! The corners of a sheet in a photograph of it.

/// A place in a photograph, in pixels.
pub type Spot = [f64; 2];

/// The corners of the sheet as they lie when its print is upright: upper left,
/// upper right, lower right, lower left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corners(pub [Spot; 4]);

/// Why no flat sheet has its corners there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Askew {
    /// The corners are not those of a shape that bulges everywhere, or run the wrong
    /// way round.
    Crossed,
    /// What they hold is too small to be seen.
    Small,
}

/// How many pixels a side of a sheet takes at least. (Own choice: a motif is seen at
/// that size.)
const LEAST: f64 = 64.0;

impl Corners {
    /// Those of a rectangle in the middle of a photograph, a share of its sides from
    /// its edges: where dragging begins.
    pub fn inset(width: f64, height: f64, share: f64) -> Self {
        let (left, top) = (width * share, height * share);
        let (right, bottom) = (width - left, height - top);
        Self([[left, top], [right, top], [right, bottom], [left, bottom]])
    }

    /// The same in a picture of that height that is turned to the right: what was its
    /// lower left corner is its upper left one then.
    #[must_use]
    pub fn picture_turned(self, height: f64) -> Self {
        let mut corners = self.0.map(|[x, y]| [height - y, x]);
        corners.rotate_right(1);
        Self(corners)
    }

    /// Where the same corners of the sheet lie once a picture that is so wide is turned
    /// back to the left.
    #[must_use]
    pub fn picture_turned_back(self, width: f64) -> Self {
        Self(self.0.map(|[x, y]| [y, width - x]))
    }

    /// The corners of a sheet that a camera may have seen, or why they are none.
    pub fn check(&self) -> Result<(), Askew> {
        let [a, b, c, d] = self.0;
        // y runs down, so that a sheet's corners run to the right.
        let bends = [[a, b, c], [b, c, d], [c, d, a], [d, a, b]].map(bend);
        if !bends.iter().all(|bend| *bend > 0.0) {
            return Err(Askew::Crossed);
        }
        let [across, down] = self.sides();
        if across.min(down) < LEAST {
            return Err(Askew::Small);
        }
        Ok(())
    }

    /// How long its longer side is of each two that lie opposite: across and down.
    pub fn sides(&self) -> [f64; 2] {
        let [a, b, c, d] = self.0;
        let long = |p: Spot, q: Spot| (q[0] - p[0]).hypot(q[1] - p[1]);
        [long(a, b).max(long(d, c)), long(a, d).max(long(b, c))]
    }
}

/// Twice the area of a triangle, more than nothing where it runs to the right.
fn bend([a, b, c]: [Spot; 3]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}
