//! The flat pieces as they are worked on: the lines of a step lettered and in their own
//! ink, with their numbers at their ends, all others faint.

use super::fence::{letter, line, the_fence};
use super::flat::{Stretch, edges, glued, layers, lines, paper, side_up};
use super::{Drawing, Ink, LETTER_WIDTH, Mark, Role, Spot, millimetres, spot};
use crate::card::Card;
use crate::laid::Piece;
use crate::length::Length;
use crate::pattern::LineId;
use crate::plane::{PieceFrame, Placement, Point, Turn};
use crate::recipe::{Corner, DrawnLineId, PieceId, Recipe, Side, Strip, StripId};
use crate::score::{AtStop, Pass};

/// How wide a letter beside the paper is, and how high a row of them, as shares of the
/// paper's longer side: a drawing is about a quarter larger than its paper.
const WIDE: f64 = 1.25 / 24.0 * LETTER_WIDTH;
const HIGH: f64 = 1.25 / 16.0;

/// A strip on the scoring board as a pass has it, the fence at the left: over each score
/// of the pass the letter of its number there, under it how far it is from the fence.
/// Empty where there is no such strip.
pub fn at_board(recipe: &Recipe, card: &Card, of: StripId, pass: &Pass) -> Drawing {
    let (Some(base), Some(strip)) = (card.laid.piece(of), recipe.strip(of)) else {
        return Drawing::empty();
    };
    let turned = side_up(base, pass.up);
    let turned = match pass.at_stop {
        AtStop::First => turned,
        AtStop::Last => {
            let far = Point::new(base.size.width, base.size.height);
            turned.then(&Placement::<PieceFrame, PieceFrame>::new(
                false,
                Turn::Half,
                far,
            ))
        }
    };
    let is_now = |line: LineId| {
        pass.marks.iter().any(|mark| {
            let panel = strip.panels.get(mark.score);
            panel.is_some_and(|panel| LineId::of_strip_score(of, mark.score, panel.id) == line)
        })
    };
    let seen = (pass.up, &turned);
    let mut marks = worked(recipe, card, (base, strip), seen, is_now, Vec::new());
    let [width, height] = size(base);
    let room = Room::beside(width.max(height));
    marks.extend(the_fence(room.gap, height));
    let (mut above, mut below) = (Rows::default(), Rows::default());
    for (number, mark) in pass.marks.iter().enumerate() {
        let at = millimetres(mark.exact);
        let (letter, length) = (letter(number), recipe.notation.plain(mark.exact));
        let up = height + room.row(above.row(at, room.half(&letter)));
        let down = -room.row(below.row(at, room.half(&length)));
        let end = room.gap / 2.0;
        marks.push(line([at, height], [at, height + end], Ink::Dimension));
        marks.push(line([at, 0.0], [at, -end], Ink::Dimension));
        marks.push(text([at, up], letter, Role::Label));
        marks.push(text([at, down], length, Role::Length));
    }
    Drawing::framed(marks, 0.04)
}

/// A piece with its inside up as a crease is scored or a cut made on it: under each end,
/// with its letter, how far it is from the left, and at the left how far from the bottom.
/// Empty where there is no such line.
pub fn at_line(recipe: &Recipe, card: &Card, of: StripId, id: DrawnLineId) -> Drawing {
    let (Some(base), Some(strip)) = (card.laid.piece(of), recipe.strip(of)) else {
        return Drawing::empty();
    };
    let turned = side_up(base, Side::A);
    let now = LineId::of_line(id);
    let is_now = |line: LineId| line == now;
    let mut drawn = strip.lines.iter();
    let drawn = drawn.find(|line| line.id == id);
    let ends = drawn.map(|line| ends(recipe, base, [line.from, line.to]));
    let [leaders, numbers] = ends.unwrap_or_default();
    let seen = (Side::A, &turned);
    let mut marks = worked(recipe, card, (base, strip), seen, is_now, leaders);
    marks.extend(numbers);
    Drawing::framed(marks, 0.04)
}

/// The numbers of a line at its ends: those from the left below the paper, those from the
/// bottom at its left, and to each a line from the end. Where both ends are as far, one
/// number is for both.
fn ends(recipe: &Recipe, base: &Piece, ends: [Corner; 2]) -> [Vec<Mark>; 2] {
    let [width, height] = size(base);
    let room = Room::beside(width.max(height));
    let ends = ends.map(|corner| recipe.corner(corner));
    let told = |part: fn(Point<PieceFrame>) -> Length| {
        let lengths = ends.map(part);
        let plain = |length| recipe.notation.plain(length);
        let [first, second] = [0, 1].map(letter);
        if lengths[0] == lengths[1] {
            let both = format!("{first}, {second} {}", plain(lengths[0]));
            return vec![(lengths[0], both)];
        }
        let numbers = [first, second].into_iter().zip(lengths);
        let numbers =
            numbers.map(|(letter, length)| (length, format!("{letter} {}", plain(length))));
        numbers.collect()
    };
    let (mut leaders, mut numbers) = (Vec::new(), Vec::new());
    for end in ends.map(spot) {
        leaders.push(line(end, [end[0], -room.gap / 2.0], Ink::Dimension));
        leaders.push(line(end, [-room.gap / 2.0, end[1]], Ink::Dimension));
    }
    let mut below = Rows::default();
    for (length, words) in told(|at| at.x) {
        let at = millimetres(length);
        let down = -room.row(below.row(at, room.half(&words)));
        numbers.push(text([at, down], words, Role::Length));
    }
    let mut beside = Rows::default();
    let up = told(|at| at.y);
    let widest = up.iter().map(|(_, words)| 2.0 * room.half(words));
    let widest = widest.fold(0.0, f64::max);
    for (length, words) in up {
        let at = millimetres(length);
        let column = beside.row(at, room.gap / 2.0);
        let left = -room.gap / 2.0 - widest * (0.5 + times(column));
        numbers.push(text([left, at], words, Role::Length));
    }
    [leaders, numbers]
}

/// A piece with its inside up before anything is on it, with its length and height, its
/// lines all in their own ink or all faint. Empty where there is no such piece.
pub fn bare(recipe: &Recipe, card: &Card, of: StripId, all_now: bool) -> Drawing {
    let (Some(base), Some(strip)) = (card.laid.piece(of), recipe.strip(of)) else {
        return Drawing::empty();
    };
    let seen = (Side::A, &side_up(base, Side::A));
    let mut marks = worked(recipe, card, (base, strip), seen, |_| all_now, Vec::new());
    let [width, height] = size(base);
    let gap = Room::beside(width.max(height)).gap;
    for (at, length) in [
        ([width / 2.0, -gap], base.size.width),
        ([-gap * 1.4, height / 2.0], base.size.height),
    ] {
        let words = recipe.notation.plain(length);
        marks.push(text(at, words, Role::Length));
    }
    Drawing::framed(marks, 0.04)
}

/// A piece with a side up and the layers on it; as another is glued there, where that
/// comes to lie, and the line it is laid along. Empty where there is no such piece.
pub fn place_on(
    recipe: &Recipe,
    card: &Card,
    of: StripId,
    up: Side,
    join: Option<(PieceId, usize)>,
) -> Drawing {
    let (Some(base), Some(strip)) = (card.laid.piece(of), recipe.strip(of)) else {
        return Drawing::empty();
    };
    let turned = side_up(base, up);
    let seen = (up, &turned);
    let mut marks = worked(recipe, card, (base, strip), seen, |_| false, Vec::new());
    layers(recipe, card, base, up, &turned, &mut marks);
    let join = join.and_then(|(piece, number)| {
        let mark = recipe.piece(piece)?.joins.get(number)?.at;
        Some(((piece, number), mark))
    });
    if let Some((join, mark)) = join {
        // The ends are told as the inside is up.
        let mark = mark.filter(|_| up == Side::A);
        let ends = mark.map(|mark| ends(recipe, base, [mark.from, mark.to]));
        let [leaders, numbers] = ends.unwrap_or_default();
        marks.extend(leaders);
        glued(recipe, card, base, seen, |it| it == join, &mut marks);
        marks.extend(numbers);
    }
    Drawing::framed(marks, 0.04)
}

fn size(base: &Piece) -> Spot {
    [base.size.width, base.size.height].map(millimetres)
}

/// A piece without what comes on it later, and of its lines only those of the step in
/// their own ink, over what leads to their numbers.
fn worked(
    recipe: &Recipe,
    card: &Card,
    (base, strip): (&Piece, &Strip),
    (up, turned): (Side, &Placement<PieceFrame, PieceFrame>),
    is_now: impl Fn(LineId) -> bool,
    leaders: Vec<Mark>,
) -> Vec<Mark> {
    let mut marks = paper(recipe, card, base, up, turned);
    marks.extend(edges(base, turned));
    let (now, others): (Vec<Stretch>, Vec<Stretch>) =
        lines(card, base, strip, up).partition(|stretch| is_now(stretch.line));
    let drawn = |stretch: &Stretch, ink: Ink| {
        let ends = [stretch.course.from, stretch.course.to];
        let [from, to] = ends.map(|at| spot(turned.point(at)));
        line(from, to, ink)
    };
    marks.extend(others.iter().map(|it| drawn(it, Ink::Faint)));
    marks.extend(leaders);
    marks.extend(now.iter().map(|it| drawn(it, it.ink)));
    marks
}

/// The room for what stands beside the paper, in millimetres.
struct Room {
    gap: f64,
    letter: f64,
}

impl Room {
    fn beside(paper: f64) -> Self {
        Self {
            gap: paper * HIGH,
            letter: paper * WIDE,
        }
    }

    /// How far from the paper the middle of a row is.
    fn row(&self, row: usize) -> f64 {
        self.gap * (1.0 + times(row))
    }

    /// Half of how wide words are, with some room.
    fn half(&self, words: &str) -> f64 {
        self.letter * (times(words.chars().count()) + 1.0) / 2.0
    }
}

fn times(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// What stands beside each other in rows: each in the first that has room for it.
#[derive(Default)]
struct Rows {
    /// What each row is taken up to.
    ends: Vec<(f64, f64)>,
    /// The row of each of them.
    rows: Vec<usize>,
}

impl Rows {
    /// The row for something of that middle and half its width.
    fn row(&mut self, middle: f64, half: f64) -> usize {
        let (low, high) = (middle - half, middle + half);
        let is_taken = |row: usize| {
            let mut there = self.ends.iter().zip(&self.rows);
            there.any(|(&(from, to), &at)| at == row && from < high && low < to)
        };
        let row = (0..self.rows.len()).find(|row| !is_taken(*row));
        let row = row.unwrap_or(self.rows.len());
        self.ends.push((low, high));
        self.rows.push(row);
        row
    }
}

fn text(at: Spot, words: String, role: Role) -> Mark {
    Mark::Text { at, words, role }
}
