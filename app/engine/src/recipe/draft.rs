//! Drawing creases and cuts on a strip: the base, or a piece glued in.

use std::collections::BTreeSet;

use super::edit::{Edited, fresh};
use super::line::MOST_NAMES;
use super::{Added, Change, Corner, EditError, Line, MeasureId, PieceId, Recipe, Relation, Strip};
use crate::length::{Length, nearest};
use crate::pattern::{LineId, LineKind, MOST_LINES};
use crate::plane::{PieceFrame, Point, Segment};

/// An end of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// Where it was begun.
    From,
    /// Where it was ended.
    To,
}

impl Recipe {
    /// Draws a line. Ends on the strip's edge or on a score stay there when the
    /// strip changes.
    pub fn add_line(
        &mut self,
        of: Option<PieceId>,
        kind: LineKind,
        from: Point<PieceFrame>,
        to: Point<PieceFrame>,
    ) -> Edited<Added<LineId>> {
        self.whole(|recipe| {
            let lines = recipe.strips().flat_map(|(_, strip)| &strip.lines);
            let id = LineId(fresh(lines.map(|line| line.id.0))?);
            let strip = recipe.strip(of).ok_or(EditError::NoPiece)?;
            if strip.lines.len() >= MOST_LINES || id.0 >= MOST_NAMES {
                return Err(EditError::Full);
            }
            let taken: BTreeSet<_> = strip.lines.iter().map(|line| &line.name).collect();
            let word = match kind {
                LineKind::Crease(_) => "crease",
                LineKind::Cut => "cut",
            };
            let name = (1..=u32::MAX)
                .map(|number| format!("{word} {number}"))
                .find(|name| !taken.contains(name))
                .ok_or(EditError::Full)?;
            let line = Line {
                id,
                kind,
                from: recipe.new_corner(of, &name, "start", from)?,
                to: recipe.new_corner(of, &name, "end", to)?,
                name,
            };
            let strip = recipe.strip_mut(of).ok_or(EditError::NoPiece)?;
            strip.lines.push(line);
            let changes = recipe.settle(&[], &[], &[])?;
            Ok(Added { id, changes })
        })
    }

    /// Moves one end of a line.
    pub fn move_line_end(
        &mut self,
        id: LineId,
        end: End,
        to: Point<PieceFrame>,
    ) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let (of, line) = recipe.line_on(id).ok_or(EditError::NoLine)?;
            let name = line.name.clone();
            let word = match end {
                End::From => "start",
                End::To => "end",
            };
            let corner = recipe.new_corner(of, &name, word, to)?;
            let line = recipe.line_mut(id).ok_or(EditError::NoLine)?;
            match end {
                End::From => line.from = corner,
                End::To => line.to = corner,
            }
            recipe.drop_measures_gone(&before);
            Ok(recipe.settle(&[], &[], &[])?)
        })
    }

    /// Where an end of a line lies.
    pub fn line_end(&self, id: LineId, end: End) -> Option<Point<PieceFrame>> {
        let line = self.line(id)?;
        Some(self.corner(match end {
            End::From => line.from,
            End::To => line.to,
        }))
    }

    /// Where an end that is let go near a point comes to lie: on another
    /// line's end, on an edge or a score, or on a slanting line, where one of
    /// them is within `reach`; else on the nearest marks.
    pub fn snapped(&self, id: LineId, at: Point<PieceFrame>, reach: Length) -> Point<PieceFrame> {
        let Some((of, _)) = self.line_on(id) else {
            return at;
        };
        let strip = self.strip(of).unwrap_or(&self.base.strip);
        let others = || strip.lines.iter().filter(|line| line.id != id);
        let ends = others().flat_map(|line| [self.corner(line.from), self.corner(line.to)]);
        let near = |to: &Point<PieceFrame>| {
            let apart = Segment::new(at, *to).length();
            (apart <= reach).then_some((apart, *to))
        };
        if let Some((_, end)) = ends.filter_map(|end| near(&end)).min() {
            return end;
        }
        let step = self.notation.step;
        let along = |value: Length, lines: &[Length]| {
            let nearest_line = lines.iter().min_by_key(|line| (**line - value).abs());
            match nearest_line {
                Some(line) if (*line - value).abs() <= reach => *line,
                _ => nearest(value, step).at,
            }
        };
        let mut upright = vec![Length::ZERO, self.value(strip.length)];
        upright.extend(self.scores(strip));
        let level = [Length::ZERO, self.value(strip.height)];
        let marked = Point::new(along(at.x, &upright), along(at.y, &level));
        let slanting =
            others().map(|line| Segment::new(self.corner(line.from), self.corner(line.to)));
        let on_line = slanting
            .filter(|line| line.from.x != line.to.x && line.from.y != line.to.y)
            .filter(|line| line.is_near(marked, reach))
            .map(|line| line.nearest_to(marked))
            .next();
        on_line.unwrap_or(marked)
    }

    /// Makes a line another kind of line.
    pub fn turn_line_into(&mut self, id: LineId, kind: LineKind) -> Edited<Vec<Change>> {
        self.line_mut(id).ok_or(EditError::NoLine)?.kind = kind;
        Ok(Vec::new())
    }

    /// Calls a line something else, and its measures after it.
    pub fn rename_line(&mut self, id: LineId, name: &str) -> Edited<Vec<Change>> {
        let line = self.line_mut(id).ok_or(EditError::NoLine)?;
        let before = std::mem::replace(&mut line.name, name.to_owned());
        let measures: Vec<_> = line.measures().collect();
        self.rename_measures(&measures, &before, name);
        Ok(Vec::new())
    }

    /// Takes a line away.
    pub fn remove_line(&mut self, id: LineId) -> Edited<Vec<Change>> {
        self.whole(|recipe| {
            let before = recipe.part_measures().collect();
            let (of, _) = recipe.line_on(id).ok_or(EditError::NoLine)?;
            let strip = recipe.strip_mut(of).ok_or(EditError::NoLine)?;
            strip.lines.retain(|line| line.id != id);
            recipe.drop_measures_gone(&before);
            Ok(Vec::new())
        })
    }

    /// The piece a line is on, and the line.
    pub fn line_on(&self, id: LineId) -> Option<(Option<PieceId>, &Line)> {
        self.strips().find_map(|(of, strip)| {
            let line = strip.lines.iter().find(|line| line.id == id)?;
            Some((of, line))
        })
    }

    fn line_mut(&mut self, id: LineId) -> Option<&mut Line> {
        let (of, _) = self.line_on(id)?;
        let strip = self.strip_mut(of)?;
        strip.lines.iter_mut().find(|line| line.id == id)
    }

    /// Measures for a point of a strip. Those of an edge are shared; one on a
    /// score follows it.
    pub(super) fn new_corner(
        &mut self,
        of: Option<PieceId>,
        line: &str,
        end: &str,
        at: Point<PieceFrame>,
    ) -> Edited<Corner> {
        let strip = self.strip(of).ok_or(EditError::NoPiece)?;
        let (length, height) = (strip.length, strip.height);
        let x = if at.x == self.value(length) {
            length
        } else {
            let scores = self.scores(strip);
            let score = scores.iter().position(|score| *score == at.x);
            let widths = strip.panels.iter().take(score.map_or(0, |score| score + 1));
            let widths: Vec<_> = widths.map(|panel| panel.width).collect();
            let x = self.line_measure(format!("{line} {end} along"), at.x)?;
            if !widths.is_empty() {
                self.relations.push(Relation::sum(x, widths));
            }
            x
        };
        let y = if at.y == self.value(height) {
            height
        } else {
            self.line_measure(format!("{line} {end} across"), at.y)?
        };
        Ok(Corner { x, y })
    }

    /// How far each score lies from its strip's start.
    fn scores(&self, strip: &Strip) -> Vec<Length> {
        let mut at = Length::ZERO;
        let panels = strip.panels.iter();
        let mut ends: Vec<_> = panels
            .map(|panel| {
                at += self.value(panel.width);
                at
            })
            .collect();
        ends.pop();
        ends
    }

    fn line_measure(&mut self, name: String, value: Length) -> Edited<MeasureId> {
        self.add_measure(self.measures.len(), name, value)
    }
}
