//! Folding a sheet by simple folds, written for the tests only: all layers are
//! folded over along one line at a time, in whole numbers, and what creases that
//! leaves on the sheet and how the layers lie is written down.
//!
//! Lines run upright, level or at 45°, so that mirroring in them keeps whole
//! numbers whole.

/// A point, in twentieths of a millimetre.
pub(crate) type Spot = [i64; 2];

/// The line of all points with `normal · point = off`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Line {
    pub(crate) normal: Spot,
    pub(crate) off: i64,
}

impl Line {
    /// How far a point is beyond the line, in lengths of the normal.
    pub(crate) fn beyond(self, at: Spot) -> i64 {
        self.normal[0] * at[0] + self.normal[1] * at[1] - self.off
    }

    pub(crate) fn mirrored(self, at: Spot) -> Spot {
        let square = self.normal[0] * self.normal[0] + self.normal[1] * self.normal[1];
        let twice = 2 * self.beyond(at);
        [0, 1].map(|way| at[way] - twice * self.normal[way] / square)
    }
}

/// Where a layer lies: its own x and y directions, and its origin.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Lay {
    x: Spot,
    y: Spot,
    shift: Spot,
}

impl Lay {
    const FLAT: Self = Self {
        x: [1, 0],
        y: [0, 1],
        shift: [0, 0],
    };

    pub(crate) fn point(self, at: Spot) -> Spot {
        [0, 1].map(|way| self.x[way] * at[0] + self.y[way] * at[1] + self.shift[way])
    }

    /// The point that comes to lie there.
    fn back(self, at: Spot) -> Spot {
        let at = [at[0] - self.shift[0], at[1] - self.shift[1]];
        // Its directions are square to each other and of length one.
        [self.x, self.y].map(|way| way[0] * at[0] + way[1] * at[1])
    }

    fn over(self, line: Line) -> Self {
        let shift = line.mirrored(self.shift);
        let way = |of: Spot| {
            let end = line.mirrored([self.shift[0] + of[0], self.shift[1] + of[1]]);
            [end[0] - shift[0], end[1] - shift[1]]
        };
        Self {
            x: way(self.x),
            y: way(self.y),
            shift,
        }
    }

    /// Whether its back shows to the front.
    pub(crate) fn is_turned_over(self) -> bool {
        self.x[0] * self.y[1] - self.x[1] * self.y[0] < 0
    }
}

/// A layer of the folded sheet: a convex part of it, corners anticlockwise as
/// drawn on the flat sheet.
#[derive(Debug, Clone)]
pub(crate) struct Layer {
    pub(crate) corners: Vec<Spot>,
    pub(crate) lay: Lay,
}

impl Layer {
    pub(crate) fn placed(&self) -> Vec<Spot> {
        self.corners.iter().map(|at| self.lay.point(*at)).collect()
    }
}

/// A crease on the flat sheet.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Crease {
    pub(crate) from: Spot,
    pub(crate) to: Spot,
    pub(crate) valley: bool,
}

/// A sheet that has been folded some times.
#[derive(Debug, Clone)]
pub(crate) struct Folded {
    /// From the back to the front.
    pub(crate) layers: Vec<Layer>,
    pub(crate) creases: Vec<Crease>,
}

impl Folded {
    /// A flat sheet, its inside to the front.
    pub(crate) fn sheet(width: i64, height: i64) -> Self {
        Self {
            layers: vec![Layer {
                corners: vec![[0, 0], [width, 0], [width, height], [0, height]],
                lay: Lay::FLAT,
            }],
            creases: Vec::new(),
        }
    }

    /// Folds what lies beyond the line over, to the front or to the back. `None`
    /// where the line misses the paper, or where a corner would not be whole.
    pub(crate) fn folded(&self, line: Line, to_front: bool) -> Option<Self> {
        let mut still = Vec::new();
        let mut moved = Vec::new();
        let mut creases = self.creases.clone();
        for layer in &self.layers {
            let [near, far, cut] = split(&layer.placed(), line)?;
            let part = |placed: &[Spot], lay: Lay| Layer {
                corners: placed.iter().map(|at| layer.lay.back(*at)).collect(),
                lay,
            };
            if !near.is_empty() {
                still.push(part(&near, layer.lay));
            }
            if !far.is_empty() {
                moved.push(part(&far, layer.lay.over(line)));
            }
            if let [from, to] = cut[..]
                && !near.is_empty()
                && !far.is_empty()
            {
                creases.push(Crease {
                    from: layer.lay.back(from),
                    to: layer.lay.back(to),
                    // Folding the inside over onto itself makes a valley.
                    valley: to_front != layer.lay.is_turned_over(),
                });
            }
        }
        if creases.len() == self.creases.len() {
            return None;
        }
        moved.reverse();
        let layers = if to_front {
            [still, moved].concat()
        } else {
            [moved, still].concat()
        };
        Some(Self { layers, creases })
    }
}

/// A convex outline parted by a line: what is not beyond it, what is, and the
/// two points of the outline on the line.
fn split(outline: &[Spot], line: Line) -> Option<[Vec<Spot>; 3]> {
    let (mut near, mut far, mut cut) = (Vec::new(), Vec::new(), Vec::new());
    let next = outline.iter().cycle().skip(1);
    for (from, to) in outline.iter().zip(next) {
        let (a, b) = (line.beyond(*from), line.beyond(*to));
        if a <= 0 {
            near.push(*from);
        }
        if a >= 0 {
            far.push(*from);
        }
        if a == 0 {
            cut.push(*from);
        }
        if a.signum() * b.signum() < 0 {
            let part = |way: usize| {
                let (over, under) = ((to[way] - from[way]) * a, a - b);
                (over % under == 0).then(|| from[way] + over / under)
            };
            let at = [part(0)?, part(1)?];
            near.push(at);
            far.push(at);
            cut.push(at);
        }
    }
    let beyond = |part: &Vec<Spot>| part.iter().any(|at| line.beyond(*at) != 0);
    let keep = |part: Vec<Spot>| if beyond(&part) { part } else { Vec::new() };
    Some([keep(near), keep(far), cut])
}

/// Whether two convex outlines have some area in common.
pub(crate) fn overlap(one: &[Spot], other: &[Spot]) -> bool {
    let parts = |edges: &[Spot], points: &[Spot]| {
        let next = edges.iter().cycle().skip(1);
        edges.iter().zip(next).any(|(from, to)| {
            let side = |at: &Spot| {
                (to[0] - from[0]) * (at[1] - from[1]) - (to[1] - from[1]) * (at[0] - from[0])
            };
            let mut inner = edges.iter().map(side);
            let way = inner.find(|side| *side != 0).unwrap_or_default().signum();
            points.iter().all(|at| side(at) * way <= 0)
        })
    };
    !parts(one, other) && !parts(other, one)
}
