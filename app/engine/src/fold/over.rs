//! Which panels lie in front of which.

use super::bits::Bits;

/// For each two panels that overlap, which lies in front.
#[derive(Debug, Clone, Default, PartialEq, Eq, Hash)]
pub(super) struct Over {
    /// For each panel those behind it.
    behind: Vec<Bits>,
}

impl Over {
    /// Of so many panels none overlap.
    pub(super) fn none(panels: usize) -> Self {
        Self {
            behind: vec![Bits::below(panels); panels],
        }
    }

    pub(super) fn add(&mut self, front: usize, back: usize) {
        if let Some(behind) = self.behind.get_mut(front) {
            behind.add(back);
        }
    }

    pub(super) fn has(&self, front: usize, back: usize) -> bool {
        self.behind.get(front).is_some_and(|it| it.has(back))
    }

    /// Every two, the one in front first.
    pub(super) fn pairs(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        let behind = self.behind.iter().enumerate();
        behind.flat_map(|(front, behind)| behind.iter().map(move |back| (front, back)))
    }
}
