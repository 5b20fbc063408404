//! Letting a dragged end catch on what is near: ends, crossings, lines, and
//! otherwise the marks of the ruler.

use super::{DrawnLineId, Recipe, StripId};
use crate::length::{Length, Step, half_even, nearest};
use crate::plane::{PieceFrame, Point, Segment, step as difference};

/// What a dragged end caught on, the firmest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Catch {
    /// An end of a line, an edge or a score.
    End,
    /// Where two of them cross.
    Crossing,
    /// One of them, and along it the nearest mark.
    Line,
    /// The nearest marks, along and across.
    Mark,
}

/// Lets a point catch on the nearest end within reach, or else the nearest
/// crossing, or else the nearest line, or else the nearest marks of the step.
/// A point on a slanting line is within a unit of it.
pub fn snap(
    at: Point<PieceFrame>,
    step: Step,
    reach: Length,
    guides: &[Segment<PieceFrame>],
) -> (Point<PieceFrame>, Catch) {
    let near = guides
        .iter()
        .filter_map(|guide| Some((guide, foot(guide, at)?)));
    let near: Vec<_> = near
        .filter(|(_, foot)| distance(*foot, at) <= reach)
        .collect();
    let closest = |points: &mut dyn Iterator<Item = Point<PieceFrame>>| {
        let near = points.filter(|it| distance(*it, at) <= reach);
        near.min_by_key(|it| distance(*it, at))
    };
    let mut ends = guides.iter().flat_map(|guide| [guide.from, guide.to]);
    if let Some(end) = closest(&mut ends) {
        return (end, Catch::End);
    }
    let mut crossings = near.iter().enumerate().flat_map(|(index, (guide, _))| {
        let later = near.iter().skip(index + 1);
        later.filter_map(move |(other, _)| guide.crossing(other))
    });
    if let Some(crossing) = closest(&mut crossings) {
        return (crossing, Catch::Crossing);
    }
    let line = near.iter().min_by_key(|(_, foot)| distance(*foot, at));
    if let Some(on_line) = line.and_then(|(guide, foot)| marked_on(guide, *foot, step)) {
        return (on_line, Catch::Line);
    }
    let marked = Point::new(nearest(at.x, step).at, nearest(at.y, step).at);
    (marked, Catch::Mark)
}

fn distance(from: Point<PieceFrame>, to: Point<PieceFrame>) -> Length {
    Segment::new(from, to).length()
}

/// The part `over / under` of a length, to the nearest unit; `None` where that
/// is more than can be reckoned with.
fn part(of: i128, over: i128, under: i128) -> Option<Length> {
    let (over, under) = (over.checked_mul(under.signum())?, under.checked_abs()?);
    // Rounding doubles what is left over.
    if under == 0 || under > i128::MAX / 2 {
        return None;
    }
    let part = half_even(of.checked_mul(over)?, under);
    i64::try_from(part).ok().map(Length::from_units)
}

/// The point of a line that is nearest to another point; `None` where that
/// point lies past an end.
fn foot(line: &Segment<PieceFrame>, at: Point<PieceFrame>) -> Option<Point<PieceFrame>> {
    let (along, to) = (difference(line.from, line.to), difference(line.from, at));
    let dot = |a: (i128, i128), b: (i128, i128)| {
        let (x, y) = (a.0.checked_mul(b.0)?, a.1.checked_mul(b.1)?);
        x.checked_add(y)
    };
    let (over, under) = (dot(along, to)?, dot(along, along)?);
    if over < 0 || over > under {
        return None;
    }
    let (x, y) = (part(along.0, over, under)?, part(along.1, over, under)?);
    Some(Point::new(line.from.x + x, line.from.y + y))
}

/// The point of a line at the mark nearest to another of its points, in the
/// direction in which the line goes farther; not past its ends.
fn marked_on(
    line: &Segment<PieceFrame>,
    at: Point<PieceFrame>,
    step: Step,
) -> Option<Point<PieceFrame>> {
    let (x, y) = difference(line.from, line.to);
    let mark = |from: Length, to: Length, at: Length| {
        nearest(at, step).at.max(from.min(to)).min(from.max(to))
    };
    let units = |length: Length| i128::from(length.units());
    if x.abs() < y.abs() {
        let mark = mark(line.from.y, line.to.y, at.y);
        let beside = part(x, units(mark) - units(line.from.y), y)?;
        Some(Point::new(line.from.x + beside, mark))
    } else {
        let mark = mark(line.from.x, line.to.x, at.x);
        let beside = part(y, units(mark) - units(line.from.x), x)?;
        Some(Point::new(mark, line.from.y + beside))
    }
}

impl Recipe {
    /// What a dragged line can catch on: its strip's edges, the scores, and the
    /// other lines.
    fn guides(&self, of: StripId, dragged: DrawnLineId) -> Vec<Segment<PieceFrame>> {
        let Some(strip) = self.strip(of) else {
            return Vec::new();
        };
        let (length, height) = (self.value(strip.length), self.value(strip.height));
        let scores = (1..strip.panels.len()).map(|index| self.end_of_panel(strip, index - 1));
        let across = [Length::ZERO, length].into_iter().chain(scores);
        let across = across.map(|x| [Point::new(x, Length::ZERO), Point::new(x, height)]);
        let along = [Length::ZERO, height];
        let along = along.map(|y| [Point::new(Length::ZERO, y), Point::new(length, y)]);
        let lines = strip.lines.iter().filter(|line| line.id != dragged);
        across
            .chain(along)
            .map(|[from, to]| Segment::new(from, to))
            .chain(lines.map(|line| self.course(line)))
            .collect()
    }

    /// Where an end of a line that is let go near a point comes to lie: on the
    /// paper, and on what is within `reach` of it.
    pub fn snapped(
        &self,
        id: DrawnLineId,
        at: Point<PieceFrame>,
        reach: Length,
    ) -> Point<PieceFrame> {
        self.caught(id, at, reach).0
    }

    /// Where a line that is let go whole comes to lie: on the paper, where one
    /// of its ends catches on what is within `reach` of it, or else one lies on
    /// the nearest marks.
    pub fn line_snapped(
        &self,
        id: DrawnLineId,
        line: Segment<PieceFrame>,
        reach: Length,
    ) -> Segment<PieceFrame> {
        let on_paper = self.kept_on_paper(id, line);
        let ends = [on_paper.from, on_paper.to].map(|at| (at, self.caught(id, at, reach)));
        let firmest = ends
            .into_iter()
            .min_by_key(|(at, (to, catch))| (*catch, distance(*at, *to)));
        let Some((at, (to, _))) = firmest else {
            return on_paper;
        };
        let moved = |end: Point<PieceFrame>| Point::new(end.x + to.x - at.x, end.y + to.y - at.y);
        self.kept_on_paper(id, Segment::new(moved(on_paper.from), moved(on_paper.to)))
    }

    fn caught(
        &self,
        id: DrawnLineId,
        at: Point<PieceFrame>,
        reach: Length,
    ) -> (Point<PieceFrame>, Catch) {
        let Some((of, _)) = self.line_on(id) else {
            return (at, Catch::Mark);
        };
        let on_paper = |at| self.kept_on_paper(id, Segment::new(at, at)).from;
        let (at, catch) = snap(
            on_paper(at),
            self.notation.step,
            reach,
            &self.guides(of, id),
        );
        (on_paper(at), catch)
    }

    /// A line moved by as little as brings it onto its strip.
    fn kept_on_paper(&self, id: DrawnLineId, line: Segment<PieceFrame>) -> Segment<PieceFrame> {
        let strip = self.line_on(id).and_then(|(of, _)| self.strip(of));
        let Some(strip) = strip else { return line };
        let by = |from: Length, to: Length, size| {
            let over = (from.max(to) - self.value(size)).max(Length::ZERO);
            // A line longer than the strip begins at its start.
            let under = (over - from.min(to)).max(Length::ZERO);
            under - over
        };
        let x = by(line.from.x, line.to.x, strip.length);
        let y = by(line.from.y, line.to.y, strip.height);
        let moved = |at: Point<PieceFrame>| Point::new(at.x + x, at.y + y);
        Segment::new(moved(line.from), moved(line.to))
    }
}
