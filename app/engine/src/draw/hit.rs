//! What of a drawing lies at a place.

use super::heads::{is_within, off};
use super::svg::path;
use super::{Drawing, Mark, Spot};
use crate::faces::Part;
use crate::pattern::LineId;
use crate::recipe::StripId;

/// Something of a drawing that can be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Target {
    /// A score, crease or cut.
    Line(LineId),
    /// A face of a panel, or a layer.
    Part(Part),
    /// A part that falls off when the paper is cut.
    Fallen {
        /// What it falls off.
        of: StripId,
        /// Which of the parts that fall off.
        part: usize,
    },
}

impl Drawing {
    /// What lies there: the line that is nearest within `reach` millimetres, then the
    /// parts, from the one that is seen to the one beneath all others. Each once.
    pub fn hits(&self, at: Spot, reach: f64) -> Vec<Target> {
        let lines = self.marks.iter().filter_map(|mark| match mark {
            Mark::Line {
                from,
                to,
                line: Some(line),
                ..
            } => Some((off(at, (*from, *to)), *line)),
            _ => None,
        });
        let near = lines.filter(|(far, _)| *far <= reach);
        let line = near.min_by(|a, b| a.0.total_cmp(&b.0));
        // What is drawn later lies on top.
        let parts = self.marks.iter().rev().filter_map(|mark| {
            let (target, outlines) = area(mark)?;
            is_within(at, outlines).then_some(target)
        });
        let mut hits = Vec::new();
        for target in line
            .map(|(_, line)| Target::Line(line))
            .into_iter()
            .chain(parts)
        {
            if !hits.contains(&target) {
                hits.push(target);
            }
        }
        hits
    }

    /// Everything that can be chosen, each with the middle of the rectangle
    /// round it: the parts from the farthest to the nearest, then the lines.
    pub fn targets(&self) -> Vec<(Target, Spot)> {
        let middle = |corners: &mut dyn Iterator<Item = &Spot>| {
            let all: Vec<_> = corners.collect();
            [0, 1].map(|i| {
                let low = all.iter().map(|at| at[i]).fold(f64::INFINITY, f64::min);
                let high = all.iter().map(|at| at[i]).fold(f64::NEG_INFINITY, f64::max);
                f64::midpoint(low, high)
            })
        };
        let parts = self.marks.iter().filter_map(|mark| {
            let (target, outlines) = area(mark)?;
            Some((target, middle(&mut outlines.iter().flatten())))
        });
        let lines = self.marks.iter().filter_map(|mark| match mark {
            Mark::Line {
                from,
                to,
                line: Some(line),
                ..
            } => Some((Target::Line(*line), middle(&mut [*from, *to].iter()))),
            _ => None,
        });
        parts.chain(lines).collect()
    }

    /// The outlines of what can be chosen and is wanted, as the `d` of a path
    /// beside the drawing's own.
    pub fn outline_of(&self, wanted: impl Fn(Target) -> bool) -> String {
        let outlines = self.marks.iter().flat_map(|mark| match (mark, area(mark)) {
            (_, Some((target, outlines))) if wanted(target) => outlines.to_vec(),
            (
                Mark::Line {
                    from,
                    to,
                    line: Some(line),
                    ..
                },
                _,
            ) if wanted(Target::Line(*line)) => vec![vec![*from, *to]],
            _ => Vec::new(),
        });
        path(&outlines.collect::<Vec<_>>())
    }
}

/// An area that can be chosen, and its outlines.
fn area(mark: &Mark) -> Option<(Target, &[Vec<Spot>])> {
    match mark {
        Mark::Area {
            outlines,
            part: Some(part),
            ..
        } => Some((Target::Part(*part), outlines)),
        Mark::Fallen { outlines, of, part } => {
            let (of, part) = (*of, *part);
            Some((Target::Fallen { of, part }, outlines))
        }
        _ => None,
    }
}
