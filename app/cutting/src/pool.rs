//! The fillings found so far.

use std::collections::BTreeMap;

use crate::ground::Ground;
use crate::plot::Plot;

/// One way to cut a sheet.
#[derive(Debug, Clone)]
pub(crate) struct Filling {
    pub(crate) ground: usize,
    /// Which pieces it gives, in ascending order, and how many of each.
    pub(crate) gives: Vec<(usize, u32)>,
    pub(crate) plot: Plot,
    pub(crate) cuts: u32,
}

/// All of them, each set of pieces of a ground once.
#[derive(Debug, Default)]
pub(crate) struct Pool {
    fillings: Vec<Filling>,
    known: BTreeMap<(usize, Vec<(usize, u32)>), usize>,
}

impl Pool {
    /// Keeps a filling, or that known of the same pieces if it takes no more
    /// cuts; tells its number and whether it is new.
    pub(crate) fn add(&mut self, number: usize, ground: &Ground, plot: Plot) -> (usize, bool) {
        let gives = gives(ground, &plot);
        let cuts = plot.cuts();
        let filling = Filling {
            ground: number,
            gives: gives.clone(),
            plot,
            cuts,
        };
        if let Some(at) = self.known.get(&(number, gives.clone())).copied() {
            if let Some(known) = self.fillings.get_mut(at)
                && known.cuts > cuts
            {
                *known = filling;
            }
            return (at, false);
        }
        let at = self.fillings.len();
        self.known.insert((number, gives), at);
        self.fillings.push(filling);
        (at, true)
    }

    /// Another plot of the same pieces.
    pub(crate) fn replace(&mut self, number: usize, plot: Plot) {
        if let Some(filling) = self.fillings.get_mut(number) {
            filling.cuts = plot.cuts();
            filling.plot = plot;
        }
    }

    pub(crate) fn get(&self, number: usize) -> Option<&Filling> {
        self.fillings.get(number)
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = &Filling> {
        self.fillings.iter()
    }

    pub(crate) fn len(&self) -> usize {
        self.fillings.len()
    }
}

/// Which pieces a plot gives, and how many.
pub(crate) fn gives(ground: &Ground, plot: &Plot) -> Vec<(usize, u32)> {
    let mut counts = BTreeMap::new();
    for lying in plot.pieces() {
        if let Some(one) = ground.lying.get(lying) {
            *counts.entry(one.piece).or_insert(0) += 1;
        }
    }
    counts.into_iter().collect()
}
