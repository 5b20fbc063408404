//! Where along one side of a sheet cuts can matter.
//!
//! Pieces can be pushed to one corner until each touches another or the edge
//! (normal patterns, Herz 1972), so that only sums of piece sizes count. There
//! may be too many; then the side is divided into equal parts and every size is
//! rounded down, which lets more pass than the sheet does: good for bounds,
//! and for nothing else.

/// Sums are looked for one by one up to this many steps.
const SEARCHED: u64 = 1 << 16;

/// The places along one side, 0 the first, numbered upwards.
#[derive(Debug, Clone)]
pub(crate) struct Axis {
    /// All sums of sizes that fit.
    points: Vec<u32>,
    /// What sizes are divided by before they are looked up.
    step: u32,
    /// The last place not beyond each multiple of the step.
    below: Vec<u16>,
    /// The side and how many parts it has, where sums are too many.
    parts: Option<(u32, u32)>,
}

impl Axis {
    /// The places for a side and the sizes of what is cut from it, at most so
    /// many; more sums are replaced by equal parts.
    pub(crate) fn new(side: u32, sizes: &[u32], most: u16) -> Self {
        let fitting: Vec<u32> = sizes.iter().copied().filter(|size| *size <= side).collect();
        let step = fitting.iter().fold(0, |step, size| gcd(step, *size)).max(1);
        let steps = side / step;
        if u64::from(steps) <= SEARCHED
            && let Some(axis) = Self::of_sums(steps, step, &fitting, most)
        {
            return axis;
        }
        let parts = u32::from(most);
        Self {
            points: (0..=parts).collect(),
            step: 1,
            below: Vec::new(),
            parts: Some((side, parts)),
        }
    }

    fn of_sums(steps: u32, step: u32, sizes: &[u32], most: u16) -> Option<Self> {
        let length = usize::try_from(steps).ok()? + 1;
        let mut reached = vec![false; length];
        if let Some(first) = reached.first_mut() {
            *first = true;
        }
        for size in sizes {
            let size = usize::try_from(size / step).ok()?;
            for at in size..length {
                if reached.get(at - size).copied().unwrap_or(false)
                    && let Some(there) = reached.get_mut(at)
                {
                    *there = true;
                }
            }
        }
        let mut points = Vec::new();
        let mut below = Vec::with_capacity(length);
        for (at, reached) in reached.iter().enumerate() {
            if *reached {
                points.push(u32::try_from(at).ok()?.checked_mul(step)?);
                if points.len() > usize::from(most) {
                    return None;
                }
            }
            below.push(u16::try_from(points.len() - 1).ok()?);
        }
        Some(Self {
            points,
            step,
            below,
            parts: None,
        })
    }

    /// How many places there are.
    pub(crate) fn len(&self) -> usize {
        self.points.len()
    }

    /// The last place not beyond a size that fits.
    pub(crate) fn place(&self, size: u32) -> usize {
        if let Some((side, parts)) = self.parts {
            let place = u64::from(size) * u64::from(parts) / u64::from(side.max(1));
            return usize::try_from(place)
                .unwrap_or(usize::MAX)
                .min(self.len() - 1);
        }
        let at = usize::try_from(size / self.step).unwrap_or(usize::MAX);
        let last = self.below.len() - 1;
        self.below.get(at.min(last)).copied().map_or(0, usize::from)
    }

    /// For each place and each no further than half of it, what is left.
    pub(crate) fn rests(&self) -> Vec<Vec<u16>> {
        let halves = |(at, point): (usize, &u32)| {
            let others = self.points.iter().take(at + 1);
            let others = others.take_while(|other| *other * 2 <= *point);
            others.map(|other| self.number(point - other)).collect()
        };
        self.points.iter().enumerate().map(halves).collect()
    }

    /// For each place and each that still fits beside it, where both end.
    pub(crate) fn sums(&self) -> Vec<Vec<u16>> {
        let last = self.points.last().copied().unwrap_or(0);
        let beside = |point: &u32| {
            let others = self.points.iter();
            let others = others.take_while(|other| *other + *point <= last);
            others.map(|other| self.number(point + other)).collect()
        };
        self.points.iter().map(beside).collect()
    }

    /// The number of a place, given by where it lies among the places.
    fn number(&self, point: u32) -> u16 {
        let place = match self.parts {
            Some(_) => usize::try_from(point).unwrap_or(usize::MAX),
            None => self.place(point),
        };
        u16::try_from(place).unwrap_or(u16::MAX)
    }
}

fn gcd(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { gcd(b, a % b) }
}
