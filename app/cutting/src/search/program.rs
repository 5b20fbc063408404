//! The linear program for what is left to be cut, and which fillings it knows.

use crate::ground::Ground;
use crate::pool::Filling;
use crate::simplex::{Row, Simplex};

/// Where no limit is set, more sheets than any plan takes.
const ENDLESS: f64 = 1e7;

/// A program with a row for each piece still wanted and for each ground.
#[derive(Debug)]
pub(super) struct Program {
    pub(super) simplex: Simplex,
    /// The row of each piece that had one when it was made.
    rows: Vec<Option<usize>>,
    pieces: usize,
    missing: f64,
    /// Which filling each column is.
    fillings: Vec<usize>,
}

impl Program {
    /// With no fillings yet. A missing piece costs `missing`.
    pub(super) fn new(left: &[u32], supply: &[Option<u32>], missing: u64) -> Self {
        let mut pieces = 0;
        let rows = left.iter().map(|left| {
            (*left > 0).then(|| {
                pieces += 1;
                pieces - 1
            })
        });
        let rows = rows.collect();
        #[expect(
            clippy::cast_precision_loss,
            reason = "what prices prove is proven in whole numbers"
        )]
        let missing = missing as f64;
        let mut program = Self {
            simplex: Simplex::new(Vec::new()),
            rows,
            pieces,
            missing,
            fillings: Vec::new(),
        };
        program.simplex = Simplex::new(program.asked(left, supply));
        program
    }

    fn asked(&self, left: &[u32], supply: &[Option<u32>]) -> Vec<Row> {
        let pieces = left.iter().zip(&self.rows).filter(|(_, row)| row.is_some());
        let pieces = pieces.map(|(left, _)| Row::Least(f64::from(*left), self.missing));
        let grounds = supply
            .iter()
            .map(|left| Row::Most(left.map_or(ENDLESS, f64::from)));
        pieces.chain(grounds).collect()
    }

    /// Asks for other numbers; pieces that were not wanted before still aren't.
    pub(super) fn ask(&mut self, left: &[u32], supply: &[Option<u32>]) {
        let rows = self.asked(left, supply);
        self.simplex.ask(rows);
    }

    /// How many pieces have a row.
    pub(super) fn pieces(&self) -> usize {
        self.pieces
    }

    /// Lets it use a filling.
    pub(super) fn add(&mut self, number: usize, filling: &Filling, ground: &Ground) {
        let entries = filling.gives.iter().filter_map(|(piece, count)| {
            let row = self.rows.get(*piece).copied().flatten()?;
            Some((row, f64::from(*count)))
        });
        let entries = entries.chain([(self.pieces + filling.ground, 1.0)]);
        self.simplex.add(f64::from(ground.cost), entries.collect());
        self.fillings.push(number);
    }

    /// What one more of a piece costs.
    pub(super) fn price(&self, piece: usize) -> f64 {
        let row = self.rows.get(piece).copied().flatten();
        let price = row.and_then(|row| self.simplex.prices().get(row).copied());
        price.unwrap_or(0.0)
    }

    /// What one more sheet of a ground costs; at most nothing.
    pub(super) fn limit(&self, ground: usize) -> f64 {
        let price = self.simplex.prices().get(self.pieces + ground);
        price.copied().unwrap_or(0.0)
    }

    /// The fillings it uses and how often.
    pub(super) fn used(&self) -> Vec<(usize, f64)> {
        let used = self.simplex.used().into_iter();
        let used = used.filter_map(|(column, level)| Some((*self.fillings.get(column)?, level)));
        used.collect()
    }
}
