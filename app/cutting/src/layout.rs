//! How one sheet is cut: in two, and each part in two again.

use std::num::NonZeroU32;

use crate::length::{Length, Rect, Size};

/// The extent of a sheet or part that a cut divides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Along {
    /// The blade runs from the near edge to the far one, and the width is cut.
    Width,
    /// The blade runs from left to right, and the height is cut.
    Height,
}

impl Along {
    /// How far something reaches this way.
    pub fn of(self, size: Size) -> u32 {
        match self {
            Self::Width => size.width.get(),
            Self::Height => size.height.get(),
        }
    }
}

/// A cut from edge to edge of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cut {
    /// What it divides.
    pub along: Along,
    /// How wide the part on the left, or on the near side, becomes; 0 where the
    /// blade takes all of it.
    pub at: u32,
    /// What the blade takes away behind that.
    pub lost: u32,
    /// The part on the left or near side, by its place in the layout.
    pub near: Option<usize>,
    /// The part on the right or far side.
    pub far: Option<usize>,
}

/// What becomes of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Becomes {
    /// It is cut in two.
    Cut(Cut),
    /// It is one of the pieces.
    Piece {
        /// Which, by its place in the job.
        piece: usize,
        /// Whether its width lies along the height of the sheet.
        turned: bool,
    },
    /// It is left over.
    Offcut,
}

/// A part of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    /// Where it lies on the sheet.
    pub place: Rect,
    /// What becomes of it.
    pub becomes: Becomes,
}

/// A sheet with all its parts. The first is the sheet itself; every other comes
/// after what it is cut from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    parts: Vec<Part>,
}

/// Sheets of one stock that are cut alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Batch {
    /// The stock, by its place in the job.
    pub stock: usize,
    /// How many sheets.
    pub sheets: NonZeroU32,
    /// How each is cut.
    pub layout: Layout,
}

impl Layout {
    /// A sheet that nothing is cut from yet.
    pub(crate) fn new(size: Size) -> Self {
        Self {
            parts: vec![Part {
                place: Rect { x: 0, y: 0, size },
                becomes: Becomes::Offcut,
            }],
        }
    }

    /// All parts, whole sheet, strips, pieces and what is left.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// A part by its number.
    pub fn part(&self, number: usize) -> Option<&Part> {
        self.parts.get(number)
    }

    /// Each piece, with whether it lies turned, and where.
    pub fn pieces(&self) -> impl Iterator<Item = (usize, bool, Rect)> {
        self.parts.iter().filter_map(|part| match part.becomes {
            Becomes::Piece { piece, turned } => Some((piece, turned, part.place)),
            _ => None,
        })
    }

    /// What is left over.
    pub fn offcuts(&self) -> impl Iterator<Item = Rect> {
        let left = |part: &&Part| part.becomes == Becomes::Offcut;
        self.parts.iter().filter(left).map(|part| part.place)
    }

    /// How many cuts it takes.
    pub fn cuts(&self) -> usize {
        let cut = |part: &&Part| matches!(part.becomes, Becomes::Cut(_));
        self.parts.iter().filter(cut).count()
    }

    /// Cuts a part so far from its left or near edge, and tells both parts.
    pub(crate) fn cut(
        &mut self,
        number: usize,
        along: Along,
        at: u32,
        kerf: u32,
    ) -> Option<(Option<usize>, Option<usize>)> {
        let place = self.parts.get(number)?.place;
        let side = along.of(place.size);
        let lost = kerf.min(side.checked_sub(at)?);
        let mut add = |from: u32, reach: u32| {
            let reach = Length::new(reach)?;
            let mut place = place;
            match along {
                Along::Width => {
                    place.x += from;
                    place.size.width = reach;
                }
                Along::Height => {
                    place.y += from;
                    place.size.height = reach;
                }
            }
            self.parts.push(Part {
                place,
                becomes: Becomes::Offcut,
            });
            Some(self.parts.len() - 1)
        };
        let near = add(0, at);
        let far = add(at + lost, side - at - lost);
        self.parts.get_mut(number)?.becomes = Becomes::Cut(Cut {
            along,
            at,
            lost,
            near,
            far,
        });
        Some((near, far))
    }

    pub(crate) fn set(&mut self, number: usize, piece: usize, turned: bool) -> Option<()> {
        self.parts.get_mut(number)?.becomes = Becomes::Piece { piece, turned };
        Some(())
    }
}
