//! What folds wrap, and the room they ask for.

use foldwright_engine::allowance::Wrap;
use foldwright_engine::card::{choose_rule, make_room};
use foldwright_engine::paper::{FOLD_IN_RULES, FoldInRule};
use foldwright_engine::problem::Contents;
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pull_down::Pick;
use crate::part::told;
use crate::spoken::{speaker, speaker_without_recipe, texts};

/// The rule for what is folded inside others, each fold with what it wraps, and
/// a button that makes room.
#[component]
pub(super) fn FoldIn() -> impl IntoView {
    let desk = Desk::here();
    let say = untrack(|| speaker_without_recipe(desk.notation()));
    let options: Vec<_> = FOLD_IN_RULES
        .iter()
        .map(|rule| (rule.id.to_owned(), say.fold_in(rule.is)))
        .collect();
    let chosen = Signal::derive(move || desk.recipe.with(|recipe| recipe.folding_in.rule.clone()));
    let choose = move |id: String| {
        desk.edit(None, |recipe| choose_rule(recipe, &id));
    };
    let source = move || FoldInRule::by_id(&chosen.get()).map(|rule| say.source(rule.source));
    let wraps = Memo::new(move |_| desk.card.with(|card| card.wraps.clone()));
    let is_cramped = Memo::new(move |_| {
        wraps.with(|wraps| {
            let mut cramped = wraps.iter().flat_map(Wrap::cramped);
            cramped.any(|inside| matches!(inside.what, Contents::Panel(_)))
        })
    });
    let list = move || {
        desk.recipe.with(|recipe| {
            wraps.with(|wraps| {
                let folds = wraps.iter().map(|wrap| one_fold(recipe, wrap));
                folds.collect_view()
            })
        })
    };
    view! {
        <h2>{texts().paper.room_at_folds}</h2>
        <Show
            when=move || wraps.with(|wraps| !wraps.is_empty())
            fallback=|| view! { <p class="quiet">{texts().paper.nothing_in_folds}</p> }
        >
            <ul class="wraps">{list}</ul>
        </Show>
        <Show when=move || is_cramped.get()>
            <div class="actions">
                <button
                    type="button"
                    class="button"
                    on:click=move |_| {
                        desk.edit(None, make_room);
                    }
                >
                    {texts().paper.make_room}
                </button>
            </div>
        </Show>
        <div class="fields">
            <Pick label=texts().paper.room_a_fold_asks options=Signal::stored(options) chosen choose/>
        </div>
        <p class="quiet">{source}</p>
    }
}

/// A fold and what comes nearest to it.
fn one_fold(recipe: &Recipe, wrap: &Wrap) -> impl IntoView + use<> {
    let say = speaker(recipe).with_exact();
    let nearest = wrap.inside.first().map(|inside| {
        let class = if inside.gap < wrap.asked {
            "wrong"
        } else {
            "quiet"
        };
        view! { <span class=class>{told(say.stays(*inside))}</span> }
    });
    view! { <li><span>{told(say.wraps(wrap))}</span> {nearest}</li> }
}
