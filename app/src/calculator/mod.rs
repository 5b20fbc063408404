//! The calculator: a recipe as numbers and as a live figure.

pub(crate) mod asking;
mod desk;
mod essentials;
mod field;
mod figure;
mod grip;
mod handle;
mod keypad;
mod later;
mod layer_grips;
mod line_end;
mod live;
mod number;
mod opening;
mod pick;
mod picture;
mod pull_down;
mod said;
pub(crate) mod section;
mod still;
mod tabs;
mod ties;
mod turning;
mod window;

use foldwright_engine::recipe::{MeasureId, Recipe};
use leptos::context::Provider;
use leptos::prelude::*;
use leptos_router::hooks::use_query_map;

use crate::part::{Icon, Symbol};
use crate::spoken::{first, language, texts};
use desk::{Desk, after_frame};
use essentials::Essentials;
use figure::Figure;
pub(crate) use later::Later;
use number::NumberEditor;
use section::Problems;
use tabs::Tabs;

/// Everything about one recipe, to be read and changed.
#[component]
pub fn Calculator(
    /// The recipe; every change is saved by whoever gave it.
    recipe: RwSignal<Recipe>,
    /// Its name in the store and in addresses.
    id: String,
) -> impl IntoView {
    let desk = Desk::new(recipe, &id);
    provide_context(desk);
    let asked = use_query_map();
    let measure = asked.with_untracked(|asked| asked.get("measure")?.parse().ok());
    // The figure comes first here too.
    let beside = RwSignal::new(false);
    after_frame(move || {
        let _ = beside.try_set(true);
        // Somebody comes from the bench for a number.
        if let Some(measure) = measure.map(MeasureId) {
            desk.look_at(measure);
        }
    });
    view! {
        <div class="calculator">
            <div class="calculator-head">
                <h1>{move || recipe.with(|recipe| recipe.name.clone())}</h1>
                <Toolbar id/>
            </div>
            <Figure/>
            <Provider value=desk.behind()>
                <div class="calculator-work">
                    <Show when=move || beside.get()>
                        <Wrong/>
                        <Essentials/>
                        <Tabs/>
                    </Show>
                </div>
            </Provider>
            <NumberEditor/>
        </div>
    }
}

/// All that is wrong with the card, while that is wanted.
#[component]
fn Wrong() -> impl IntoView {
    let desk = Desk::here();
    view! {
        <Show when=move || desk.problems.get()>
            <section aria-label=texts().desk.problems>
                <h2>{texts().desk.problems}</h2>
                <Problems/>
            </section>
        </Show>
    }
}

/// What can be done with the whole recipe.
#[component]
fn Toolbar(id: String) -> impl IntoView {
    let desk = Desk::here();
    // Who came from a step goes back to it.
    let step = use_query_map().with_untracked(|asked| asked.get("step"));
    let (bench, words) = match step {
        Some(step) => (
            format!("/bench/{id}?step={step}"),
            language().beside().back_to_step,
        ),
        None => (format!("/bench/{id}"), texts().desk.to_the_bench),
    };
    view! {
        <div class="toolbar" role="group" aria-label=texts().desk.this_recipe>
            <button
                type="button"
                class="button icon"
                aria-label=first().undo
                disabled=move || !desk.history.can_undo()
                on:click=move |_| desk.history.undo()
            >
                <Icon symbol=Symbol::Undo/>
            </button>
            <button
                type="button"
                class="button icon"
                aria-label=texts().desk.redo
                disabled=move || !desk.history.can_redo()
                on:click=move |_| desk.history.redo()
            >
                <Icon symbol=Symbol::Redo/>
            </button>
            <a class="button primary" href=bench>
                <Icon symbol=Symbol::Bench/>
                {words}
            </a>
        </div>
    }
}
