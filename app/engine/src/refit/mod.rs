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
mod free;
mod grid;
mod loss;
mod marks;
mod model;
mod scrap;
mod ways;
mod why;
mod wish;
mod words;

pub use cause::sheet_name;
pub use cause::{Cause, Free};
pub use clash::Clash;
pub use loss::{Loss, keeping_count, keeping_lay, losses};
pub use marks::{between_marks, onto_marks};
pub use scrap::{ScrapFit, from_scrap, scrap_fit};
pub use ways::Way;
pub use wish::{Keep, Sheet, Wish};
pub use words::{change_words, given_up_words, off_marks_words, why_words};

use ask::{Asked, Lie};
use model::{Found, Model, Stuck};

use crate::plane::Size;
use crate::program::{Overflow, Work};
use crate::recipe::{Change, MeasureId, Recipe};

/// A measure that moved, and what moved it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moved {
    /// The measure before and after.
    pub change: Change,
    /// What moved it, itself or through others that follow it; nothing where
    /// it only went to its nearest mark.
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
    /// Width and height of the closed strip.
    pub finished: Size,
    /// Whether no card is nearer; otherwise the search was cut short, and this
    /// one is good but perhaps not the best.
    pub nearest: bool,
}

/// How much one refit may do before it is cut short. Our own bound: less than a
/// fifth of a second natively, which forty measures in relations of any whole
/// numbers hardly ever need.
const WORK: u64 = 6_000_000;

/// The nearest card to a recipe that is as wished.
///
/// Refused with a [`Clash`] where there is none.
pub fn refit(recipe: &Recipe, wish: &Wish) -> Result<Refit, Clash> {
    let asked = Asked::of(recipe, wish);
    match find(&asked, &mut Work::of(WORK)).map_err(|Overflow| Clash::TooTangled)? {
        Ok(refit) => Ok(refit),
        Err(ways) if ways.iter().any(|way| way.cut_short) => Err(Clash::CutShort),
        Err(ways) => {
            let ways = ways.into_iter().map(|way| (way.lie, way.model));
            Err(Clash::least(&asked, ways.collect()))
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
    Ok(match best {
        Some(mut reached) => {
            // Nearer cards may lie in a way that was not looked into to the end.
            reached.found.nearest &= none.iter().all(|way| !way.cut_short);
            Ok(asked.refitted(reached))
        }
        None => Err(none),
    })
}

/// The nearest measures with paper and envelope lying one way.
struct Reached {
    model: Model,
    found: Found,
    given_up: Vec<usize>,
    /// What is given up, then what the change costs: less is better.
    rank: (Vec<bool>, i128),
}

/// A way for paper and envelope to lie that has no card.
struct NoCard {
    lie: Lie,
    model: Model,
    /// Whether there may be one all the same.
    cut_short: bool,
}

fn reach(asked: &Asked, lie: Lie, work: &mut Work) -> Result<Result<Reached, NoCard>, Overflow> {
    // What only has to stay within a size is at least as near as what has to
    // have it.
    let within = match settled(asked, asked.model(lie), lie, work)? {
        Ok(within) => within,
        Err(none) => return Ok(Err(none)),
    };
    if !asked.falls_short(&within.model, &within.found.values) {
        return Ok(Ok(within));
    }
    let mut best: Option<Reached> = None;
    let mut sure = within.found.nearest;
    let runs = asked.runs(&within.model);
    for (number, run) in runs.iter().enumerate() {
        if best.as_ref().is_some_and(|best| best.rank <= within.rank) {
            break;
        }
        let mut model = asked.model(lie);
        model.hard.push(run.clone());
        let mut part = work.part(runs.len() - number);
        let reached = settled(asked, model, lie, &mut part);
        work.back(part);
        match reached? {
            Ok(reached) => {
                sure &= reached.found.nearest;
                if best.as_ref().is_none_or(|best| reached.rank < best.rank) {
                    best = Some(reached);
                }
            }
            Err(none) => sure &= !none.cut_short,
        }
    }
    Ok(match best {
        Some(mut best) => {
            best.found.nearest &= sure;
            Ok(best)
        }
        None => Err(NoCard {
            cut_short: !sure,
            ..NoCard::without(lie, asked.model(lie))
        }),
    })
}

/// The nearest measures that satisfy a model, and do not reach too far.
fn settled(
    asked: &Asked,
    mut model: Model,
    lie: Lie,
    work: &mut Work,
) -> Result<Result<Reached, NoCard>, Overflow> {
    let mut strict = true;
    // Each round adds a sum the last one exceeded, of which there are few.
    for _ in 0..ROUNDS {
        match model.settle(work)? {
            Ok((found, given_up)) => {
                if let Some(longer) = asked.too_long(&model, &found.values, lie) {
                    model.hard.push(longer);
                    continue;
                }
                let flags = (0..model.soft.len()).map(|soft| given_up.contains(&soft));
                let rank = (flags.collect(), model.cost(&found.values));
                return Ok(Ok(Reached {
                    model,
                    found,
                    given_up,
                    rank,
                }));
            }
            Err(Stuck::Impossible) if strict => {
                strict = false;
                match model.loose(&model.hard) {
                    Some(loose) => model.grids = loose,
                    None => return Ok(Err(NoCard::without(lie, model))),
                }
            }
            Err(Stuck::Impossible) => return Ok(Err(NoCard::without(lie, model))),
            Err(Stuck::CutShort) => break,
        }
    }
    Ok(Err(NoCard {
        cut_short: true,
        ..NoCard::without(lie, model)
    }))
}

impl NoCard {
    fn without(lie: Lie, model: Model) -> Self {
        Self {
            lie,
            model,
            cut_short: false,
        }
    }
}

/// How often a closed strip may turn out too long another way before the search
/// is cut short.
const ROUNDS: usize = 100;

impl Asked<'_> {
    /// The recipe with what was found.
    fn refitted(&self, reached: Reached) -> Refit {
        let Reached {
            model,
            found,
            given_up,
            ..
        } = reached;
        let mut recipe = self.recipe.clone();
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
        let mut causes: Vec<Cause> = Vec::new();
        for soft in given_up.iter().filter_map(|soft| model.soft.get(*soft)) {
            if soft.told && !causes.contains(&soft.cause) {
                causes.push(soft.cause);
            }
        }
        Refit {
            finished: finished(&recipe),
            recipe,
            changes,
            given_up: causes,
            off_marks,
            nearest: found.nearest,
        }
    }
}

/// Width and height of the closed strip, without what overhangs it.
pub fn finished(recipe: &Recipe) -> Size {
    let widths = recipe.base.panels.iter();
    let widths: Vec<_> = widths
        .map(|panel| (panel.width, recipe.value(panel.width).units().into()))
        .collect();
    let (_, long) = closed::longest(&widths);
    let along = Size {
        width: Model::length(long),
        height: recipe.value(recipe.base.height),
    };
    match recipe.base.runs {
        crate::recipe::Runs::Across => along,
        crate::recipe::Runs::Down => along.turned(),
    }
}
