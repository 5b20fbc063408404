//! What cannot be together, with the ways out.

use foldwright_engine::problem::sentence;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::refit::{Clash, Free, Way, Wish};
use leptos::prelude::*;

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
    let Clash::Between {
        causes, smallest, ..
    } = &clash
    else {
        let words = clash.words(&recipe, &wish);
        return view! { <p class="callout warning">{words}</p> }.into_any();
    };
    let base = recipe.base.stock;
    let mut ways = clash.ways_out(&recipe, &wish);
    let of_base = |free: &Free| !matches!(free, Free::Stock(id, _) if *id != base);
    ways.retain(|way| papers || way.frees.iter().all(of_base));
    let nowhere = ways.is_empty();
    let alone = causes.len() == 1;
    let notation = wish.notation.unwrap_or(recipe.notation);
    let button = |way: &Way| {
        let words = sentence(way.words(&recipe, &wish));
        let size = notation.size(way.finished.width, way.finished.height);
        let (free, frees) = (free.clone(), way.frees.clone());
        view! {
            <button type="button" class="button" on:click=move |_| free(frees.clone())>
                {words}
                <span class="quiet">{format!("Closed {size}")}</span>
            </button>
        }
    };
    let rows = causes.iter().map(|cause| {
        let words = cause.words(&recipe, &wish);
        let own = ways.iter().filter(|way| way.cause == Some(*cause));
        let buttons = own.map(button).collect_view();
        view! {
            <li class="clash">
                <p>{sentence(words)}</p>
                {buttons}
            </li>
        }
    });
    let rows = rows.collect_view();
    let others = ways.iter().filter(|way| way.cause.is_none());
    let others = others.map(button).collect_view();
    view! {
        <h3>{if alone { "This can't be" } else { "These don't go together" }}</h3>
        <ul class="clashes">{rows}</ul>
        {(!smallest).then(|| view! {
            <p class="quiet">"Fewer of these may clash already; the search was cut short."</p>
        })}
        {nowhere.then(|| view! {
            <p class="callout">
                {if alone {
                    "Letting go of it is not enough. Ask for another size or sheet, or unpin \
                     several measurements."
                } else {
                    "Letting go of one of these is not enough. Ask for another size or sheet, or \
                     unpin several measurements."
                }}
            </p>
        })}
        {others}
    }
    .into_any()
}
