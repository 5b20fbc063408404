//! Another paper, another envelope, another size, other units: the nearest card
//! that holds together, on marks that can be set.
//!
//! A recipe and a [`Wish`] become a program in whole numbers of marks
//! (`model`). What must hold, holds exactly; what should hold is given up
//! from the least important on; then the least is changed, counted in marks
//! from the mark nearest to what each measure was. Where nothing fits, the
//! [`Clash`] names the least set of causes that rule each other out.
//!
//! [`crate::recipe::Recipe::settle`] is for a single change at the drawing
//! board, which moves nothing but what depends on it and knows no marks.

mod ask;
mod cause;
mod clash;
mod closed;
mod condition;
mod flat;
mod form;
mod free;
mod grid;
mod loss;
mod marks;
mod model;
mod outcome;
mod reach;
mod release;
mod scrap;
mod units;
mod ways;
mod why;
mod wish;

pub use cause::{Cause, Free, standard_sheet};
pub use clash::Clash;
pub use condition::{Condition, Reason};
pub use loss::{Loss, Turned, keeping_count, keeping_lay, losses, turning};
pub use marks::{between_marks, onto_marks};
pub use outcome::{Limits, Outcome, follows, from_design, limited, off_marks, rounded};
pub use release::Release;
pub use scrap::{ScrapFit, from_scrap, scrap_fit};
pub use units::in_unit_of;
pub use ways::Way;
pub use wish::{Keep, Sheet, Wish};

use ask::{Asked, FOLD};
use model::Model;
use reach::{NoCard, Reached, reach};

use crate::card::closed_size;
use crate::plane::Size;
use crate::program::{Overflow, Work};
use crate::recipe::{Change, MeasureId, Recipe};

/// A measure that moved, and what moved it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moved {
    /// The measure before and after.
    pub change: Change,
    /// What moved it, itself or through others that follow it; nothing where
    /// it only went to its nearest mark, or back to what it was designed like.
    pub why: Option<Cause>,
}

/// A card refitted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refit {
    /// The recipe of it.
    pub recipe: Recipe,
    /// What moved, in the recipe's order.
    pub changes: Vec<Moved>,
    /// What should have held and was given up, the most important first.
    pub given_up: Vec<Cause>,
    /// The measures that had to be set between marks.
    pub off_marks: Vec<MeasureId>,
    /// Width and height of the closed card with all that overhangs.
    pub finished: Size,
    /// Whether no card is nearer; otherwise the search was cut short, and this
    /// one is good but perhaps not the best.
    pub nearest: bool,
}

/// How much one refit may do before it is cut short, half of it before a clash is
/// looked for. Our own bound: about a fifth of a second natively, which forty
/// measures in relations of any whole numbers hardly ever need.
const WORK: u64 = 16_000_000;

/// The nearest card to a recipe that is as wished: the nearest to what it was
/// designed like, if it was fitted to something before.
///
/// Refused with a [`Clash`] where there is none.
pub fn refit(recipe: &Recipe, wish: &Wish) -> Result<Refit, Clash> {
    refit_within(recipe, wish, &mut Work::of(WORK))
}

/// The same within as much work, half of which is for a clash where there is one.
fn refit_within(recipe: &Recipe, wish: &Wish, work: &mut Work) -> Result<Refit, Clash> {
    let asked = Asked::of(recipe, wish);
    let mut half = work.part(2);
    let found = find(&asked, &mut half);
    work.back(half);
    match found.map_err(|Overflow| Clash::TooTangled)? {
        Ok(refit) => Ok(refit),
        Err(_) if asked.never_closes() => Err(Clash::NeverCloses),
        Err(ways) if ways.iter().any(|way| way.cut_short) => Err(Clash::CutShort),
        Err(ways) => {
            let ways = ways.into_iter().map(|way| (way.lie, way.model));
            Err(Clash::least(&asked, ways.collect(), work))
        }
    }
}

/// The nearest card, where there is one; why there is none is not looked into.
pub(crate) fn card(recipe: &Recipe, wish: &Wish) -> Option<Refit> {
    find(&Asked::of(recipe, wish), &mut Work::of(WORK))
        .ok()?
        .ok()
}

/// The nearest card, or the ways paper and envelope may lie, none of which has
/// one.
fn find(asked: &Asked, work: &mut Work) -> Result<Result<Refit, Vec<NoCard>>, Overflow> {
    let mut best: Option<Reached> = None;
    let mut none = Vec::new();
    let lies = asked.lies();
    for (number, lie) in lies.iter().enumerate() {
        let mut part = work.part(lies.len() - number);
        let reached = reach(asked, *lie, &mut part);
        work.back(part);
        match reached? {
            Ok(reached) => {
                if best.as_ref().is_none_or(|best| reached.rank < best.rank) {
                    best = Some(reached);
                }
            }
            Err(way) => none.push(way),
        }
    }
    let Some(mut reached) = best else {
        return Ok(Err(none));
    };
    // Nearer cards may lie in a way that was not looked into to the end.
    reached.found.nearest &= none.iter().all(|way| !way.cut_short);
    let (lie, model, closes) = (reached.lie, reached.model.clone(), reached.closes);
    work.take(FOLD);
    let refit = asked.refitted(reached);
    // How panels lie on each other is looked at only now, and so is how faces are
    // read that layers lie on.
    if closes.is_some_and(|size| size != refit.finished) {
        let cut_short = true;
        return Ok(Err(vec![NoCard {
            lie,
            model,
            cut_short,
        }]));
    }
    Ok(Ok(refit))
}

impl Asked<'_> {
    /// The recipe with what was found.
    fn refitted(&self, reached: Reached) -> Refit {
        let Reached {
            model,
            found,
            given_up,
            ..
        } = reached;
        let mut recipe = Recipe::clone(&self.recipe);
        recipe.notation = self.notation;
        if let Some(sheet) = &self.wish.sheet
            && let Some(stock) = recipe.stocks.iter_mut().find(|it| it.id == sheet.stock)
        {
            stock.width = sheet.size.width;
            stock.height = sheet.size.height;
        }
        if let Some((envelope, rule)) = self.wish.envelope {
            recipe.posting.envelope = Some(envelope.id.to_owned());
            rule.id.clone_into(&mut recipe.posting.rule);
        }
        let whys = why::whys(&model, &found.values, &given_up);
        let mut changes = Vec::new();
        let mut off_marks = Vec::new();
        let step = self.notation.step.length().units();
        let measures = recipe.measures.iter_mut();
        for ((measure, value), why) in measures.zip(&found.values).zip(whys) {
            let to = Model::length(*value);
            if to != measure.value {
                let change = Change {
                    measure: measure.id,
                    from: measure.value,
                    to,
                };
                changes.push(Moved { change, why });
            }
            if to.units() % step != 0 {
                off_marks.push(measure.id);
            }
            measure.value = to;
        }
        if !self.wish.between {
            recipe.fitted_from(&self.start);
        }
        let mut causes: Vec<Cause> = Vec::new();
        for soft in given_up.iter().filter_map(|soft| model.soft.get(*soft)) {
            if soft.told && !causes.contains(&soft.cause) {
                causes.push(soft.cause);
            }
        }
        Refit {
            finished: closed_size(&recipe),
            recipe,
            changes,
            given_up: causes,
            off_marks,
            nearest: found.nearest,
        }
    }
}
