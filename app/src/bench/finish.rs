//! After the last step.

use foldwright_engine::draw::{state, svg};
use foldwright_engine::show::View;
use foldwright_engine::steps::Kind;
use foldwright_engine::words::{card_in_words, closed_facts};
use leptos::html;
use leptos::prelude::*;

use super::place::State;
use super::rescue::CameOutDifferent;
use super::table::Table;
use crate::notice::{Notice, Notices};

/// What was made, its envelope, and where to go from here.
#[component]
pub(super) fn Finish() -> impl IntoView {
    let table = Table::here();
    let notices = expect_context::<Notices>();
    let heading = NodeRef::<html::H1>::new();
    heading.on_load(|heading| {
        request_animation_frame(move || {
            // Fails only for an element that is no longer in the page.
            let _ = heading.focus();
        });
    });
    let title = move || {
        table.recipe.with(|recipe| match recipe.copies {
            1 => "Your card is made".to_owned(),
            copies => format!("{copies} cards are made"),
        })
    };
    let about = move |words: fn(&_, &_) -> String| {
        table
            .recipe
            .with(|recipe| table.card.with(|card| words(recipe, card)))
    };
    let envelope = move || {
        table.steps.with(|steps| {
            let envelope = steps.iter().find(|step| step.kind == Kind::Envelope);
            envelope.and_then(|step| step.does.first().cloned())
        })
    };
    let anew = move |_| {
        let undo = table.begin_anew();
        notices.show(Notice::plain("Back at the first step. Your notes stay.").with("Undo", undo));
    };
    view! {
        <article class="task finish">
            <header class="task-head">
                <p class="task-kind">"Finished"</p>
                <h1 node_ref=heading tabindex="-1">{title}</h1>
            </header>
            <div class="task-see">
                <ClosedCard/>
            </div>
            <div class="task-do">
                <p class="finish-name">{move || table.recipe.with(|recipe| recipe.name.clone())}</p>
                <div class="task-words">
                    <p>{move || about(closed_facts)}</p>
                    <p>{envelope}</p>
                </div>
                <LeftOver/>
                <CameOutDifferent/>
                <button type="button" class="button bench-way" on:click=anew>"Start again"</button>
            </div>
        </article>
    }
}

/// The closed card from the front.
#[component]
fn ClosedCard() -> impl IntoView {
    let table = Table::here();
    move || {
        table.recipe.with(|recipe| {
            table.card.with(|card| {
                card.folded.as_ref()?;
                let drawn = svg(&state(recipe, card, 0, View::Front), "bench-closed");
                Some(view! {
                    <figure class="album">
                        <div class="album-picture">
                            <svg role="img" aria-label=card_in_words(recipe, card) viewBox=drawn.view_box.clone()>
                                <g inner_html=drawn.inside()></g>
                            </svg>
                        </div>
                        <figcaption>"Closed, from the front"</figcaption>
                    </figure>
                })
            })
        })
    }
}

/// How many steps are not yet counted as done.
#[component]
fn LeftOver() -> impl IntoView {
    let table = Table::here();
    let open = Memo::new(move |_| {
        table.steps.with(|steps| {
            let open = steps.iter().filter(|step| table.state(step) != State::Done);
            open.count()
        })
    });
    view! {
        <Show when=move || open.get() != 0>
            <p class="callout">
                {move || match open.get() {
                    1 => "One step is not counted as done. The list of all steps shows which.".to_owned(),
                    open => format!("{open} steps are not counted as done. The list of all steps shows which."),
                }}
            </p>
        </Show>
    }
}
