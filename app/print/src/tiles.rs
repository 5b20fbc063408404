//! How a part larger than a page is drawn on several that are joined.

use foldwright_engine::draw::Spot;

/// How far two pages that are joined lie on each other, in millimetres: as wide as
/// tape (common practice, from memory), and letters have room at each side of the
/// join.
pub(crate) const OVERLAP: f64 = 12.0;

/// A part that takes more pages than these is not drawn. (Own choice: the longest
/// strip of the starting folds takes three.)
const MOST: usize = 60;

/// The last page of a row or a column has so much of the part at least, in
/// millimetres, so that its crosses are on no page but the two that they join.
/// (Own choice.)
const LAST: f64 = 5.0 * OVERLAP;

/// What of a part lies on a page, in millimetres from its lower left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Window {
    pub(crate) low: Spot,
    pub(crate) high: Spot,
}

/// Where two pages are joined: the line along which one is cut.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Join {
    pub(crate) from: Spot,
    pub(crate) to: Spot,
    pub(crate) letter: String,
}

/// The pages of a part, row by row from its head and in each from its left.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Tiles {
    pub(crate) windows: Vec<Window>,
    pub(crate) joins: Vec<Join>,
}

impl Window {
    pub(crate) fn holds(&self, at: Spot) -> bool {
        (0..2).all(|i| self.low[i] < at[i] && at[i] < self.high[i])
    }
}

impl Join {
    pub(crate) fn middle(&self) -> Spot {
        [0, 1].map(|i| f64::midpoint(self.from[i], self.to[i]))
    }
}

/// How many pages a side takes that is so long, where each has so much room.
fn count(long: f64, room: f64) -> usize {
    let step = room - OVERLAP;
    let (mut pages, mut reach) = (1, room);
    while reach < long && pages <= MOST {
        pages += 1;
        reach += step;
    }
    pages
}

impl Tiles {
    /// How many pages a part takes, where each has so much room; more than are
    /// drawn where it takes too many.
    pub(crate) fn needed(size: Spot, room: Spot) -> usize {
        count(size[0], room[0]) * count(size[1], room[1])
    }

    /// The pages of something from one corner to the other; as an error how many it
    /// would take, where these are too many.
    pub(crate) fn of(low: Spot, high: Spot, room: Spot) -> Result<Self, usize> {
        let size = [high[0] - low[0], high[1] - low[1]];
        let needed = Self::needed(size, room);
        if needed > MOST {
            return Err(needed);
        }
        let [columns, rows] = [0, 1].map(|i| count(size[i], room[i]));
        #[expect(clippy::cast_precision_loss, reason = "there are few")]
        let float = |number: usize| number as f64;
        // All but the last are as large as they can be: in the middle of a part there
        // is often a crease, which a join must not hide.
        let steps = [(0, columns), (1, rows)].map(|(i, pages)| {
            let before_last = float(pages.saturating_sub(1)).max(1.0);
            ((size[i] - LAST) / before_last).min(room[i] - OVERLAP)
        });
        let window = |row: usize, column: usize| {
            let left = low[0] + steps[0] * float(column);
            let top = high[1] - steps[1] * float(row);
            let right = left + steps[0] + OVERLAP;
            let bottom = top - steps[1] - OVERLAP;
            Window {
                low: [left, if row + 1 < rows { bottom } else { low[1] }],
                high: [if column + 1 < columns { right } else { high[0] }, top],
            }
        };
        let mut tiles = Self {
            windows: Vec::with_capacity(needed),
            joins: Vec::new(),
        };
        for row in 0..rows {
            for column in 0..columns {
                let Window { low, high } = window(row, column);
                tiles.windows.push(Window { low, high });
                if column + 1 < columns {
                    let x = high[0] - OVERLAP / 2.0;
                    tiles.join([x, low[1]], [x, high[1]]);
                }
                if row + 1 < rows {
                    let y = low[1] + OVERLAP / 2.0;
                    tiles.join([low[0], y], [high[0], y]);
                }
            }
        }
        Ok(tiles)
    }

    fn join(&mut self, from: Spot, to: Spot) {
        let letter = letters(self.joins.len());
        self.joins.push(Join { from, to, letter });
    }
}

/// A, B, … Z, AA, AB, …
fn letters(number: usize) -> String {
    let mut word = String::new();
    let mut rest = number + 1;
    while rest > 0 {
        rest -= 1;
        let letter = u8::try_from(rest % 26).unwrap_or_default();
        word.insert(0, char::from(b'A' + letter));
        rest /= 26;
    }
    word
}

#[cfg(test)]
mod tests {
    use super::{MOST, OVERLAP, Tiles, letters};

    #[test]
    fn tiles_cover_all_and_lie_on_each_other_by_the_overlap() {
        for (size, pages) in [
            ([100.0, 100.0], 1),
            ([180.0, 200.0], 1),
            ([180.1, 200.0], 2),
            ([348.0, 388.0], 4),
            ([348.1, 388.1], 9),
        ] {
            let high = [size[0] - 3.0, size[1] - 3.0];
            let tiles = Tiles::of([-3.0, -3.0], high, [180.0, 200.0]).unwrap();
            assert_eq!(tiles.windows.len(), pages, "{size:?}");
            for window in &tiles.windows {
                assert!(window.high[0] - window.low[0] <= 180.000_001);
                assert!(window.high[1] - window.low[1] <= 200.000_001);
            }
            let first = tiles.windows.first().unwrap();
            let last = tiles.windows.last().unwrap();
            assert!((first.low[0] + 3.0).abs() < 1e-9 && (first.high[1] - high[1]).abs() < 1e-9);
            assert!((last.low[1] + 3.0).abs() < 1e-9 && (last.high[0] - high[0]).abs() < 1e-9);
            // Each join lies in the middle of what two windows share.
            for join in &tiles.joins {
                let windows = tiles.windows.iter();
                let on = windows.filter(|window| window.holds(join.middle()));
                assert_eq!(on.count(), 2, "{join:?}");
            }
        }
    }

    #[test]
    fn what_takes_too_many_pages_says_how_many() {
        let long = 10_000.0;
        assert!(Tiles::of([0.0; 2], [long, long], [180.0, 200.0]).is_err());
        assert!(Tiles::needed([long, 50.0], [190.0 + OVERLAP, 200.0]) <= MOST);
    }

    #[test]
    fn joins_go_on_after_the_alphabet() {
        assert_eq!(
            [0, 25, 26, 51, 52].map(letters),
            ["A", "Z", "AA", "AZ", "BA"]
        );
    }
}
