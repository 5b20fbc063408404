//! Every order in which the panels of a folded strip can lie on each other.
//!
//! For each two panels that overlap it is open which lies in front. Four
//! things close it: a fold says so; paper does not pass through a crease (a
//! panel that reaches past one lies on one side of both its panels, and two
//! creases at one place nest or stay apart: the taco–tortilla and taco–taco
//! conditions of flat folding); and "in front of" is transitive.

use crate::length::Length;
use crate::recipe::Fold;

/// A folded strip, and what its paper allows.
#[derive(Debug, Clone)]
pub struct Orders {
    panels: usize,
    /// Overlapping panels, the earlier along the strip first.
    pairs: Vec<(usize, usize)>,
    /// The pair of two panels.
    pair_of: Vec<Option<usize>>,
    parities: Vec<Parity>,
    /// For each pair, the parities it is in.
    parities_of: Vec<Vec<usize>>,
    /// For each pair, the panels that overlap both of it.
    thirds: Vec<Vec<usize>>,
    /// What the folds say.
    folds: Vec<(usize, bool)>,
}

/// Of these pairs an odd, or an even, number have their first panel in front.
#[derive(Debug, Clone)]
struct Parity {
    pairs: Vec<usize>,
    odd: bool,
}

/// For each pair whether its first panel is in front, where known.
type Known = Vec<Option<bool>>;

impl Orders {
    /// The strip of panels of these lengths with these folds between them (one
    /// fewer), side A of the first panel to the front.
    pub fn of(lengths: &[Length], folds: &[Fold]) -> Self {
        let mut at = Length::ZERO;
        let ends: Vec<(Length, Length)> = lengths
            .iter()
            .enumerate()
            .map(|(place, length)| {
                let from = at;
                at = if place % 2 == 0 {
                    at + *length
                } else {
                    at - *length
                };
                (from, at)
            })
            .collect();
        let spans: Vec<_> = ends.iter().map(|(a, b)| (*a.min(b), *a.max(b))).collect();
        let overlap = |a: usize, b: usize| spans[a].0 < spans[b].1 && spans[b].0 < spans[a].1;

        let panels = lengths.len();
        let mut orders = Self {
            panels,
            pairs: Vec::new(),
            pair_of: vec![None; panels * panels],
            parities: Vec::new(),
            parities_of: Vec::new(),
            thirds: Vec::new(),
            folds: Vec::new(),
        };
        for b in 0..panels {
            for a in (0..b).filter(|a| overlap(*a, b)) {
                let pair = Some(orders.pairs.len());
                orders.pair_of[a * panels + b] = pair;
                orders.pair_of[b * panels + a] = pair;
                orders.pairs.push((a, b));
                // On a line, three stretches that overlap two by two have a
                // point in common.
                let thirds = (0..panels).filter(|k| *k != a && *k != b);
                let thirds = thirds.filter(|k| overlap(*k, a) && overlap(*k, b));
                orders.thirds.push(thirds.collect());
            }
        }
        orders.parities_of = vec![Vec::new(); orders.pairs.len()];
        for (crease, fold) in folds.iter().enumerate().take(panels.saturating_sub(1)) {
            let (this, next, at) = (crease, crease + 1, ends[crease].1);
            for past in (0..panels).filter(|past| spans[*past].0 < at && at < spans[*past].1) {
                orders.agree(&[(past, this), (past, next)]);
            }
            let leaves_left = |(from, to): (Length, Length)| from > to;
            for (other, end) in ends.iter().enumerate().take(crease.saturating_sub(1)) {
                if end.1 == at && leaves_left(*end) == leaves_left(ends[crease]) {
                    let beyond = other + 1;
                    orders.agree(&[(other, this), (other, next), (beyond, this), (beyond, next)]);
                }
            }
            // A valley brings the next panel to the front while side A is in
            // front; every second panel lies the other way round.
            let next_in_front = (*fold == Fold::Valley) == (crease % 2 == 0);
            if let Some((pair, _)) = orders.pair(this, next) {
                orders.folds.push((pair, !next_in_front));
            }
        }
        orders
    }

    /// The pair of two overlapping panels, and whether `a` is its first.
    fn pair(&self, a: usize, b: usize) -> Option<(usize, bool)> {
        if a >= self.panels || b >= self.panels {
            return None;
        }
        let pair = (*self.pair_of.get(a * self.panels + b)?)?;
        Some((pair, a < b))
    }

    /// An even number of these have the one named first in front.
    fn agree(&mut self, named: &[(usize, usize)]) {
        let found: Option<Vec<_>> = named.iter().map(|(a, b)| self.pair(*a, *b)).collect();
        // Panels that meet at a crease overlap beside it; if some do not, they
        // have no thickness there and nothing to pass through.
        let Some(found) = found else { return };
        let rule = self.parities.len();
        for (pair, _) in &found {
            self.parities_of[*pair].push(rule);
        }
        self.parities.push(Parity {
            // Naming a pair the other way round turns its answer about.
            odd: found.iter().filter(|(_, first)| !first).count() % 2 == 1,
            pairs: found.into_iter().map(|(pair, _)| pair).collect(),
        });
    }

    /// What follows from some answers; `None` where they contradict.
    fn follow(&self, mut known: Known, answers: &[(usize, bool)]) -> Option<Known> {
        let mut waiting = answers.to_vec();
        while let Some((pair, first)) = waiting.pop() {
            match known[pair] {
                Some(now) if now == first => continue,
                Some(_) => return None,
                None => known[pair] = Some(first),
            }
            for rule in &self.parities_of[pair] {
                let Parity { pairs, odd } = &self.parities[*rule];
                let in_front = pairs.iter().filter(|pair| known[**pair] == Some(true));
                let odd_now = in_front.count() % 2 == 1;
                let mut open = pairs.iter().filter(|pair| known[**pair].is_none());
                match (open.next(), open.next()) {
                    (None, _) if odd_now != *odd => return None,
                    (Some(last), None) => waiting.push((*last, odd_now != *odd)),
                    _ => {}
                }
            }
            let (a, b) = self.pairs[pair];
            let (front, back) = if first { (a, b) } else { (b, a) };
            for k in &self.thirds[pair] {
                if self.in_front(&known, back, *k) == Some(true) {
                    waiting.extend(self.answer(front, *k));
                }
                if self.in_front(&known, *k, front) == Some(true) {
                    waiting.extend(self.answer(*k, back));
                }
            }
        }
        Some(known)
    }

    fn in_front(&self, known: &Known, a: usize, b: usize) -> Option<bool> {
        let (pair, first) = self.pair(a, b)?;
        known[pair].map(|answer| answer == first)
    }

    /// The answer "`front` is in front of `back`".
    fn answer(&self, front: usize, back: usize) -> Option<(usize, bool)> {
        self.pair(front, back)
    }

    /// What the folds alone say; `None` where they contradict each other.
    fn start(&self) -> Option<Known> {
        self.follow(vec![None; self.pairs.len()], &self.folds)
    }

    /// How many orders there are.
    pub fn count(&self) -> u64 {
        let mut waiting: Vec<Known> = self.start().into_iter().collect();
        let mut count = 0;
        while let Some(known) = waiting.pop() {
            match known.iter().position(Option::is_none) {
                None => count += 1,
                Some(open) => waiting.extend(
                    [true, false]
                        .into_iter()
                        .filter_map(|first| self.follow(known.clone(), &[(open, first)])),
                ),
            }
        }
        count
    }

    /// An order, from the panel at the back to the one in front, in which each
    /// of the `wanted` has its first panel in front of its second; `None` where
    /// there is none. Wanted panels that do not overlap ask for nothing.
    pub fn first(&self, wanted: &[(usize, usize)]) -> Option<Vec<usize>> {
        let answers: Vec<_> = wanted
            .iter()
            .filter_map(|(front, back)| self.answer(*front, *back))
            .collect();
        let mut waiting = vec![self.follow(self.start()?, &answers)?];
        while let Some(known) = waiting.pop() {
            match known.iter().position(Option::is_none) {
                None => return Some(self.lined_up(&known)),
                Some(open) => waiting.extend(
                    [false, true]
                        .into_iter()
                        .filter_map(|first| self.follow(known.clone(), &[(open, first)])),
                ),
            }
        }
        None
    }

    /// One line of panels that keeps every pair, back to front.
    fn lined_up(&self, known: &Known) -> Vec<usize> {
        let mut left: Vec<usize> = (0..self.panels).collect();
        let mut order = Vec::with_capacity(self.panels);
        while let Some(at) = left.iter().position(|panel| {
            left.iter()
                .all(|other| self.in_front(known, *panel, *other) != Some(true))
        }) {
            order.push(left.remove(at));
        }
        order
    }

    /// Pairs of panels that can lie either way round, whatever else may then
    /// have to change: the maker's choices.
    pub fn choices(&self) -> Vec<(usize, usize)> {
        self.pairs
            .iter()
            .filter(|(a, b)| self.first(&[(*a, *b)]).is_some() && self.first(&[(*b, *a)]).is_some())
            .copied()
            .collect()
    }
}
