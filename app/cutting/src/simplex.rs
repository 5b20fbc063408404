//! The linear program over the fillings found so far.
//!
//! How many sheets of each filling, parts of sheets allowed, so that every piece
//! is cut at least as often as it is wanted and no stock is used more often than
//! there is; at least cost. A revised simplex with an explicit inverse: there is
//! a row for each kind of piece and few more, and columns come and go.
//!
//! Floats serve here and nowhere else. Nothing is taken for true because of
//! them: the prices they lead to are rounded to whole numbers, from which
//! `bound` proves a bound anew.

/// Below this a price or a part of a sheet is none; far above what rounding adds
/// up to, far below what a half of anything could be.
const NONE: f64 = 1e-9;

/// Pivots after which the inverse is computed anew.
const FRESH: u32 = 64;

/// What one row asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Row {
    /// At least so many, or each that is missing costs so much.
    Least(f64, f64),
    /// At most so many.
    Most(f64),
}

/// A column: its cost and what it has in some rows.
#[derive(Debug, Clone)]
struct Column {
    cost: f64,
    entries: Vec<(usize, f64)>,
}

/// The program and where its solution stands.
#[derive(Debug, Clone)]
pub(crate) struct Simplex {
    rows: Vec<Row>,
    columns: Vec<Column>,
    /// How many columns came with the rows.
    own: usize,
    basis: Vec<usize>,
    inverse: Vec<f64>,
    levels: Vec<f64>,
    prices: Vec<f64>,
    since: u32,
}

#[expect(
    clippy::indexing_slicing,
    reason = "rows and columns are numbered by what was put in here"
)]
impl Simplex {
    /// With no columns but what is missing and what is left.
    pub(crate) fn new(rows: Vec<Row>) -> Self {
        let unit = |(at, row): (usize, &Row)| Column {
            cost: match row {
                Row::Least(_, missing) => *missing,
                Row::Most(_) => 0.0,
            },
            entries: vec![(at, 1.0)],
        };
        let mut columns: Vec<Column> = rows.iter().enumerate().map(unit).collect();
        for (at, row) in rows.iter().enumerate() {
            if let Row::Least(..) = row {
                columns.push(Column {
                    cost: 0.0,
                    entries: vec![(at, -1.0)],
                });
            }
        }
        let mut simplex = Self {
            own: columns.len(),
            columns,
            basis: Vec::new(),
            inverse: Vec::new(),
            levels: Vec::new(),
            prices: Vec::new(),
            since: 0,
            rows,
        };
        simplex.restart();
        simplex
    }

    /// Another column; its number counts from those added first.
    pub(crate) fn add(&mut self, cost: f64, entries: Vec<(usize, f64)>) {
        self.columns.push(Column { cost, entries });
    }

    /// Asks for other numbers in the rows; what was solved before is a start.
    pub(crate) fn ask(&mut self, rows: Vec<Row>) {
        self.rows = rows;
        self.refresh();
    }

    fn restart(&mut self) {
        let count = self.rows.len();
        self.basis = (0..count).collect();
        self.inverse = vec![0.0; count * count];
        for at in 0..count {
            self.inverse[at * count + at] = 1.0;
        }
        self.refresh();
    }

    /// What a row asks for, moved a little so that no two rows tie for long.
    fn wanted(&self, at: usize) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "it is at most 101")]
        let bit = (at * 7919 % 101 + 1) as f64 * 1e-6;
        match self.rows[at] {
            Row::Least(wanted, _) => wanted + bit,
            Row::Most(most) => most + bit,
        }
    }

    fn refresh(&mut self) {
        let count = self.rows.len();
        let wanted: Vec<f64> = (0..count).map(|at| self.wanted(at)).collect();
        self.levels = (0..count)
            .map(|at| {
                let row = &self.inverse[at * count..][..count];
                row.iter().zip(&wanted).map(|(a, b)| a * b).sum()
            })
            .collect();
        self.prices = vec![0.0; count];
        for at in 0..count {
            let cost = self.columns[self.basis[at]].cost;
            if cost != 0.0 {
                let row = &self.inverse[at * count..][..count];
                for (price, entry) in self.prices.iter_mut().zip(row) {
                    *price += cost * entry;
                }
            }
        }
        self.since = 0;
    }

    /// The inverse anew from the basis; nothing where rounding made it singular.
    fn invert(&mut self) -> Option<()> {
        let count = self.rows.len();
        let mut matrix = vec![0.0; count * count];
        for (at, column) in self.basis.iter().enumerate() {
            for (row, entry) in &self.columns[*column].entries {
                matrix[row * count + at] = *entry;
            }
        }
        let mut inverse = vec![0.0; count * count];
        for at in 0..count {
            inverse[at * count + at] = 1.0;
        }
        for at in 0..count {
            let size = |row: &usize| matrix[row * count + at].abs();
            let pivot = (at..count).max_by(|a, b| size(a).total_cmp(&size(b)))?;
            if matrix[pivot * count + at].abs() < NONE {
                return None;
            }
            if pivot != at {
                for column in 0..count {
                    matrix.swap(pivot * count + column, at * count + column);
                    inverse.swap(pivot * count + column, at * count + column);
                }
            }
            let over = 1.0 / matrix[at * count + at];
            for column in 0..count {
                matrix[at * count + column] *= over;
                inverse[at * count + column] *= over;
            }
            for row in 0..count {
                let times = matrix[row * count + at];
                if row == at || times == 0.0 {
                    continue;
                }
                for column in 0..count {
                    matrix[row * count + column] -= times * matrix[at * count + column];
                    inverse[row * count + column] -= times * inverse[at * count + column];
                }
            }
        }
        self.inverse = inverse;
        Some(())
    }

    /// Solves it, and says what that took.
    pub(crate) fn solve(&mut self) -> u64 {
        let count = self.rows.len();
        let entries: usize = self.columns.iter().map(|it| it.entries.len() + 2).sum();
        let each = u64::try_from(count * count * 2 + entries).unwrap_or(u64::MAX);
        let mut work = self.mend(each);
        // Far more than it ever took; prices are good enough wherever it ends.
        for _ in 0..200 + 40 * count {
            work += each;
            let Some(entering) = self.entering() else {
                break;
            };
            let direction = self.direction(entering);
            let Some(leaving) = self.leaving(&direction) else {
                break;
            };
            self.pivot(entering, leaving, &direction);
            if self.since >= FRESH {
                work += each * u64::try_from(count).unwrap_or(1);
                if self.invert().is_none() {
                    self.restart();
                } else {
                    self.refresh();
                }
            }
        }
        work
    }

    /// Where the rows ask for other numbers than before, makes levels right again
    /// that fell below nothing (dual simplex).
    fn mend(&mut self, each: u64) -> u64 {
        let mut work = 0;
        for _ in 0..2 * self.rows.len() {
            let lowest = self
                .levels
                .iter()
                .enumerate()
                .min_by(|a, b| a.1.total_cmp(b.1));
            let Some((leaving, level)) = lowest else {
                return work;
            };
            if *level >= -1e-7 {
                return work;
            }
            work += each;
            let Some(entering) = self.mending(leaving) else {
                break;
            };
            let direction = self.direction(entering);
            self.pivot(entering, leaving, &direction);
        }
        self.restart();
        work
    }

    /// The column that keeps all prices right when a row's level is raised.
    fn mending(&self, leaving: usize) -> Option<usize> {
        let count = self.rows.len();
        let row = &self.inverse[leaving * count..][..count];
        let mut best: Option<(f64, f64, usize)> = None;
        for (at, column) in self.columns.iter().enumerate() {
            let entries = column.entries.iter();
            let towards: f64 = entries.map(|(row_at, entry)| row[*row_at] * entry).sum();
            if towards >= -1e-7 {
                continue;
            }
            let ratio = self.reduced(column).max(0.0) / -towards;
            if best.is_none_or(|(least, size, _)| {
                ratio < least - 1e-12 || (ratio <= least + 1e-12 && towards < size)
            }) {
                best = Some((ratio, towards, at));
            }
        }
        best.map(|(.., at)| at)
    }

    /// What each level loses for one more of a column.
    fn direction(&self, entering: usize) -> Vec<f64> {
        let count = self.rows.len();
        let column = &self.columns[entering];
        let towards = |at: usize| {
            let row = &self.inverse[at * count..][..count];
            let entries = column.entries.iter();
            entries.map(|(row_at, entry)| row[*row_at] * entry).sum()
        };
        (0..count).map(towards).collect()
    }

    fn reduced(&self, column: &Column) -> f64 {
        let paid = column.entries.iter();
        column.cost
            - paid
                .map(|(row, entry)| self.prices[*row] * entry)
                .sum::<f64>()
    }

    fn entering(&self) -> Option<usize> {
        let mut best = (-NONE * 10.0, None);
        for (at, column) in self.columns.iter().enumerate() {
            let reduced = self.reduced(column);
            if reduced < best.0 {
                best = (reduced, Some(at));
            }
        }
        best.1
    }

    fn leaving(&self, direction: &[f64]) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for (at, towards) in direction.iter().enumerate() {
            if *towards <= NONE {
                continue;
            }
            let ratio = self.levels[at].max(0.0) / towards;
            if best.is_none_or(|(least, other)| {
                ratio < least - 1e-12 || (ratio <= least + 1e-12 && *towards > direction[other])
            }) {
                best = Some((ratio, at));
            }
        }
        best.map(|(_, at)| at)
    }

    fn pivot(&mut self, entering: usize, leaving: usize, direction: &[f64]) {
        let count = self.rows.len();
        let over = 1.0 / direction[leaving];
        let reduced = self.reduced(&self.columns[entering]);
        let ratio = self.levels[leaving] * over;
        let pivot: Vec<f64> = self.inverse[leaving * count..][..count]
            .iter()
            .map(|entry| entry * over)
            .collect();
        for (price, entry) in self.prices.iter_mut().zip(&pivot) {
            *price += reduced * entry;
        }
        for (at, towards) in direction.iter().enumerate() {
            if at == leaving || *towards == 0.0 {
                continue;
            }
            self.levels[at] -= towards * ratio;
            let row = &mut self.inverse[at * count..][..count];
            for (entry, pivot) in row.iter_mut().zip(&pivot) {
                *entry -= towards * pivot;
            }
        }
        self.levels[leaving] = ratio;
        self.inverse[leaving * count..][..count].copy_from_slice(&pivot);
        self.basis[leaving] = entering;
        self.since += 1;
    }

    /// What one more of each row would cost; for a limit, at most nothing.
    pub(crate) fn prices(&self) -> &[f64] {
        &self.prices
    }

    /// What the solution costs.
    pub(crate) fn cost(&self) -> f64 {
        let each = self.basis.iter().zip(&self.levels);
        each.map(|(column, level)| self.columns[*column].cost * level)
            .sum()
    }

    /// The columns that were added and are used, and how often.
    pub(crate) fn used(&self) -> Vec<(usize, f64)> {
        let each = self.basis.iter().zip(&self.levels);
        let mut used: Vec<(usize, f64)> = each
            .filter(|(column, level)| **column >= self.own && **level > 1e-6)
            .map(|(column, level)| (column - self.own, *level))
            .collect();
        used.sort_by_key(|(column, _)| *column);
        used
    }
}
