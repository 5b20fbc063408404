//! Relations that keep the ends of lines on what they were drawn on: the far
//! edges of the strip, its scores, and other lines.

use super::{DrawnLineId, Is, Line, MeasureId, Recipe, Relation, Strip, StripId, Term};
use crate::length::Length;
use crate::plane::{PieceFrame, Point, Segment};

/// One of the two directions in which a corner is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Axis {
    /// Along the strip.
    X,
    /// Across it.
    Y,
}

impl Line {
    pub(super) fn measures_on(&self, axis: Axis) -> [MeasureId; 2] {
        match axis {
            Axis::X => [self.from.x, self.to.x],
            Axis::Y => [self.from.y, self.to.y],
        }
    }
}

impl Recipe {
    /// What ties a measure of a point to what that lies on, where this is sure
    /// to move along with it: a far edge, a score, or a line whose end shares
    /// its distance. The near edges never move, and so need no tie.
    pub(super) fn tie_of(
        &self,
        of: StripId,
        without: Option<DrawnLineId>,
        axis: Axis,
        measure: MeasureId,
        at: Point<PieceFrame>,
    ) -> Option<Relation> {
        let strip = self.strip(of)?;
        let value = match axis {
            Axis::X => at.x,
            Axis::Y => at.y,
        };
        if value == Length::ZERO {
            return None;
        }
        match axis {
            Axis::X => {
                let index =
                    (0..strip.panels.len()).find(|it| self.end_of_panel(strip, *it) == value);
                if let Some(index) = index {
                    return Some(at_end(strip, measure, index));
                }
            }
            Axis::Y if value == self.value(strip.height) => {
                return Some(Relation::same(measure, strip.height));
            }
            Axis::Y => {}
        }
        let others = strip.lines.iter().filter(|line| Some(line.id) != without);
        others
            .filter(|line| self.course(line).touches(at))
            .flat_map(|line| line.measures_on(axis))
            .filter(|other| self.value(*other) == value)
            .map(|other| self.root(strip, other))
            .find(|root| *root != measure && self.value(*root) == value)
            .map(|root| Relation::same(measure, root))
    }

    /// Lets go of what ties a measure of a line.
    pub(super) fn loosen(&mut self, of: StripId, measure: MeasureId) {
        let mut relations = std::mem::take(&mut self.relations);
        if let Some(strip) = self.strip(of) {
            relations.retain(|held| !self.ties(strip, held, measure));
        }
        self.relations = relations;
    }

    /// Whether a relation is one that ties a measure of a line.
    pub(super) fn ties(&self, strip: &Strip, held: &Relation, measure: MeasureId) -> bool {
        let single = Term {
            times: 1,
            of: measure,
        };
        held.is == Is::Equal
            && held.plus == Length::ZERO
            && held.left == [single]
            && (end_of(strip, &held.right).is_some()
                || matches!(held.right[..], [Term { times: 1, of }]
                    if of == strip.height || self.is_of_lines_only(of)))
    }

    /// How far the end of the panel at an index is from the strip's start.
    pub(super) fn end_of_panel(&self, strip: &Strip, index: usize) -> Length {
        let panels = strip.panels.iter().take(index.saturating_add(1));
        panels.map(|panel| self.value(panel.width)).sum()
    }

    /// The measure that a line's measure is tied to in the end, from line to
    /// line.
    fn root(&self, strip: &Strip, measure: MeasureId) -> MeasureId {
        let next = |measure: &MeasureId| {
            let mut held = self.relations.iter();
            let tie = held.find(|held| self.ties(strip, held, *measure))?;
            match tie.right[..] {
                [Term { of, .. }] if self.is_of_lines_only(of) => Some(of),
                _ => None,
            }
        };
        // A file may tie lines in a circle.
        std::iter::successors(Some(measure), next)
            .take(self.relations.len() + 1)
            .last()
            .unwrap_or(measure)
    }

    /// Whether a measure is a line's and no other part's.
    pub(super) fn is_of_lines_only(&self, measure: MeasureId) -> bool {
        let lines = self.strips().flat_map(|(_, strip)| &strip.lines);
        let of_lines = lines.flat_map(Line::measures);
        let of_lines = of_lines.filter(|of| *of == measure).count();
        let of_parts = self.part_measures().filter(|of| *of == measure).count();
        of_lines > 0 && of_lines == of_parts
    }

    /// The course of a line.
    pub(super) fn course(&self, line: &Line) -> Segment<PieceFrame> {
        Segment::new(self.corner(line.from), self.corner(line.to))
    }
}

/// The tie of a measure to the end of the panel at an index, which for the last
/// one is the strip's.
pub(super) fn at_end(strip: &Strip, measure: MeasureId, index: usize) -> Relation {
    match strip.panels.get(..=index) {
        Some(panels) if panels.len() < strip.panels.len() => {
            Relation::sum(measure, panels.iter().map(|panel| panel.width))
        }
        _ => Relation::same(measure, strip.length),
    }
}

/// The panel whose end these terms make up; the last one for the strip's
/// length.
pub(super) fn end_of(strip: &Strip, terms: &[Term]) -> Option<usize> {
    let panels = &strip.panels;
    if matches!(terms, [Term { times: 1, of }] if *of == strip.length) {
        return panels.len().checked_sub(1);
    }
    let widths = panels.iter().map(|panel| Term {
        times: 1,
        of: panel.width,
    });
    let is_score = terms.len() < panels.len() && terms.iter().copied().eq(widths.take(terms.len()));
    terms.len().checked_sub(1).filter(|_| is_score)
}
