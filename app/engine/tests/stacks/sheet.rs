//! A flat sheet folded by reflection, written without the code under test.

use foldwright_engine::fold::{Facet, Hinge, Stack};
use foldwright_engine::length::Length;
use foldwright_engine::plane::{CardFrame, Point, Polygon, Region};
use foldwright_engine::recipe::Fold;

/// A point in millimetres.
pub(crate) type Spot = [f64; 2];

/// Panels of a flat sheet, the creases between them, and how the sheet lies
/// turned on the table.
#[derive(Default)]
pub(crate) struct Sheet {
    pub(crate) panels: Vec<Vec<Spot>>,
    /// The panels on either side of each crease, and its ends.
    pub(crate) creases: Vec<(usize, usize, [Spot; 2])>,
    pub(crate) turned: f64,
}

/// Where a panel lies: mirrored or not, turned by an angle, moved.
#[derive(Clone, Copy)]
struct Place {
    rows: [Spot; 2],
    shift: Spot,
    mirrored: bool,
}

impl Place {
    fn turned(degrees: f64) -> Self {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Self {
            rows: [[cos, -sin], [sin, cos]],
            shift: [0.0, 0.0],
            mirrored: false,
        }
    }

    fn point(&self, at: Spot) -> Spot {
        [0, 1].map(|axis| {
            let row = self.rows[axis];
            row[0] * at[0] + row[1] * at[1] + self.shift[axis]
        })
    }

    /// What lies so, first mirrored in a line.
    fn after_folding_over(&self, [from, to]: [Spot; 2]) -> Self {
        let (x, y) = (to[0] - from[0], to[1] - from[1]);
        let square = x * x + y * y;
        let rows = [
            [(x * x - y * y) / square, 2.0 * x * y / square],
            [2.0 * x * y / square, (y * y - x * x) / square],
        ];
        let kept =
            [0, 1].map(|axis| from[axis] - rows[axis][0] * from[0] - rows[axis][1] * from[1]);
        Self {
            rows: [0, 1].map(|axis| {
                let row = self.rows[axis];
                [0, 1].map(|column| row[0] * rows[0][column] + row[1] * rows[1][column])
            }),
            shift: self.point(kept),
            mirrored: !self.mirrored,
        }
    }
}

pub(crate) fn point([x, y]: Spot) -> Point<CardFrame> {
    let length = |mm: f64| {
        #[expect(clippy::cast_possible_truncation, reason = "a sheet fits a table")]
        let units = (mm * 72_000.0).round() as i64;
        Length::from_units(units)
    };
    Point::new(length(x), length(y))
}

pub(crate) fn region(corners: &[Spot]) -> Region<CardFrame> {
    let corners = corners.iter().copied().map(point).collect();
    Region::from(&Polygon { corners })
}

/// Reads "MV-": mountain, valley, either.
pub(crate) fn folds(labels: &str) -> Vec<Option<Fold>> {
    labels
        .chars()
        .map(|label| match label {
            'M' => Some(Fold::Mountain),
            'V' => Some(Fold::Valley),
            _ => None,
        })
        .collect()
}

pub(crate) fn every_labelling(creases: usize) -> impl Iterator<Item = String> {
    (0..1_usize << creases).map(move |bits| {
        (0..creases)
            .map(|crease| if bits >> crease & 1 == 0 { 'M' } else { 'V' })
            .collect()
    })
}

/// The same stack with its creases labelled anew.
pub(crate) fn labelled(stack: &Stack, labels: &str) -> Stack {
    let mut stack = stack.clone();
    for (hinge, fold) in stack.hinges.iter_mut().zip(folds(labels)) {
        hinge.fold = fold;
    }
    stack
}

impl Sheet {
    /// Panels beside each other, of these lengths.
    pub(crate) fn strip(lengths: &[f64], turned: f64) -> Self {
        Self::map(lengths, &[30.0], turned)
    }

    /// Rows of panels with creases along and across. The creases of a column's
    /// panels to the next column come first, then those to the next row.
    pub(crate) fn map(widths: &[f64], heights: &[f64], turned: f64) -> Self {
        let marks = |lengths: &[f64]| {
            let mut marks = vec![0.0];
            for length in lengths {
                marks.push(marks[marks.len() - 1] + length);
            }
            marks
        };
        let (x, y) = (marks(widths), marks(heights));
        let name = |column: usize, row: usize| column * heights.len() + row;
        let mut sheet = Self {
            turned,
            ..Self::default()
        };
        for column in 0..widths.len() {
            for row in 0..heights.len() {
                let (left, right) = (x[column], x[column + 1]);
                let (low, high) = (y[row], y[row + 1]);
                let corners = vec![[left, low], [right, low], [right, high], [left, high]];
                sheet.panels.push(corners);
                if column > 0 {
                    let ends = [[left, low], [left, high]];
                    let panels = (name(column - 1, row), name(column, row));
                    sheet.creases.push((panels.0, panels.1, ends));
                }
                if row > 0 {
                    let ends = [[left, low], [right, low]];
                    let panels = (name(column, row - 1), name(column, row));
                    sheet.creases.push((panels.0, panels.1, ends));
                }
            }
        }
        sheet
    }

    /// Sectors round a point, by their angles in degrees. Each crease lies
    /// between a sector and the next, the last before the first.
    pub(crate) fn vertex(sectors: &[f64], turned: f64) -> Self {
        let mut angle: f64 = 0.0;
        let at = |degrees: f64| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            [cos * 70.0, sin * 70.0]
        };
        let mut sheet = Self {
            turned,
            ..Self::default()
        };
        for (place, sector) in sectors.iter().enumerate() {
            // A corner half-way round keeps wide sectors from being slivers.
            let middle = at(angle + sector / 2.0);
            let corners = vec![[0.0, 0.0], at(angle), middle, at(angle + sector)];
            angle += sector;
            sheet.panels.push(corners);
            let next = (place + 1) % sectors.len();
            sheet.creases.push((place, next, [[0.0, 0.0], at(angle)]));
        }
        sheet
    }

    /// The sheet with every crease folded, each either way.
    pub(crate) fn folded(&self) -> Stack {
        let mut places: Vec<Option<Place>> = vec![None; self.panels.len()];
        places[0] = Some(Place::turned(self.turned));
        for _ in &self.panels {
            for (a, b, ends) in &self.creases {
                match (places[*a], places[*b]) {
                    (Some(known), None) => places[*b] = Some(known.after_folding_over(*ends)),
                    (None, Some(known)) => places[*a] = Some(known.after_folding_over(*ends)),
                    _ => {}
                }
            }
        }
        let panels = self.panels.iter().zip(&places);
        let facets = panels.filter_map(|(corners, place)| {
            let place = (*place)?;
            let corners: Vec<_> = corners.iter().map(|at| place.point(*at)).collect();
            Some(Facet {
                area: region(&corners),
                mirrored: place.mirrored,
            })
        });
        let hinges = self.creases.iter().filter_map(|(a, b, ends)| {
            let place = places[*a]?;
            Some(Hinge {
                a: *a,
                b: *b,
                from: point(place.point(ends[0])),
                to: point(place.point(ends[1])),
                fold: None,
            })
        });
        Stack {
            facets: facets.collect(),
            hinges: hinges.collect(),
            bonds: Vec::new(),
        }
    }
}
