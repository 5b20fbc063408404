//! One order of the facets.

use crate::fold::bits::Bits;

/// Which of each two overlapping facets lies in front.
///
/// Paper of any shape can overlap in a ring, each facet before the next, so
/// there is not always one line of all facets; over each place there is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// For each facet those right behind it somewhere.
    pub(super) behind: Vec<Bits>,
}

impl Order {
    /// Whether facet `a` lies in front of facet `b`; `None` where they do not
    /// overlap.
    pub fn in_front(&self, a: usize, b: usize) -> Option<bool> {
        let over = |front: usize, back: usize| self.behind.get(front).map(|row| row.has(back));
        match (over(a, b)?, over(b, a)?) {
            (false, false) => None,
            (first, _) => Some(first),
        }
    }

    /// The facets in front of one.
    pub fn in_front_of(&self, facet: usize) -> impl Iterator<Item = usize> + '_ {
        let rows = self.behind.iter().enumerate();
        rows.filter(move |(_, row)| row.has(facet))
            .map(|(front, _)| front)
    }

    /// Some facets, from the one at the back to the one in front; `None` where
    /// they overlap in a ring. Facets over one place never do.
    pub fn lined_up_among(&self, facets: &[usize]) -> Option<Vec<usize>> {
        let mut left = Bits::below(self.behind.len());
        for facet in facets.iter().filter(|facet| **facet < self.behind.len()) {
            left.add(*facet);
        }
        let mut order = Vec::with_capacity(facets.len());
        while left.count() > 0 {
            let lowest = left.iter().find(|at| self.behind[*at].is_apart(&left))?;
            left.drop(lowest);
            order.push(lowest);
        }
        Some(order)
    }

    /// All facets, from the one at the back to the one in front; `None` where
    /// they overlap in a ring.
    pub fn lined_up(&self) -> Option<Vec<usize>> {
        self.lined_up_among(&(0..self.behind.len()).collect::<Vec<_>>())
    }
}
