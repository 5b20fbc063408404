//! Drawing creases and cuts on a strip: the base, or a piece glued in.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::edit::Edited;
use super::line::MOST_NAMES;
use super::naming::{Called, first_free};
use super::tie::Axis;
use super::{
    Added, Change, Corner, Direction, DrawnLineId, EditError, Line, MeasureId, Naming, New, Owner,
    Recipe, Role, StripId,
};
use crate::length::Length;
use crate::pattern::LineKind;
use crate::plane::{PieceFrame, Point, Segment};

/// An end of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum End {
    /// Where it was begun.
    From,
    /// Where it was ended.
    To,
}

impl Recipe {
    /// Draws a line. An end that lies on an edge, a score or another line is
    /// tied to it and follows when that moves.
    pub fn add_line(
        &mut self,
        of: StripId,
        kind: LineKind,
        from: Point<PieceFrame>,
        to: Point<PieceFrame>,
        naming: &dyn Naming,
    ) -> Edited<Added<DrawnLineId>> {
        self.whole(|recipe| {
            let lines = recipe.strips().flat_map(|(_, strip)| &strip.lines);
            let id = DrawnLineId(recipe.ids.fresh(lines.map(|line| line.id.0), MOST_NAMES)?);
            recipe.refuse(of, &Segment::new(from, to))?;
            let strip = recipe.strip(of).ok_or(EditError::NoPiece)?;
            let taken: BTreeSet<_> = strip.lines.iter().map(|line| &*line.name).collect();
            let names = (1..).map(|number| naming.name(New::Line(kind, number)));
            let name = first_free(names, |name| taken.contains(name))?;
            let called = Called {
                naming,
                part: Owner::Line(id),
                name: &name,
            };
            let role = |end| move |direction| Role::End(end, direction);
            let line = Line {
                id,
                kind,
                from: recipe.new_corner(of, called, role(End::From), from)?,
                to: recipe.new_corner(of, called, role(End::To), to)?,
                name,
            };
            let strip = recipe.strip_mut(of).ok_or(EditError::NoPiece)?;
            strip.lines.push(line);
            let changes = recipe.settle(&[], &[], &[])?;
            Ok(Added { id, changes })
        })
    }

    /// Moves one end of a line, and the ends that were drawn on it.
    pub fn move_line_end(
        &mut self,
        id: DrawnLineId,
        end: End,
        to: Point<PieceFrame>,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        let course = self.course(self.line(id).ok_or(EditError::NoLine)?);
        let to = match end {
            End::From => Segment::new(to, course.to),
            End::To => Segment::new(course.from, to),
        };
        self.move_line(id, to, naming)
    }

    /// Moves a line, and the ends that were drawn on it.
    pub fn move_line(
        &mut self,
        id: DrawnLineId,
        to: Segment<PieceFrame>,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let (of, line) = recipe.line_on(id).ok_or(EditError::NoLine)?;
            let was = recipe.course(line);
            recipe.refuse(of, &to)?;
            let without_length = recipe.without_length();
            let ends = [(End::From, was.from, to.from), (End::To, was.to, to.to)];
            let ends = ends.into_iter().filter(|(_, was, to)| was != to);
            let ends: Vec<_> = ends.map(|(end, _, to)| (end, to)).collect();
            recipe.let_go(of, id, &ends, naming)?;
            let asked = recipe.asked(id, &ends);
            let changes = recipe.settle(&asked, &[], &[])?;
            if recipe.without_length() > without_length {
                return Err(EditError::NoLength);
            }
            let asked: BTreeSet<_> = asked.into_iter().map(|(measure, _)| measure).collect();
            for measure in asked {
                recipe.fasten(of, id, measure);
            }
            Ok(changes)
        })
    }

    /// Unties ends, and gives them measures of their own where theirs serve
    /// something that stays.
    fn let_go(
        &mut self,
        of: StripId,
        id: DrawnLineId,
        ends: &[(End, Point<PieceFrame>)],
        naming: &dyn Naming,
    ) -> Edited<()> {
        let name = self.line(id).ok_or(EditError::NoLine)?.name.clone();
        let called = Called {
            naming,
            part: Owner::Line(id),
            name: &name,
        };
        for (end, to) in ends {
            let mut corner = self.line(id).ok_or(EditError::NoLine)?.corner(*end);
            for (measure, direction, value) in [
                (&mut corner.x, Direction::Along, to.x),
                (&mut corner.y, Direction::Across, to.y),
            ] {
                let asked = self.asked(id, ends);
                let moving = asked.iter().filter(|it| **it == (*measure, value));
                if self.part_measures().filter(|of| of == measure).count() > moving.count() {
                    let role = Role::End(*end, direction);
                    *measure = self.line_measure(called, role, value)?;
                } else {
                    self.loosen(of, *measure);
                }
            }
            *self.line_mut(id).ok_or(EditError::NoLine)?.corner_mut(*end) = corner;
        }
        Ok(())
    }

    /// What moving ends of a line asks of their measures.
    fn asked(
        &self,
        id: DrawnLineId,
        ends: &[(End, Point<PieceFrame>)],
    ) -> Vec<(MeasureId, Length)> {
        let Some(line) = self.line(id) else {
            return Vec::new();
        };
        let corners = ends.iter().map(|(end, to)| (line.corner(*end), to));
        corners
            .flat_map(|(corner, to)| [(corner.x, to.x), (corner.y, to.y)])
            .collect()
    }

    /// Ties a measure of a line to what the line's end lies on.
    fn fasten(&mut self, of: StripId, id: DrawnLineId, measure: MeasureId) {
        let Some(line) = self.line(id) else { return };
        let tie = [line.from, line.to].into_iter().find_map(|corner| {
            let axis = match measure {
                of if of == corner.x => Axis::X,
                of if of == corner.y => Axis::Y,
                _ => return None,
            };
            self.tie_of(of, Some(id), axis, measure, self.corner(corner))
        });
        self.relations.extend(tie);
    }

    /// How many lines end where they begin.
    fn without_length(&self) -> usize {
        let lines = self.strips().flat_map(|(_, strip)| &strip.lines);
        lines.filter(|line| self.course(line).is_point()).count()
    }

    /// Refuses a line that leaves the paper, or has no length.
    fn refuse(&self, of: StripId, line: &Segment<PieceFrame>) -> Edited<()> {
        let strip = self.strip(of).ok_or(EditError::NoPiece)?;
        let within = |at: Length, size| (Length::ZERO..=self.value(size)).contains(&at);
        let on_paper =
            |at: Point<PieceFrame>| within(at.x, strip.length) && within(at.y, strip.height);
        if !(on_paper(line.from) && on_paper(line.to)) {
            return Err(EditError::OffPaper);
        }
        if line.is_point() {
            return Err(EditError::NoLength);
        }
        Ok(())
    }

    /// Where an end of a line lies.
    pub fn line_end(&self, id: DrawnLineId, end: End) -> Option<Point<PieceFrame>> {
        let line = self.line(id)?;
        Some(self.corner(line.corner(end)))
    }

    /// Makes a line another kind of line.
    pub fn turn_line_into(&mut self, id: DrawnLineId, kind: LineKind) -> Edited<Vec<Change>> {
        self.line_mut(id).ok_or(EditError::NoLine)?.kind = kind;
        Ok(Vec::new())
    }

    /// Calls a line something else, and its measures after it.
    pub fn rename_line(
        &mut self,
        id: DrawnLineId,
        name: &str,
        naming: &dyn Naming,
    ) -> Edited<Vec<Change>> {
        let line = self.line_mut(id).ok_or(EditError::NoLine)?;
        name.clone_into(&mut line.name);
        self.rename_measures(Owner::Line(id), naming);
        Ok(Vec::new())
    }

    /// Takes a line away. Ends that were drawn on it stay where they are.
    pub fn remove_line(&mut self, id: DrawnLineId) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let (of, line) = recipe.line_on(id).ok_or(EditError::NoLine)?;
            let left = recipe.tied_to(of, &line.measures().collect::<Vec<_>>());
            let strip = recipe.strip_mut(of).ok_or(EditError::NoLine)?;
            strip.lines.retain(|line| line.id != id);
            recipe.drop_measures_gone(&before);
            // Those that met on the line still hang together.
            for (line, measure) in left {
                recipe.fasten(of, line, measure);
            }
            Ok(Vec::new())
        })
    }

    /// The piece a line is on, and the line.
    pub fn line_on(&self, id: DrawnLineId) -> Option<(StripId, &Line)> {
        self.strips().find_map(|(of, strip)| {
            let line = strip.lines.iter().find(|line| line.id == id)?;
            Some((of, line))
        })
    }

    fn line_mut(&mut self, id: DrawnLineId) -> Option<&mut Line> {
        let (of, _) = self.line_on(id)?;
        let strip = self.strip_mut(of)?;
        strip.lines.iter_mut().find(|line| line.id == id)
    }

    /// Measures for a point of a strip, tied to what it lies on.
    pub(super) fn new_corner(
        &mut self,
        of: StripId,
        called: Called<'_>,
        role: impl Fn(Direction) -> Role,
        at: Point<PieceFrame>,
    ) -> Edited<Corner> {
        let x = self.line_measure(called, role(Direction::Along), at.x)?;
        let y = self.line_measure(called, role(Direction::Across), at.y)?;
        for (axis, measure) in [(Axis::X, x), (Axis::Y, y)] {
            let tie = self.tie_of(of, None, axis, measure, at);
            self.relations.extend(tie);
        }
        Ok(Corner { x, y })
    }

    /// The lines of a strip and their measures that are tied to some others.
    fn tied_to(&self, of: StripId, measures: &[MeasureId]) -> Vec<(DrawnLineId, MeasureId)> {
        let Some(strip) = self.strip(of) else {
            return Vec::new();
        };
        let follows = |measure: &MeasureId| {
            self.relations.iter().any(|held| {
                self.ties(strip, held, *measure)
                    && held.right.iter().any(|term| measures.contains(&term.of))
            })
        };
        let lines = strip.lines.iter();
        lines
            .flat_map(|line| line.measures().map(|measure| (line.id, measure)))
            .filter(|(_, measure)| !measures.contains(measure) && follows(measure))
            .collect()
    }

    fn line_measure(&mut self, of: Called<'_>, is: Role, value: Length) -> Edited<MeasureId> {
        self.add_part_measure(self.measures.len(), of, is, value)
    }
}
