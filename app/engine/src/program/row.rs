//! Sparse rows of whole numbers.

/// A number grew past what the arithmetic holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Overflow;

/// `own · basic + Σ times · column = sum`, with `own` above zero, the columns
/// in ascending order, and no common factor.
#[derive(Debug, Clone)]
pub(super) struct Row {
    /// The basic column, which this row gives.
    pub(super) basic: usize,
    /// How many times.
    pub(super) own: i64,
    /// The nonbasic columns it follows from.
    pub(super) terms: Vec<(usize, i64)>,
    /// What all of it adds up to.
    pub(super) sum: i64,
}

impl Row {
    /// How many times a column stands in it.
    pub(super) fn times(&self, column: usize) -> Option<i64> {
        let at = self.terms.binary_search_by_key(&column, |(at, _)| *at);
        at.ok().map(|at| self.terms[at].1)
    }

    /// The same row, giving another of its columns.
    pub(super) fn solved_for(mut self, column: usize, times: i64) -> Result<Self, Overflow> {
        self.terms.retain(|(at, _)| *at != column);
        let index = self.terms.partition_point(|(at, _)| *at < self.basic);
        self.terms.insert(index, (self.basic, self.own));
        self.basic = column;
        self.own = times;
        if times < 0 {
            self.own = negated(self.own)?;
            self.sum = negated(self.sum)?;
            for (_, times) in &mut self.terms {
                *times = negated(*times)?;
            }
        }
        Ok(self)
    }

    /// Puts for one column, which stands in this row `times` times,
    /// what another row says it is.
    pub(super) fn eliminate(&mut self, times: i64, by: &Self) -> Result<(), Overflow> {
        let shared = gcd(times, by.own);
        let (mine, theirs) = (by.own / shared, times / shared);
        let join = |a: i64, b: i64| {
            let joined = i128::from(a) * i128::from(mine) - i128::from(b) * i128::from(theirs);
            i64::try_from(joined).map_err(|_| Overflow)
        };
        let mut terms = Vec::with_capacity(self.terms.len() + by.terms.len());
        let (mut here, mut there) = (self.terms.iter().peekable(), by.terms.iter().peekable());
        loop {
            let next = match (here.peek(), there.peek()) {
                (None, None) => break,
                (Some((a, _)), Some((b, _))) => *a.min(b),
                (Some((at, _)), None) | (None, Some((at, _))) => *at,
            };
            let a = here.next_if(|(at, _)| *at == next).map_or(0, |term| term.1);
            let b = there
                .next_if(|(at, _)| *at == next)
                .map_or(0, |term| term.1);
            let times = join(a, b)?;
            if next != by.basic && times != 0 {
                terms.push((next, times));
            }
        }
        self.terms = terms;
        self.own = join(self.own, 0)?;
        self.sum = join(self.sum, by.sum)?;
        self.shorten();
        Ok(())
    }

    /// Divides by what all numbers share.
    fn shorten(&mut self) {
        let mut common = gcd(self.own, self.sum);
        for (_, times) in &self.terms {
            if common == 1 {
                return;
            }
            common = gcd(common, *times);
        }
        if common > 1 {
            self.own /= common;
            self.sum /= common;
            for (_, times) in &mut self.terms {
                *times /= common;
            }
        }
    }
}

fn negated(number: i64) -> Result<i64, Overflow> {
    number.checked_neg().ok_or(Overflow)
}

/// The greatest number that divides both; 1 where both are nothing, so that it
/// can always be divided by.
pub(super) fn gcd(a: i64, b: i64) -> i64 {
    let (mut a, mut b) = (a.unsigned_abs(), b.unsigned_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    i64::try_from(a).map_or(1, |common| common.max(1))
}
