//! The outlines of a drawing, of which a maker takes one.

use foldwright_engine::length::Length;
use foldwright_engine::plane::{FLAT_WITHIN, FaceFrame, Point, Polygon, Size};
use foldwright_engine::recipe::{MOST_TRACED, Traced, Untraced};

use crate::ring::Ring;
use crate::walk::{Counts, LeftOut};

/// The most outlines that are offered: the largest of a drawing. Our own bound.
pub const MOST_OUTLINES: usize = 40;

/// The most that are compared. Our own bound.
const MOST_RINGS: usize = 400;

/// The outlines of a drawing.
#[derive(Debug, Clone)]
pub struct Drawing {
    /// Each closed outline, the largest first.
    pub outlines: Vec<Found>,
    /// What was left out, and how often.
    pub left_out: Vec<(LeftOut, usize)>,
}

/// A closed outline with the holes in it: what lies directly in it.
#[derive(Debug, Clone)]
pub struct Found {
    rim: Ring,
    holes: Vec<Ring>,
    told: bool,
}

/// Why an outline can't be taken at a width.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unfit {
    /// It would be larger than anything of a recipe, or nothing.
    Size,
    /// It is no outline that can be cut.
    Outline(Untraced),
}

impl Drawing {
    pub(crate) fn of(mut rings: Vec<Ring>, left_out: &mut Counts, told: bool) -> Option<Self> {
        let mut smaller = 0;
        rings.sort_by(|a, b| b.area().total_cmp(&a.area()));
        smaller += rings.len().saturating_sub(MOST_RINGS);
        rings.truncate(MOST_RINGS);
        // An outline that is filled and drawn again as a line is one outline.
        let mut once: Vec<Ring> = Vec::new();
        for ring in rings {
            if !once.iter().any(|known| known.is_same(&ring)) {
                once.push(ring);
            }
        }
        smaller += once.len().saturating_sub(MOST_OUTLINES);
        // The smallest of those before it that holds it is what it lies in.
        let within: Vec<Option<usize>> = (0..once.len())
            .map(|inner| {
                (0..inner)
                    .rev()
                    .find(|outer| once[*outer].holds(&once[inner]))
            })
            .collect();
        let outlines = once.iter().enumerate().take(MOST_OUTLINES);
        let outlines: Vec<_> = outlines
            .map(|(index, rim)| {
                let holes = once.iter().zip(&within);
                let holes = holes.filter(|(_, outer)| **outer == Some(index));
                Found {
                    rim: rim.clone(),
                    holes: holes.map(|(hole, _)| hole.clone()).collect(),
                    told,
                }
            })
            .collect();
        if smaller > 0 {
            left_out.insert(LeftOut::Smaller, smaller);
        }
        let left_out = left_out
            .iter()
            .map(|(what, count)| (*what, *count))
            .collect();
        (!outlines.is_empty()).then_some(Self { outlines, left_out })
    }
}

impl Found {
    /// How large it is by the file, in millimetres; `None` where the file does not tell.
    pub fn size(&self) -> Option<Size> {
        let bounds = self.rim.bounds();
        self.told.then(|| Size {
            width: Length::near_mm(bounds.width()),
            height: Length::near_mm(bounds.height()),
        })
    }

    /// How many holes are in it.
    pub fn holes(&self) -> usize {
        self.holes.len()
    }

    /// A picture of it as the data of a path, filled by the rule `evenodd`, within a
    /// square of so many units, y down.
    pub fn picture(&self, side: f64) -> String {
        use std::fmt::Write as _;
        let bounds = self.rim.bounds();
        let scale = side / bounds.width().max(bounds.height());
        let spare = [bounds.width(), bounds.height()].map(|of| (side - of * scale) / 2.0);
        let mut data = String::new();
        for ring in self.holes.iter().chain([&self.rim]) {
            for (index, at) in ring.corners().iter().enumerate() {
                let x = (at.x - bounds.x0) * scale + spare[0];
                let y = (bounds.y1 - at.y) * scale + spare[1];
                let command = if index == 0 { 'M' } else { 'L' };
                // A string takes whatever is written.
                let _ = write!(data, "{command}{x:.1} {y:.1}");
            }
            data.push('Z');
        }
        data
    }

    /// The outline at a width, with its holes or without, its curves within
    /// [`FLAT_WITHIN`], and how large it is then.
    pub fn traced(&self, width: Length, with_holes: bool) -> Result<(Traced, Size), Unfit> {
        let bounds = self.rim.bounds();
        let scale = width.as_mm_f64() / bounds.width();
        let height = bounds.height() * scale;
        let is_sound = |mm: f64| mm > FLAT_WITHIN.as_mm_f64() && mm < Length::LIMIT.as_mm_f64();
        if !is_sound(width.as_mm_f64()) || !is_sound(height) {
            return Err(Unfit::Size);
        }
        let within = FLAT_WITHIN.as_mm_f64() / scale;
        let polygon = |ring: &Ring| -> Result<Polygon<FaceFrame>, Unfit> {
            let too_fine = Unfit::Outline(Untraced::TooFine(MOST_TRACED + 1));
            let corners = ring.fine(within).ok_or(too_fine)?;
            let corners = corners.into_iter().map(|at| {
                Point::new(
                    Length::near_mm((at.x - bounds.x0) * scale),
                    Length::near_mm((at.y - bounds.y0) * scale),
                )
            });
            Ok(Polygon {
                corners: corners.collect(),
            })
        };
        let rim = polygon(&self.rim)?;
        let holes = self.holes.iter().filter(|_| with_holes);
        let holes = holes.map(polygon).collect::<Result<Vec<_>, _>>()?;
        Traced::of(&rim, &holes).map_err(Unfit::Outline)
    }
}
