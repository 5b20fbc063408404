//! The cuts one after the other: where the fence is set, what is cut there.
//!
//! A cut can be made once the part it divides is there, and all cuts at one
//! setting of the fence are made together, whichever sheets they belong to. The
//! next setting is one that needn't come back if there is such, and of these the
//! one at which most is cut. Most cuts can be made at two settings, with either
//! part against the fence; that is tried with all settings, and with few.

use std::collections::{BTreeMap, BTreeSet};

use crate::job::Job;
use crate::layout::{Along, Batch, Becomes, Cut, Part};
use crate::length::Length;

/// An edge of a part, as its sheet lay in the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edge {
    /// On the left.
    Left,
    /// On the near side.
    Near,
    /// On the right.
    Right,
    /// On the far side.
    Far,
}

/// How something is turned on the trimmer before it is cut, from how it lay at
/// the cut that it comes from; a new sheet, from lying with its left edge against
/// the fence. The same side stays up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turn {
    /// It stays as it lies.
    None,
    /// A quarter, so that what was near comes to lie where the left was.
    Quarter,
    /// Half, end for end.
    Half,
    /// A quarter the other way.
    BackQuarter,
}

impl Edge {
    /// The turn that brings another edge to the fence, where this one was.
    fn turn_to(self, other: Self) -> Turn {
        let number = |edge: Self| match edge {
            Self::Left => 0_u8,
            Self::Near => 1,
            Self::Right => 2,
            Self::Far => 3,
        };
        match (number(other) + 4 - number(self)) % 4 {
            0 => Turn::None,
            1 => Turn::Quarter,
            2 => Turn::Half,
            _ => Turn::BackQuarter,
        }
    }
}

/// Equal parts of equal sheets that are cut alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Parts {
    /// The batch, by its place in the plan.
    pub batch: usize,
    /// The part, by its place in the layout of the batch.
    pub part: usize,
    /// One from each sheet of the batch.
    pub copies: u32,
    /// Which of its edges lies against the fence.
    pub edge: Edge,
    /// How it is turned first.
    pub turn: Turn,
}

/// Parts of one size, cut at one setting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stroke {
    /// What is cut; all of it together can be stacked.
    pub parts: Vec<Parts>,
    /// How often the blade comes down, as no more than a stack is cut at once.
    pub times: u32,
}

impl Stroke {
    /// How many parts are cut altogether.
    pub fn copies(&self) -> u32 {
        self.parts.iter().map(|parts| parts.copies).sum()
    }
}

/// What is cut at one setting of the fence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// From the fence to the blade.
    pub fence: Length,
    /// The cuts, in an order in which every part is there when it is cut.
    pub strokes: Vec<Stroke>,
}

/// All cuts of a plan.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sequence {
    settings: Vec<Setting>,
}

impl Sequence {
    /// Setting after setting.
    pub fn settings(&self) -> &[Setting] {
        &self.settings
    }

    /// How often the blade comes down.
    pub fn cuts(&self) -> u64 {
        let strokes = self.settings.iter().flat_map(|setting| &setting.strokes);
        strokes.map(|stroke| u64::from(stroke.times)).sum()
    }

    /// Cuts and fence settings together: how often something is done.
    pub(crate) fn handling(&self) -> u64 {
        self.cuts() + u64::try_from(self.settings.len()).unwrap_or(u64::MAX)
    }
}

/// A cut that waits to be made.
#[derive(Debug, Clone, Copy)]
struct Waiting {
    batch: usize,
    part: usize,
    /// Which edge lay against the fence before.
    lay: Edge,
}

/// The cuts of these batches, one after the other.
pub(crate) fn sequence(job: &Job, batches: &[Batch]) -> Sequence {
    least(job, batches, false)
}

/// The same with what is used against the fence, rather than what is left over,
/// where a cut can be made either way: lengths are truest there. The sequence that
/// is known stays where this takes more handling.
pub(crate) fn measured(job: &Job, batches: &[Batch], known: Sequence) -> Sequence {
    let measured = least(job, batches, true);
    if measured.handling() > known.handling() {
        known
    } else {
        measured
    }
}

fn least(job: &Job, batches: &[Batch], measures: bool) -> Sequence {
    let ways = batches.iter().map(|batch| {
        let parts = batch.layout.parts().iter();
        parts.map(|part| ways(job, part)).collect()
    });
    let all: Vec<Vec<Ways>> = ways.collect();
    let few = few(&all);
    let both = [all, few].map(|ways| made(job, batches, ways, measures));
    let least = both.into_iter().min_by_key(Sequence::handling);
    least.unwrap_or_default()
}

/// The settings at which a part can be cut, each with the edge at the fence.
type Ways = Vec<(Length, Edge)>;

/// Without settings that no cut needs, those left out first at which least can be
/// cut.
fn few(all: &[Vec<Ways>]) -> Vec<Vec<Ways>> {
    let mut cuts: BTreeMap<Length, usize> = BTreeMap::new();
    for (fence, _) in all.iter().flatten().flatten() {
        *cuts.entry(*fence).or_insert(0) += 1;
    }
    let mut fences: Vec<(usize, Length)> = cuts.into_iter().map(|(at, cuts)| (cuts, at)).collect();
    fences.sort_by_key(|(cuts, fence)| (*cuts, std::cmp::Reverse(*fence)));
    let mut few = all.to_vec();
    for (_, fence) in fences {
        let is_it = |(at, _): &(Length, Edge)| *at == fence;
        let mut with = few.iter().flatten().filter(|ways| ways.iter().any(is_it));
        if with.all(|ways| ways.len() > 1) {
            for ways in few.iter_mut().flatten() {
                ways.retain(|way| !is_it(way));
            }
        }
    }
    few
}

/// The cuts with each made at one of the settings given for it.
fn made(job: &Job, batches: &[Batch], ways: Vec<Vec<Ways>>, measures: bool) -> Sequence {
    let mut work = Work {
        job,
        batches,
        ways,
        measures,
        ready: Vec::new(),
        pending: BTreeMap::new(),
    };
    for (batch, it) in batches.iter().enumerate() {
        for part in 0..it.layout.parts().len() {
            for (fence, _) in work.ways(batch, part).to_vec() {
                *work.pending.entry(fence).or_insert(0) += 1;
            }
        }
        work.open(batch, 0, Edge::Left);
    }
    let mut settings = Vec::new();
    while let Some(fence) = work.next() {
        let strokes = work.cut_at(fence);
        if strokes.is_empty() {
            break;
        }
        settings.push(Setting { fence, strokes });
    }
    Sequence { settings }
}

struct Work<'a> {
    job: &'a Job,
    batches: &'a [Batch],
    /// For each part of each batch, the settings at which it can be cut.
    ways: Vec<Vec<Ways>>,
    /// Whether what is used goes against the fence before what is left over.
    measures: bool,
    ready: Vec<Waiting>,
    /// How many cuts not made yet could be made at each setting.
    pending: BTreeMap<Length, usize>,
}

/// The settings at which a part can be cut, each with the edge at the fence.
fn ways(job: &Job, part: &Part) -> Ways {
    let Becomes::Cut(cut) = part.becomes else {
        return Vec::new();
    };
    let (near, far) = match cut.along {
        Along::Width => (Edge::Left, Edge::Right),
        Along::Height => (Edge::Near, Edge::Far),
    };
    let side = cut.along.of(part.place.size);
    let rest = side.saturating_sub(cut.at).saturating_sub(cut.lost);
    let held = [(cut.at, near), (rest, far)].into_iter();
    let held = held.filter(|(strip, _)| job.trimmer().holds(*strip));
    let mut ways: Ways = held
        .filter_map(|(strip, edge)| Some((Length::new(strip)?, edge)))
        .collect();
    // Cut in the middle, it need not be turned.
    ways.dedup_by_key(|(strip, _)| *strip);
    ways
}

impl Work<'_> {
    fn cut(&self, batch: usize, part: usize) -> Option<Cut> {
        match self.batches.get(batch)?.layout.part(part)?.becomes {
            Becomes::Cut(cut) => Some(cut),
            _ => None,
        }
    }

    fn ways(&self, batch: usize, part: usize) -> &[(Length, Edge)] {
        let ways = self.ways.get(batch).and_then(|ways| ways.get(part));
        ways.map_or(&[], Vec::as_slice)
    }

    /// A part is there now.
    fn open(&mut self, batch: usize, part: usize, lay: Edge) {
        if self.cut(batch, part).is_some() {
            self.ready.push(Waiting { batch, part, lay });
        }
    }

    /// Where to set the fence.
    fn next(&self) -> Option<Length> {
        let ready = self.ready.iter();
        let ways = ready.flat_map(|it| self.ways(it.batch, it.part));
        let fences: BTreeSet<Length> = ways.map(|(fence, _)| *fence).collect();
        let rated = fences.into_iter().map(|fence| {
            let cuts = self.cuts_at(fence);
            let pending = self.pending.get(&fence).copied().unwrap_or(0);
            let used = if self.measures {
                self.used_at(fence)
            } else {
                0
            };
            (pending <= cuts, cuts, used, fence)
        });
        rated.max().map(|(.., fence)| fence)
    }

    /// How many of the cuts that can be made now give at a setting something that is
    /// used against the fence.
    fn used_at(&self, fence: Length) -> usize {
        let is_used = |it: &&Waiting| {
            let way = self.ways(it.batch, it.part).iter();
            let mut way = way.filter(|(at, _)| *at == fence);
            way.any(|(_, edge)| {
                let held = self.cut(it.batch, it.part).and_then(|cut| match edge {
                    Edge::Left | Edge::Near => cut.near,
                    Edge::Right | Edge::Far => cut.far,
                });
                let layout = self.batches.get(it.batch).map(|batch| &batch.layout);
                let held = layout
                    .zip(held)
                    .and_then(|(layout, held)| layout.part(held));
                held.is_some_and(|held| held.becomes != Becomes::Offcut)
            })
        };
        self.ready.iter().filter(is_used).count()
    }

    /// How many cuts a setting leads to, those that become possible by it too.
    fn cuts_at(&self, fence: Length) -> usize {
        let mut open: Vec<(usize, usize)> =
            self.ready.iter().map(|it| (it.batch, it.part)).collect();
        let mut cuts = 0;
        while let Some((batch, part)) = open.pop() {
            if !self.ways(batch, part).iter().any(|(at, _)| *at == fence) {
                continue;
            }
            cuts += 1;
            if let Some(cut) = self.cut(batch, part) {
                let parts = [cut.near, cut.far].into_iter().flatten();
                open.extend(parts.map(|part| (batch, part)));
            }
        }
        cuts
    }

    /// Makes every cut that can be made at a setting, and those that become
    /// possible by it.
    fn cut_at(&mut self, fence: Length) -> Vec<Stroke> {
        let mut strokes = Vec::new();
        loop {
            let ready = std::mem::take(&mut self.ready);
            let mut groups: BTreeMap<(u32, u32), Vec<Parts>> = BTreeMap::new();
            let mut waiting = Vec::new();
            for one in ready {
                let ways = self.ways(one.batch, one.part).to_vec();
                let Some((_, edge)) = ways.iter().find(|(at, _)| *at == fence) else {
                    waiting.push(one);
                    continue;
                };
                for (other, _) in &ways {
                    if let Some(pending) = self.pending.get_mut(other) {
                        *pending = pending.saturating_sub(1);
                    }
                }
                let Some(batch) = self.batches.get(one.batch) else {
                    continue;
                };
                let Some(part) = batch.layout.part(one.part) else {
                    continue;
                };
                let (w, h) = (part.place.size.width.get(), part.place.size.height.get());
                let size = match edge {
                    Edge::Left | Edge::Right => (w, h),
                    Edge::Near | Edge::Far => (h, w),
                };
                groups.entry(size).or_default().push(Parts {
                    batch: one.batch,
                    part: one.part,
                    copies: batch.sheets.get(),
                    edge: *edge,
                    turn: one.lay.turn_to(*edge),
                });
            }
            self.ready = waiting;
            if groups.is_empty() {
                return strokes;
            }
            for parts in groups.into_values().rev() {
                for one in &parts {
                    if let Some(cut) = self.cut(one.batch, one.part) {
                        for part in [cut.near, cut.far].into_iter().flatten() {
                            self.open(one.batch, part, one.edge);
                        }
                    }
                }
                let copies: u32 = parts.iter().map(|parts| parts.copies).sum();
                let times = copies.div_ceil(self.job.trimmer().stack.get());
                strokes.push(Stroke { parts, times });
            }
        }
    }
}
