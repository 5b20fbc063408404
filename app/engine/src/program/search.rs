//! Branch and cut.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::Goal;
use super::row::Overflow;
use super::tableau::{Bound, Cut, Fraction, Penalty, Relaxed, Span, Tableau};
use super::work::Work;

/// How often cuts are added before the first branch, and how many each time.
/// Our own bounds: more of them made rounds dearer than they saved branches.
const CUT_ROUNDS: usize = 12;
const CUTS: usize = 12;

/// Cuts may not make numbers larger than this, so that branches have room
/// before the arithmetic overflows.
const ROOM: u64 = 1 << 20;

/// A search for the columns of least cost.
pub(super) struct Search {
    /// The columns that are made whole. The others are then whole too.
    whole: Range<usize>,
    /// What has to be undercut, where an answer is known.
    known: Option<i128>,
    /// The least cost found, and the columns.
    pub(super) best: Option<(i128, Vec<i64>)>,
    /// The bounds that ended branches without an answer.
    pub(super) blamed: BTreeSet<Bound>,
    /// What cuts follow from, by the columns that are their sums.
    cuts: BTreeMap<usize, Vec<Bound>>,
    /// Whether everything has been looked into.
    pub(super) ended: bool,
}

impl Search {
    pub(super) fn new(whole: Range<usize>, known: Option<i128>) -> Self {
        Self {
            whole,
            known,
            best: None,
            blamed: BTreeSet::new(),
            cuts: BTreeMap::new(),
            ended: false,
        }
    }

    /// What an answer has to cost less than to be of use.
    fn limit(&self) -> Option<i128> {
        self.best.as_ref().map(|(best, _)| *best).or(self.known)
    }

    /// Looks at the relaxation alone. The search has ended where that has no
    /// answer, or comes to whole numbers by itself.
    pub(super) fn relax(&mut self, mut root: Tableau, work: &mut Work) -> Result<(), Overflow> {
        let left = self.settle(&mut root, work)?;
        self.ended = left.is_some_and(|left| left.is_empty());
        Ok(())
    }

    /// Looks for the columns of least cost, or for any, until the work is done.
    pub(super) fn run(
        &mut self,
        mut root: Tableau,
        goal: Goal,
        work: &mut Work,
    ) -> Result<(), Overflow> {
        match root.optimise(self.limit(), work)? {
            Relaxed::Unfinished => return Ok(()),
            Relaxed::Dear => self.ended = true,
            Relaxed::Nothing(bounds) => {
                self.blame(bounds);
                self.ended = true;
            }
            Relaxed::Least => self.branch(root, goal, work),
        }
        Ok(())
    }

    fn branch(&mut self, mut root: Tableau, goal: Goal, work: &mut Work) {
        let mut all = true;
        let mut pile = Vec::new();
        if self.sharpen(&mut root, work) {
            pile.push(root);
        }
        while let Some(tableau) = pile.pop() {
            // What is too large for the arithmetic is left out.
            all &= self.explore(tableau, &mut pile, work).unwrap_or(false);
            if work.is_done() || goal == Goal::Any && self.best.is_some() {
                break;
            }
        }
        self.ended = all && pile.is_empty();
    }

    /// Adds cuts to the relaxation for as long as there are some that keep its
    /// numbers small. `false` where they leave nothing of it.
    fn sharpen(&mut self, root: &mut Tableau, work: &mut Work) -> bool {
        for _ in 0..CUT_ROUNDS {
            let mut sharper = root.clone();
            match self.cut(&mut sharper, work) {
                Ok(Some(Relaxed::Least)) if sharper.is_below(ROOM) => *root = sharper,
                Ok(Some(Relaxed::Nothing(bounds))) => {
                    self.blame(bounds);
                    return false;
                }
                Ok(Some(Relaxed::Dear)) => return false,
                _ => return true,
            }
        }
        true
    }

    /// Adds the cuts with the smallest numbers; none where there are none.
    fn cut(&mut self, tableau: &mut Tableau, work: &mut Work) -> Result<Option<Relaxed>, Overflow> {
        let mut cuts = tableau.cuts()?;
        let size = |cut: &Cut| {
            cut.terms
                .iter()
                .map(|(_, times)| times.unsigned_abs())
                .max()
        };
        cuts.sort_by_key(size);
        cuts.truncate(CUTS);
        if cuts.is_empty() {
            return Ok(None);
        }
        for cut in cuts {
            let span = Span {
                least: Some(cut.least),
                most: None,
            };
            let column = tableau.add_row(&cut.terms, span)?;
            self.cuts.insert(column, cut.from);
        }
        tableau.optimise(self.limit(), work).map(Some)
    }

    /// Puts the two halves of a branch on the pile where it has to be divided,
    /// the cheaper one last. `false` where it was left undone.
    fn explore(
        &mut self,
        mut tableau: Tableau,
        pile: &mut Vec<Tableau>,
        work: &mut Work,
    ) -> Result<bool, Overflow> {
        let Some(penalties) = self.settle(&mut tableau, work)? else {
            return Ok(false);
        };
        let Some(penalty) = hardest(&penalties)? else {
            return Ok(true);
        };
        let mut halves = Vec::new();
        for (rises, dearer) in [(true, penalty.above), (false, penalty.below)] {
            let Some(dearer) = dearer else {
                self.blame(tableau.why_not(penalty.column, rises));
                continue;
            };
            let mut half = tableau.clone();
            if rises {
                half.narrow(penalty.column, Some(penalty.floor.saturating_add(1)), None);
            } else {
                half.narrow(penalty.column, None, Some(penalty.floor));
            }
            halves.push((dearer, half));
        }
        if let [(above, _), (below, _)] = &halves[..]
            && above.against(*below)? == Ordering::Less
        {
            halves.reverse();
        }
        pile.extend(halves.into_iter().map(|(_, half)| half));
        Ok(true)
    }

    /// Solves a relaxation. What comes back are the columns that are not whole
    /// yet: none where there is no more to be had from here. Nothing comes back
    /// where it was left undone.
    fn settle(
        &mut self,
        tableau: &mut Tableau,
        work: &mut Work,
    ) -> Result<Option<Vec<Penalty>>, Overflow> {
        let limit = self.limit();
        match tableau.optimise(limit, work)? {
            Relaxed::Unfinished => return Ok(None),
            Relaxed::Dear => return Ok(Some(Vec::new())),
            Relaxed::Nothing(bounds) => {
                self.blame(bounds);
                return Ok(Some(Vec::new()));
            }
            Relaxed::Least => {}
        }
        let cost = tableau.cost()?.ceil();
        if limit.is_some_and(|limit| cost >= limit) {
            return Ok(Some(Vec::new()));
        }
        work.take(2 * tableau.numbers());
        let penalties = tableau.penalties(&self.whole)?;
        if penalties.is_empty() {
            let values = (0..self.whole.end).map(|column| {
                let is = tableau.level(column)?;
                i64::try_from(is.over / is.under).map_err(|_| Overflow)
            });
            self.best = Some((cost, values.collect::<Result<_, _>>()?));
        }
        Ok(Some(penalties))
    }

    /// Notes what ended a branch; for cuts, what they follow from.
    fn blame(&mut self, bounds: Vec<Bound>) {
        let mut next = bounds;
        let mut seen = BTreeSet::new();
        while let Some(bound) = next.pop() {
            let (Bound::Least(column) | Bound::Most(column)) = bound;
            match self.cuts.get(&column) {
                Some(from) if seen.insert(column) => next.extend(from),
                Some(_) => {}
                None => {
                    self.blamed.insert(bound);
                }
            }
        }
    }
}

/// The column whose cheaper half is dearest; one of which a half is left at
/// most before all others.
fn hardest(penalties: &[Penalty]) -> Result<Option<Penalty>, Overflow> {
    let mut hardest: Option<(Fraction, Fraction, Penalty)> = None;
    for penalty in penalties {
        let (Some(below), Some(above)) = (penalty.below, penalty.above) else {
            return Ok(Some(*penalty));
        };
        let (less, more) = match below.against(above)? {
            Ordering::Less => (below, above),
            Ordering::Equal | Ordering::Greater => (above, below),
        };
        let harder = match &hardest {
            None => true,
            Some((least, most, _)) => match less.against(*least)? {
                Ordering::Less => false,
                Ordering::Equal => more.against(*most)? == Ordering::Greater,
                Ordering::Greater => true,
            },
        };
        if harder {
            hardest = Some((less, more, *penalty));
        }
    }
    Ok(hardest.map(|(.., penalty)| penalty))
}
