//! What cannot be together, with the ways out.

use foldwright_engine::recipe::Recipe;
use foldwright_engine::refit::{Clash, Free, Way, Wish};
use leptos::prelude::*;

use super::{heard, told};
use crate::spoken::{speaker, texts};

/// What clashes, with a button for each way out, beside what it is about. Each was
/// worked out and leads to a card, of the size that is told with it. A clash of
/// nothing in particular is told.
#[component]
pub(crate) fn Clashes(
    /// What clashes.
    clash: Clash,
    /// The recipe that was to be refitted.
    recipe: Recipe,
    /// What it was to be refitted to.
    wish: Wish,
    /// Whether other papers than the base's can be chosen.
    papers: bool,
    /// Takes a way out.
    free: impl Fn(Vec<Free>) + Clone + Send + 'static,
) -> impl IntoView {
    let notation = wish.notation.unwrap_or(recipe.notation);
    let say = speaker(&recipe).written_in(notation);
    let words = say.with_exact().clash(&clash);
    let Clash::Between {
        causes, smallest, ..
    } = &clash
    else {
        return view! { <p class="callout warning">{told(words)}</p> }.into_any();
    };
    let base = recipe.base.stock;
    let mut ways = clash.ways_out(&recipe, &wish);
    let of_base = |free: &Free| !matches!(free, Free::Stock(id, _) if *id != base);
    ways.retain(|way| papers || way.frees.iter().all(of_base));
    let nowhere = ways.is_empty();
    let alone = causes.len() == 1;
    let button = |way: &Way| {
        let releases = way.frees.iter();
        let releases = releases.filter_map(|free| free.release(&recipe, &wish));
        let lines = releases.map(|it| view! { <span>{heard(say.release(&it))}</span> });
        let lines = lines.collect_view();
        let size = say.short_size(way.finished);
        let (free, frees) = (free.clone(), way.frees.clone());
        view! {
            <button type="button" class="button" on:click=move |_| free(frees.clone())>
                <span class="releases">{lines}</span>
                <span class="quiet">{heard(texts().parts.closed(&size))}</span>
            </button>
        }
    };
    let rows = causes.iter().map(|cause| {
        let condition = cause.condition(&recipe, &wish);
        let words = condition.map(|it| told(say.with_exact().condition(&it)));
        let own = ways.iter().filter(|way| way.cause == Some(*cause));
        let buttons = own.map(button).collect_view();
        view! {
            <li class="clash">
                <p>{words}</p>
                {buttons}
            </li>
        }
    });
    let rows = rows.collect_view();
    let others = ways.iter().filter(|way| way.cause.is_none());
    let others = others.map(button).collect_view();
    view! {
        <h3>{told(words)}</h3>
        <ul class="clashes">{rows}</ul>
        {(!smallest).then(|| view! {
            <p class="quiet">{texts().parts.fewer_may_clash}</p>
        })}
        {nowhere.then(|| view! {
            <p class="callout">
                {if alone {
                    texts().parts.one_not_enough
                } else {
                    texts().parts.any_not_enough
                }}
            </p>
        })}
        {others}
    }
    .into_any()
}
