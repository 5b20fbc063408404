//! Sheets filled strip after strip, many ways at once.
//!
//! A sheet is cut into slabs, slabs into strips, strips into pieces, which may be
//! trimmed. One piece after the other is put behind the last in its strip, in a
//! new strip, a new slab or on a new sheet, and of all beginnings with equally
//! many pieces those go on that waste least for the size of their pieces (beam
//! search, with the guide of Fontan and Libralesso 2020). It fills sheets with
//! dozens of pieces, for which the best filling is out of reach.

use std::collections::HashSet;

use super::Search;
use crate::greedy::Sheet;
use crate::ground::Ground;
use crate::plot::{Plot, within};
use crate::relaxed::Lying;

/// Pieces altogether for which it is done.
const PIECES: u64 = 300;

/// How many beginnings go on, one time after the other; each once with slabs side
/// by side, once above each other.
const WIDTHS: [usize; 4] = [10, 40, 160, 640];

/// How often it is done before dives where a sheet holds few pieces, since then dives
/// are the better search; and after how many dives it goes on.
const BEFORE_DIVES: usize = 6;
const DIVES: u32 = 2;

/// What a beginning counts as wasted before any piece, so that small pieces are
/// not put first only because they leave no gap.
const WASTED: f64 = 0.1;

/// What a piece begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Begins {
    Sheet,
    Slab,
    Strip,
    /// Nothing: it comes behind the last one.
    Nothing,
}

/// One piece put down, after another.
#[derive(Debug, Clone, Copy)]
struct Put {
    before: u32,
    ground: u32,
    lying: u32,
    at: Begins,
}

/// A beginning.
#[derive(Debug, Clone)]
struct Node {
    /// The last piece put, as its number in the record.
    last: u32,
    left: Vec<u16>,
    /// Sheets of each ground still to be had.
    supply: Vec<u32>,
    cost: u64,
    ground: usize,
    /// Where the open slab begins and ends, the open strip in it, and where the
    /// last piece in that ends.
    slab: (u32, u32),
    strip: (u32, u32),
    end: u32,
    /// Areas of the sheets before, and of the pieces.
    full: u64,
    filled: u64,
    pieces: u32,
    /// Which pieces are left, mixed up.
    hash: u64,
}

/// The open slab, the open strip in it, and where the last piece in that ends.
#[derive(Debug)]
struct Taken {
    slab: (u32, u32),
    strip: (u32, u32),
    end: u32,
}

/// A beginning with one more piece, rated.
#[derive(Debug)]
struct Child {
    score: f64,
    parent: usize,
    ground: usize,
    lying: usize,
    at: Begins,
}

/// The search, which can be left after each piece.
#[derive(Debug)]
pub(super) struct Stripes {
    record: Vec<Put>,
    nodes: Vec<Node>,
    /// Which time it is.
    number: usize,
    /// What a better plan may cost.
    most: u64,
}

/// What came of a step.
pub(super) enum Came {
    /// There is more to do.
    Open,
    /// No beginning goes on.
    Nothing,
    /// A better plan.
    Plan(Vec<Sheet>),
}

impl Stripes {
    /// How many beginnings go on.
    fn width(&self) -> usize {
        WIDTHS.get(self.number / 2).copied().unwrap_or(0)
    }

    /// Whether slabs lie side by side, or above each other.
    fn upright(&self) -> bool {
        self.number.is_multiple_of(2)
    }
}

impl Search {
    /// The search for the next time; `None` where it is not worth it or all times
    /// are over.
    pub(super) fn stripes(&mut self) -> Option<Stripes> {
        let pieces: u64 = self.counts.iter().map(|count| u64::from(*count)).sum();
        let lacks = self.best.missing.iter().any(|missing| *missing > 0);
        let number = self.striped;
        let later = number >= BEFORE_DIVES && self.dives < DIVES && !self.holds_many();
        if number >= WIDTHS.len() * 2 || lacks || pieces > PIECES || later {
            return None;
        }
        self.striped += 1;
        let left = |count: &u32| u16::try_from(*count).unwrap_or(u16::MAX);
        let whole = Node {
            last: u32::MAX,
            left: self.counts.iter().map(left).collect(),
            supply: self
                .supply
                .iter()
                .map(|left| left.unwrap_or(u32::MAX))
                .collect(),
            cost: 0,
            ground: usize::MAX,
            slab: (0, 0),
            strip: (0, 0),
            end: 0,
            full: 0,
            filled: 0,
            pieces: 0,
            hash: 0,
        };
        Some(Stripes {
            record: Vec::new(),
            nodes: vec![whole],
            number,
            most: self.cost.checked_sub(1)?,
        })
    }

    /// Puts one more piece; says what that took and what came of it.
    pub(super) fn stripe_on(&self, stripes: &mut Stripes) -> (u64, Came) {
        let mut children = Vec::new();
        let mut work = 0;
        for (parent, node) in stripes.nodes.iter().enumerate() {
            work += self.offer(stripes, parent, node, &mut children);
        }
        let order = |a: &Child, b: &Child| {
            let score = a.score.total_cmp(&b.score);
            score.then((a.parent, a.ground, a.lying).cmp(&(b.parent, b.ground, b.lying)))
        };
        let many = stripes.width() * 2;
        if children.len() > many {
            children.select_nth_unstable_by(many, order);
            children.truncate(many);
        }
        children.sort_unstable_by(order);
        work += u64::try_from(children.len() * 8).unwrap_or(0);
        let mut seen = HashSet::new();
        let mut nodes = Vec::new();
        for child in children {
            let Some(parent) = stripes.nodes.get(child.parent) else {
                continue;
            };
            let Some(mut node) = self.after(
                stripes.upright(),
                parent,
                child.ground,
                child.lying,
                child.at,
            ) else {
                continue;
            };
            let key = (
                node.hash,
                node.cost,
                node.ground,
                node.slab,
                node.strip,
                node.end,
            );
            if !seen.insert(key) {
                continue;
            }
            stripes.record.push(Put {
                before: node.last,
                ground: u32::try_from(child.ground).unwrap_or(u32::MAX),
                lying: u32::try_from(child.lying).unwrap_or(u32::MAX),
                at: child.at,
            });
            node.last = u32::try_from(stripes.record.len() - 1).unwrap_or(u32::MAX);
            if node.left.iter().all(|left| *left == 0) {
                if let Some(sheets) = self.cut_out(stripes, node.last) {
                    return (work, Came::Plan(sheets));
                }
                continue;
            }
            nodes.push(node);
            if nodes.len() >= stripes.width() {
                break;
            }
        }
        stripes.nodes = nodes;
        if stripes.nodes.is_empty() {
            return (work, Came::Nothing);
        }
        (work, Came::Open)
    }

    /// Everything that may come next; says what finding it took.
    fn offer(
        &self,
        stripes: &Stripes,
        parent: usize,
        node: &Node,
        children: &mut Vec<Child>,
    ) -> u64 {
        let mut work = 1;
        for (ground, it) in self.grounds.iter().enumerate() {
            let is_open = node.ground == ground;
            let fresh = node.supply.get(ground).is_some_and(|left| *left > 0)
                && node.cost + u64::from(it.cost) <= stripes.most;
            if !is_open && !fresh {
                continue;
            }
            for piece in 0..node.left.len() {
                if node.left.get(piece).is_none_or(|left| *left == 0) {
                    continue;
                }
                for (lying, ..) in it.ways(piece) {
                    work += 4;
                    // A new sheet only for what does not go on this one.
                    let mut any = false;
                    for at in [Begins::Nothing, Begins::Strip, Begins::Slab, Begins::Sheet] {
                        if at == Begins::Sheet && (any || !fresh) || at != Begins::Sheet && !is_open
                        {
                            continue;
                        }
                        let Some(score) = self.score(stripes, node, ground, lying, at) else {
                            continue;
                        };
                        any = true;
                        children.push(Child {
                            score,
                            parent,
                            ground,
                            lying,
                            at,
                        });
                    }
                }
            }
        }
        work
    }

    /// How much is wasted for the size of the pieces, as far as they go.
    fn score(
        &self,
        stripes: &Stripes,
        node: &Node,
        ground: usize,
        lying: usize,
        at: Begins,
    ) -> Option<f64> {
        let it = self.grounds.get(ground)?;
        let Taken { slab, strip, end } = place(stripes.upright(), node, it, lying, at)?;
        let one = it.lying.get(lying)?;
        let high = if stripes.upright() {
            it.height
        } else {
            it.width
        };
        let product = |a: u32, b: u32| u64::from(a) * u64::from(b);
        let mut taken = node.full
            + product(slab.0, high)
            + product(slab.1 - slab.0, strip.0)
            + product(end - slab.0, strip.1 - strip.0);
        if at == Begins::Sheet && node.ground != usize::MAX {
            let before = self.grounds.get(node.ground)?;
            taken += product(before.width, before.height);
        }
        let area = product(one.width, one.height);
        let filled = node.filled + area;
        let pieces = node.pieces + 1;
        #[expect(clippy::cast_precision_loss, reason = "a guess is no worse for it")]
        let (taken, filled) = (taken as f64, filled as f64);
        let mean = filled / f64::from(pieces);
        let waste = (taken - filled) / taken;
        Some((waste + WASTED) / mean)
    }

    /// The beginning with that piece.
    fn after(
        &self,
        upright: bool,
        node: &Node,
        ground: usize,
        lying: usize,
        at: Begins,
    ) -> Option<Node> {
        let it = self.grounds.get(ground)?;
        let Taken { slab, strip, end } = place(upright, node, it, lying, at)?;
        let one = it.lying.get(lying)?;
        let mut next = node.clone();
        if at == Begins::Sheet {
            if let Some(before) = self.grounds.get(node.ground) {
                next.full += u64::from(before.width) * u64::from(before.height);
            }
            next.cost += u64::from(it.cost);
            let left = next.supply.get_mut(ground)?;
            *left = left.saturating_sub(1);
            next.ground = ground;
        }
        (next.slab, next.strip, next.end) = (slab, strip, end);
        next.filled += u64::from(one.width) * u64::from(one.height);
        next.pieces += 1;
        *next.left.get_mut(one.piece)? -= 1;
        let mixed = u64::try_from(one.piece + 1)
            .ok()?
            .wrapping_mul(0x9E37_79B9_7F4A_7C15);
        next.hash = next
            .hash
            .wrapping_add((mixed ^ mixed >> 29).wrapping_mul(0xBF58_476D_1CE4_E5B9));
        Some(next)
    }

    /// The sheets of a beginning that is whole; `None` where the trimmer can't cut
    /// one of them.
    fn cut_out(&self, stripes: &Stripes, last: u32) -> Option<Vec<Sheet>> {
        let mut puts = Vec::new();
        let mut at = last;
        while let Some(put) = usize::try_from(at)
            .ok()
            .and_then(|at| stripes.record.get(at))
        {
            puts.push(*put);
            at = put.before;
        }
        puts.reverse();
        let mut sheets: Vec<Sheet> = Vec::new();
        // The part that is left of the sheet, of the slab and of the strip.
        let (mut rest, mut slab_rest, mut strip_rest) = (Some(0), Some(0), Some(0));
        for (number, put) in puts.iter().enumerate() {
            let ground_at = usize::try_from(put.ground).ok()?;
            let ground = self.grounds.get(ground_at)?;
            let reach = |stops: &[Begins], side: fn(bool, &Lying) -> u32| {
                let alike = puts
                    .iter()
                    .skip(number + 1)
                    .take_while(|it| !stops.contains(&it.at));
                let all = std::iter::once(put).chain(alike);
                let sizes = all.filter_map(|it| ground.lying.get(usize::try_from(it.lying).ok()?));
                sizes.map(|one| side(stripes.upright(), one)).max()
            };
            if put.at == Begins::Sheet {
                sheets.push(Sheet {
                    ground: ground_at,
                    plot: Plot::new(ground),
                });
                rest = Some(0);
            }
            let plot = &mut sheets.last_mut()?.plot;
            if matches!(put.at, Begins::Sheet | Begins::Slab) {
                let whole = slab_width(&puts, number, ground, stripes.upright())?;
                (slab_rest, rest) = part(plot, rest?, stripes.upright(), whole, ground)?;
            }
            if put.at != Begins::Nothing {
                let high = reach(
                    &[Begins::Sheet, Begins::Slab, Begins::Strip],
                    |upright, one| sides(upright, one).1,
                )?;
                (strip_rest, slab_rest) = part(plot, slab_rest?, !stripes.upright(), high, ground)?;
            }
            let lying = usize::try_from(put.lying).ok()?;
            let across = sides(stripes.upright(), ground.lying.get(lying)?).0;
            let (piece, more) = part(plot, strip_rest?, stripes.upright(), across, ground)?;
            strip_rest = more;
            plot.set(piece?, lying, !stripes.upright(), ground)?;
        }
        Some(sheets)
    }
}

/// The sides of a piece along the slabs and along the strips of one.
fn sides(upright: bool, one: &Lying) -> (u32, u32) {
    if upright {
        (one.width, one.height)
    } else {
        (one.height, one.width)
    }
}

/// Cuts off so much; all of it where no more is there.
fn part(
    plot: &mut Plot,
    number: usize,
    upright: bool,
    at: u32,
    ground: &Ground,
) -> Option<(Option<usize>, Option<usize>)> {
    let it = plot.part(number)?;
    let side = if upright { it.width } else { it.height };
    if side == at {
        return Some((Some(number), None));
    }
    let (near, far) = plot.cut(number, upright, at, ground.fence)?;
    Some((Some(near), Some(far)))
}

/// What is taken with a piece put there; `None` where it can't be.
fn place(upright: bool, node: &Node, ground: &Ground, lying: usize, at: Begins) -> Option<Taken> {
    let one = ground.lying.get(lying)?;
    let (across, along) = sides(upright, one);
    let (wide, high) = if upright {
        (ground.width, ground.height)
    } else {
        (ground.height, ground.width)
    };
    let (slab, strip, row) = match at {
        Begins::Nothing => (node.slab, node.strip, node.end),
        Begins::Strip => (node.slab, (node.strip.1, node.strip.1), node.slab.0),
        Begins::Slab => ((node.slab.1, node.slab.1), (0, 0), node.slab.1),
        Begins::Sheet => ((0, 0), (0, 0), 0),
    };
    let end = row + across;
    let top = strip.0 + along;
    if end > wide || top > high {
        return None;
    }
    if let Some([x, y]) = ground.spots.get(lying)?.corner {
        let (near, far) = if upright {
            (row, strip.0)
        } else {
            (strip.0, row)
        };
        if !within(x, near) || !within(y, far) {
            return None;
        }
    }
    Some(Taken {
        slab: (slab.0, slab.1.max(end)),
        strip: (strip.0, strip.1.max(top)),
        end,
    })
}

/// How wide the longest row of a slab is.
fn slab_width(puts: &[Put], number: usize, ground: &Ground, upright: bool) -> Option<u32> {
    let (mut widest, mut row) = (0, 0);
    for (at, put) in puts.iter().enumerate().skip(number) {
        if at > number && matches!(put.at, Begins::Sheet | Begins::Slab) {
            break;
        }
        if put.at != Begins::Nothing {
            row = 0;
        }
        row += sides(upright, ground.lying.get(usize::try_from(put.lying).ok()?)?).0;
        widest = widest.max(row);
    }
    Some(widest)
}
