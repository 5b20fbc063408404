//! Whether a strip folds flat, by taking its folds away one or two at a time.
//!
//! Two moves keep the answer (Arkin, Bender, Demaine, Demaine, Mitchell,
//! Sethia, Skiena, "When Can You Fold a Map?", 2004): an end panel no longer
//! than its neighbour folds onto it (end fold), and a panel no longer than
//! both its neighbours, a mountain at one end and a valley at the other, folds
//! up between them (crimp). The strip folds flat exactly when these moves
//! leave a single stretch.

use crate::length::Length;
use crate::recipe::Fold;

/// Why a strip does not fold flat: panels too short for the neighbours that
/// close round them from the same side.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stuck {
    /// Index along the strip of the longer panel before them.
    pub before: usize,
    /// First and last index of the trapped panels.
    pub trapped: (usize, usize),
    /// Index of the longer panel after them.
    pub after: usize,
    /// How every score round the trapped panels folds.
    pub fold: Fold,
}

/// A stretch of the strip that already lies flat as one piece.
struct Stretch {
    /// What is left of its length between its two scores.
    length: Length,
    /// Its layers.
    layers: Pile,
    /// First and last panel along the strip.
    first: usize,
    last: usize,
}

/// One panel, or two piles on each other, as it lies or turned over: a number
/// whose lowest bits say which, so that a million of them stay small.
#[derive(Clone, Copy)]
struct Pile(usize);

impl Pile {
    const TURNED_OVER: usize = 1;
    const BOTH: usize = 2;

    const fn one(panel: usize) -> Self {
        Self(panel << 2)
    }

    const fn turned_over(self) -> Self {
        Self(self.0 ^ Self::TURNED_OVER)
    }

    const fn is_turned_over(self) -> bool {
        self.0 & Self::TURNED_OVER != 0
    }
}

/// Every two piles laid on each other, the lower one first; written out once at
/// the end, so that stacking stays linear. A list, because piles of a long strip
/// nest deeper than calls may.
#[derive(Default)]
struct Piles(Vec<[Pile; 2]>);

impl Piles {
    fn laid(&mut self, upper: Pile, lower: Pile) -> Pile {
        let at = self.0.len();
        self.0.push([lower, upper]);
        Pile(at << 2 | Pile::BOTH)
    }

    /// `moved`, turned over, laid on `still` for a valley or under it for a mountain.
    fn folded(&mut self, moved: Pile, still: Pile, fold: Fold) -> Pile {
        match fold {
            Fold::Valley => self.laid(moved.turned_over(), still),
            Fold::Mountain => self.laid(still, moved.turned_over()),
        }
    }

    /// Every layer from the lowest to the highest, panel 0 with its side A up.
    fn written_out(&self, pile: Pile) -> Vec<usize> {
        let mut order = Vec::with_capacity(self.0.len() + 1);
        let mut first_turned_over = false;
        let mut waiting = vec![pile];
        while let Some(pile) = waiting.pop() {
            let at = pile.0 >> 2;
            if pile.0 & Pile::BOTH == 0 {
                first_turned_over |= at == 0 && pile.is_turned_over();
                order.push(at);
            } else {
                let [lower, upper] = self.0[at];
                if pile.is_turned_over() {
                    waiting.extend([lower.turned_over(), upper.turned_over()]);
                } else {
                    waiting.extend([upper, lower]);
                }
            }
        }
        if first_turned_over {
            order.reverse();
        }
        order
    }
}

/// The strip while it is being reduced: stretches, and the folds between them
/// as seen from side A before anything was folded.
#[derive(Default)]
struct Strip {
    stretches: Vec<Stretch>,
    folds: Vec<Fold>,
    piles: Piles,
}

impl Strip {
    fn push(&mut self, stretch: Stretch, fold: Option<Fold>) {
        self.folds.extend(fold);
        self.stretches.push(stretch);
        while self.crimp_at_the_end() || self.fold_first_onto_second() {}
    }

    /// Crimps the last but one stretch between its neighbours where it can.
    fn crimp_at_the_end(&mut self) -> bool {
        let ([.., a, b, c], [.., ab, bc]) = (&*self.stretches, &*self.folds) else {
            return false;
        };
        if ab == bc || b.length > a.length || b.length > c.length {
            return false;
        }
        let fold = *ab;
        let (Some(c), Some(b), Some(a)) = (
            self.stretches.pop(),
            self.stretches.pop(),
            self.stretches.pop(),
        ) else {
            return false;
        };
        self.folds.truncate(self.folds.len() - 2);
        let folded = self.piles.folded(b.layers, a.layers, fold);
        self.stretches.push(Stretch {
            length: a.length - b.length + c.length,
            layers: match fold {
                Fold::Valley => self.piles.laid(c.layers, folded),
                Fold::Mountain => self.piles.laid(folded, c.layers),
            },
            first: a.first,
            last: c.last,
        });
        true
    }

    /// While only two stretches stand: folds the first onto the second.
    fn fold_first_onto_second(&mut self) -> bool {
        let ([a, b], [fold]) = (&*self.stretches, &*self.folds) else {
            return false;
        };
        if a.length > b.length {
            return false;
        }
        let fold = *fold;
        let (Some(b), Some(a)) = (self.stretches.pop(), self.stretches.pop()) else {
            return false;
        };
        self.folds.clear();
        self.stretches.push(Stretch {
            layers: self.piles.folded(a.layers, b.layers, fold),
            first: a.first,
            ..b
        });
        true
    }

    /// Folds the last stretch onto the one before it where it can.
    fn fold_last_onto_its_neighbour(&mut self) -> bool {
        let ([.., b, c], [.., fold]) = (&*self.stretches, &*self.folds) else {
            return false;
        };
        if c.length > b.length {
            return false;
        }
        let fold = *fold;
        let (Some(c), Some(b)) = (self.stretches.pop(), self.stretches.pop()) else {
            return false;
        };
        self.folds.pop();
        self.stretches.push(Stretch {
            layers: self.piles.folded(c.layers, b.layers, fold),
            last: c.last,
            ..b
        });
        true
    }

    /// The first panels that nothing can free any more. Neither end folds, so
    /// the lengths fall and rise again; at the first lowest run every score
    /// folds the same way, or a crimp would have taken it.
    fn stuck(&self) -> Option<Stuck> {
        let longer = |at: usize, than: usize| {
            Some(self.stretches.get(at)?.length > self.stretches.get(than)?.length)
        };
        let mut from = 1;
        while longer(from, from + 1)? {
            from += 1;
        }
        let mut to = from;
        while !longer(to + 1, to)? {
            to += 1;
            if longer(to - 1, to)? {
                from = to;
            }
        }
        Some(Stuck {
            before: self.stretches.get(from - 1)?.last,
            trapped: (
                self.stretches.get(from)?.first,
                self.stretches.get(to)?.last,
            ),
            after: self.stretches.get(to + 1)?.first,
            fold: *self.folds.get(from)?,
        })
    }
}

/// The panels by their indices along the strip from the lowest to the highest,
/// with side A of the first panel up: one possible order where there are
/// several. Takes time in proportion to the number of panels.
///
/// `folds` are those between neighbours, one fewer than `lengths`; panels
/// beyond the folds given are left out.
pub fn stack_of(lengths: &[Length], folds: &[Fold]) -> Result<Vec<usize>, Stuck> {
    let before = std::iter::once(None).chain(folds.iter().copied().map(Some));
    let mut strip = Strip::default();
    // Each fold taken away lays one pile on another.
    strip.piles.0.reserve_exact(folds.len().min(lengths.len()));
    for ((index, length), fold) in lengths.iter().enumerate().zip(before) {
        let panel = Stretch {
            length: *length,
            layers: Pile::one(index),
            first: index,
            last: index,
        };
        strip.push(panel, fold);
    }
    while strip.fold_last_onto_its_neighbour() {}
    if let Some(stuck) = strip.stuck() {
        return Err(stuck);
    }
    let Some(whole) = strip.stretches.pop() else {
        return Ok(Vec::new());
    };
    Ok(strip.piles.written_out(whole.layers))
}
