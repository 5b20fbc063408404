//! What comes out: which sheets are cut how, and how good that is.

use crate::job::Job;
use crate::layout::Batch;
use crate::length::Rect;
use crate::sequence::{Sequence, measured, sequence};

/// A plan, and what it takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    batches: Vec<Batch>,
    missing: Vec<u32>,
    cost: u64,
    sequence: Sequence,
    best_offcut: Option<(usize, Rect)>,
}

impl Plan {
    pub(crate) fn new(job: &Job, batches: Vec<Batch>) -> Self {
        let mut missing: Vec<u32> = job.pieces().iter().map(|it| it.count.get()).collect();
        let mut cost = 0;
        for batch in &batches {
            let stock = job.stocks().get(batch.stock);
            let each = stock.map_or(0, |stock| u64::from(stock.cost));
            cost += each * u64::from(batch.sheets.get());
            for (piece, ..) in batch.layout.pieces() {
                if let Some(missing) = missing.get_mut(piece) {
                    *missing = missing.saturating_sub(batch.sheets.get());
                }
            }
        }
        let offcuts = batches.iter().enumerate();
        let offcuts = offcuts.flat_map(|(at, it)| it.layout.offcuts().map(move |cut| (at, cut)));
        let best_offcut = offcuts.max_by_key(|(at, cut)| (cut.size.area(), std::cmp::Reverse(*at)));
        Self {
            sequence: sequence(job, &batches),
            batches,
            missing,
            cost,
            best_offcut,
        }
    }

    /// The same with what is used measured from the fence where either side of a cut
    /// may lie there. While plans are searched for, that matters to none.
    pub(crate) fn measured(mut self, job: &Job) -> Self {
        self.sequence = measured(job, &self.batches, self.sequence);
        self
    }

    /// The sheets, those cut alike together.
    pub fn batches(&self) -> &[Batch] {
        &self.batches
    }

    /// How many of each piece of the job can't be had: there is too little paper,
    /// or they fit none, or the trimmer can't cut them.
    pub fn missing(&self) -> &[u32] {
        &self.missing
    }

    /// How many pieces can't be had altogether.
    pub fn lacks(&self) -> u64 {
        self.missing.iter().map(|missing| u64::from(*missing)).sum()
    }

    /// What the sheets cost; with a cost of 1 for each new one, how many those are.
    pub fn cost(&self) -> u64 {
        self.cost
    }

    /// How many sheets are cut into, scraps included.
    pub fn sheets(&self) -> u64 {
        let sheets = self
            .batches
            .iter()
            .map(|batch| u64::from(batch.sheets.get()));
        sheets.sum()
    }

    /// The cuts one after the other.
    pub fn sequence(&self) -> &Sequence {
        &self.sequence
    }

    /// The largest thing left over in one piece, with the number of its batch.
    pub fn best_offcut(&self) -> Option<(usize, Rect)> {
        self.best_offcut
    }

    /// Less is better, the first number before the others: pieces that are
    /// missing, cost, handling, and how far the best offcut is from endless.
    pub(crate) fn rank(&self) -> (u64, u64, u64, u64) {
        let offcut = self.best_offcut.map_or(0, |(_, cut)| cut.size.area());
        (
            self.lacks(),
            self.cost,
            self.sequence.handling(),
            u64::MAX - offcut,
        )
    }
}

/// What no plan can do better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Bound {
    /// Every plan lacks at least so many pieces.
    pub missing: u64,
    /// Every plan that lacks no more than that costs at least so much.
    pub cost: u64,
}
