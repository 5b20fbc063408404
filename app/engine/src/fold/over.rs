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

    /// The panels behind one.
    pub(super) fn behind(&self, front: usize) -> &Bits {
        &self.behind[front]
    }

    /// Every two that lie still or both move, where what moves is turned over.
    pub(super) fn turned(&self, moves: &[bool]) -> Self {
        let mut turned = Self::none(self.behind.len());
        let [still, moving] = [false, true].map(|which| {
            let mut panels = Bits::below(moves.len());
            let those = moves.iter().enumerate().filter(|(_, it)| **it == which);
            those.for_each(|(panel, _)| panels.add(panel));
            panels
        });
        for front in still.iter() {
            turned.behind[front].clone_from(&self.behind[front]);
            turned.behind[front].keep(&still);
        }
        for front in moving.iter() {
            for back in self.behind[front].common(&moving) {
                turned.add(back, front);
            }
        }
        turned
    }

    /// Every two, the one in front first.
    pub(super) fn pairs(&self) -> impl Iterator<Item = (usize, usize)> + Clone + '_ {
        let behind = self.behind.iter().enumerate();
        behind.flat_map(|(front, behind)| behind.iter().map(move |back| (front, back)))
    }
}
