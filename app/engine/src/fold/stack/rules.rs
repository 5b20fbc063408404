//! The pairs of facets that overlap, and what ties their order.

use std::collections::BTreeSet;

use super::outline::Outline;
use super::{Stack, creases, piles};
use crate::fold::bits::Bits;
use crate::recipe::Fold;

/// More facets, or more joints between them, than any card has. (Our own
/// choice.)
const MOST_FACETS: usize = 1000;
const MOST_JOINTS: usize = 2000;

/// Counts how often outlines and facets are looked at.
#[derive(Default)]
pub(super) struct Work(usize);

impl Work {
    /// As much as a phone does in about a second. (Our own choice.)
    const MOST: usize = 30_000_000;

    /// `None` where it becomes too much.
    pub(super) fn add(&mut self, looks: usize) -> Option<()> {
        self.0 = self.0.saturating_add(looks);
        (self.0 <= Self::MOST).then_some(())
    }
}

/// One of a pair lies in front of the other: the pair's number, and which.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Answer {
    pub(super) pair: usize,
    /// Whether the pair's first facet is the one in front.
    pub(super) first: bool,
}

impl Answer {
    pub(super) fn opposite(self) -> Self {
        Self {
            first: !self.first,
            ..self
        }
    }

    /// Its place in a list with one for each answer.
    pub(super) fn index(self) -> usize {
        self.pair * 2 + usize::from(self.first)
    }
}

/// Of these pairs an odd, or an even, number have their first facet in front.
#[derive(Debug, Clone)]
pub(super) struct Parity {
    pub(super) pairs: Vec<usize>,
    pub(super) odd: bool,
    /// The joints it comes from.
    causes: [usize; 2],
}

/// An answer that a joint gives.
#[derive(Debug, Clone, Copy)]
struct Fact {
    answer: Answer,
    cause: usize,
}

/// Which facets, and which joints between them, are asked about.
#[derive(Debug, Clone)]
pub(super) struct Part {
    pub(super) facets: Bits,
    /// Hinges by their places, and bonds after them.
    pub(super) joints: Bits,
}

/// What the paper allows.
#[derive(Debug, Clone)]
pub(super) struct Rules {
    pub(super) facets: usize,
    pub(super) hinges: usize,
    pub(super) bonds: usize,
    /// Overlapping facets, the lower number first.
    pub(super) pairs: Vec<(usize, usize)>,
    /// The number of the pair of two facets, in rows.
    pair_of: Vec<Option<u32>>,
    /// The sets of facets that lie over one place each, two or more.
    pub(super) piles: Vec<Bits>,
    /// For each pair the facets that have a place in common with both, as the
    /// words of a set, in rows.
    thirds: Vec<u64>,
    pub(super) parities: Vec<Parity>,
    /// For each pair, the parities it is in.
    pub(super) parities_of: Vec<Vec<usize>>,
    facts: Vec<Fact>,
}

impl Rules {
    /// `None` for a stack too large or too intricate to tell.
    pub(super) fn of(stack: &Stack) -> Option<Self> {
        let joints = stack.hinges.len() + stack.bonds.len();
        if stack.facets.len() > MOST_FACETS || joints > MOST_JOINTS {
            return None;
        }
        let areas = stack.facets.iter().map(|facet| &facet.area);
        let glues = stack.bonds.iter().map(|bond| &bond.glue);
        let outlines: Vec<Outline> = areas.chain(glues).map(Outline::of).collect();
        let mut work = Work::default();
        let over_places = piles::piles(&outlines, &mut work)?;
        let facets = stack.facets.len();
        let mut builder = Builder(Self {
            facets,
            hinges: stack.hinges.len(),
            bonds: stack.bonds.len(),
            pairs: Vec::new(),
            pair_of: vec![None; facets * facets],
            piles: without_glue(&over_places, facets),
            thirds: Vec::new(),
            parities: Vec::new(),
            parities_of: Vec::new(),
            facts: Vec::new(),
        });
        builder.find_pairs(&mut work)?;
        builder.folds(stack);
        creases::rules(stack, &outlines, &mut builder, &mut work)?;
        builder.bonds(stack, &over_places);
        Some(builder.0)
    }

    /// Those that tie only facets of a part, by its joints.
    pub(super) fn within(&self, part: &Part) -> Self {
        let asked = |pair: usize| self.is_in(pair, part);
        let facts = self.facts.iter();
        let mut rules = Self {
            facts: facts
                .filter(|fact| part.joints.has(fact.cause) && asked(fact.answer.pair))
                .copied()
                .collect(),
            parities: Vec::new(),
            parities_of: vec![Vec::new(); self.pairs.len()],
            ..self.clone()
        };
        for rule in &self.parities {
            let caused = rule.causes.iter().all(|cause| part.joints.has(*cause));
            if caused && rule.pairs.iter().all(|pair| asked(*pair)) {
                rules.add(rule.clone());
            }
        }
        rules
    }

    /// Whether both facets of a pair are in a part.
    pub(super) fn is_in(&self, pair: usize, part: &Part) -> bool {
        let (a, b) = self.pairs[pair];
        part.facets.has(a) && part.facets.has(b)
    }

    /// The answer "`front` is in front of `back`"; `None` where they do not
    /// overlap.
    pub(super) fn answer(&self, front: usize, back: usize) -> Option<Answer> {
        if front >= self.facets || back >= self.facets {
            return None;
        }
        let pair = (*self.pair_of.get(front * self.facets + back)?)? as usize;
        Some(Answer {
            pair,
            first: front < back,
        })
    }

    /// The facet in front and the one behind.
    pub(super) fn facets_of(&self, answer: Answer) -> (usize, usize) {
        let (a, b) = self.pairs[answer.pair];
        if answer.first { (a, b) } else { (b, a) }
    }

    /// The facets that have a place in common with both of a pair, as the words
    /// of a set.
    pub(super) fn thirds(&self, pair: usize) -> &[u64] {
        let words = self.facets.div_ceil(64);
        &self.thirds[pair * words..(pair + 1) * words]
    }

    /// What folds and bonds say.
    pub(super) fn facts(&self) -> impl Iterator<Item = Answer> + '_ {
        self.facts.iter().map(|fact| fact.answer)
    }

    fn add(&mut self, rule: Parity) {
        for pair in &rule.pairs {
            self.parities_of[*pair].push(self.parities.len());
        }
        self.parities.push(rule);
    }
}

/// Facets over one place each, two or more.
fn without_glue(over_places: &BTreeSet<Bits>, facets: usize) -> Vec<Bits> {
    let piles: BTreeSet<Bits> = over_places
        .iter()
        .map(|pile| {
            let mut bare = Bits::below(facets);
            let laid = pile.iter().take_while(|owner| *owner < facets);
            laid.for_each(|facet| bare.add(facet));
            bare
        })
        .filter(|pile| pile.count() > 1)
        .collect();
    piles.into_iter().collect()
}

/// Rules while they are gathered.
pub(super) struct Builder(Rules);

impl Builder {
    fn find_pairs(&mut self, work: &mut Work) -> Option<()> {
        let rules = &mut self.0;
        let mut over = vec![Bits::below(rules.facets); rules.facets];
        for pile in &rules.piles {
            pile.iter().for_each(|facet| over[facet].join(pile));
        }
        for (b, over) in over.iter().enumerate() {
            for a in over.iter().take_while(|a| *a < b) {
                let pair = u32::try_from(rules.pairs.len()).ok();
                rules.pair_of[a * rules.facets + b] = pair;
                rules.pair_of[b * rules.facets + a] = pair;
                rules.pairs.push((a, b));
            }
        }
        rules.parities_of = vec![Vec::new(); rules.pairs.len()];
        let words = rules.facets.div_ceil(64);
        rules.thirds = vec![0; rules.pairs.len() * words];
        for pile in &rules.piles {
            let laid: Vec<usize> = pile.iter().collect();
            work.add(laid.len() * laid.len())?;
            for (above, b) in laid.iter().enumerate() {
                for a in &laid[..above] {
                    let Some(pair) = rules.pair_of[a * rules.facets + b] else {
                        continue;
                    };
                    let row = &mut rules.thirds[pair as usize * words..];
                    for (word, more) in row.iter_mut().zip(pile.words()) {
                        *word |= more;
                    }
                }
            }
        }
        Some(())
    }

    /// What the folds say.
    fn folds(&mut self, stack: &Stack) {
        for (cause, hinge) in stack.hinges.iter().enumerate() {
            let facet = |at: usize| stack.facets.get(at);
            let (Some(a), Some(b), Some(fold)) = (facet(hinge.a), facet(hinge.b), hinge.fold)
            else {
                continue;
            };
            // A valley brings the next facet to the front while side A is in
            // front.
            if a.mirrored != b.mirrored {
                let b_in_front = (fold == Fold::Valley) != a.mirrored;
                let (front, back) = if b_in_front {
                    (hinge.b, hinge.a)
                } else {
                    (hinge.a, hinge.b)
                };
                self.say(front, back, cause);
            }
        }
    }

    /// What is glued lies as it is glued, with nothing between.
    fn bonds(&mut self, stack: &Stack, over_places: &BTreeSet<Bits>) {
        for (at, bond) in stack.bonds.iter().enumerate() {
            let cause = stack.hinges.len() + at;
            self.say(bond.front, bond.back, cause);
            let mut there = Bits::below(self.0.facets);
            for pile in over_places {
                let glued = [self.0.facets + at, bond.front, bond.back];
                if glued.iter().all(|owner| pile.has(*owner)) {
                    let laid = pile.iter().take_while(|owner| *owner < self.0.facets);
                    laid.for_each(|facet| there.add(facet));
                }
            }
            for other in there.iter() {
                if other != bond.front && other != bond.back {
                    self.agree(&[(other, bond.front), (other, bond.back)], [cause; 2]);
                }
            }
        }
    }

    fn say(&mut self, front: usize, back: usize, cause: usize) {
        let answer = self.0.answer(front, back);
        self.0
            .facts
            .extend(answer.map(|answer| Fact { answer, cause }));
    }

    /// An even number of these have the one named first in front.
    pub(super) fn agree(&mut self, named: &[(usize, usize)], causes: [usize; 2]) {
        let found = named.iter().map(|(a, b)| self.0.answer(*a, *b));
        // What meets at a crease overlaps beside it; where it does not, it is
        // too narrow there to stop anything.
        let Some(found) = found.collect::<Option<Vec<_>>>() else {
            return;
        };
        self.0.add(Parity {
            // Naming a pair the other way round turns its answer about.
            odd: found.iter().filter(|answer| !answer.first).count() % 2 == 1,
            pairs: found.into_iter().map(|answer| answer.pair).collect(),
            causes,
        });
    }
}
