//! Why there is no such card: the smallest set of causes that rule each other
//! out.

use std::collections::BTreeSet;

use super::Cause;
use super::ask::{Asked, Lie};
use super::closed::Axis;
use super::grid::Grid;
use super::model::{self, Found, Held, Model};
use super::reach::{ROUNDS, Spans, spans};
use crate::length::Length;
use crate::program::{Goal, Overflow, Work};

/// How much may be done for one question on the way. Our own bound.
const ONE: u64 = 1_000_000;

/// Why a card cannot be refitted as wished.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Clash {
    /// These cannot hold together of anything made of paper, whichever way paper
    /// and envelope lie. Without any one of them they could.
    Between {
        /// The causes, a wish before what the recipe says.
        causes: Vec<Cause>,
        /// Whether they could on finer marks.
        marks: bool,
        /// Whether no fewer causes clash anywhere in the recipe and the wish;
        /// otherwise the search for fewer was cut short.
        smallest: bool,
    },
    /// The card does not fold flat, and so has no closed size to ask for.
    NeverCloses,
    /// The search was cut short before a card was found.
    CutShort,
    /// The numbers in the relations are too large to be worked with.
    TooTangled,
}

impl Clash {
    /// The smallest clash where paper and envelope may lie in some ways.
    pub(super) fn least(asked: &Asked, ways: Vec<(Lie, Model)>, work: &mut Work) -> Self {
        let held = ways.iter().flat_map(|(_, model)| &model.hard);
        let causes = held.map(|held| held.cause);
        let all: BTreeSet<_> = causes.filter(|cause| !cause.is_given()).collect();
        let ways = ways.into_iter().map(|(lie, model)| {
            let spans = spans(asked, lie, &model, work).unwrap_or_default();
            Way { lie, model, spans }
        });
        let ways = ways.collect();
        let mut question = Question { asked, ways, work };
        let Together::Never(some) = question.ask(&all) else {
            return Self::CutShort;
        };
        let (some, sure) = question.without_spare(some);
        let (causes, smallest) = question.smallest(some, sure, &all);
        let marks = question.could_on_finer_marks(&causes);
        Self::Between {
            causes: causes.into_iter().collect(),
            marks,
            smallest,
        }
    }
}

/// Whether some causes can hold together.
enum Together {
    /// They can, and with them these.
    With(BTreeSet<Cause>),
    /// They cannot, and neither can these of them.
    Never(BTreeSet<Cause>),
    /// It was not found out.
    Unknown,
}

/// A way paper and envelope may lie.
struct Way {
    lie: Lie,
    /// All that has to hold then.
    model: Model,
    /// From which corners to which others the closed card may reach.
    spans: Spans,
}

/// The question what can hold together, asked again and again.
struct Question<'a> {
    asked: &'a Asked<'a>,
    ways: Vec<Way>,
    work: &'a mut Work,
}

impl Question<'_> {
    /// Whether some causes can hold together in one of the ways.
    fn ask(&mut self, some: &BTreeSet<Cause>) -> Together {
        let mut never = BTreeSet::new();
        let mut unknown = false;
        for way in &mut self.ways {
            let mut part = self.work.aside(ONE);
            let answer = way.ask(self.asked, some, &mut part);
            self.work.back(part);
            match answer {
                Ok(Together::Never(core)) => never.extend(core),
                Ok(Together::Unknown) | Err(Overflow) => unknown = true,
                Ok(with @ Together::With(_)) => return with,
            }
        }
        if unknown {
            Together::Unknown
        } else {
            Together::Never(never)
        }
    }

    /// Leaves each cause out in turn, and puts it back where the rest no longer
    /// clash; with whether that is known of each that stays.
    fn without_spare(&mut self, mut some: BTreeSet<Cause>) -> (BTreeSet<Cause>, bool) {
        let mut sure = true;
        for cause in some.clone() {
            let mut fewer = some.clone();
            if !fewer.remove(&cause) {
                continue;
            }
            match self.ask(&fewer) {
                Together::Never(core) => some = core,
                Together::With(_) => {}
                Together::Unknown => sure = false,
            }
        }
        (some, sure)
    }

    /// The smallest clash, where `some` is one, and whether it is known to be.
    ///
    /// Any clash takes something from each set that has to go for the rest to
    /// hold together. So the fewest causes that do so are no more than any clash
    /// has; where they can hold together themselves, what then has to go is one
    /// more such set (implicit hitting sets: Ignatiev, Previti, Liffiton and
    /// Marques-Silva 2015).
    fn smallest(
        &mut self,
        some: BTreeSet<Cause>,
        sure: bool,
        all: &BTreeSet<Cause>,
    ) -> (BTreeSet<Cause>, bool) {
        let mut gone: Vec<Vec<Cause>> = Vec::new();
        loop {
            let Some(fewest) = hitting(&gone, some.len(), self.work) else {
                return (some, false);
            };
            let Some(fewest) = fewest else {
                // Nothing smaller takes something from each.
                return (some, sure);
            };
            match self.ask(&fewest) {
                Together::Never(_) => return (fewest, true),
                Together::Unknown => return (some, false),
                Together::With(with) => {
                    let left = all.difference(&self.more(with, all)).copied().collect();
                    gone.push(left);
                }
            }
        }
    }

    /// As much as can hold together with some that can.
    fn more(&mut self, mut with: BTreeSet<Cause>, all: &BTreeSet<Cause>) -> BTreeSet<Cause> {
        for cause in all {
            if with.contains(cause) {
                continue;
            }
            let mut one_more = with.clone();
            one_more.insert(*cause);
            if let Together::With(more) = self.ask(&one_more) {
                with = more;
            }
        }
        with
    }

    /// Whether causes that clash could hold together if measures might be
    /// anything.
    fn could_on_finer_marks(&mut self, causes: &BTreeSet<Cause>) -> bool {
        for Way { model, .. } in &mut self.ways {
            model.ruler.fill(Grid::marks(Length::from_units(1)));
        }
        matches!(self.ask(causes), Together::With(_))
    }
}

/// What came of causes in one way.
enum Tried {
    Found(Found),
    Never(BTreeSet<Cause>),
    CutShort,
}

impl Way {
    /// Whether some causes can hold together in this way.
    fn ask(
        &mut self,
        asked: &Asked,
        some: &BTreeSet<Cause>,
        work: &mut Work,
    ) -> Result<Together, Overflow> {
        Ok(match self.filled(asked, some, &mut Vec::new(), work)? {
            Tried::Found(found) => Together::With(self.holding(asked, &found, work)),
            Tried::Never(core) => Together::Never(core),
            Tried::CutShort => Together::Unknown,
        })
    }

    /// Measures with which some causes hold, where the closed card reaches as far
    /// as it has to: between these corners, and between others along the
    /// direction in which it still falls short.
    fn filled(
        &mut self,
        asked: &Asked,
        some: &BTreeSet<Cause>,
        between: &mut Vec<(Axis, Held)>,
        work: &mut Work,
    ) -> Result<Tried, Overflow> {
        let found = match self.within(asked, some, between, work)? {
            Tried::Found(found) => found,
            other => return Ok(other),
        };
        let short = asked.falls_short(&found.values, self.lie, work);
        let short = short.filter(|_| some.contains(&Cause::Finished));
        let Some(axis) = short.filter(|axis| !between.iter().any(|(of, _)| of == axis)) else {
            return Ok(Tried::Found(found));
        };
        let mut core = BTreeSet::new();
        let mut unknown = false;
        for span in self.spans.along(axis).to_vec() {
            let Some(held) = asked.filling(&self.model, axis, &span, self.lie) else {
                continue;
            };
            between.push((axis, held));
            let tried = self.filled(asked, some, between, work);
            between.pop();
            match tried? {
                Tried::Found(found) => return Ok(Tried::Found(found)),
                Tried::Never(of_span) => core.extend(of_span),
                Tried::CutShort => unknown = true,
            }
        }
        Ok(if unknown {
            Tried::CutShort
        } else {
            Tried::Never(core)
        })
    }

    /// Measures with which some causes hold, where the closed card reaches no
    /// farther than it may, and between some corners as far as that says.
    fn within(
        &mut self,
        asked: &Asked,
        some: &BTreeSet<Cause>,
        between: &[(Axis, Held)],
        work: &mut Work,
    ) -> Result<Tried, Overflow> {
        let model = &mut self.model;
        for _ in 0..ROUNDS {
            let is_meant = |cause: Cause| cause.is_given() || some.contains(&cause);
            let held = model.hard.iter().filter(|it| is_meant(it.cause));
            let held: Vec<&Held> = held.chain(between.iter().map(|(_, held)| held)).collect();
            let mut solve = |grids: &[Grid]| {
                let held = held.iter().copied();
                model.solve(grids, held, Goal::Any, None, work)
            };
            let strict = model.marks(held.iter().copied());
            let found = match solve(&strict)? {
                model::Tried::Found(found) => found,
                model::Tried::CutShort => return Ok(Tried::CutShort),
                model::Tried::Impossible(from) => {
                    let Some(loose) = model.loose(held.iter().copied()) else {
                        return Ok(Tried::Never(core(model, &strict, &held, &from)));
                    };
                    match solve(&loose)? {
                        model::Tried::Found(found) => found,
                        model::Tried::CutShort => return Ok(Tried::CutShort),
                        // On which marks what falls depends on all of them.
                        model::Tried::Impossible(_) => return Ok(Tried::Never(some.clone())),
                    }
                }
            };
            match asked.too_large(model, &found.values, self.lie, work) {
                Some(larger) if some.contains(&larger.cause) => model.hard.push(larger),
                _ => return Ok(Tried::Found(found)),
            }
        }
        Ok(Tried::CutShort)
    }

    /// All causes that hold with these measures.
    fn holding(&self, asked: &Asked, found: &Found, work: &mut Work) -> BTreeSet<Cause> {
        let (values, hard) = (&found.values, &self.model.hard);
        let broken = hard.iter().filter(|it| !it.by(values));
        let mut broken: BTreeSet<_> = broken.map(|it| it.cause).collect();
        let larger = asked.too_large(&self.model, values, self.lie, work);
        broken.extend(larger.map(|larger| larger.cause));
        if asked.falls_short(values, self.lie, work).is_some() {
            broken.insert(Cause::Finished);
        }
        let held = hard.iter().map(|held| held.cause);
        held.filter(|cause| !cause.is_given() && !broken.contains(cause))
            .collect()
    }
}

/// The causes of what clashes, and of the pins that move the marks it is on.
fn core(model: &Model, grids: &[Grid], held: &[&Held], from: &BTreeSet<usize>) -> BTreeSet<Cause> {
    let clash = from.iter().filter_map(|at| held.get(*at));
    let mut causes = BTreeSet::new();
    let mut moved: BTreeSet<usize> = BTreeSet::new();
    for held in clash {
        causes.insert(held.cause);
        let terms = held.terms.keys();
        moved.extend(terms.filter(|at| grids.get(**at) != model.ruler.get(**at)));
    }
    let pins = held
        .iter()
        .filter(|it| it.pin().is_some_and(|(at, _)| moved.contains(&at)));
    causes.extend(pins.map(|it| it.cause));
    causes.retain(|cause| !cause.is_given());
    causes
}

/// The fewest causes with one of each set, where fewer than a number do. The outer
/// `None` where the work was done before that was known.
#[expect(
    clippy::option_option,
    reason = "not found out, and found that there are none"
)]
fn hitting(sets: &[Vec<Cause>], below: usize, work: &mut Work) -> Option<Option<BTreeSet<Cause>>> {
    for size in 0..below {
        let mut chosen = Vec::new();
        if hit(sets, size, &mut chosen, work)? {
            return Some(Some(chosen.into_iter().collect()));
        }
    }
    Some(None)
}

/// Adds so many causes at most to those chosen, so that one of each set is.
fn hit(sets: &[Vec<Cause>], size: usize, chosen: &mut Vec<Cause>, work: &mut Work) -> Option<bool> {
    if work.is_done() {
        return None;
    }
    work.take(sets.len());
    let missed = sets
        .iter()
        .filter(|set| !set.iter().any(|it| chosen.contains(it)));
    let Some(missed) = missed.min_by_key(|set| set.len()) else {
        return Some(true);
    };
    if size == 0 {
        return Some(false);
    }
    for cause in missed {
        chosen.push(*cause);
        if hit(sets, size - 1, chosen, work)? {
            return Some(true);
        }
        chosen.pop();
    }
    Some(false)
}
