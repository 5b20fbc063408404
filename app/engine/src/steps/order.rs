//! The steps in the order their maker takes them, with those of the maker's own
//! between them.
//!
//! What is kept is a list of lasting names. Steps it names keep the order it names them
//! in, those that have come since stand behind the one they usually follow, and where
//! that is not sound, what has to come before moves ahead.

use super::before::{Because, Before};
use super::{Kind, Seen, Step, StepKey, Title};
use crate::card::Card;
use crate::cut_plan::CutPlan;
use crate::recipe::{LayerId, Recipe};

/// Which way a step is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Before the one it follows.
    Earlier,
    /// Behind the one that follows it.
    Later,
}

/// Why a step stays where it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stays {
    /// The step that comes first.
    pub first: StepKey,
    /// The one that follows.
    pub then: StepKey,
    /// Why.
    pub because: Because,
}

/// Steps as they are usually taken, put into the order of the recipe, with its maker's
/// own.
pub(super) fn in_order(
    recipe: &Recipe,
    card: &Card,
    plan: Option<&CutPlan>,
    mut steps: Vec<Step>,
) -> Vec<Step> {
    steps.extend(own(recipe));
    let before = Before::of(recipe, card, plan, &steps);
    let wanted = wanted(recipe, &steps);
    let mut sound = Vec::with_capacity(steps.len());
    let mut seen = vec![false; steps.len()];
    for step in &wanted {
        place(*step, &before, &wanted, &mut seen, &mut sound);
    }
    let mut steps: Vec<Option<Step>> = steps.into_iter().map(Some).collect();
    let steps = sound.into_iter().filter_map(|at| steps.get_mut(at)?.take());
    let mut steps: Vec<Step> = steps.collect();
    as_made(&mut steps);
    steps
}

/// The maker's own steps, which usually come last.
fn own(recipe: &Recipe) -> impl Iterator<Item = Step> + '_ {
    recipe.own_steps.iter().map(|own| {
        let (key, title) = (StepKey::Own(own.id), Title::Own(own.id));
        let mut step = Step::new(key, Kind::Own, title, recipe);
        if !own.each {
            step.times = 1;
        }
        step
    })
}

/// The order that is wanted, sound or not, by the indices of the steps.
fn wanted(recipe: &Recipe, steps: &[Step]) -> Vec<usize> {
    let index = |name: &String| {
        let key = StepKey::of_text(name)?;
        steps.iter().position(|step| step.key == key)
    };
    let mut wanted = Vec::with_capacity(steps.len());
    for at in recipe.order.iter().filter_map(index) {
        if !wanted.contains(&at) {
            wanted.push(at);
        }
    }
    for at in 0..steps.len() {
        if !wanted.contains(&at) {
            // Its maker's own come last, whatever was moved there.
            let is_own = steps.get(at).is_some_and(|step| step.kind == Kind::Own);
            let follows = at.checked_sub(1).filter(|_| !is_own);
            let after = follows.and_then(|before| wanted.iter().position(|it| *it == before));
            let place = match (is_own, after) {
                (true, _) => wanted.len(),
                (false, after) => after.map_or(0, |after| after + 1),
            };
            wanted.insert(place, at);
        }
    }
    wanted
}

/// Puts a step behind all that has to come before it.
fn place(
    step: usize,
    before: &Before,
    wanted: &[usize],
    seen: &mut [bool],
    sound: &mut Vec<usize>,
) {
    // What is on its way already would need itself: there is no order for that.
    if std::mem::replace(&mut seen[step], true) {
        return;
    }
    for first in wanted {
        if !seen[*first] && before.why_at(*first, step).is_some() {
            place(*first, before, wanted, seen, sound);
        }
    }
    sound.push(step);
}

/// Has the pictures show what is put on by then, and nothing that comes later.
fn as_made(steps: &mut [Step]) {
    let mut layers: Vec<LayerId> = Vec::new();
    for step in steps {
        if let StepKey::PutOn(id) = step.key {
            layers.push(id);
        }
        for picture in &mut step.pictures {
            if let Seen::PutOn(_, _, on) | Seen::GluedIn(_, on) = &mut picture.view {
                *on = layers.as_slice().into();
            }
        }
    }
}

/// The names of steps, as a recipe keeps their order.
pub fn named(keys: &[StepKey]) -> Vec<String> {
    keys.iter().map(StepKey::to_string).collect()
}

/// The order with one step moved past its neighbour, or why it stays. A step at the end
/// of the order stays without a reason, and so does one that is not there.
pub fn moved(
    before: &Before,
    keys: &[StepKey],
    step: StepKey,
    way: Way,
) -> Result<Vec<StepKey>, Option<Stays>> {
    let at = keys.iter().position(|key| *key == step).ok_or(None)?;
    let other = match way {
        Way::Earlier => at.checked_sub(1),
        Way::Later => Some(at + 1).filter(|next| *next < keys.len()),
    };
    let other = other.ok_or(None)?;
    let (first, then) = (keys[at.min(other)], keys[at.max(other)]);
    if let Some(because) = before.why(first, then) {
        return Err(Some(Stays {
            first,
            then,
            because,
        }));
    }
    let mut keys = keys.to_vec();
    keys.swap(at, other);
    Ok(keys)
}

/// The usual order, in which the maker's own steps stay behind what they follow now;
/// empty where there are none, as a recipe keeps it.
pub fn back_to_usual(now: &[StepKey], usual: &[StepKey]) -> Vec<String> {
    let is_own = |key: &StepKey| matches!(key, StepKey::Own(_));
    if !now.iter().any(is_own) {
        return Vec::new();
    }
    let mut order: Vec<StepKey> = usual.iter().filter(|key| !is_own(key)).copied().collect();
    for (at, key) in now.iter().enumerate().filter(|(_, key)| is_own(key)) {
        let follows = at.checked_sub(1).map(|before| now[before]);
        let follows = order.iter().position(|it| Some(*it) == follows);
        order.insert(follows.map_or(order.len(), |follows| follows + 1), *key);
    }
    named(&order)
}
