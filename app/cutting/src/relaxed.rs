//! What a sheet could hold at most, were there enough of every piece.
//!
//! The best value of each part of a sheet by cutting it in two, over and over
//! (Gilmore and Gomory 1966), and from these what can still come beside a block
//! that is there already (Viswanathan and Bagchi 1993). How many there are of
//! each piece is brought in by taking something off the value of those used too
//! often (Lagrangian relaxation), so that the bound stays a bound.

use crate::raster::Axis;

/// A piece as it may lie on a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Lying {
    /// Which piece.
    pub(crate) piece: usize,
    /// Its extent along the width, with what the blade takes.
    pub(crate) width: u32,
    /// Its extent along the height, with what the blade takes.
    pub(crate) height: u32,
}

/// The places on both sides of a sheet, and what can be reached from each.
#[derive(Debug)]
pub(crate) struct Grid {
    pub(crate) across: Axis,
    pub(crate) along: Axis,
    rests_across: Vec<Vec<u16>>,
    rests_along: Vec<Vec<u16>>,
    sums_across: Vec<Vec<u16>>,
    sums_along: Vec<Vec<u16>>,
}

impl Grid {
    /// With at most so many places on each side.
    pub(crate) fn new(width: u32, height: u32, lying: &[Lying], most: u16) -> Self {
        let widths: Vec<u32> = lying.iter().map(|one| one.width).collect();
        let heights: Vec<u32> = lying.iter().map(|one| one.height).collect();
        let across = Axis::new(width, &widths, most);
        let along = Axis::new(height, &heights, most);
        Self {
            rests_across: across.rests(),
            rests_along: along.rests(),
            sums_across: across.sums(),
            sums_along: along.sums(),
            across,
            along,
        }
    }

    /// About how many steps filling one table takes.
    pub(crate) fn work(&self) -> u64 {
        let steps = |rows: &[Vec<u16>]| rows.iter().map(Vec::len).sum::<usize>();
        let across = steps(&self.rests_across) * self.along.len();
        let along = steps(&self.rests_along) * self.across.len();
        u64::try_from(across + along).unwrap_or(u64::MAX)
    }
}

/// The most value that fits each rectangle from 0 to a place on either side.
#[derive(Debug, Clone)]
pub(crate) struct Most {
    high: usize,
    table: Vec<i64>,
    /// What pieces too small for the grid add at most.
    crumbs: i64,
}

#[expect(
    clippy::indexing_slicing,
    reason = "places come from the axes that the tables were made for"
)]
impl Most {
    /// With these values; `counts` bounds what is too small for the grid.
    pub(crate) fn new(grid: &Grid, lying: &[Lying], values: &[i64], counts: &[u32]) -> Self {
        let (wide, high) = (grid.across.len(), grid.along.len());
        let mut table = vec![0; wide * high];
        let mut crumbs = 0;
        let mut counted = vec![false; counts.len()];
        for one in lying {
            let value = values[one.piece];
            if value <= 0 {
                continue;
            }
            let (x, y) = (grid.across.place(one.width), grid.along.place(one.height));
            if x == 0 || y == 0 {
                if !counted[one.piece] {
                    crumbs += value * i64::from(counts[one.piece]);
                    counted[one.piece] = true;
                }
                continue;
            }
            let there = &mut table[x * high + y];
            *there = (*there).max(value);
        }
        for x in 0..wide {
            let (before, from) = table.split_at_mut(x * high);
            let row = &mut from[..high];
            if x > 0 {
                join(row, &before[(x - 1) * high..], &vec![0; high]);
            }
            for (a, rest) in grid.rests_across[x].iter().enumerate().skip(1) {
                let rest = usize::from(*rest);
                let rest = &before[rest * high..][..high];
                join(row, &before[a * high..], rest);
            }
            for y in 1..high {
                let mut best = row[y].max(row[y - 1]);
                for (b, rest) in grid.rests_along[y].iter().enumerate().skip(1) {
                    best = best.max(row[b] + row[usize::from(*rest)]);
                }
                row[y] = best;
            }
        }
        Self {
            high,
            table,
            crumbs,
        }
    }

    /// The most the whole sheet holds.
    pub(crate) fn whole(&self) -> i64 {
        self.table.last().copied().unwrap_or(0) + self.crumbs
    }

    /// How often each piece is used where the whole sheet holds most.
    pub(crate) fn used(&self, grid: &Grid, lying: &[Lying], values: &[i64]) -> Vec<u32> {
        let mut used = vec![0; values.len()];
        let mut open = vec![(grid.across.len() - 1, self.high - 1)];
        while let Some((x, y)) = open.pop() {
            if let Some(parts) = self.parts(grid, x, y) {
                open.extend(parts);
            } else if let Some(one) = self.lies_in(grid, lying, values, x, y) {
                used[one.piece] += 1;
            }
        }
        used
    }

    /// Which piece gives a rectangle its value, where one alone does.
    fn lies_in<'a>(
        &self,
        grid: &Grid,
        lying: &'a [Lying],
        values: &[i64],
        x: usize,
        y: usize,
    ) -> Option<&'a Lying> {
        let value = self.table[x * self.high + y];
        lying.iter().find(|one| {
            let (w, h) = (grid.across.place(one.width), grid.along.place(one.height));
            value > 0 && values[one.piece] == value && (1..=x).contains(&w) && (1..=y).contains(&h)
        })
    }

    /// The parts that give a rectangle its value, where two do or a smaller one.
    fn parts(&self, grid: &Grid, x: usize, y: usize) -> Option<Vec<(usize, usize)>> {
        let high = self.high;
        let value = self.table[x * high + y];
        if value == 0 {
            return None;
        }
        if x > 0 && self.table[(x - 1) * high + y] == value {
            return Some(vec![(x - 1, y)]);
        }
        if y > 0 && self.table[x * high + y - 1] == value {
            return Some(vec![(x, y - 1)]);
        }
        for (a, rest) in grid.rests_across[x].iter().enumerate().skip(1) {
            let rest = usize::from(*rest);
            if self.table[a * high + y] + self.table[rest * high + y] == value {
                return Some(vec![(a, y), (rest, y)]);
            }
        }
        for (b, rest) in grid.rests_along[y].iter().enumerate().skip(1) {
            let rest = usize::from(*rest);
            if self.table[x * high + b] + self.table[x * high + rest] == value {
                return Some(vec![(x, b), (x, rest)]);
            }
        }
        None
    }

    /// The most that can still come beside a block that ends at each place.
    pub(crate) fn around(&self, grid: &Grid) -> Around {
        let (wide, high) = (grid.across.len(), self.high);
        let mut table = vec![0; wide * high];
        for x in (0..wide).rev() {
            let (from, beyond) = table.split_at_mut((x + 1) * high);
            let row = &mut from[x * high..];
            // A block may be taken for a larger one.
            for (best, wider) in row.iter_mut().zip(beyond.iter()) {
                *best = *wider;
            }
            for (a, sum) in grid.sums_across[x].iter().enumerate().skip(1) {
                let sum = usize::from(*sum) - (x + 1);
                join(row, &self.table[a * high..], &beyond[sum * high..][..high]);
            }
            let above = &self.table[x * high..][..high];
            for y in (0..high).rev() {
                let mut best = row[y].max(row.get(y + 1).copied().unwrap_or(0));
                for (b, sum) in grid.sums_along[y].iter().enumerate().skip(1) {
                    best = best.max(above[b] + row[usize::from(*sum)]);
                }
                row[y] = best;
            }
        }
        Around {
            high,
            table,
            crumbs: self.crumbs,
        }
    }
}

/// The most that can still come beside a block.
#[derive(Debug, Clone)]
pub(crate) struct Around {
    high: usize,
    table: Vec<i64>,
    crumbs: i64,
}

impl Around {
    /// For a block that ends at these places.
    pub(crate) fn at(&self, x: usize, y: usize) -> i64 {
        self.table.get(x * self.high + y).copied().unwrap_or(0) + self.crumbs
    }
}

/// Each value of a row becomes the sum of two others where that is more.
fn join(row: &mut [i64], one: &[i64], other: &[i64]) {
    for (best, (one, other)) in row.iter_mut().zip(one.iter().zip(other)) {
        *best = (*best).max(one + other);
    }
}
