//! How the sheets for the cards are cut: planned when the bench opens, and anew
//! when the cards or their number change.
//!
//! The first plan is there at once, a better one soon after. Work that has begun
//! by one of them goes on by it: its steps bear its number, by which it is found among
//! those that the planner makes again.

use std::collections::BTreeSet;
use std::sync::Arc;

use foldwright_engine::card::Card;
use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::recipe::Recipe;
use foldwright_engine::steps::StepKey;
use leptos::prelude::*;

use crate::planning::{Asked, Goal, Looking, MOST_ROUNDS, ROUNDS, Seen, look, scraps_of};
use crate::store::Progress;
use crate::sync::Syncing;

/// The plans looked for so far, each with what it is for; `None` where there is none.
type Made = Vec<(Asked, Option<Arc<CutPlan>>)>;

/// What the cards are cut by, as far as it is known.
#[derive(Clone, Copy)]
pub(super) struct Cutting {
    /// The plan; `None` where each part is cut from sheets of its own.
    pub(super) plan: Memo<Option<Arc<CutPlan>>>,
    /// Whether nothing is begun by a plan that is still looked for.
    pub(super) is_known: Memo<bool>,
}

/// The scraps there are to cut from: those that lay there when cutting began, and
/// until then what is on the shelf.
pub(super) fn scraps(recipe: Memo<Recipe>, progress: RwSignal<Progress>) -> Memo<Vec<Scraps>> {
    let syncing = use_context::<Signal<Option<Syncing>>>();
    Memo::new(move |_| {
        let begun = progress.with(|progress| is_planned(progress).then(|| progress.scraps.clone()));
        let on_shelf = || {
            let syncing = syncing.and_then(|syncing| syncing.get());
            let counts = syncing.map(Syncing::paper).unwrap_or_default();
            recipe.with(|recipe| scraps_of(recipe, &counts))
        };
        begun.unwrap_or_else(on_shelf)
    })
}

/// Changes progress, and keeps with what scraps the plan was made once a step of it
/// is begun.
pub(super) fn keeping_scraps(
    progress: &mut Progress,
    scraps: &[Scraps],
    change: impl FnOnce(&mut Progress),
) {
    let was_planned = is_planned(progress);
    change(progress);
    if !was_planned && is_planned(progress) {
        progress.scraps = scraps.to_vec();
    }
}

/// The plan that the cards are cut by.
pub(super) fn planned(
    recipe: Memo<Recipe>,
    card: Memo<Card>,
    progress: RwSignal<Progress>,
    scraps: Memo<Vec<Scraps>>,
) -> Cutting {
    let asked = Memo::new(move |_| {
        recipe.with(|recipe| {
            card.with(|card| scraps.with(|scraps| Asked::of(recipe, card, recipe.copies, scraps)))
        })
    });
    let first = Memo::new(move |_| asked.with(Asked::first));
    let made = RwSignal::new(Made::new());
    let known = move |asked: &Asked| {
        made.with(|made| {
            let mut made = made.iter();
            made.find_map(|(of, plan)| (of == asked).then(|| plan.clone()))
        })
    };
    let begins = Memo::new(move |_| progress.with(plans_begun));
    let by_first = Memo::new(move |_| {
        let first = first.get();
        first.is_some_and(|plan| begins.with(|begun| begun.contains(&plan.number())))
    });
    // One that its maker chose lies within the rounds that are kept; one that is begun
    // may have been chosen before that, and is known by its number.
    let goal = Memo::new(move |_| {
        let kept = recipe.with(|recipe| recipe.rounds_for(recipe.copies));
        let rounds = kept.unwrap_or(ROUNDS).min(MOST_ROUNDS);
        begins.with(|numbers| Goal {
            rounds: if numbers.is_empty() {
                rounds
            } else {
                MOST_ROUNDS
            },
            numbers: numbers.clone(),
        })
    });
    let looking = StoredValue::new(None::<Looking>);
    let give_up = move || {
        let open = looking.try_update_value(Option::take);
        if let Some(open) = open.flatten() {
            open.give_up();
        }
    };
    Effect::new(move || {
        let (wanted, goal) = (asked.get(), goal.get());
        give_up();
        // Nothing is looked for that is here.
        let here = untrack(|| known(&wanted));
        let is_begun = |plan: &CutPlan| goal.numbers.contains(&plan.number());
        let is_here = here.is_some_and(|plan| {
            goal.numbers.is_empty() || plan.is_some_and(|plan| is_begun(&plan))
        });
        if is_here || by_first.get_untracked() {
            return;
        }
        let of = wanted.clone();
        let told = move |seen: Seen| {
            if seen.is_last {
                // The bench may have been left.
                made.try_update(|made| {
                    made.retain(|(other, _)| *other != of);
                    made.push((of.clone(), seen.plan.map(Arc::new)));
                });
            }
        };
        looking.set_value(Some(look(&wanted, goal, told)));
    });
    on_cleanup(give_up);
    let is_known = Memo::new(move |_| {
        let is_here = || asked.with(|asked| known(asked).is_some());
        begins.with(Vec::is_empty) || by_first.get() || is_here()
    });
    let plan = Memo::new(move |before: Option<&Option<Arc<CutPlan>>>| {
        let first = first.get();
        progress.with(|progress| {
            let is_begun = |plan: &Arc<CutPlan>| begun_by(progress, plan);
            if first.as_ref().is_some_and(is_begun) {
                return first;
            }
            let better = match asked.with(known) {
                Some(plan) => plan,
                // What it is begun by is still looked for: nothing changes until then.
                None if is_planned(progress) => return before.cloned().flatten(),
                None => None,
            };
            better.or(first).filter(|plan| may_cut_by(progress, plan))
        })
    });
    Cutting { plan, is_known }
}

/// The steps that are begun.
fn begun(progress: &Progress) -> impl Iterator<Item = (StepKey, u32)> {
    let done = progress.done.iter();
    done.filter_map(|(key, done)| Some((StepKey::of_text(key)?, *done)))
}

/// The numbers of the plans by which something is begun.
fn plans_begun(progress: &Progress) -> Vec<u32> {
    let plans = begun(progress).filter_map(|(key, _)| match key {
        StepKey::CutAt { plan, .. } => Some(plan),
        _ => None,
    });
    let plans: BTreeSet<u32> = plans.collect();
    plans.into_iter().collect()
}

fn is_planned(progress: &Progress) -> bool {
    !plans_begun(progress).is_empty()
}

fn begun_by(progress: &Progress, by: &CutPlan) -> bool {
    plans_begun(progress).contains(&by.number())
}

/// Whether cards can be cut by a plan: it is begun, or else nothing is cut yet that
/// it would cut again.
fn may_cut_by(progress: &Progress, plan: &CutPlan) -> bool {
    let is_cut = |(key, done)| matches!(key, StepKey::Cut(_)) && done > 0;
    let cut = !progress.trims.is_empty() || begun(progress).any(is_cut);
    !cut || begun_by(progress, plan)
}

#[cfg(test)]
mod tests {
    use foldwright_engine::cut_plan::{CutPlan, Scraps};
    use foldwright_engine::paper::StockId;
    use foldwright_engine::plane::Size;

    use super::{keeping_scraps, may_cut_by};
    use crate::store::Progress;

    fn done(keys: &[(&str, u32)]) -> Progress {
        let done = keys.iter().map(|(key, done)| ((*key).to_owned(), *done));
        Progress {
            done: done.collect(),
            ..Progress::default()
        }
    }

    #[test]
    fn a_plan_keeps_the_scraps_it_began_with() {
        let scraps = [3, 2].map(|count| Scraps {
            stock: StockId(1),
            size: Size::default(),
            count,
        });
        let mut progress = done(&[]);
        let begin = |key: &'static str| {
            move |progress: &mut Progress| {
                progress.done.insert(key.to_owned(), 0);
            }
        };
        keeping_scraps(&mut progress, &scraps, begin("gather"));
        assert_eq!(progress.scraps, []);
        keeping_scraps(&mut progress, &scraps, begin("cut-at-7-0"));
        assert_eq!(progress.scraps, scraps);
        // What lies on the shelf by then changes nothing any more.
        keeping_scraps(&mut progress, &[], begin("cut-at-7-1"));
        assert_eq!(progress.scraps, scraps);
        let mut before = done(&[("cut-at-7-0", 1)]);
        keeping_scraps(&mut before, &scraps, begin("cut-at-7-1"));
        assert_eq!(before.scraps, []);
    }

    #[test]
    fn what_is_cut_is_not_cut_again_by_another_plan() {
        let plan = CutPlan {
            sheets: [].into(),
            scraps: Vec::new(),
            settings: Vec::new(),
            whole: Vec::new(),
        };
        let own = format!("cut-at-{}-0", plan.number());
        for (keys, may) in [
            (&[][..], true),
            (&[("gather", 1), ("cut-strip", 0)], true),
            (&[("cut-at-7-0", 1)], true),
            // Begun before there were plans, or by a plan for other cards.
            (&[("cut-strip", 1)], false),
            (&[("cut-at-7-0", 1), ("cut-layer-1", 12)], false),
            // Begun by this one.
            (&[(&*own, 1), ("cut-strip", 12)], true),
            (&[(&*own, 0)], true),
        ] {
            assert_eq!(may_cut_by(&done(keys), &plan), may, "{keys:?}");
        }
    }
}
