//! Solving a recipe again whose numbers were changed in two places at once.
//!
//! Each change was solved where it was made; together the numbers are those of
//! neither. What was decided stays as far as that goes together, the last
//! decision before those before it, and the rest follows. The result depends
//! on nothing but the recipe and what was decided.

use std::collections::BTreeSet;

use serde::Serialize;

use super::solve::STILL;
use super::{Change, Clash, Holds, Is, MeasureId, Recipe, Relation};
use crate::length::Length;

/// How many changes are looked at. Our own bound: what is older was made long
/// before the two changed it.
const MOST_DECIDED: usize = 12;

/// How many measures are tried as what a change decided. Our own bound on the
/// time that takes.
const MOST_TRIED: usize = 12;

/// How many times something gives way. Our own bound.
const MOST_TURNS: usize = 64;

/// What solving a recipe again came to.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Rejoined {
    /// What was decided and holds.
    pub kept: Vec<MeasureId>,
    /// What followed from that, from what it was in the recipe as it came.
    pub moved: Vec<Change>,
    /// What was decided and does not go together with what was decided later.
    pub gave_way: Vec<(MeasureId, Length)>,
    /// Relations that contradict the others, and were taken out.
    pub left_out: Vec<Relation>,
    /// Nothing helped: it stays as it came.
    pub unsolved: bool,
}

/// What of a recipe its solution depends on.
#[derive(Serialize)]
struct System<'a> {
    measures: Vec<(MeasureId, Length, bool)>,
    held: &'a [Relation],
}

impl Recipe {
    /// A short text that tells the numbers and what holds between them from
    /// all others.
    pub fn numbers(&self) -> String {
        let measures = self.measures.iter();
        let system = System {
            measures: measures.map(|it| (it.id, it.value, it.pinned)).collect(),
            held: &self.held(),
        };
        // Numbers and texts, which JSON can always hold.
        let text = serde_json::to_string(&system).unwrap_or_default();
        // FNV-1a of 64 bits (Fowler, Noll, Vo): the same everywhere.
        let hash = text.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        });
        format!("{hash:x}")
    }

    /// Which measures the change from `before` decided, so that the others only
    /// followed. Where measures are tied, so that deciding any one of them
    /// comes to the same, it is all of these.
    pub fn decided_since(&self, before: &Self) -> Vec<MeasureId> {
        let changed: Vec<(MeasureId, Length)> = self
            .measures
            .iter()
            .filter(|it| {
                before
                    .measure(it.id)
                    .is_some_and(|old| old.value != it.value)
            })
            .map(|it| (it.id, it.value))
            .collect();
        let mut from = self.clone();
        for measure in &mut from.measures {
            if let Some(old) = before.measure(measure.id) {
                measure.value = old.value;
            }
        }
        let is_here = |solved: &Self| {
            let mut measures = solved.measures.iter().zip(&self.measures);
            measures.all(|(one, other)| (one.value - other.value).abs() <= STILL)
        };
        let leads_here = |asked: &[(MeasureId, Length)]| {
            let mut solved = from.clone();
            solved.settle(asked, &[], &[]).is_ok() && is_here(&solved)
        };
        // What is set by hand may take more along than what depends on it.
        let is_set = |(id, value): (MeasureId, Length)| {
            let mut solved = from.clone();
            solved.set(id, value).is_ok() && is_here(&solved)
        };
        let tried = changed.iter().take(MOST_TRIED);
        let alone = tried.filter(|one| leads_here(&[**one]) || is_set(**one));
        let mut asked: Vec<_> = alone.copied().collect();
        if asked.is_empty() {
            asked = changed;
            if asked.len() <= MOST_TRIED {
                // The least firm ones follow before the firmer ones do.
                for at in (0..asked.len()).rev() {
                    let mut fewer = asked.clone();
                    fewer.remove(at);
                    if leads_here(&fewer) {
                        asked = fewer;
                    }
                }
            }
            asked.truncate(MOST_TRIED);
        }
        asked.into_iter().map(|(id, _)| id).collect()
    }

    /// Whether everything holds that can be solved for or must hold.
    pub fn holds_together(&self) -> bool {
        let off = self.off();
        off.iter()
            .all(|it| it.is != Is::Equal && it.holds == Holds::Should)
    }

    /// Solves the relations again. `decided` is what each change decided, the
    /// last change first: at least one number of each holds where that can be.
    pub fn rejoin(&mut self, decided: &[Vec<(MeasureId, Length)>]) -> Rejoined {
        let mut rejoined = Rejoined::default();
        let all: Vec<_> = decided.iter().flatten().copied().collect();
        let concerned = self.concerned(&all);
        let mut decided: Vec<Vec<(MeasureId, Length)>> = decided.to_vec();
        for change in &mut decided {
            change.retain(|(id, _)| concerned.contains(id));
        }
        decided.retain(|change| !change.is_empty());
        decided.truncate(MOST_DECIDED);
        let mut loose = self.clone();
        let mut firm = BTreeSet::new();
        let solved = (0..MOST_TURNS).find_map(|_| match loose.with_decisions(&decided, &firm) {
            Ok(solved) => Some(solved),
            Err(clash) => {
                let gave = loose.give_way(&clash, &mut firm, &mut rejoined.left_out);
                (!gave).then(|| loose.clone())
            }
        });
        let Some(mut solved) = solved.filter(equations_hold) else {
            rejoined.left_out.clear();
            rejoined.unsolved = true;
            return rejoined;
        };
        for (measure, was) in solved.measures.iter_mut().zip(&self.measures) {
            measure.pinned = was.pinned;
        }
        for (id, value) in decided.into_iter().flatten() {
            if (solved.value(id) - value).abs() <= STILL {
                rejoined.kept.push(id);
            } else {
                rejoined.gave_way.push((id, value));
            }
        }
        let changes = self.measures.iter().zip(&solved.measures);
        let changes = changes.map(|(was, is)| Change {
            measure: is.id,
            from: was.value,
            to: is.value,
        });
        let moved = changes.filter(|it| (it.to - it.from).abs() > STILL);
        let moved = moved.filter(|it| !rejoined.kept.contains(&it.measure));
        rejoined.moved = moved.collect();
        *self = solved;
        rejoined
    }

    /// The measures that what is off depends on, over however many equations:
    /// relations, and numbers that are not what was decided.
    fn concerned(&self, decided: &[(MeasureId, Length)]) -> BTreeSet<MeasureId> {
        let mut concerned: BTreeSet<_> = self.off().iter().flat_map(ids).collect();
        let measures = self.measures.iter();
        let other = measures.filter(|it| {
            let mut decided = decided.iter();
            decided.any(|(id, value)| it.id == *id && it.value != *value)
        });
        concerned.extend(other.map(|it| it.id));
        self.depending(concerned)
    }

    /// The measures that depend on any of these, over however many equations.
    fn depending(&self, mut concerned: BTreeSet<MeasureId>) -> BTreeSet<MeasureId> {
        let mut held = self.held();
        loop {
            let before = held.len();
            held.retain(|relation| {
                let ids = ids(relation);
                let touches = ids.iter().any(|id| concerned.contains(id));
                if touches {
                    concerned.extend(ids);
                }
                !touches
            });
            if held.len() == before {
                return concerned;
            }
        }
    }

    /// The recipe solved with as many of these as go together, the first
    /// changes before the later ones; and with none of them, why not. What is
    /// `firm` moves after all else.
    fn with_decisions(
        &self,
        decided: &[Vec<(MeasureId, Length)>],
        firm: &BTreeSet<MeasureId>,
    ) -> Result<Self, Clash> {
        let measures = self.measures.iter().map(|it| it.id);
        let yielding: Vec<_> = measures.filter(|id| !firm.contains(id)).collect();
        let solve = |asked: &[(MeasureId, Length)]| {
            let mut solved = self.clone();
            solved.settle(asked, &[], &yielding).map(|_| solved)
        };
        let whole = |solved: &Self| solved.broken().is_empty();
        let all: Vec<_> = decided.iter().flatten().copied().collect();
        if let Ok(all) = solve(&all)
            && whole(&all)
        {
            return Ok(all);
        }
        // First so that no rule is broken, and only else so that the equations
        // hold: a maker may leave a measure below its least.
        let mut best = solve(&[]);
        let strict = best.as_ref().is_ok_and(whole);
        let mut asked = Vec::new();
        let mut fits = |one: (MeasureId, Length)| {
            asked.push(one);
            match solve(&asked) {
                Ok(solved) if !strict || whole(&solved) => {
                    best = Ok(solved);
                    true
                }
                _ => {
                    asked.pop();
                    false
                }
            }
        };
        // One number of each change, and then what else goes along.
        let mut rest = Vec::new();
        for change in decided {
            let taken = change.iter().position(|one| fits(*one));
            let later = taken.map_or(change.len(), |taken| taken + 1);
            rest.extend(change.iter().skip(later).copied());
        }
        for one in rest {
            fits(one);
        }
        best
    }

    /// Lets go of what stands in the way: the freedom of a size that would be
    /// nothing, a pin, the last relation of those that clash.
    fn give_way(
        &mut self,
        clash: &Clash,
        firm: &mut BTreeSet<MeasureId>,
        left_out: &mut Vec<Relation>,
    ) -> bool {
        match clash {
            Clash::Relations { relations, pinned } => {
                let pinned = pinned.iter().copied().collect();
                self.free_last(&pinned)
                    || self.leave_out_last(left_out, |relation| relations.contains(relation))
            }
            Clash::NotPositive { measure, .. } | Clash::TooLong(measure) => {
                // It stays what it is where something else can move instead.
                if firm.insert(*measure) {
                    return true;
                }
                let depending = self.depending(BTreeSet::from([*measure]));
                let touches = |relation: &Relation| {
                    let mut ids = ids(relation).into_iter();
                    ids.any(|id| depending.contains(&id))
                };
                self.free_last(&depending) || self.leave_out_last(left_out, touches)
            }
            Clash::TooTangled => self.leave_out_last(left_out, |_| true),
        }
    }

    /// Frees the last of these measures that is pinned; tells whether one was.
    fn free_last(&mut self, of: &BTreeSet<MeasureId>) -> bool {
        let mut measures = self.measures.iter_mut().rev();
        let pinned = measures.find(|it| it.pinned && of.contains(&it.id));
        pinned.is_some_and(|measure| std::mem::take(&mut measure.pinned))
    }

    /// Leaves the last such relation out; tells whether there was one.
    fn leave_out_last(
        &mut self,
        left_out: &mut Vec<Relation>,
        such: impl Fn(&Relation) -> bool,
    ) -> bool {
        let at = self.relations.iter().rposition(such);
        left_out.extend(at.map(|at| self.relations.remove(at)));
        at.is_some()
    }
}

/// The measures a relation speaks of.
fn ids(relation: &Relation) -> Vec<MeasureId> {
    relation.terms().map(|(_, of)| of).collect()
}

fn equations_hold(recipe: &Recipe) -> bool {
    let broken = recipe.broken();
    broken.iter().all(|relation| relation.is != Is::Equal)
}
