//! Giving folds the room they ask for, through the recipe's measures.

use super::Shut;
use crate::allowance::Wrap;
use crate::length::{Length, ceil};
use crate::paper::{Body, FoldInRule, LEAST_ROOM};
use crate::problem::Contents;
use crate::recipe::{Change, EditError, PanelId, Recipe};

/// What the folds of a recipe wrap now.
fn now(recipe: &Recipe) -> Vec<Wrap> {
    Shut::of(recipe).wraps(recipe)
}

/// The panel that misses most, with what it misses.
fn worst(wraps: &[Wrap], but: &[PanelId]) -> Option<(PanelId, Length)> {
    let cramped = wraps.iter().flat_map(|wrap| {
        let cramped = wrap.cramped();
        cramped.map(|inside| (inside.what, wrap.asked - inside.gap))
    });
    let panels = cramped.filter_map(|(what, missing)| match what {
        Contents::Panel(id) if !but.contains(&id) => Some((id, missing)),
        Contents::Panel(_) | Contents::Layer(_) => None,
    });
    panels.max_by_key(|(_, missing)| *missing)
}

/// Sets the recipe's allowance to what its rule asks: by a rule that goes by
/// thickness what the fold asks that asks for most of its panels.
fn allow(recipe: &mut Recipe) -> Result<(), EditError> {
    let Some(rule) = FoldInRule::by_id(&recipe.folding_in.rule) else {
        return Ok(());
    };
    let asked = if rule.is_by_thickness() {
        let wraps = now(recipe);
        let of_panels = wraps.iter().filter(|wrap| wrap.holds_panels());
        let most = of_panels.map(|wrap| wrap.asked).max();
        ceil(most.unwrap_or(LEAST_ROOM), recipe.notation.step).at
    } else {
        let stock = recipe.stock(recipe.base.stock);
        let body = stock.map_or(Body::Cover, |stock| Body::of(stock.weight));
        rule.allowance(body, Length::ZERO)
    };
    let allowance = recipe.folding_in.allowance;
    if recipe.value(allowance) != asked {
        recipe.set(allowance, asked)?;
    }
    Ok(())
}

/// The measures that are others in a recipe now.
pub(super) fn changes(before: &Recipe, after: &Recipe) -> Vec<Change> {
    let measures = before.measures.iter();
    measures
        .filter_map(|measure| {
            let (from, to) = (measure.value, after.value(measure.id));
            let measure = measure.id;
            (from != to).then_some(Change { measure, from, to })
        })
        .collect()
}

/// Takes another rule for the room that folds ask for, and its allowance, which
/// the panels follow that are told to.
pub fn choose_rule(recipe: &mut Recipe, rule: &str) -> Result<Vec<Change>, EditError> {
    let mut chosen = recipe.clone();
    rule.clone_into(&mut chosen.folding_in.rule);
    allow(&mut chosen)?;
    let moved = changes(recipe, &chosen);
    *recipe = chosen;
    Ok(moved)
}

/// Gives every fold the room it asks for. By a rule that goes by thickness the
/// recipe's allowance follows first, and the panels with it that are told to;
/// any other panel that is too near a fold is cut shorter by what it misses,
/// and the strip with it or, where that is held, the score beside it moves.
/// Made whole or not at all.
///
/// Refused where nothing can be made shorter.
pub fn make_room(recipe: &mut Recipe) -> Result<Vec<Change>, EditError> {
    let mut roomy = recipe.clone();
    let step = roomy.notation.step;
    if FoldInRule::by_id(&roomy.folding_in.rule).is_some_and(FoldInRule::is_by_thickness) {
        allow(&mut roomy)?;
    }
    // Each round one panel gives way or is left as it is.
    let mut left: Vec<PanelId> = Vec::new();
    let rounds = roomy.strips().map(|(_, strip)| strip.panels.len() + 1);
    for _ in 0..rounds.sum::<usize>() {
        let Some((panel, missing)) = worst(&now(&roomy), &left) else {
            break;
        };
        let shorter = shortened(&roomy, panel, ceil(missing, step).at);
        let better = shorter.filter(|shorter| {
            let still = now(shorter);
            !still.is_empty() && worst(&still, &left).is_none_or(|(_, after)| after < missing)
        });
        match better {
            Some(better) => roomy = better,
            None => left.push(panel),
        }
    }
    let moved = changes(recipe, &roomy);
    if moved.is_empty() {
        return Err(EditError::NoRoom);
    }
    *recipe = roomy;
    Ok(moved)
}

/// The recipe with a panel shorter by so much: the strip shortens with it, or
/// else what is beside it takes it up.
fn shortened(recipe: &Recipe, panel: PanelId, by: Length) -> Option<Recipe> {
    let (_, strip, index) = recipe.strip_with(panel)?;
    let width = strip.panels.get(index)?.width;
    if recipe.measure(width)?.pinned {
        return None;
    }
    let asked = [(width, recipe.value(width) - by)];
    let beside = [index.checked_sub(1), Some(index + 1)];
    let beside = beside.into_iter().flatten();
    let beside = beside.filter_map(|index| Some(strip.panels.get(index)?.width));
    [vec![strip.length], beside.collect()]
        .into_iter()
        .find_map(|yielding| {
            let mut shorter = recipe.clone();
            shorter.settle(&asked, &[], &yielding).ok()?;
            Some(shorter)
        })
}
