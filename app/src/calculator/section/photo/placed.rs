//! Where the corners of the sheet are put in a picture that may be turned.

use foldwright_engine::plane::Turn;
use foldwright_photo::{Corners, Spot};

/// How far from the edges of a picture dragging begins, as a share of its sides.
const INSET: f64 = 0.08;

/// The corners of the sheet in a picture as it is looked at, in its pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Placed {
    pub(super) corners: Corners,
    /// How far the picture is turned.
    turn: Turn,
    /// Its width and height before it is turned.
    picture: Spot,
}

impl Placed {
    /// In a picture of that width and height, as it was taken.
    pub(super) fn first([width, height]: Spot) -> Self {
        Self {
            corners: Corners::inset(width, height, INSET),
            turn: Turn::None,
            picture: [width, height],
        }
    }

    /// Width and height of the picture as it is looked at.
    pub(super) fn size(&self) -> Spot {
        let [width, height] = self.picture;
        if self.turn.is_sideways() {
            [height, width]
        } else {
            [width, height]
        }
    }

    /// The same with the picture turned to the right once more.
    pub(super) fn turned(&self) -> Self {
        let [_, height] = self.size();
        Self {
            corners: self.corners.picture_turned(height),
            turn: self.turn.then(Turn::Right),
            ..*self
        }
    }

    /// The corners in the picture as it was taken.
    pub(super) fn as_taken(&self) -> Corners {
        let mut placed = *self;
        while placed.turn != Turn::None {
            let [width, _] = placed.size();
            placed.corners = placed.corners.picture_turned_back(width);
            placed.turn = placed.turn.then(Turn::Left);
        }
        placed.corners
    }

    /// How the picture is drawn where it is looked at, as a `transform` of SVG.
    pub(super) fn transform(&self) -> String {
        let [width, height] = self.picture;
        match self.turn {
            Turn::None => String::new(),
            Turn::Right => format!("matrix(0 1 -1 0 {height} 0)"),
            Turn::Half => format!("matrix(-1 0 0 -1 {width} {height})"),
            Turn::Left => format!("matrix(0 -1 1 0 0 {width})"),
        }
    }

    /// The same with a corner moved, though never out of the picture.
    pub(super) fn moved(&self, number: usize, by: Spot) -> Self {
        let size = self.size();
        let mut placed = *self;
        if let Some(corner) = placed.corners.0.get_mut(number) {
            *corner = [0, 1].map(|i| (corner[i] + by[i]).clamp(0.0, size[i]));
        }
        placed
    }
}
