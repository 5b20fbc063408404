//! The same pieces at the same places, cut apart in another order.
//!
//! Most patterns can be cut in several orders: strips first or columns first, one
//! after the other or by halves. Where the same fence serves many cuts, that is
//! less work at the trimmer.

use crate::ground::Ground;
use crate::plot::{Part, Plot, What};

/// In which order a sheet is cut apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Order {
    /// Whether cuts along the width come first wherever there are both.
    upright: bool,
    /// Whether parts are cut near their middle, or strip after strip.
    halves: bool,
    /// Whether what lies beyond all pieces is cut off first.
    trims: bool,
}

impl Order {
    /// Every order.
    pub(crate) const ALL: [Self; 8] = {
        let mut all = [Self {
            upright: false,
            halves: false,
            trims: false,
        }; 8];
        let mut at = 0;
        #[expect(clippy::indexing_slicing, reason = "it counts to the length")]
        while at < all.len() {
            all[at].upright = at % 2 == 1;
            all[at].halves = at / 2 % 2 == 1;
            all[at].trims = at / 4 == 1;
            at += 1;
        }
        all
    };

    /// The same pieces cut apart in this order; `None` where the trimmer can't.
    pub(crate) fn recut(self, plot: &Plot, ground: &Ground) -> Option<Plot> {
        let is_piece = |part: &&Part| matches!(part.what, What::Piece(_));
        let pieces: Vec<Part> = plot.parts.iter().filter(is_piece).copied().collect();
        let mut cut = Plot::new(ground);
        let mut whole = 0;
        if self.trims {
            for upright in [self.upright, !self.upright] {
                let part = cut.part(whole)?;
                let ends = pieces.iter().map(|piece| end(piece, upright));
                let at = ends.max()?;
                if at < end(part, upright) {
                    whole = cut.cut(whole, upright, at, ground.fence)?.0;
                }
            }
        }
        let mut open = vec![(whole, pieces)];
        while let Some((number, pieces)) = open.pop() {
            let part = *cut.part(number)?;
            let fills = |piece: &Part| (piece.width, piece.height) == (part.width, part.height);
            match pieces.as_slice() {
                [] => continue,
                [piece] if fills(piece) => {
                    cut.parts.get_mut(number)?.what = piece.what;
                    continue;
                }
                _ => {}
            }
            let (upright, at) = [self.upright, !self.upright]
                .into_iter()
                .find_map(|upright| {
                    Some((upright, self.place(&part, &pieces, upright, ground)?))
                })?;
            let line = begin(&part, upright) + at;
            let (near, far) = cut.cut(number, upright, at, ground.fence)?;
            let (before, behind) = pieces
                .into_iter()
                .partition(|piece| begin(piece, upright) < line);
            open.extend([(near, before), (far, behind)]);
        }
        Some(cut)
    }

    /// How far from its near edge a part is cut, along the width or the height;
    /// `None` where each line crosses a piece or the trimmer can't hold it.
    fn place(self, part: &Part, pieces: &[Part], upright: bool, ground: &Ground) -> Option<u32> {
        let (from, to) = (begin(part, upright), end(part, upright));
        let crosses = |line: u32| {
            move |piece: &Part| begin(piece, upright) < line && line < end(piece, upright)
        };
        let lines = pieces
            .iter()
            .flat_map(|piece| [begin(piece, upright), end(piece, upright)])
            .filter(|line| {
                from < *line
                    && *line < to
                    && !pieces.iter().any(crosses(*line))
                    && ground.fence.cuts(to - from, line - from)
            });
        let places = lines.map(|line| line - from);
        if self.halves {
            places.min_by_key(|at| (at.abs_diff(to - from - at), *at))
        } else {
            places.min()
        }
    }
}

/// Where a part begins, along the width or the height.
fn begin(part: &Part, upright: bool) -> u32 {
    if upright { part.x } else { part.y }
}

/// Where a part ends, along the width or the height.
fn end(part: &Part, upright: bool) -> u32 {
    begin(part, upright) + if upright { part.width } else { part.height }
}
