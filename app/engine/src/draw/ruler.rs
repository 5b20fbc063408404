//! A ruler laid along the foot of what is drawn, at the same scale.

use super::{Drawing, Ink, Mark, Role, Spot, graduation_size, millimetres};
use crate::length::{Length, Notation, Unit};

/// How far apart its marks are at least and its numbers, as shares of the size
/// of these: so that marks can be told apart, and three figures have room. (Our
/// own choice.)
const MARKS: f64 = 0.22;
const NUMBERS: f64 = 2.2;

/// Half the width of a number of three figures, as such a share: one with less
/// room before the end of the ruler is left out and not cut off.
const HALF_A_NUMBER: f64 = 0.9;

/// More marks than any ruler has that can be read.
const MOST: i64 = 400;

/// What the marks of rulers are apart, the shortest first, each with how long
/// such a mark is; the longest are 1.
const INCHES: [(Length, f64); 7] = [
    (Length::sixty_fourths(1), 0.25),
    (Length::sixty_fourths(2), 0.3),
    (Length::sixty_fourths(4), 0.4),
    (Length::sixty_fourths(8), 0.5),
    (Length::sixty_fourths(16), 0.65),
    (Length::sixty_fourths(32), 0.8),
    (Length::sixty_fourths(64), 1.0),
];
const MILLIMETRES: [(Length, f64); 5] = [
    (Length::hundredths_mm(50), 0.3),
    (Length::mm(1), 0.5),
    (Length::mm(5), 0.75),
    (Length::mm(10), 1.0),
    (Length::mm(50), 1.0),
];

/// What its numbers may be apart.
const WHOLE_INCHES: [i64; 6] = [1, 2, 3, 6, 12, 24];
const WHOLE_MILLIMETRES: [i64; 7] = [5, 10, 20, 50, 100, 200, 500];

impl Drawing {
    /// The same with the edge of a ruler along its foot, 0 at the left edge of
    /// the paper, in the maker's unit and down to their division where there is
    /// room to tell its marks apart. It runs on past the right edge of the
    /// drawing by so many millimetres, for whoever shows more than that. What is
    /// larger than any table has none.
    #[must_use]
    pub fn with_ruler(mut self, notation: Notation, beyond: f64) -> Self {
        let text = graduation_size(self.size());
        let Some(graduation) = Graduation::of(notation, text) else {
            return self;
        };
        let end = self.high[0] + beyond;
        let edge = self.low[1];
        let mut lines: Vec<[Spot; 2]> = Vec::new();
        let mut numbers = Vec::new();
        for number in 0..MOST {
            let at = graduation.marks * number;
            let x = self.left + millimetres(at);
            if x > end {
                break;
            }
            lines.push([[x, edge], [x, edge - text * graduation.long(at)]]);
            if graduation.is_numbered(at) && x + HALF_A_NUMBER * text <= end {
                numbers.push(Mark::Text {
                    at: [x, edge - 1.6 * text],
                    words: notation.plain(at),
                    role: Role::Graduation,
                });
            }
        }
        lines.push([[self.left, edge], [end, edge]]);
        self.marks.push(Mark::Lines {
            lines,
            ink: Ink::Ruler,
        });
        self.marks.extend(numbers);
        self.low[1] = edge - 2.2 * text;
        self
    }
}

/// Which marks a ruler has.
struct Graduation {
    /// How far apart its marks are.
    marks: Length,
    /// How far apart its numbers are.
    numbers: Length,
    /// How long which marks are.
    longer: &'static [(Length, f64)],
}

impl Graduation {
    /// What can be read where text has that size; `None` where nothing can.
    fn of(notation: Notation, text: f64) -> Option<Self> {
        let (longer, whole, unit): (&[_], &[i64], _) = match notation.unit() {
            Unit::Inch => (&INCHES, &WHOLE_INCHES, Length::sixty_fourths(64)),
            Unit::Millimetre => (&MILLIMETRES, &WHOLE_MILLIMETRES, Length::mm(1)),
        };
        let mut marks = longer.iter().map(|(apart, _)| *apart);
        let has_room = |apart: Length, least: f64| millimetres(apart) >= least * text;
        let marks = marks.find(|apart| *apart >= notation.step.length() && has_room(*apart, MARKS));
        let mut numbers = whole.iter().map(|times| unit * *times);
        let numbers = numbers.find(|apart| has_room(*apart, NUMBERS));
        Some(Self {
            marks: marks?,
            numbers: numbers?,
            longer,
        })
    }

    /// How long the mark is there, as a share of the longest.
    fn long(&self, at: Length) -> f64 {
        let longest = self.longer.iter().rev();
        let mut longest = longest.filter(|(apart, _)| is_multiple(at, *apart));
        longest.next().map_or(1.0, |(_, long)| *long)
    }

    fn is_numbered(&self, at: Length) -> bool {
        is_multiple(at, self.numbers)
    }
}

fn is_multiple(at: Length, of: Length) -> bool {
    at.units() % of.units() == 0
}
