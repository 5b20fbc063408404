//! Quick plans: one piece after the other, each into the part that suits it best.
//!
//! What is left beside a piece becomes two parts, by one cut through and one up
//! to it (guillotine placement, as textbooks of packing tell it). It takes next
//! to no time, and depends much on the order of the pieces, so that it is done
//! many times in many orders.

use crate::dice::Dice;
use crate::ground::{Ground, Spot};
use crate::plot::{Part, Plot, What};
use crate::relaxed::Lying;

/// How one quick plan goes about it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Manner {
    /// What the pieces are sorted by.
    order: usize,
    /// What makes a part suit a piece.
    fit: usize,
    /// Which cut goes through.
    split: usize,
    /// Whether the first sheet with room is taken, or the part that suits best on
    /// any.
    first: bool,
    /// How far pieces leave their order, in parts of 16.
    loose: usize,
    /// Whether what must come from a chosen part of a sheet comes from as far in
    /// it as can be.
    far: bool,
}

const ORDERS: usize = 7;
const FITS: usize = 7;
const SPLITS: usize = 9;

/// How many manners there are that keep strictly to their order.
pub(crate) const MANNERS: usize = 2 * ORDERS * FITS * SPLITS;

impl Manner {
    /// Each strict manner once, then any with some disorder.
    pub(crate) fn number(number: usize, dice: &mut Dice) -> Self {
        let (at, loose) = if number < MANNERS {
            (number, 0)
        } else {
            (dice.below(MANNERS), 1 + dice.below(8))
        };
        Self {
            order: at % ORDERS,
            first: (at / ORDERS).is_multiple_of(2),
            fit: at / ORDERS / 2 % FITS,
            split: at / ORDERS / 2 / FITS,
            loose,
            far: loose % 2 == 1,
        }
    }

    /// Any manner, with some disorder.
    pub(crate) fn any(dice: &mut Dice) -> Self {
        Self::number(MANNERS, dice)
    }

    /// Another manner to place pieces that come in some order.
    pub(crate) fn changed(self, dice: &mut Dice) -> Self {
        let mut other = self;
        match dice.below(3) {
            0 => other.fit = dice.below(FITS),
            1 => other.split = dice.below(SPLITS),
            _ => other.first = !other.first,
        }
        other
    }
}

/// A sheet with its plot.
#[derive(Debug, Clone)]
pub(crate) struct Sheet {
    pub(crate) ground: usize,
    pub(crate) plot: Plot,
}

/// A quick plan and what it took.
#[derive(Debug)]
pub(crate) struct Quick {
    pub(crate) sheets: Vec<Sheet>,
    /// How many of each piece found no place.
    pub(crate) missing: Vec<u32>,
    pub(crate) work: u64,
}

/// A part that is still free.
#[derive(Debug, Clone, Copy)]
struct Free {
    sheet: usize,
    ground: usize,
    part: usize,
    x: u32,
    y: u32,
    width: u32,
    height: u32,
}

/// Plans for so many of each piece. `weights` are in parts of 1024 what a piece
/// counts for more than its size in the order.
pub(crate) fn quick(
    grounds: &[Ground],
    counts: &[u32],
    weights: &[u32],
    supply: &[Option<u32>],
    manner: Manner,
    dice: &mut Dice,
) -> Quick {
    let begun = preferred(grounds, manner, dice);
    let order = order(grounds, counts, weights, manner, dice);
    let paper = Paper {
        grounds,
        begun: &begun,
        supply,
        most: u64::MAX,
    };
    in_order(&paper, counts.len(), order, manner)
}

/// What pieces are put on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Paper<'a> {
    pub(crate) grounds: &'a [Ground],
    /// Which sheet is begun first, where there are several.
    pub(crate) begun: &'a [usize],
    pub(crate) supply: &'a [Option<u32>],
    /// What all sheets together may cost.
    pub(crate) most: u64,
}

/// Puts pieces of so many kinds on paper one after the other, each with how many
/// come in a row.
pub(crate) fn in_order(
    paper: &Paper,
    kinds: usize,
    order: impl IntoIterator<Item = (usize, u32)>,
    manner: Manner,
) -> Quick {
    let grounds = paper.grounds;
    let mut missing = vec![0; kinds];
    let mut left = paper.supply.to_vec();
    let mut cost_left = paper.most;
    let mut sheets: Vec<Sheet> = Vec::new();
    let mut free: Vec<Free> = Vec::new();
    let mut work = 0;
    for (piece, wanted) in order {
        for found in 0..wanted {
            work += u64::try_from(free.len() + 4).unwrap_or(0);
            let fits = best(&free, grounds, piece, manner);
            let place = fits.or_else(|| {
                let opened = paper.begun.iter().find_map(|at| {
                    let ground = grounds.get(*at)?;
                    if left.get(*at)?.is_some_and(|left| left == 0)
                        || u64::from(ground.cost) > cost_left
                    {
                        return None;
                    }
                    let whole = Free {
                        sheet: sheets.len(),
                        ground: *at,
                        part: 0,
                        x: 0,
                        y: 0,
                        width: ground.width,
                        height: ground.height,
                    };
                    let lying = best_lying(&whole, ground, piece, manner)?;
                    Some((*at, whole, lying))
                });
                let (at, whole, lying) = opened?;
                if let Some(Some(left)) = left.get_mut(at) {
                    *left -= 1;
                }
                let ground = grounds.get(at)?;
                cost_left -= u64::from(ground.cost);
                sheets.push(Sheet {
                    ground: at,
                    plot: Plot::new(ground),
                });
                free.push(whole);
                Some((free.len() - 1, lying))
            });
            let put = place.and_then(|(at, lying)| {
                let spot = free.swap_remove(at);
                let sheet = sheets.get_mut(spot.sheet)?;
                let ground = grounds.get(sheet.ground)?;
                put(&mut free, sheet, ground, spot, lying, manner)
            });
            if put.is_none() {
                if let Some(missing) = missing.get_mut(piece) {
                    *missing += wanted - found;
                }
                break;
            }
        }
    }
    sheets.retain(|sheet| sheet.plot.pieces().next().is_some());
    Quick {
        sheets,
        missing,
        work,
    }
}

/// Which sheet is begun first: what costs nothing, smaller ones first; then
/// what gives most for its cost.
pub(crate) fn preferred(grounds: &[Ground], manner: Manner, dice: &mut Dice) -> Vec<usize> {
    let area = |ground: &Ground| u64::from(ground.width) * u64::from(ground.height);
    let mut numbers: Vec<usize> = (0..grounds.len()).collect();
    let key = |at: &usize| {
        grounds.get(*at).map(|ground| {
            let dear = u128::from(ground.cost) << 64;
            let each = dear / u128::from(area(ground).max(1));
            (each, area(ground))
        })
    };
    numbers.sort_by_key(key);
    if manner.loose > 0 && numbers.len() > 1 && dice.below(2) == 0 {
        let a = dice.below(numbers.len());
        let b = dice.below(numbers.len());
        numbers.swap(a, b);
    }
    numbers
}

/// Pieces, the hardest to place first: those of a chosen part before all others.
pub(crate) fn order(
    grounds: &[Ground],
    counts: &[u32],
    weights: &[u32],
    manner: Manner,
    dice: &mut Dice,
) -> Vec<(usize, u32)> {
    let mut keyed = Vec::new();
    for (piece, count) in counts.iter().enumerate() {
        let mut ways = grounds.iter().flat_map(|ground| ground.ways(piece));
        let Some((_, one, spot)) = ways.next() else {
            if *count > 0 {
                keyed.push((true, u128::MAX, piece, *count));
            }
            continue;
        };
        let (w, h) = (u128::from(one.width), u128::from(one.height));
        let size = match manner.order {
            0 => w * h,
            1 => (w.max(h) << 32) + w.min(h),
            2 => (w.min(h) << 32) + w.max(h),
            3 => (w << 32) + h,
            4 => (h << 32) + w,
            5 => (w.abs_diff(h) << 32) + w.max(h),
            _ => w + h,
        };
        let weight = u128::from(weights.get(piece).copied().unwrap_or(0)) + 1024;
        let size = size * weight;
        let groups = if manner.loose > 0 { (*count).min(4) } else { 1 };
        for group in 0..groups {
            let share = (count + group) / groups.max(1);
            let off = u128::try_from(dice.below(manner.loose * 64 + 1)).unwrap_or(0);
            let key = size - size / 1024 * off.min(1024);
            if share > 0 {
                keyed.push((spot.corner.is_some(), key, piece, share));
            }
        }
    }
    keyed.sort_by_key(|(bound, key, piece, _)| (!*bound, u128::MAX - *key, *piece));
    keyed
        .into_iter()
        .map(|(_, _, piece, count)| (piece, count))
        .collect()
}

/// The free part that suits a piece best, and how it lies there.
fn best(free: &[Free], grounds: &[Ground], piece: usize, manner: Manner) -> Option<(usize, usize)> {
    let mut best: Option<((usize, u64, usize), usize)> = None;
    for (number, ground) in grounds.iter().enumerate() {
        for (lying, one, spot) in ground.ways(piece) {
            for (at, part) in free.iter().enumerate() {
                if part.ground != number || one.width > part.width || one.height > part.height {
                    continue;
                }
                if spot.corner.is_some() && !part.reaches(one, spot) {
                    continue;
                }
                let sheet = if manner.first { part.sheet } else { 0 };
                let score = (sheet, manner.score(part, one), lying);
                if best.is_none_or(|(least, _)| score < least) {
                    best = Some((score, at));
                }
            }
        }
    }
    best.map(|((.., lying), at)| (at, lying))
}

/// How a piece lies best on a whole sheet.
fn best_lying(whole: &Free, ground: &Ground, piece: usize, manner: Manner) -> Option<usize> {
    let fitting = ground.ways(piece).filter(|(_, one, spot)| {
        one.width <= whole.width && one.height <= whole.height && whole.reaches(one, spot)
    });
    let best = fitting.min_by_key(|(lying, one, _)| (manner.score(whole, one), *lying));
    best.map(|(lying, ..)| lying)
}

impl Free {
    /// Whether a piece that fits may come from there.
    fn reaches(&self, one: &Lying, spot: &Spot) -> bool {
        spot.corner.is_none_or(|[x, y]| {
            corner(x, self.x, self.width - one.width, false).is_some()
                && corner(y, self.y, self.height - one.height, false).is_some()
        })
    }
}

impl Manner {
    /// How well a part suits a piece that fits it; less is better.
    fn score(self, part: &Free, one: &Lying) -> u64 {
        let (x, y) = (part.width - one.width, part.height - one.height);
        let area = || u64::from(part.width) * u64::from(part.height);
        match self.fit {
            0 => u64::from(x.min(y)),
            1 => area(),
            2 => u64::from(x.max(y)),
            3 => u64::from(part.y) << 32 | u64::from(part.x),
            4 => u64::MAX - area(),
            5 => u64::MAX - u64::from(x.min(y)),
            _ => u64::MAX - u64::from(x.max(y)),
        }
    }

    /// Whether what is left beside a piece is cut off first along the width.
    fn upright(self, part: Part, one: &Lying) -> bool {
        let (x, y) = (part.width - one.width, part.height - one.height);
        let product = |a: u32, b: u32| u64::from(a) * u64::from(b);
        match self.split {
            0 => x > y,
            1 => {
                product(x, part.height).max(product(one.width, y))
                    >= product(x, one.height).max(product(part.width, y))
            }
            2 => x <= y,
            3 => product(x, one.height) >= product(one.width, y),
            4 => false,
            5 => true,
            6 => product(x, one.height) < product(one.width, y),
            7 => part.width <= part.height,
            _ => part.width > part.height,
        }
    }
}

/// How far from the corner of a part a piece begins, at least or at most, so that
/// it comes from where it must.
fn corner(allowed: (u32, u32), from: u32, room: u32, far: bool) -> Option<u32> {
    let (least, most) = (allowed.0.max(from), allowed.1.min(from + room));
    (least <= most).then(|| if far { most } else { least } - from)
}

/// Puts a piece into a free part, and keeps what is left of it.
fn put(
    free: &mut Vec<Free>,
    sheet: &mut Sheet,
    ground: &Ground,
    spot: Free,
    lying: usize,
    manner: Manner,
) -> Option<()> {
    let one = ground.lying.get(lying)?;
    let mut at = spot.part;
    let plot = &mut sheet.plot;
    let first_part = plot.parts.len();
    // What lies before a piece that must come from further on.
    if let Some([x, y]) = ground.spots.get(lying)?.corner {
        let (dx, dy) = (
            corner(x, spot.x, spot.width - one.width, manner.far)?,
            corner(y, spot.y, spot.height - one.height, manner.far)?,
        );
        if dx > 0 {
            at = plot.cut(at, true, dx, ground.fence)?.1;
        }
        if dy > 0 {
            at = plot.cut(at, false, dy, ground.fence)?.1;
        }
    }
    let part = *plot.part(at)?;
    let upright = manner.upright(part, one);
    let put = plot.set(at, lying, upright, ground).or_else(|| {
        // Some of it may be cut already where the second cut can't be made.
        let whole = plot.part(at).is_some_and(|part| part.what == What::Left);
        whole.then(|| plot.set(at, lying, !upright, ground))?
    });
    for (number, part) in plot.parts.iter().enumerate().skip(first_part) {
        if part.what == What::Left {
            free.push(Free {
                sheet: spot.sheet,
                ground: spot.ground,
                part: number,
                x: part.x,
                y: part.y,
                width: part.width,
                height: part.height,
            });
        }
    }
    put
}
