//! A stock as the search sees it: kerf and margin are gone.
//!
//! Where a blade takes k, pieces of widths a, b, … fit a strip w wide if
//! a + k + b + k + … is at most w + k: every piece and every sheet is made larger
//! by k, and then nothing is lost. What is trimmed off first is not there.

use crate::job::{Job, Lie, Trimmer};
use crate::relaxed::{Grid, Lying};

/// So few places on a side that a bound takes next to nothing.
const FEW_PLACES: u16 = 100;

/// A stock without its margin, and how the pieces of a job may lie on it.
#[derive(Debug)]
pub(crate) struct Ground {
    /// Its place in the job.
    pub(crate) stock: usize,
    pub(crate) width: u32,
    pub(crate) height: u32,
    /// Where its corner lies on the sheet.
    pub(crate) margin: u32,
    pub(crate) cost: u32,
    pub(crate) supply: Option<u32>,
    /// Each way each piece may lie, with the part it must come from.
    pub(crate) lying: Vec<Lying>,
    pub(crate) spots: Vec<Spot>,
    /// Where the ways of each piece begin in that list, and where they end.
    begins: Vec<usize>,
    /// The places of cuts, and fewer of them for a first look.
    pub(crate) grid: Grid,
    pub(crate) rough: Grid,
    pub(crate) fence: Fence,
}

/// Which way a piece lies, and where its near left corner may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Spot {
    pub(crate) turned: bool,
    /// From and to, along the width and along the height; `None` for anywhere.
    pub(crate) corner: Option<[(u32, u32); 2]>,
}

/// Which cuts the trimmer can make.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Fence {
    trimmer: Trimmer,
}

impl Fence {
    /// Whether something so wide can be cut there: either part is held.
    pub(crate) fn cuts(&self, width: u32, at: u32) -> bool {
        let kerf = self.trimmer.kerf;
        self.trimmer.holds(at.saturating_sub(kerf))
            || self
                .trimmer
                .holds(width.saturating_sub(at).saturating_sub(kerf))
    }

    /// The widest strip that is held, with what the blade takes beside it.
    pub(crate) fn widest(&self) -> Option<u32> {
        let widest = self.trimmer.widest?.get();
        widest.checked_add(self.trimmer.kerf)
    }

    pub(crate) fn kerf(&self) -> u32 {
        self.trimmer.kerf
    }
}

impl Ground {
    /// Bounds look at so many places of cuts on a side at most.
    ///
    /// `None` where nothing is left within the margins, or they can't be cut off.
    pub(crate) fn new(job: &Job, number: usize, pieces: &[usize], places: u16) -> Option<Self> {
        let stock = job.stocks().get(number)?;
        let trimmer = *job.trimmer();
        let inner = |side: u32| side.checked_sub(stock.margin.checked_mul(2)?);
        let (width, height) = (stock.size.width.get(), stock.size.height.get());
        let margin = stock.margin;
        if margin > 0
            && ![width, height]
                .into_iter()
                .all(|side| trims(&trimmer, side, margin))
        {
            return None;
        }
        let width = inner(width).filter(|side| *side > 0)? + trimmer.kerf;
        let height = inner(height).filter(|side| *side > 0)? + trimmer.kerf;
        let (mut lying, mut spots) = (Vec::new(), Vec::new());
        let mut begins = vec![0];
        for (at, piece) in pieces.iter().enumerate() {
            let piece = job.pieces().get(*piece)?;
            let source = piece.sources.iter().find(|it| it.stock == number);
            let (w, h) = (piece.size.width.get(), piece.size.height.get());
            let ways: &[bool] = match source.map(|source| source.lie) {
                None => &[],
                Some(Lie::Upright) => &[false],
                Some(Lie::Turned) => &[true],
                Some(Lie::Either) if w == h => &[false],
                Some(Lie::Either) => &[false, true],
            };
            let area = source.and_then(|source| source.area);
            for turned in ways.iter().copied() {
                let (w, h) = if turned { (h, w) } else { (w, h) };
                let one = Lying {
                    piece: at,
                    width: w + trimmer.kerf,
                    height: h + trimmer.kerf,
                };
                if one.width > width || one.height > height {
                    continue;
                }
                let corner = match area {
                    None => None,
                    Some(area) => {
                        let span = |from: u32, to: u32, side: u32, most: u32| {
                            let from = from.max(margin);
                            let last = to.checked_sub(side)?.min(most + margin);
                            (from <= last).then(|| (from - margin, last - margin))
                        };
                        let x = span(area.x, area.right(), w, width - one.width);
                        let y = span(area.y, area.far(), h, height - one.height);
                        let (Some(x), Some(y)) = (x, y) else {
                            continue;
                        };
                        Some([x, y])
                    }
                };
                lying.push(one);
                spots.push(Spot { turned, corner });
            }
            begins.push(lying.len());
        }
        Some(Self {
            stock: number,
            grid: Grid::new(width, height, &lying, places),
            rough: Grid::new(width, height, &lying, FEW_PLACES),
            width,
            height,
            margin: stock.margin,
            cost: stock.cost,
            supply: stock.supply,
            lying,
            spots,
            begins,
            fence: Fence { trimmer },
        })
    }

    /// The ways that a piece may lie, each with its place in the list.
    pub(crate) fn ways(&self, piece: usize) -> impl Iterator<Item = (usize, &Lying, &Spot)> {
        let bound = |at: usize| self.begins.get(at).copied().unwrap_or(self.lying.len());
        let range = bound(piece)..bound(piece + 1);
        let ways = self.lying.get(range.clone()).unwrap_or_default();
        let spots = self.spots.get(range.clone()).unwrap_or_default();
        let both = ways.iter().zip(spots);
        range.zip(both).map(|(at, (one, spot))| (at, one, spot))
    }
}

/// Whether both margins can be cut off, one after the other.
fn trims(trimmer: &Trimmer, side: u32, margin: u32) -> bool {
    let strip = margin.saturating_sub(trimmer.kerf);
    [1, 2].iter().all(|times| {
        let left = side.saturating_sub(margin.saturating_mul(*times));
        trimmer.holds(left) || trimmer.holds(strip)
    })
}
