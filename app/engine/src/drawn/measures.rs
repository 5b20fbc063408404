//! The measures of a drawn pattern: one for each distance.

use std::collections::BTreeMap;

use super::numbered;
use crate::length::Length;
use crate::pattern;
use crate::plane::{PieceFrame, Point};
use crate::recipe::{
    Corner, Direction, DrawnLineId, End, Line, Listed, Measure, MeasureId, MeasureOf, Naming, New,
    Owner, Panel, Relation, Role,
};

/// Builds measures in order, and what ties them.
pub(super) struct Measures<'a> {
    pub(super) naming: &'a dyn Naming,
    all: Vec<Measure>,
    relations: Vec<Relation>,
}

impl<'a> Measures<'a> {
    pub(super) const fn new(naming: &'a dyn Naming) -> Self {
        Self {
            naming,
            all: Vec::new(),
            relations: Vec::new(),
        }
    }

    /// One with a name of its own.
    pub(super) fn listed(&mut self, is: Listed, value: Length) -> MeasureId {
        self.push(self.naming.name(New::Listed(is)), None, value)
    }

    /// One of a part of that name.
    pub(super) fn of_part(
        &mut self,
        name: &str,
        part: Owner,
        is: Role,
        value: Length,
    ) -> MeasureId {
        let of = Some(MeasureOf { part, is });
        self.push(self.naming.name(New::Measure(name, is)), of, value)
    }

    fn push(&mut self, name: String, of: Option<MeasureOf>, value: Length) -> MeasureId {
        let id = MeasureId(u32::try_from(self.all.len() + 1).unwrap_or(u32::MAX));
        self.all.push(Measure {
            of,
            ..Measure::new(id, name, value)
        });
        id
    }

    /// All of them, with what ties them.
    pub(super) fn end(self) -> (Vec<Measure>, Vec<Relation>) {
        (self.all, self.relations)
    }
}

/// What lines and cutouts are measured by.
pub(super) struct Across<'a> {
    pub(super) panels: &'a [Panel],
    /// Where each panel begins.
    pub(super) starts: &'a [Length],
    /// The measure of the strip's length, and what it is.
    pub(super) length: (MeasureId, Length),
    /// The same of its height.
    pub(super) height: (MeasureId, Length),
}

impl Across<'_> {
    /// The lines as lines of a recipe.
    pub(super) fn lines(&self, lines: &[pattern::Line], measures: &mut Measures<'_>) -> Vec<Line> {
        let mut known = [
            BTreeMap::from([(self.length.1, self.length.0)]),
            BTreeMap::from([(self.height.1, self.height.0)]),
        ];
        // The first panel ends where its width says.
        let first = self.panels.first().zip(self.starts.get(1));
        known[0].extend(first.map(|(panel, end)| (*end, panel.width)));
        let drawn = (1..).zip(numbered(lines)).map(|(id, (number, line))| {
            let id = DrawnLineId(id);
            let name = measures.naming.name(New::Line(line.kind, number));
            let mut corner = |end, at| self.corner((id, &name, end), at, &mut known, measures);
            Line {
                from: corner(End::From, line.from),
                to: corner(End::To, line.to),
                kind: line.kind,
                id,
                name,
            }
        });
        drawn.collect()
    }

    fn corner(
        &self,
        (id, name, end): (DrawnLineId, &str, End),
        at: Point<PieceFrame>,
        [along, across]: &mut [BTreeMap<Length, MeasureId>; 2],
        measures: &mut Measures<'_>,
    ) -> Corner {
        let mut new = |direction, value| {
            let role = Role::End(end, direction);
            measures.of_part(name, Owner::Line(id), role, value)
        };
        let x = *along
            .entry(at.x)
            .or_insert_with(|| new(Direction::Along, at.x));
        let y = *across
            .entry(at.y)
            .or_insert_with(|| new(Direction::Across, at.y));
        // What ends on a score follows it.
        let score = self.starts.iter().skip(2).position(|start| *start == at.x);
        if let Some(before) = score.and_then(|score| self.panels.get(..score + 2)) {
            let tie = Relation::sum(x, before.iter().map(|panel| panel.width));
            if !measures.relations.contains(&tie) {
                measures.relations.push(tie);
            }
        }
        Corner { x, y }
    }
}
