//! A plan of a class as the steps of its cards say it.

use std::collections::{BTreeMap, BTreeSet};

use foldwright_engine::cut_plan::{self, CutPlan, Load, Lot, Scraps, Yield};
use foldwright_engine::plane::{Edge as EdgeOf, Size as Measures};

use super::{Class, measure};
use crate::layout::{Along, Becomes, Cut, Part};
use crate::length::Size;
use crate::plan::Plan;
use crate::sequence::{Edge, Parts, Setting, Turn};

impl Class {
    /// What is cut in which order. `None` where the plan lacks a piece, since the
    /// cards could not be made by it.
    pub fn told(&self, plan: &Plan) -> Option<CutPlan> {
        if plan.lacks() > 0 {
            return None;
        }
        let (mut sheets, mut scraps) = (BTreeMap::new(), Vec::<Scraps>::new());
        let mut whole = Vec::new();
        for batch in plan.batches() {
            let of = self.sheets.get(batch.stock)?;
            let count = batch.sheets.get();
            let is_alike = |it: &&mut Scraps| (it.stock, it.size) == (of.paper, of.size);
            if !of.are_scraps() {
                *sheets.entry(of.paper).or_insert(0) += count;
            } else if let Some(alike) = scraps.iter_mut().find(is_alike) {
                alike.count += count;
            } else {
                scraps.push(Scraps {
                    stock: of.paper,
                    size: of.size,
                    count,
                });
            }
            if let Some(Becomes::Piece { piece, .. }) = batch.layout.part(0).map(|it| it.becomes) {
                whole.extend(self.parts.get(piece)?);
            }
        }
        let settings = in_order(plan).into_iter();
        let settings = settings.map(|setting| self.setting(plan, setting));
        Some(CutPlan {
            sheets,
            scraps,
            settings: settings.collect::<Option<_>>()?,
            whole,
        })
    }

    fn setting(&self, plan: &Plan, setting: &Setting) -> Option<cut_plan::Setting> {
        let all = setting.strokes.iter().flat_map(|stroke| &stroke.parts);
        let here: BTreeMap<(usize, usize), &Parts> = all
            .map(|parts| ((parts.batch, parts.part), parts))
            .collect();
        let mut further = BTreeSet::new();
        let mut loads = Vec::new();
        for stroke in &setting.strokes {
            // What is cut alike and is there at the same time goes together.
            let mut together = Vec::<Load>::new();
            for parts in &stroke.parts {
                if further.contains(&(parts.batch, parts.part)) {
                    continue;
                }
                let load = self.load(plan, parts, &here, &mut further)?;
                let count = load.count;
                let alike = |other: &&mut Load| {
                    let mut load = load.clone();
                    load.count = other.count;
                    load == **other
                };
                match together.iter_mut().find(alike) {
                    Some(known) => known.count += count,
                    None => together.push(load),
                }
            }
            loads.extend(together);
        }
        Some(cut_plan::Setting {
            fence: measure(setting.fence),
            loads,
        })
    }

    /// Parts with all the cuts made of them at one setting: each strip is cut off
    /// against the fence, and what stays behind the blade is pushed up to it.
    fn load(
        &self,
        plan: &Plan,
        parts: &Parts,
        here: &BTreeMap<(usize, usize), &Parts>,
        further: &mut BTreeSet<(usize, usize)>,
    ) -> Option<Load> {
        let batch = plan.batches().get(parts.batch)?;
        let layout = &batch.layout;
        let size = layout.part(parts.part)?.place.size;
        let becomes = |part: usize| self.becomes(layout.part(part)?);
        let (mut at, mut edge) = (parts.part, parts.edge);
        let mut off = Vec::new();
        let rest = loop {
            let cut = cut(layout.part(at)?)?;
            let (against, behind) = match edge {
                Edge::Left | Edge::Near => (cut.near, cut.far),
                Edge::Right | Edge::Far => (cut.far, cut.near),
            };
            off.push(becomes(against?)?);
            let next = behind.and_then(|part| {
                let next = here.get(&(parts.batch, part))?;
                let goes_on = self::cut(layout.part(part)?)?.along == cut.along;
                goes_on.then_some((part, next.edge))
            });
            match next {
                Some((part, next)) => {
                    further.insert((parts.batch, part));
                    (at, edge) = (part, next);
                }
                None => break behind.map(becomes),
            }
        };
        let of = self.sheets.get(batch.stock)?;
        let is = match parts.part {
            0 if of.are_scraps() => Lot::Scrap,
            0 => Lot::Sheet,
            _ => Lot::Strip,
        };
        Some(Load {
            stock: of.paper,
            size: measures(size),
            is,
            count: parts.copies,
            edge: match cut(layout.part(parts.part)?)?.along {
                Along::Width => EdgeOf::Left,
                Along::Height => EdgeOf::Bottom,
            },
            turned: is == Lot::Strip && matches!(parts.turn, Turn::Quarter | Turn::BackQuarter),
            stack: self.job.trimmer().stack.get(),
            off,
            rest: match rest {
                Some(rest) => Some(rest?),
                None => None,
            },
        })
    }

    fn becomes(&self, part: &Part) -> Option<Yield> {
        let size = measures(part.place.size);
        Some(match part.becomes {
            Becomes::Piece { piece, .. } => Yield::Piece(self.parts.get(piece)?.clone()),
            Becomes::Cut(_) => Yield::Strip(size),
            Becomes::Offcut => Yield::Offcut(size),
        })
    }
}

/// The settings with the parts of a card in the order of their list, as far as may
/// be: what comes from other sheets can be cut before or after.
fn in_order(plan: &Plan) -> Vec<&Setting> {
    let batches = |setting: &Setting| -> BTreeSet<usize> {
        let parts = setting.strokes.iter().flat_map(|stroke| &stroke.parts);
        parts.map(|parts| parts.batch).collect()
    };
    let first = |batches: &BTreeSet<usize>| {
        let batches = batches
            .iter()
            .filter_map(|batch| plan.batches().get(*batch));
        let pieces = batches.flat_map(|batch| batch.layout.pieces());
        pieces.map(|(piece, ..)| piece).min()
    };
    let settings = plan.sequence().settings().iter();
    let mut left: Vec<_> = settings.map(|it| (it, batches(it))).collect();
    let mut ordered = Vec::new();
    while !left.is_empty() {
        let free = left.iter().enumerate().filter(|(at, (_, batches))| {
            let mut before = left.iter().take(*at);
            before.all(|(_, other)| other.is_disjoint(batches))
        });
        let Some((at, _)) = free.min_by_key(|(_, (_, batches))| first(batches)) else {
            break;
        };
        ordered.push(left.remove(at).0);
    }
    ordered
}

const fn cut(part: &Part) -> Option<Cut> {
    match part.becomes {
        Becomes::Cut(cut) => Some(cut),
        Becomes::Piece { .. } | Becomes::Offcut => None,
    }
}

fn measures(size: Size) -> Measures {
    Measures {
        width: measure(size.width),
        height: measure(size.height),
    }
}
