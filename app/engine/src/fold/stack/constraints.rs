//! The order of facets as a satisfiability problem: the variables are the pairs
//! of facets that overlap, and the constraints tie them.
//!
//! Transitivity needs no list, since every pile asks for it. All others are
//! exclusive ors of two or four pairs (taco–tortilla, tortilla–tortilla and
//! what is glued; taco–taco) or units (what folds and glue say).

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

/// One of a pair lies in front of the other: a variable with its value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Literal {
    pub(super) pair: usize,
    /// Whether the pair's first facet is the one in front.
    pub(super) first: bool,
}

impl Literal {
    pub(super) fn negated(self) -> Self {
        Self {
            first: !self.first,
            ..self
        }
    }

    /// Its index in a list with one for each literal.
    pub(super) fn index(self) -> usize {
        self.pair * 2 + usize::from(self.first)
    }
}

/// An exclusive or: of these pairs an odd, or an even, number have their first
/// facet in front.
#[derive(Debug, Clone)]
pub(super) struct Parity {
    pub(super) pairs: Vec<usize>,
    pub(super) odd: bool,
    /// The joints it comes from.
    causes: [usize; 2],
}

/// A unit clause: a literal that a joint asks for.
#[derive(Debug, Clone, Copy)]
struct Unit {
    literal: Literal,
    cause: usize,
}

/// Which facets, and which joints between them, are asked about.
#[derive(Debug, Clone)]
pub(super) struct Part {
    pub(super) facets: Bits,
    /// Hinges by their indices, and bonds after them.
    pub(super) joints: Bits,
}

/// What the paper allows.
#[derive(Debug, Clone)]
pub(super) struct Constraints {
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
    units: Vec<Unit>,
}

impl Constraints {
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
            units: Vec::new(),
        });
        builder.find_pairs(&mut work)?;
        builder.folds(stack);
        creases::constraints(stack, &outlines, &mut builder, &mut work)?;
        builder.bonds(stack, &over_places);
        Some(builder.0)
    }

    /// Those that tie only facets of a part, by its joints.
    pub(super) fn within(&self, part: &Part) -> Self {
        let asked = |pair: usize| self.is_in(pair, part);
        let units = self.units.iter();
        let mut constraints = Self {
            units: units
                .filter(|unit| part.joints.has(unit.cause) && asked(unit.literal.pair))
                .copied()
                .collect(),
            parities: Vec::new(),
            parities_of: vec![Vec::new(); self.pairs.len()],
            ..self.clone()
        };
        for parity in &self.parities {
            let caused = parity.causes.iter().all(|cause| part.joints.has(*cause));
            if caused && parity.pairs.iter().all(|pair| asked(*pair)) {
                constraints.add(parity.clone());
            }
        }
        constraints
    }

    /// Whether both facets of a pair are in a part.
    pub(super) fn is_in(&self, pair: usize, part: &Part) -> bool {
        let (a, b) = self.pairs[pair];
        part.facets.has(a) && part.facets.has(b)
    }

    /// The literal "`front` is in front of `back`"; `None` where they do not
    /// overlap.
    pub(super) fn literal(&self, front: usize, back: usize) -> Option<Literal> {
        if front >= self.facets || back >= self.facets {
            return None;
        }
        let pair = (*self.pair_of.get(front * self.facets + back)?)? as usize;
        Some(Literal {
            pair,
            first: front < back,
        })
    }

    /// The facet in front and the one behind.
    pub(super) fn facets_of(&self, literal: Literal) -> (usize, usize) {
        let (a, b) = self.pairs[literal.pair];
        if literal.first { (a, b) } else { (b, a) }
    }

    /// The facets that have a place in common with both of a pair, as the words
    /// of a set.
    pub(super) fn thirds(&self, pair: usize) -> &[u64] {
        let words = self.facets.div_ceil(64);
        &self.thirds[pair * words..(pair + 1) * words]
    }

    /// What folds and bonds ask for.
    pub(super) fn units(&self) -> impl Iterator<Item = Literal> + '_ {
        self.units.iter().map(|unit| unit.literal)
    }

    fn add(&mut self, parity: Parity) {
        for pair in &parity.pairs {
            self.parities_of[*pair].push(self.parities.len());
        }
        self.parities.push(parity);
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

/// Constraints while they are gathered.
pub(super) struct Builder(Constraints);

impl Builder {
    fn find_pairs(&mut self, work: &mut Work) -> Option<()> {
        let constraints = &mut self.0;
        let mut over = vec![Bits::below(constraints.facets); constraints.facets];
        for pile in &constraints.piles {
            pile.iter().for_each(|facet| over[facet].join(pile));
        }
        for (b, over) in over.iter().enumerate() {
            for a in over.iter().take_while(|a| *a < b) {
                let pair = u32::try_from(constraints.pairs.len()).ok();
                constraints.pair_of[a * constraints.facets + b] = pair;
                constraints.pair_of[b * constraints.facets + a] = pair;
                constraints.pairs.push((a, b));
            }
        }
        constraints.parities_of = vec![Vec::new(); constraints.pairs.len()];
        let words = constraints.facets.div_ceil(64);
        constraints.thirds = vec![0; constraints.pairs.len() * words];
        for pile in &constraints.piles {
            let laid: Vec<usize> = pile.iter().collect();
            work.add(laid.len() * laid.len())?;
            for (above, b) in laid.iter().enumerate() {
                for a in &laid[..above] {
                    let Some(pair) = constraints.pair_of[a * constraints.facets + b] else {
                        continue;
                    };
                    let row = &mut constraints.thirds[pair as usize * words..];
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
                self.add_unit(front, back, cause);
            }
        }
    }

    /// What is glued lies as it is glued, with nothing between: any other facet
    /// lies on one side of both, as a tortilla does of a taco.
    fn bonds(&mut self, stack: &Stack, over_places: &BTreeSet<Bits>) {
        // For each bond what lies where it is glued.
        let mut laid = vec![Bits::below(self.0.facets); stack.bonds.len()];
        for pile in over_places {
            for glue in pile.iter().filter_map(|at| at.checked_sub(self.0.facets)) {
                let both = stack.bonds.get(glue).map(|bond| [bond.front, bond.back]);
                if both.is_some_and(|both| both.iter().all(|facet| pile.has(*facet))) {
                    let there = pile.iter().take_while(|at| *at < self.0.facets);
                    there.for_each(|facet| laid[glue].add(facet));
                }
            }
        }
        for (at, (bond, there)) in stack.bonds.iter().zip(&laid).enumerate() {
            let cause = stack.hinges.len() + at;
            self.add_unit(bond.front, bond.back, cause);
            for other in there.iter() {
                if other != bond.front && other != bond.back {
                    self.even(&[(other, bond.front), (other, bond.back)], [cause; 2]);
                }
            }
        }
    }

    fn add_unit(&mut self, front: usize, back: usize, cause: usize) {
        let literal = self.0.literal(front, back);
        self.0
            .units
            .extend(literal.map(|literal| Unit { literal, cause }));
    }

    /// An even number of these have the one named first in front.
    pub(super) fn even(&mut self, named: &[(usize, usize)], causes: [usize; 2]) {
        let found = named.iter().map(|(a, b)| self.0.literal(*a, *b));
        // What meets at a crease overlaps beside it; where it does not, it is
        // too narrow there to stop anything.
        let Some(found) = found.collect::<Option<Vec<_>>>() else {
            return;
        };
        self.0.add(Parity {
            // Naming a pair the other way round negates its literal.
            odd: found.iter().filter(|literal| !literal.first).count() % 2 == 1,
            pairs: found.into_iter().map(|literal| literal.pair).collect(),
            causes,
        });
    }
}
