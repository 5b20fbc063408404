//! Vectors and rigid placements in space, just what the motion needs.

/// A point or direction in space, millimetres or a unit vector.
pub type Vector = [f64; 3];

pub(super) const ORIGIN: Vector = [0.0; 3];

pub(crate) fn add(a: Vector, b: Vector) -> Vector {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

pub(crate) fn sub(a: Vector, b: Vector) -> Vector {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(crate) fn scale(a: Vector, by: f64) -> Vector {
    [a[0] * by, a[1] * by, a[2] * by]
}

pub(crate) fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn cross(a: Vector, b: Vector) -> Vector {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

pub(crate) fn length(a: Vector) -> f64 {
    dot(a, a).sqrt()
}

/// A point of a flat part, on its plane.
pub(super) fn flat(at: [f64; 2]) -> Vector {
    [at[0], at[1], 0.0]
}

/// Where a rigid part lies in space: a turn, then a shift. Distances are kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rigid {
    /// Where the part's x, y and z directions point. The third is the way
    /// side A of a facet faces.
    pub turn: [Vector; 3],
    /// Where the part's origin lies, in millimetres.
    pub shift: Vector,
}

impl Rigid {
    /// Where the part itself is measured.
    pub const HERE: Self = Self {
        turn: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
        shift: ORIGIN,
    };

    /// Where a point of the part lies.
    #[must_use]
    pub fn point(&self, at: Vector) -> Vector {
        add(self.direction(at), self.shift)
    }

    /// Where a direction of the part points.
    #[must_use]
    pub fn direction(&self, way: Vector) -> Vector {
        let [x, y, z] = self.turn;
        add(add(scale(x, way[0]), scale(y, way[1])), scale(z, way[2]))
    }

    /// `inner` first, then this.
    #[must_use]
    pub fn after(&self, inner: &Self) -> Self {
        Self {
            turn: inner.turn.map(|way| self.direction(way)),
            shift: self.point(inner.shift),
        }
    }

    /// The placement that undoes this one.
    #[must_use]
    pub fn undone(&self) -> Self {
        let [x, y, z] = self.turn;
        let turn = [[x[0], y[0], z[0]], [x[1], y[1], z[1]], [x[2], y[2], z[2]]];
        let back = Self {
            turn,
            shift: ORIGIN,
        };
        Self {
            turn,
            shift: scale(back.direction(self.shift), -1.0),
        }
    }

    /// The turn by `angle` radians, right-handed, about the line through
    /// `at` along the unit vector `axis` (Rodrigues' formula).
    pub(crate) fn about(at: Vector, axis: Vector, angle: f64) -> Self {
        let (sin, cos) = angle.sin_cos();
        let turn = Self::HERE.turn.map(|way| {
            add(
                add(scale(way, cos), scale(cross(axis, way), sin)),
                scale(axis, dot(axis, way) * (1.0 - cos)),
            )
        });
        let turned = Self {
            turn,
            shift: ORIGIN,
        };
        Self {
            turn,
            shift: sub(at, turned.direction(at)),
        }
    }
}

/// How a flat part lies on another: first mirrored left to right (when it is
/// turned over), then turned, then shifted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lay {
    /// Whether the part lies turned over.
    pub mirrored: bool,
    /// The turn after the mirroring, anticlockwise, in radians.
    pub turn: f64,
    /// Where the part's origin comes to lie, in millimetres.
    pub shift: [f64; 2],
}

impl Lay {
    /// A part measured in the same coordinates as what carries it.
    pub const SAME: Self = Self {
        mirrored: false,
        turn: 0.0,
        shift: [0.0; 2],
    };

    /// The same in space: turning over swaps the sides.
    #[must_use]
    pub fn in_space(&self) -> Rigid {
        let (sin, cos) = self.turn.sin_cos();
        let way = if self.mirrored { -1.0 } else { 1.0 };
        Rigid {
            turn: [
                [way * cos, way * sin, 0.0],
                [-sin, cos, 0.0],
                [0.0, 0.0, way],
            ],
            shift: flat(self.shift),
        }
    }
}
