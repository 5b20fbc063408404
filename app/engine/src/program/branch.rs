//! Branch and bound, with cuts at the root.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::Goal;
use super::row::Overflow;
use super::tableau::{Bound, Cut, Fraction, Penalty, Relaxed, Span, Tableau};
use super::work::Work;
use crate::sorted::InOrder as _;

/// How often cuts are added before the first branch, and how many each time.
/// Our own bounds: more of them made rounds dearer than they saved branches.
const CUT_ROUNDS: usize = 12;
const CUTS: usize = 12;

/// Cuts may not make numbers larger than this, so that branches have room
/// before the arithmetic overflows.
const ROOM: u64 = 1 << 20;

/// A search for the columns of least cost, node by node, depth first.
pub(super) struct BranchAndBound {
    /// The columns that are made whole. The others are then whole too.
    whole: Range<usize>,
    /// What has to be undercut, where an answer is known beforehand.
    known: Option<i128>,
    /// The incumbent: the least cost found, and the columns.
    pub(super) best: Option<(i128, Vec<i64>)>,
    /// The bounds that made nodes infeasible.
    pub(super) infeasible_bounds: BTreeSet<Bound>,
    /// What cuts follow from, by their slacks.
    cuts: BTreeMap<usize, Vec<Bound>>,
    /// Whether everything has been looked into.
    pub(super) ended: bool,
}

impl BranchAndBound {
    pub(super) fn new(whole: Range<usize>, known: Option<i128>) -> Self {
        Self {
            whole,
            known,
            best: None,
            infeasible_bounds: BTreeSet::new(),
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
        let left = self.solve_node(&mut root, work)?;
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
            Relaxed::CutOff => self.ended = true,
            Relaxed::Infeasible(bounds) => {
                self.note_infeasible(bounds);
                self.ended = true;
            }
            Relaxed::Optimal => self.branch(root, goal, work),
        }
        Ok(())
    }

    fn branch(&mut self, mut root: Tableau, goal: Goal, work: &mut Work) {
        let mut all = true;
        let mut nodes = Vec::new();
        if self.add_cuts(&mut root, work) {
            nodes.push(root);
        }
        while let Some(tableau) = nodes.pop() {
            // What is too large for the arithmetic is left out.
            all &= self.expand(tableau, &mut nodes, work).unwrap_or(false);
            if work.is_done() || goal == Goal::Any && self.best.is_some() {
                break;
            }
        }
        self.ended = all && nodes.is_empty();
    }

    /// Adds cuts to the relaxation for as long as there are some that keep its
    /// numbers small. `false` where they leave nothing of it.
    fn add_cuts(&mut self, root: &mut Tableau, work: &mut Work) -> bool {
        for _ in 0..CUT_ROUNDS {
            let mut sharper = root.clone();
            match self.cut_round(&mut sharper, work) {
                Ok(Some(Relaxed::Optimal)) if sharper.is_below(ROOM) => *root = sharper,
                Ok(Some(Relaxed::Infeasible(bounds))) => {
                    self.note_infeasible(bounds);
                    return false;
                }
                Ok(Some(Relaxed::CutOff)) => return false,
                _ => return true,
            }
        }
        true
    }

    /// Adds the cuts with the smallest numbers; none where there are none.
    fn cut_round(
        &mut self,
        tableau: &mut Tableau,
        work: &mut Work,
    ) -> Result<Option<Relaxed>, Overflow> {
        let mut cuts = tableau.cuts()?;
        let size = |cut: &Cut| {
            cut.terms
                .iter()
                .map(|(_, times)| times.unsigned_abs())
                .max()
        };
        cuts.put_in_order_by_key(size);
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

    /// Branches from a node where it has to be divided: its two children are put
    /// on the nodes, the cheaper one last. `false` where it was left undone.
    fn expand(
        &mut self,
        mut tableau: Tableau,
        nodes: &mut Vec<Tableau>,
        work: &mut Work,
    ) -> Result<bool, Overflow> {
        let Some(penalties) = self.solve_node(&mut tableau, work)? else {
            return Ok(false);
        };
        let Some(penalty) = branching(&penalties)? else {
            return Ok(true);
        };
        let mut children = Vec::new();
        for (rises, by) in [(true, penalty.above), (false, penalty.below)] {
            let Some(by) = by else {
                self.note_infeasible(tableau.immovable(penalty.column, rises));
                continue;
            };
            let mut child = tableau.clone();
            if rises {
                child.tighten(penalty.column, Some(penalty.floor.saturating_add(1)), None);
            } else {
                child.tighten(penalty.column, None, Some(penalty.floor));
            }
            children.push((by, child));
        }
        if let [(above, _), (below, _)] = &children[..]
            && above.against(*below)? == Ordering::Less
        {
            children.reverse();
        }
        nodes.extend(children.into_iter().map(|(_, child)| child));
        Ok(true)
    }

    /// Solves the relaxation of a node. What comes back are the columns that are
    /// not whole yet: none where there is no more to be had from here. Nothing
    /// comes back where it was left undone.
    fn solve_node(
        &mut self,
        tableau: &mut Tableau,
        work: &mut Work,
    ) -> Result<Option<Vec<Penalty>>, Overflow> {
        let limit = self.limit();
        match tableau.optimise(limit, work)? {
            Relaxed::Unfinished => return Ok(None),
            Relaxed::CutOff => return Ok(Some(Vec::new())),
            Relaxed::Infeasible(bounds) => {
                self.note_infeasible(bounds);
                return Ok(Some(Vec::new()));
            }
            Relaxed::Optimal => {}
        }
        let cost = tableau.cost()?.ceil();
        if limit.is_some_and(|limit| cost >= limit) {
            return Ok(Some(Vec::new()));
        }
        work.take(2 * tableau.numbers());
        let penalties = tableau.penalties(&self.whole)?;
        if penalties.is_empty() {
            let values = (0..self.whole.end).map(|column| {
                let is = tableau.value(column)?;
                i64::try_from(is.over / is.under).map_err(|_| Overflow)
            });
            self.best = Some((cost, values.collect::<Result<_, _>>()?));
        }
        Ok(Some(penalties))
    }

    /// Notes what made a node infeasible; for cuts, what they follow from.
    fn note_infeasible(&mut self, bounds: Vec<Bound>) {
        let mut next = bounds;
        let mut seen = BTreeSet::new();
        while let Some(bound) = next.pop() {
            let (Bound::Least(column) | Bound::Most(column)) = bound;
            match self.cuts.get(&column) {
                Some(from) if seen.insert(column) => next.extend(from),
                Some(_) => {}
                None => {
                    self.infeasible_bounds.insert(bound);
                }
            }
        }
    }
}

/// The column to branch on: the one whose cheaper child is dearest; one of which
/// a child is left at most before all others.
fn branching(penalties: &[Penalty]) -> Result<Option<Penalty>, Overflow> {
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
