//! How the ends of lines go along when panels come, go, or change their size.

use super::edit::Edited;
use super::tie::{Axis, at_end, end_of};
use super::{Change, MeasureId, Recipe, Relation, Strip, StripId};
use crate::length::Length;

/// Where ends go when a panel comes or goes.
pub(super) struct Following {
    /// The measures tied to the end of a panel, and to which one's.
    tied: Vec<(MeasureId, Option<usize>)>,
    /// The measures that nothing ties, and what they become.
    free: Vec<(MeasureId, Length)>,
}

/// An end that nothing ties, between two lines that may move: the ends of its
/// panel, or the edges of the strip.
struct Loose {
    measure: MeasureId,
    of: StripId,
    axis: Axis,
    /// The panel it lies on.
    index: usize,
    /// How far it is from the nearer line and the farther one.
    off: [Length; 2],
}

impl Recipe {
    /// Makes a change that may move the ends of panels. Ends of lines that
    /// nothing ties keep their distance from the nearer end of their panel,
    /// and from the nearer edge of the strip; in the middle they stay in the
    /// middle.
    pub(super) fn carrying_lines(
        &mut self,
        change: impl FnOnce(&mut Self) -> Edited<Vec<Change>>,
    ) -> Edited<Vec<Change>> {
        let loose = self.loose();
        if loose.is_empty() {
            return change(self);
        }
        self.whole(|recipe| {
            let mut changes = change(recipe)?;
            let asked: Vec<_> = loose
                .iter()
                .filter(|end| changes.iter().all(|change| change.measure != end.measure))
                .filter_map(|end| Some((end.measure, recipe.carried(end)?)))
                .filter(|(measure, to)| recipe.value(*measure) != *to)
                .collect();
            if !asked.is_empty() {
                changes.extend(recipe.settle(&asked, &[], &[])?);
            }
            Ok(changes)
        })
    }

    fn loose(&self) -> Vec<Loose> {
        let ends = self.strips().flat_map(|(of, strip)| {
            [Axis::X, Axis::Y].into_iter().flat_map(move |axis| {
                self.free_measures(strip, axis)
                    .into_iter()
                    .map(move |measure| {
                        let at = self.value(measure);
                        let index = (0..strip.panels.len())
                            .find(|index| at <= self.end_of_panel(strip, *index))
                            .unwrap_or(0);
                        let [low, high] = self.bounds_of(strip, axis, index);
                        let off = [at - low, high - at];
                        Loose {
                            measure,
                            of,
                            axis,
                            index,
                            off,
                        }
                    })
            })
        });
        ends.collect()
    }

    /// Between what a measure on a panel lies.
    fn bounds_of(&self, strip: &Strip, axis: Axis, index: usize) -> [Length; 2] {
        match axis {
            Axis::X => {
                let high = self.end_of_panel(strip, index);
                let panel = strip.panels.get(index);
                let width = panel.map_or(Length::ZERO, |panel| self.value(panel.width));
                [high - width, high]
            }
            Axis::Y => [Length::ZERO, self.value(strip.height)],
        }
    }

    fn carried(&self, end: &Loose) -> Option<Length> {
        let [low, high] = self.bounds_of(self.strip(end.of)?, end.axis, end.index);
        let [from_low, from_high] = end.off;
        let to = match from_low.cmp(&from_high) {
            std::cmp::Ordering::Less => low + from_low,
            std::cmp::Ordering::Equal => low + (high - low).half_down(),
            std::cmp::Ordering::Greater => high - from_high,
        };
        // What lay beside the paper stays as far beside it.
        let inside = from_low >= Length::ZERO && from_high >= Length::ZERO;
        Some(if inside { to.min(high).max(low) } else { to })
    }

    /// How ends beyond the panel at `after` move on when a panel of some width
    /// comes behind it. Ends at the end of that panel stay there.
    pub(super) fn lines_making_room(
        &mut self,
        of: StripId,
        after: usize,
        width: Length,
    ) -> Following {
        let Some(strip) = self.strip(of) else {
            return Following::none();
        };
        let from = self.end_of_panel(strip, after);
        let free = self.free_moved(strip, |at| (at > from).then(|| at + width));
        let moved = |index: usize| Some(if index > after { index + 1 } else { index });
        let tied = self.take_ties(of, moved);
        Following { tied, free }
    }

    /// Takes away the lines within the panel at `index`, which is about to go.
    /// How the ends beyond it move back.
    pub(super) fn lines_closing_up(&mut self, of: StripId, index: usize) -> Following {
        let Some(strip) = self.strip(of) else {
            return Following::none();
        };
        let [start, end] = self.bounds_of(strip, Axis::X, index);
        let width = end - start;
        let within = |x: MeasureId| (start..=end).contains(&self.value(x));
        let kept = strip.lines.iter().filter(|line| {
            let mut along = line.measures_on(Axis::X).into_iter();
            !along.all(within)
        });
        let kept: Vec<_> = kept.cloned().collect();
        if let Some(strip) = self.strip_mut(of) {
            strip.lines = kept;
        }
        let Some(strip) = self.strip(of) else {
            return Following::none();
        };
        let free = self.free_moved(strip, |at| (at > start).then(|| (at - width).max(start)));
        let moved = |score: usize| {
            if score < index {
                Some(score)
            } else {
                score.checked_sub(1)
            }
        };
        let tied = self.take_ties(of, moved);
        Following { tied, free }
    }

    /// Ties ends again now that the panels have changed. Returns what to ask
    /// of the others.
    pub(super) fn follow(&mut self, of: StripId, lines: Following) -> Vec<(MeasureId, Length)> {
        let mut asked = lines.free;
        let Some(strip) = self.strip(of) else {
            return asked;
        };
        let mut ties = Vec::new();
        for (measure, index) in lines.tied {
            match index {
                Some(index) => ties.push(at_end(strip, measure, index)),
                None => asked.push((measure, Length::ZERO)),
            }
        }
        self.relations.extend(ties);
        asked
    }

    /// Takes out the ties along the strip to the ends of panels. Returns which
    /// measures they tied, and to the end of which panel from now on; `None`
    /// is the strip's start.
    fn take_ties(
        &mut self,
        of: StripId,
        moved: impl Fn(usize) -> Option<usize>,
    ) -> Vec<(MeasureId, Option<usize>)> {
        let mut taken = Vec::new();
        let mut relations = std::mem::take(&mut self.relations);
        if let Some(strip) = self.strip(of) {
            let along: Vec<_> = line_measures(strip, Axis::X).collect();
            relations.retain(|held: &Relation| {
                let tied = along.iter().find(|it| self.ties(strip, held, **it));
                let index = tied.zip(end_of(strip, &held.right));
                if let Some((measure, index)) = index {
                    taken.push((*measure, moved(index)));
                }
                index.is_none()
            });
        }
        self.relations = relations;
        taken
    }

    /// What becomes of the free measures along a strip.
    fn free_moved(
        &self,
        strip: &Strip,
        moved: impl Fn(Length) -> Option<Length>,
    ) -> Vec<(MeasureId, Length)> {
        let free = self.free_measures(strip, Axis::X).into_iter();
        free.filter_map(|it| Some((it, moved(self.value(it))?)))
            .collect()
    }

    /// The measures of a strip's lines that nothing but other lines follows,
    /// and that the maker does not hold still.
    fn free_measures(&self, strip: &Strip, axis: Axis) -> Vec<MeasureId> {
        let lines: Vec<_> = line_measures(strip, axis).collect();
        let is_free = |measure: &MeasureId| {
            let mut held = self.relations.iter().filter(|held| held.mentions(*measure));
            self.is_of_lines_only(*measure)
                && self.measure(*measure).is_some_and(|it| !it.pinned)
                && held.all(|held| {
                    let mut others = lines.iter().filter(|line| *line != measure);
                    others.any(|line| self.ties(strip, held, *line))
                })
        };
        lines.iter().copied().filter(is_free).collect()
    }
}

impl Following {
    const fn none() -> Self {
        Self {
            tied: Vec::new(),
            free: Vec::new(),
        }
    }
}

fn line_measures(strip: &Strip, axis: Axis) -> impl Iterator<Item = MeasureId> + '_ {
    strip
        .lines
        .iter()
        .flat_map(move |line| line.measures_on(axis))
}
