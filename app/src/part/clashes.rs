//! What cannot be together, with the ways out.

use foldwright_engine::length::Step;
use foldwright_engine::problem::sentence;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::refit::{Clash, Free, Wish};
use leptos::prelude::*;

/// What clashes, each with a button that lets go of it; where finer marks
/// would help, one that takes them. A clash of nothing in particular is told.
#[component]
pub(crate) fn Clashes(
    /// What clashes.
    clash: Clash,
    /// The recipe that was to be refitted.
    recipe: Recipe,
    /// What it was to be refitted to.
    wish: Wish,
    /// Whether another paper can be chosen.
    papers: bool,
    /// Lets go of something.
    free: impl Fn(Free) + Clone + Send + 'static,
    /// Takes other marks.
    mark: impl Fn(Step) + Send + 'static,
) -> impl IntoView {
    let Clash::Between { causes, marks } = &clash else {
        let words = clash.words(&recipe, &wish);
        return view! { <p class="callout warning">{words}</p> }.into_any();
    };
    let rows = causes.iter().map(|cause| {
        let words = cause.words(&recipe, &wish);
        let way = cause.free();
        let way = way.filter(|way| papers || !matches!(way, Free::Stock(_)));
        let button = way.map(|way| {
            let words = sentence(way.words(&recipe, &wish));
            let free = free.clone();
            view! {
                <button type="button" class="button" on:click=move |_| free(way)>
                    {words}
                </button>
            }
        });
        view! {
            <li class="clash">
                <p>{sentence(words)}</p>
                {button}
            </li>
        }
    });
    let rows = rows.collect_view();
    let finer = marks
        .then(|| wish.notation.unwrap_or(recipe.notation).step)
        .and_then(finer);
    let finer = finer.map(|step| {
        let words = step.words(recipe.notation.decimal);
        view! {
            <button type="button" class="button" on:click=move |_| mark(step)>
                {format!("Use marks of {words}")}
            </button>
        }
    });
    view! {
        <h3>"These can't all be"</h3>
        <ul class="clashes">{rows}</ul>
        {finer}
    }
    .into_any()
}

/// The next finer step of the same unit.
fn finer(step: Step) -> Option<Step> {
    let all = Step::all_for(step.unit()).iter();
    let finer = all.filter(|other| other.length() < step.length());
    finer.max_by_key(|other| other.length()).copied()
}
