//! The nearest measures of which the closed card reaches as far as it has to.
//!
//! How far a card reaches is the most of many sums, one for each two corners.
//! That none of them is too much, all can satisfy together; that one of them is
//! as much as asked for, only one after the other can be tried for.

use std::collections::{BTreeMap, BTreeSet};

use super::Cause;
use super::ask::{Asked, Lie, Room};
use super::closed::{Axis, Closed};
use super::form::Form;
use super::grid::Grid;
use super::model::{Found, Held, Model, Stuck, Tried};
use crate::length::Length;
use crate::plane::Size;
use crate::program::{Goal, Overflow, Work};
use crate::recipe::MeasureId;
use crate::sorted::InOrder as _;

/// How often a closed card may turn out too large another way before the search
/// is cut short.
pub(super) const ROUNDS: usize = 100;

/// How many corners at either end are looked at for a size asked for. Our own
/// bound: few cards fold to more different places.
const MOST_ENDS: usize = 24;

/// How many pairs of corners are tried for a size asked for. Our own bound.
const MOST_TRIED: usize = 60;

/// The nearest measures with paper and envelope lying one way.
pub(super) struct Reached {
    pub(super) lie: Lie,
    pub(super) model: Model,
    pub(super) found: Found,
    pub(super) given_up: Vec<usize>,
    /// What is given up, then what the change costs: less is better.
    pub(super) rank: (Vec<bool>, i128),
    /// The size of the closed card, where something was asked of that.
    pub(super) closes: Option<Size>,
}

/// A way for paper and envelope to lie that has no card.
pub(super) struct NoCard {
    pub(super) lie: Lie,
    pub(super) model: Model,
    /// Whether there may be one all the same.
    pub(super) cut_short: bool,
}

/// What of the closed card shall be at most, or exactly, so far apart.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Bound {
    /// Which of the rooms it is for.
    room: usize,
    form: Form,
    exactly: bool,
}

/// From which corners to which others the closed card may reach, across and up.
#[derive(Default)]
pub(super) struct Spans([Vec<Form>; 2]);

impl Spans {
    /// Those along one direction.
    pub(super) fn along(&self, axis: Axis) -> &[Form] {
        let [across, up] = &self.0;
        match axis {
            Axis::Across => across,
            Axis::Up => up,
        }
    }
}

/// The corners between which the card may reach as far as it is asked to, where
/// that has to be told of one; they are all where no card has more of them than are
/// looked at.
pub(super) fn spans(
    asked: &Asked,
    lie: Lie,
    model: &Model,
    work: &mut Work,
) -> Result<Spans, Overflow> {
    if asked.wish.finished.is_none() {
        return Ok(Spans::default());
    }
    let Some(closed) = Closed::of(&asked.start, &asked.seen) else {
        return Ok(Spans::default());
    };
    // What can be let go of rules out no corner: a clash is one without it too.
    let mut model = model.clone();
    model.hard.retain(|held| held.cause.free().is_none());
    let reach = Reach {
        asked,
        lie,
        model,
        rooms: asked.rooms(lie),
    };
    let [across, up] = Axis::BOTH.map(|axis| reach.spans(&closed, axis, work));
    Ok(Spans([across?.0, up?.0]))
}

/// The nearest card with paper and envelope lying one way.
pub(super) fn reach(
    asked: &Asked,
    lie: Lie,
    work: &mut Work,
) -> Result<Result<Reached, NoCard>, Overflow> {
    let reach = Reach {
        asked,
        lie,
        model: asked.model(lie),
        rooms: asked.rooms(lie),
    };
    if reach.rooms.is_empty() {
        let settled = reach.settled(&[], work)?;
        return Ok(settled.map(|(reached, _)| reached));
    }
    match Closed::of(&asked.start, &asked.seen) {
        Some(closed) => reach.nearest(&closed, work),
        None => Ok(Err(reach.without(reach.model.clone(), true))),
    }
}

/// Measures, with the rooms that the card of them should fill and does not.
type Settled = Result<(Reached, Vec<usize>), NoCard>;

/// What came of folding the card that was found.
enum Checked {
    /// It has this size, keeps the bounds, and leaves these rooms unfilled of which
    /// none speaks.
    Short(Option<Size>, Vec<usize>),
    /// It reaches too far, or not as far as a bound said; the bounds now say so.
    Again,
    /// The bounds say all that can be said, and yet it does not keep them.
    Astray,
}

/// By which corners the card fills the rooms that it has to fill, tried one room
/// after the other.
struct Search<'a> {
    reach: &'a Reach<'a>,
    closed: &'a Closed,
    /// From which corners to which others the card may reach, along each axis,
    /// once it is asked for.
    ways: [Option<Vec<Form>>; 2],
    best: Option<Reached>,
    /// Whether nothing nearer was left untried.
    proven: bool,
    /// How many more pairs of corners may be tried.
    left: usize,
}

impl Search<'_> {
    /// Whether what was found is at least as near as anything that costs so much.
    fn is_beaten(&self, rank: &(Vec<bool>, i128)) -> bool {
        self.best.as_ref().is_some_and(|best| best.rank <= *rank)
    }

    /// Tries what has these bounds, with others for the rooms it leaves unfilled.
    fn fill(&mut self, bounds: &[Bound], work: &mut Work) -> Result<(), Overflow> {
        // What only has to stay within is at least as near as what has to fill.
        let (reached, short) = match self.reach.settled(bounds, work)? {
            Ok(found) => found,
            Err(none) => {
                self.proven &= !none.cut_short;
                return Ok(());
            }
        };
        self.proven &= reached.found.nearest;
        if self.is_beaten(&reached.rank) {
            return Ok(());
        }
        let Some(room) = short.first() else {
            self.best = Some(reached);
            return Ok(());
        };
        let ways = self.ways(self.reach.rooms[*room].axis, work)?.into_iter();
        let ways = ways.map(|form| Bound {
            room: *room,
            form,
            exactly: true,
        });
        let mut ways: Vec<_> = ways.map(|way| (self.reach.least_cost(&way), way)).collect();
        ways.put_in_order_by_key(|(cost, _)| *cost);
        for (cost, way) in ways {
            if self.is_beaten(&(reached.rank.0.clone(), reached.rank.1.max(cost))) {
                break;
            }
            let Some(left) = self.left.checked_sub(1) else {
                self.proven = false;
                break;
            };
            self.left = left;
            let with: Vec<_> = bounds.iter().cloned().chain([way]).collect();
            self.fill(&with, work)?;
        }
        Ok(())
    }

    /// From which corners to which others the card may reach along an axis.
    fn ways(&mut self, axis: Axis, work: &mut Work) -> Result<Vec<Form>, Overflow> {
        let index = usize::from(axis == Axis::Up);
        if let Some(Some(known)) = self.ways.get(index) {
            return Ok(known.clone());
        }
        let (ways, all) = self.reach.spans(self.closed, axis, work)?;
        self.proven &= all;
        if let Some(known) = self.ways.get_mut(index) {
            *known = Some(ways.clone());
        }
        Ok(ways)
    }
}

struct Reach<'a> {
    asked: &'a Asked<'a>,
    lie: Lie,
    /// All that holds but how far the closed card reaches.
    model: Model,
    rooms: Vec<Room>,
}

impl Reach<'_> {
    const fn without(&self, model: Model, cut_short: bool) -> NoCard {
        NoCard {
            lie: self.lie,
            model,
            cut_short,
        }
    }

    fn nearest(
        &self,
        closed: &Closed,
        work: &mut Work,
    ) -> Result<Result<Reached, NoCard>, Overflow> {
        let rooms = self.rooms.iter().enumerate();
        let within = rooms.map(|(room, it)| Bound {
            room,
            form: closed.widest(it.axis),
            exactly: false,
        });
        let within: Vec<_> = within.collect();
        let mut search = Search {
            reach: self,
            closed,
            ways: [None, None],
            best: None,
            proven: true,
            left: MOST_TRIED,
        };
        search.fill(&within, work)?;
        Ok(if let Some(mut best) = search.best {
            best.found.nearest = search.proven;
            Ok(best)
        } else {
            let mut model = self.model.clone();
            let bounds = within.iter().map(|bound| self.held(bound));
            model.hard.extend(bounds);
            Err(self.without(model, !search.proven))
        })
    }

    /// The nearest measures with these bounds, and with those that turn out to
    /// be missing; and the rooms that the card should fill and does not, of which
    /// no bound speaks.
    fn settled(&self, bounds: &[Bound], work: &mut Work) -> Result<Settled, Overflow> {
        let mut model = self.model.clone();
        let own = model.hard.len();
        let mut bounds = bounds.to_vec();
        let mut strict = true;
        for _ in 0..ROUNDS {
            model.hard.truncate(own);
            let bounded = bounds.iter().map(|bound| self.held(bound));
            model.hard.extend(bounded);
            match model.settle(work)? {
                Ok((found, given_up)) => {
                    let (closes, short) = match self.check(&found, &mut bounds, work) {
                        Checked::Short(size, short) => (size, short),
                        Checked::Again => continue,
                        Checked::Astray => break,
                    };
                    let flags = (0..model.soft.len()).map(|soft| given_up.contains(&soft));
                    let rank = (flags.collect(), model.cost(&found.values));
                    let reached = Reached {
                        lie: self.lie,
                        model,
                        found,
                        given_up,
                        rank,
                        closes,
                    };
                    return Ok(Ok((reached, short)));
                }
                Err(Stuck::Impossible) if strict => {
                    strict = false;
                    match model.loose(&model.hard) {
                        Some(loose) => model.grids = loose,
                        None => return Ok(Err(self.without(model, false))),
                    }
                }
                Err(Stuck::Impossible) => return Ok(Err(self.without(model, false))),
                Err(Stuck::CutShort) => break,
            }
        }
        Ok(Err(self.without(model, true)))
    }

    /// Folds the card that was found.
    fn check(&self, found: &Found, bounds: &mut Vec<Bound>, work: &mut Work) -> Checked {
        if self.rooms.is_empty() {
            return Checked::Short(None, Vec::new());
        }
        let Some(closed) = self.asked.closed(&found.values, work) else {
            return Checked::Astray;
        };
        let (mut short, mut again) = (Vec::new(), false);
        for (room, it) in self.rooms.iter().enumerate() {
            let extent = closed.extent(it.axis);
            let form = closed.widest(it.axis);
            let asked = bounds
                .iter()
                .position(|bound| bound.room == room && bound.exactly);
            let is_under = self
                .asked
                .least(it, &form)
                .is_some_and(|least| extent < least);
            let bound = |exactly| Bound {
                room,
                form: form.clone(),
                exactly,
            };
            if extent > it.most {
                // What is only nearly so has been said of another card.
                bounds.retain(|bound| bound.room != room || bound.exactly || bound.form.is_exact());
                if bounds.contains(&bound(false)) {
                    return Checked::Astray;
                }
                bounds.push(bound(false));
                again = true;
            } else if let Some(asked) = asked.filter(|_| is_under) {
                if bounds.contains(&bound(true)) {
                    return Checked::Astray;
                }
                bounds[asked] = bound(true);
                again = true;
            } else if is_under {
                short.push(room);
            }
        }
        if again {
            Checked::Again
        } else {
            Checked::Short(Some(closed.size()), short)
        }
    }

    /// From which corners to which others the card may reach along an axis, and
    /// whether these are all.
    fn spans(
        &self,
        closed: &Closed,
        axis: Axis,
        work: &mut Work,
    ) -> Result<(Vec<Form>, bool), Overflow> {
        let corners = closed.in_order(axis, &self.instead());
        let behind = corners.len().saturating_sub(MOST_ENDS);
        let (mut lows, mut highs) = (Vec::new(), Vec::new());
        for (number, corner) in corners.iter().enumerate() {
            let is_last = number + 1 == corners.len();
            let first =
                number == 0 || (number < MOST_ENDS && self.ends(corner, &corners, false, work)?);
            let last = is_last || (number >= behind && self.ends(corner, &corners, true, work)?);
            lows.extend(first.then_some(*corner));
            highs.extend(last.then_some(*corner));
        }
        let pairs = lows.iter().flat_map(|low| {
            let highs = highs.iter().filter(move |high| *high != low);
            highs.map(move |high| high.minus(low))
        });
        let pairs: BTreeSet<Form> = pairs.collect();
        Ok((pairs.into_iter().collect(), behind == 0))
    }

    /// Whether a corner may be the farthest of all, to the one side or to the
    /// other, in any card of this recipe.
    fn ends(
        &self,
        corner: &Form,
        all: &[&Form],
        highest: bool,
        work: &mut Work,
    ) -> Result<bool, Overflow> {
        let mut held = self.model.hard.clone();
        for other in all.iter().filter(|other| **other != corner) {
            let beyond = if highest {
                corner.minus(other)
            } else {
                other.minus(corner)
            };
            let zero = Some(Length::ZERO);
            held.push(beyond.between(&self.model, Cause::Finished, zero, None));
        }
        let finest = vec![Grid::marks(Length::from_units(1)); self.model.grids.len()];
        let tried = self.model.solve(&finest, &held, Goal::Any, None, work)?;
        Ok(!matches!(tried, Tried::Impossible(_)))
    }

    fn held(&self, bound: &Bound) -> Held {
        let room = &self.rooms[bound.room];
        let least = self
            .asked
            .least(room, &bound.form)
            .filter(|_| bound.exactly);
        let form = &bound.form;
        form.between(&self.model, room.cause, least, Some(room.most))
    }

    /// The least that any change costs which a bound asks for.
    fn least_cost(&self, bound: &Bound) -> i128 {
        let targets = self.model.targets();
        let weights: Vec<_> = self.model.weights().collect();
        let held = self.held(bound);
        let terms = held.terms.iter();
        let sum: i128 = terms
            .filter_map(|(at, times)| Some(i128::from(*times) * targets.get(*at)?))
            .sum();
        let missing = held.least.map_or(0, |least| (least - sum).max(0));
        // Every unit of it is made up by some measure, the cheapest at best.
        let rates = held.terms.iter().filter_map(|(at, times)| {
            let (weight, grid) = (weights.get(*at)?, self.model.grids.get(*at)?);
            let units = i128::from(grid.step) * i128::from(times.abs());
            Some(missing * i128::from(*weight) / units)
        });
        rates.min().unwrap_or(0)
    }

    /// For each measure that must be as long as a firmer one, the firmest.
    fn instead(&self) -> BTreeMap<MeasureId, MeasureId> {
        let measures = &self.asked.recipe.measures;
        let mut firmest: Vec<usize> = (0..measures.len()).collect();
        let root = |firmest: &[usize], mut at: usize| {
            while let Some(next) = firmest.get(at).filter(|next| **next != at) {
                at = *next;
            }
            at
        };
        for held in &self.model.hard {
            let is_zero = held.least == Some(0) && held.most == Some(0);
            let mut terms = held.terms.iter();
            if let (true, Some((a, 1 | -1)), Some((b, 1 | -1)), None) =
                (is_zero, terms.next(), terms.next(), terms.next())
                && held.terms.values().sum::<i64>() == 0
            {
                let (a, b) = (root(&firmest, *a), root(&firmest, *b));
                if let Some(later) = firmest.get_mut(a.max(b)) {
                    *later = a.min(b);
                }
            }
        }
        let same = (0..measures.len()).filter_map(|at| {
            let firm = measures.get(root(&firmest, at))?;
            Some((measures.get(at)?.id, firm.id))
        });
        same.collect()
    }
}
