//! The best that one sheet holds, from pieces of which there are only so many.
//!
//! Blocks are put together from two smaller ones, beside or on top of each other
//! (Wang 1983), in the order of how many pieces they hold. A block is kept while
//! it could still become part of something better than the best one found. Where
//! there are too many blocks of one number of pieces, those that could become
//! best are kept. What was dropped tells how much better an answer may exist; if
//! nothing was, the best found is the best there is.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use crate::relaxed::{Around, Grid, Lying, Most};
use crate::tally::{Fields, Tally};

/// How a block came about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Made {
    /// One piece, as it lies: its place in the list given.
    Of(usize),
    /// Two blocks side by side.
    Beside(u32, u32),
    /// The second block further along the height.
    Above(u32, u32),
}

/// A rectangle with pieces in it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Block {
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) value: i64,
    pub(crate) made: Made,
    bound: i64,
    tally: Tally,
}

/// What is searched: a sheet and what its pieces are worth.
#[derive(Debug)]
pub(crate) struct Field<'a> {
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) lying: &'a [Lying],
    pub(crate) grid: &'a Grid,
    /// What each piece is worth; the bound may value it otherwise.
    pub(crate) values: &'a [i64],
    pub(crate) counts: &'a [u32],
}

/// Values under which the bound of a sheet is low.
#[derive(Debug, Clone)]
pub(crate) struct Prices {
    /// What is taken off the value of each piece.
    pub(crate) off: Vec<i64>,
    /// What that adds to the bound.
    pub(crate) base: i64,
    /// The bound of the whole sheet.
    pub(crate) bound: i64,
    around: Around,
}

impl Prices {
    /// The bound with every value as it is, made lower in some rounds while it
    /// is above what is known to be reached.
    pub(crate) fn new(field: &Field, reached: i64, rounds: u32) -> Self {
        let count = field.values.len();
        let mut off = vec![0_i64; count];
        let mut best = off.clone();
        let mut values = field.values.to_vec();
        let mut most = Most::new(field.grid, field.lying, &values, field.counts);
        let mut bound = most.whole();
        let mut best_most = most.clone();
        let mut base = 0;
        let mut halving = 1;
        let mut stale = 0;
        for _ in 0..rounds {
            let used = most.used(field.grid, field.lying, &values);
            let over: Vec<i64> = used
                .iter()
                .zip(field.counts)
                .map(|(used, count)| i64::from(*used) - i64::from(*count))
                .collect();
            let active = |(over, off): (&i64, &i64)| *over > 0 || (*off > 0 && *over < 0);
            let norm: i64 = over
                .iter()
                .zip(&off)
                .filter(|pair| active((pair.0, pair.1)))
                .map(|(over, _)| over * over)
                .sum();
            if norm == 0 || bound <= reached {
                break;
            }
            let current = most.whole() + total(&off, field.counts);
            let step = ((current - reached).max(1) / (norm * halving)).max(1);
            for ((off, over), value) in off.iter_mut().zip(&over).zip(field.values) {
                *off = (*off + step * over).clamp(0, (*value).max(0));
            }
            values = field.values.iter().zip(&off).map(|(v, o)| v - o).collect();
            most = Most::new(field.grid, field.lying, &values, field.counts);
            let now = most.whole() + total(&off, field.counts);
            if now < bound {
                bound = now;
                best.clone_from(&off);
                base = total(&off, field.counts);
                best_most = most.clone();
                stale = 0;
            } else {
                stale += 1;
                if stale == 3 {
                    halving *= 2;
                    stale = 0;
                }
            }
        }
        Self {
            off: best,
            base,
            bound,
            around: best_most.around(field.grid),
        }
    }
}

fn total(off: &[i64], counts: &[u32]) -> i64 {
    let each = off.iter().zip(counts);
    each.map(|(off, count)| off * i64::from(*count)).sum()
}

/// A search that can be left and taken up again.
#[derive(Debug)]
pub(crate) struct Builds {
    blocks: Vec<Block>,
    /// Where the blocks of each number of pieces begin; the last one is open.
    levels: Vec<usize>,
    fields: Fields,
    width: u32,
    height: u32,
    /// The most blocks kept of one number of pieces.
    keep: usize,
    /// What has to be beaten, and whether by ever more.
    best: i64,
    rises: bool,
    /// The best of the open level, which is kept whatever its bound.
    champion: Option<Block>,
    /// The highest bound of what was dropped.
    dropped: i64,
    off: Vec<i64>,
    base: i64,
    /// The number of pieces in the smaller part, and which of those is next.
    split: usize,
    next: usize,
    open: Vec<Block>,
    /// Blocks of the open level with the same pieces.
    alike: HashMap<Tally, Vec<(u32, u32)>, BuildHasherDefault<Mix>>,
    bar: i64,
    done: bool,
}

impl Builds {
    /// A search for everything above a value.
    pub(crate) fn listing(field: &Field, prices: &Prices, over: i64, keep: usize) -> Self {
        Self::begun(field, prices, over, keep, false)
    }

    /// A search for more than is reached already.
    pub(crate) fn new(field: &Field, prices: &Prices, reached: i64, keep: usize) -> Self {
        Self::begun(field, prices, reached, keep, true)
    }

    fn begun(field: &Field, prices: &Prices, reached: i64, keep: usize, rises: bool) -> Self {
        let fields = Fields::new(field.counts);
        let mut search = Self {
            blocks: Vec::new(),
            levels: vec![0],
            fields,
            width: field.width,
            height: field.height,
            keep,
            best: reached,
            rises,
            champion: None,
            dropped: i64::MIN,
            off: field
                .lying
                .iter()
                .map(|one| prices.off.get(one.piece).copied().unwrap_or(0))
                .collect(),
            base: prices.base,
            split: 1,
            next: 0,
            open: Vec::new(),
            alike: HashMap::default(),
            bar: i64::MIN,
            done: false,
        };
        for (number, one) in field.lying.iter().enumerate() {
            if one.width > field.width || one.height > field.height {
                continue;
            }
            let Some(value) = field.values.get(one.piece).copied() else {
                continue;
            };
            let Some(tally) = search.fields.one(one.piece) else {
                if field.counts.get(one.piece).is_some_and(|count| *count > 0) {
                    search.dropped = prices.bound;
                }
                continue;
            };
            let block = Block {
                width: one.width,
                height: one.height,
                value,
                made: Made::Of(number),
                bound: 0,
                tally,
            };
            let off = search.off.get(number).copied().unwrap_or(0);
            search.offer(field, prices, block, value - off);
        }
        search.close();
        search
    }

    /// No filling is worth more, once the search is done.
    pub(crate) fn bound(&self) -> i64 {
        self.best.max(self.dropped)
    }

    pub(crate) fn block(&self, number: usize) -> Option<&Block> {
        self.blocks.get(number)
    }

    /// The blocks worth most, better than `over`, at most `many`, none of them
    /// with mostly the pieces of one before.
    pub(crate) fn finest(&self, over: i64, many: usize) -> Vec<usize> {
        let mut numbers = self.above(over);
        numbers.truncate(many * 32);
        let mut taken: Vec<Vec<usize>> = Vec::new();
        numbers.retain(|number| {
            let used = self.used(*number);
            let alike = |other: &Vec<usize>| {
                let both = used.iter().filter(|one| other.contains(one)).count();
                both * 2 > used.len()
            };
            let new = taken.len() < many && !taken.iter().any(alike);
            if new {
                taken.push(used);
            }
            new
        });
        numbers
    }

    /// The blocks better than `over`, those worth most first.
    pub(crate) fn above(&self, over: i64) -> Vec<usize> {
        let mut numbers: Vec<usize> = (0..self.blocks.len())
            .filter(|at| self.blocks.get(*at).is_some_and(|block| block.value > over))
            .collect();
        numbers.sort_by_key(|at| self.blocks.get(*at).map(|block| -block.value));
        numbers
    }

    /// The pieces of a block as they lie.
    fn used(&self, number: usize) -> Vec<usize> {
        let mut used = Vec::new();
        let mut open = vec![number];
        while let Some(at) = open.pop() {
            match self.blocks.get(at).map(|block| block.made) {
                Some(Made::Of(lying)) => used.push(lying),
                Some(Made::Beside(a, b) | Made::Above(a, b)) => {
                    open.extend([a, b].map(|part| usize::try_from(part).unwrap_or(usize::MAX)));
                }
                None => {}
            }
        }
        used
    }

    /// Goes on while there is work to spend; says whether it is done.
    pub(crate) fn advance(&mut self, field: &Field, prices: &Prices, work: &mut u64) -> bool {
        while !self.done && *work > 0 {
            self.row(field, prices, work);
        }
        self.done
    }

    /// Joins the next block of the smaller part with all of the larger part.
    fn row(&mut self, field: &Field, prices: &Prices, work: &mut u64) {
        let level = self.levels.len();
        let larger = level - self.split;
        let (Some(small), Some(large)) = (self.range(self.split), self.range(larger)) else {
            self.done = true;
            return;
        };
        let one = small.start + self.next;
        if one >= small.end {
            self.next = 0;
            self.split += 1;
            if self.split * 2 > level {
                self.split = 1;
                self.close();
                // One part of the next blocks would hold at least half of the pieces.
                let next = self.levels.len();
                let mut parts = next.div_ceil(2)..next;
                self.done = parts.all(|at| self.range(at).is_none_or(|range| range.is_empty()));
            }
            return;
        }
        self.next += 1;
        let from = if self.split == larger {
            one
        } else {
            large.start
        };
        *work = work.saturating_sub(u64::try_from(large.end - from + 8).unwrap_or(0));
        let Some(a) = self.blocks.get(one).copied() else {
            return;
        };
        for other in from..large.end {
            let Some(b) = self.blocks.get(other).copied() else {
                return;
            };
            let beside = a.width + b.width <= self.width;
            let above = a.height + b.height <= self.height;
            if !beside && !above {
                continue;
            }
            let Some(tally) = self.fields.sum(&a.tally, &b.tally) else {
                continue;
            };
            let value = a.value + b.value;
            let priced = a.bound + b.bound;
            let parts = (number(one), number(other));
            if beside {
                let block = Block {
                    width: a.width + b.width,
                    height: a.height.max(b.height),
                    value,
                    made: Made::Beside(parts.0, parts.1),
                    bound: 0,
                    tally,
                };
                self.offer(field, prices, block, priced);
            }
            if above {
                let block = Block {
                    width: a.width.max(b.width),
                    height: a.height + b.height,
                    value,
                    made: Made::Above(parts.0, parts.1),
                    bound: 0,
                    tally,
                };
                self.offer(field, prices, block, priced);
            }
        }
    }

    fn range(&self, level: usize) -> Option<std::ops::Range<usize>> {
        let start = *self.levels.get(level - 1)?;
        Some(start..*self.levels.get(level)?)
    }

    /// Takes a block into the open level if it may lead to something better.
    fn offer(&mut self, field: &Field, prices: &Prices, mut block: Block, priced: i64) {
        let x = field.grid.across.place(block.width);
        let y = field.grid.along.place(block.height);
        let reach = priced + self.base + prices.around.at(x, y);
        if reach <= self.best {
            return;
        }
        if reach < self.bar {
            self.dropped = self.dropped.max(reach);
            return;
        }
        // The bound is kept as what the pieces are worth under the prices while
        // the level is made from parts, and as the reach while it is sorted.
        block.bound = reach;
        let (width, height) = (block.width, block.height);
        let sizes = self.alike.entry(block.tally).or_default();
        if sizes.iter().any(|(w, h)| *w <= width && *h <= height) {
            return;
        }
        sizes.push((width, height));
        if block.value > self.best && self.rises {
            self.best = block.value;
            self.champion = Some(block);
        }
        self.open.push(block);
        if self.open.len() > self.keep * 3 + 64 {
            self.thin();
        }
    }

    /// Keeps the blocks of the open level that could become best.
    fn thin(&mut self) {
        let best = self.best;
        self.open.retain(|block| block.bound > best);
        if self.open.len() <= self.keep {
            return;
        }
        let size = |block: &Block| u64::from(block.width) * u64::from(block.height);
        let key = |block: &Block| {
            (
                std::cmp::Reverse(block.bound),
                std::cmp::Reverse(size(block)),
            )
        };
        self.open.select_nth_unstable_by_key(self.keep, key);
        for block in self.open.drain(self.keep..) {
            self.dropped = self.dropped.max(block.bound);
        }
        self.bar = self
            .open
            .iter()
            .map(|block| block.bound)
            .min()
            .unwrap_or(self.bar);
    }

    /// Ends the open level.
    fn close(&mut self) {
        self.thin();
        let mut open = std::mem::take(&mut self.open);
        open.sort_by_key(|block| std::cmp::Reverse((block.bound, block.value)));
        let champion = self.champion.take();
        for mut block in champion.into_iter().chain(open) {
            block.bound = block.value - self.off_of(&block);
            self.blocks.push(block);
        }
        self.levels.push(self.blocks.len());
        self.alike.clear();
        self.bar = i64::MIN;
    }

    /// What the prices take off a block.
    fn off_of(&self, block: &Block) -> i64 {
        let part = |number: u32| {
            let part = self
                .blocks
                .get(usize::try_from(number).unwrap_or(usize::MAX));
            part.map_or(0, |part| part.value - part.bound)
        };
        match block.made {
            Made::Of(lying) => self.off.get(lying).copied().unwrap_or(0),
            Made::Beside(a, b) | Made::Above(a, b) => part(a) + part(b),
        }
    }
}

fn number(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

/// Mixes the words of a tally; much quicker than what resists bad intent.
#[derive(Debug, Default)]
pub(crate) struct Mix(u64);

impl Hasher for Mix {
    fn finish(&self) -> u64 {
        self.0 ^ self.0 >> 29
    }

    fn write(&mut self, bytes: &[u8]) {
        for eight in bytes.chunks(8) {
            let mut word = [0; 8];
            for (to, from) in word.iter_mut().zip(eight) {
                *to = *from;
            }
            self.write_u64(u64::from_le_bytes(word));
        }
    }

    fn write_u64(&mut self, word: u64) {
        self.0 = (self.0.rotate_left(23) ^ word).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    }
}
