//! A sheet cut in two, over and over, while it is still searched for.

use crate::builds::{Builds, Made};
use crate::ground::{Fence, Ground};
use crate::layout::{Along, Layout};
use crate::length::Size;

/// A part of a sheet, in the lengths of its ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Part {
    pub(crate) x: u32,
    pub(crate) y: u32,
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) what: What,
}

/// What becomes of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum What {
    /// Nothing more.
    Left,
    /// A piece: its place in the list of those that lie on the ground.
    Piece(usize),
    /// Cut at so far from its left edge, or from its near one, into two others.
    Cut {
        upright: bool,
        at: u32,
        near: usize,
        far: usize,
    },
}

/// Strips that are cut off one after the other at most, where one is too wide for
/// the trimmer.
const STRIPS: u32 = 16;

/// All parts of a sheet; the first is the whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Plot {
    pub(crate) parts: Vec<Part>,
}

impl Plot {
    /// A whole sheet.
    pub(crate) fn new(ground: &Ground) -> Self {
        Self {
            parts: vec![Part {
                x: 0,
                y: 0,
                width: ground.width,
                height: ground.height,
                what: What::Left,
            }],
        }
    }

    pub(crate) fn part(&self, number: usize) -> Option<&Part> {
        self.parts.get(number)
    }

    /// Cuts a part in two; `None` where there is nothing to cut or the trimmer
    /// can't.
    pub(crate) fn cut(
        &mut self,
        number: usize,
        upright: bool,
        at: u32,
        fence: Fence,
    ) -> Option<(usize, usize)> {
        let part = self.parts.get(number).copied()?;
        let side = if upright { part.width } else { part.height };
        if part.what != What::Left || at == 0 || at >= side || !fence.cuts(side, at) {
            return None;
        }
        let (near, far) = (self.parts.len(), self.parts.len() + 1);
        let (mut first, mut second) = (part, part);
        if upright {
            first.width = at;
            second.width = side - at;
            second.x += at;
        } else {
            first.height = at;
            second.height = side - at;
            second.y += at;
        }
        self.parts.extend([first, second]);
        if let Some(part) = self.parts.get_mut(number) {
            part.what = What::Cut {
                upright,
                at,
                near,
                far,
            };
        }
        Some((near, far))
    }

    /// Cuts off what is beyond, in one cut or, where the trimmer holds neither
    /// part, the widest strips that it holds one after the other; tells what is
    /// kept.
    fn cut_off(&mut self, number: usize, upright: bool, at: u32, fence: Fence) -> Option<usize> {
        let part = self.parts.get(number)?;
        let beyond = if upright { part.width } else { part.height }.checked_sub(at)?;
        if beyond == 0 {
            return Some(number);
        }
        let (strips, wide) = match fence.widest() {
            Some(widest) if !fence.cuts(at + beyond, at) => ((beyond - 1) / widest, widest),
            _ => (0, 0),
        };
        if strips > STRIPS {
            return None;
        }
        let mut kept = number;
        for strip in (0..=strips).rev() {
            kept = self.cut(kept, upright, at + strip * wide, fence)?.0;
        }
        Some(kept)
    }

    /// Puts a piece in a part, cutting off what is beyond it, along the width
    /// first or last. Where the trimmer can't in one order, the other is tried.
    pub(crate) fn set(
        &mut self,
        number: usize,
        lying: usize,
        upright_first: bool,
        ground: &Ground,
    ) -> Option<()> {
        let one = ground.lying.get(lying)?;
        let mut at = number;
        for upright in [upright_first, !upright_first] {
            let end = if upright { one.width } else { one.height };
            at = self.cut_off(at, upright, end, ground.fence)?;
        }
        self.parts.get_mut(at)?.what = What::Piece(lying);
        Some(())
    }

    /// A block in the near left corner of a sheet; `None` where the trimmer can't
    /// cut it so, or a piece doesn't come from where it must.
    pub(crate) fn of_block(ground: &Ground, builds: &Builds, block: usize) -> Option<Self> {
        Self::all_of_block(ground, builds, block).next()
    }

    /// The same in several ways: what is beyond blocks is cut off along the width
    /// first or last, and either from a row of blocks as a whole or from its last.
    pub(crate) fn all_of_block<'a>(
        ground: &'a Ground,
        builds: &'a Builds,
        block: usize,
    ) -> impl Iterator<Item = Self> + 'a {
        let ways = [(true, true), (false, true), (true, false), (false, false)];
        let ways = ways.into_iter();
        ways.filter_map(move |(upright_first, last)| {
            Self::with_block(ground, builds, block, upright_first, last)
        })
    }

    fn with_block(
        ground: &Ground,
        builds: &Builds,
        block: usize,
        upright_first: bool,
        last: bool,
    ) -> Option<Self> {
        let mut plot = Self::new(ground);
        let mut open = vec![(0, block)];
        while let Some((mut at, number)) = open.pop() {
            let block = builds.block(number)?;
            let row = match block.made {
                Made::Of(_) => None,
                Made::Beside(..) => Some(true),
                Made::Above(..) => Some(false),
            };
            for upright in [upright_first, !upright_first] {
                let end = if upright { block.width } else { block.height };
                if !(last && row == Some(upright)) {
                    at = plot.cut_off(at, upright, end, ground.fence)?;
                }
            }
            let (upright, one, other) = match block.made {
                Made::Of(lying) => {
                    let part = plot.parts.get_mut(at)?;
                    let spot = ground.spots.get(lying)?;
                    if spot
                        .corner
                        .is_some_and(|[x, y]| !within(x, part.x) || !within(y, part.y))
                    {
                        return None;
                    }
                    part.what = What::Piece(lying);
                    continue;
                }
                Made::Beside(one, other) => (true, one, other),
                Made::Above(one, other) => (false, one, other),
            };
            let (one, other) = (usize::try_from(one).ok()?, usize::try_from(other).ok()?);
            let first = builds.block(one)?;
            let end = if upright { first.width } else { first.height };
            let (near, far) = plot.cut(at, upright, end, ground.fence)?;
            open.extend([(near, one), (far, other)]);
        }
        Some(plot)
    }

    /// The pieces on it, as they lie.
    pub(crate) fn pieces(&self) -> impl Iterator<Item = usize> {
        self.parts.iter().filter_map(|part| match part.what {
            What::Piece(lying) => Some(lying),
            _ => None,
        })
    }

    /// Without the pieces that aren't wanted, and without cuts that then divide
    /// nothing.
    pub(crate) fn without(&self, mut unwanted: impl FnMut(usize) -> bool) -> Self {
        let mut plot = self.clone();
        // Parts come after what they are cut from.
        for number in (0..plot.parts.len()).rev() {
            let Some(part) = plot.parts.get(number).copied() else {
                continue;
            };
            let left = |at: usize| plot.part(at).is_some_and(|part| part.what == What::Left);
            let gone = match part.what {
                What::Left => false,
                What::Piece(lying) => unwanted(lying),
                What::Cut { near, far, .. } => left(near) && left(far),
            };
            if let Some(part) = plot.parts.get_mut(number)
                && gone
            {
                part.what = What::Left;
            }
        }
        plot
    }

    /// The sheet with its margin, in the lengths of the job; `pieces` tells which
    /// piece of the job each of the search is.
    pub(crate) fn laid_out(&self, ground: &Ground, size: Size, pieces: &[usize]) -> Option<Layout> {
        let kerf = ground.fence.kerf();
        let mut layout = Layout::new(size);
        let mut inner = 0;
        if ground.margin > 0 {
            for along in [Along::Width, Along::Height] {
                let strip = ground.margin.saturating_sub(kerf);
                inner = layout
                    .cut(inner, along, strip, kerf.min(ground.margin))?
                    .1?;
                let side = along.of(layout.part(inner)?.place.size);
                let kept = side.checked_sub(ground.margin)?;
                inner = layout.cut(inner, along, kept, kerf)?.0?;
            }
        }
        let mut open = vec![(0, Some(inner))];
        while let Some((number, there)) = open.pop() {
            match self.part(number)?.what {
                What::Left => {}
                What::Piece(lying) => {
                    let piece = pieces.get(ground.lying.get(lying)?.piece)?;
                    layout.set(there?, *piece, ground.spots.get(lying)?.turned)?;
                }
                What::Cut {
                    upright,
                    at,
                    near,
                    far,
                } => {
                    let along = if upright { Along::Width } else { Along::Height };
                    let (first, second) =
                        layout.cut(there?, along, at.saturating_sub(kerf), kerf.min(at))?;
                    open.extend([(near, first), (far, second)]);
                }
            }
        }
        Some(layout)
    }

    /// How many cuts it takes.
    pub(crate) fn cuts(&self) -> u32 {
        let (mut cuts, mut open) = (0, vec![0]);
        while let Some(number) = open.pop() {
            if let Some(What::Cut { near, far, .. }) = self.part(number).map(|part| part.what) {
                cuts += 1;
                open.extend([near, far]);
            }
        }
        cuts
    }
}

pub(crate) fn within((from, to): (u32, u32), at: u32) -> bool {
    (from..=to).contains(&at)
}
