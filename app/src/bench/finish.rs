//! After the last step.

use foldwright_engine::draw::{state, svg};
use foldwright_engine::show::View;
use foldwright_engine::steps::{Kind, sheets_needed};
use foldwright_engine::words::{card_in_words, closed_facts};
use leptos::either::Either;
use leptos::html;
use leptos::prelude::*;

use super::place::State;
use super::rescue::CameOutDifferent;
use super::table::Table;
use crate::notice::{Notice, Notices};
use crate::sync::{Paper, Syncing};

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
                <PaperUsed/>
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

/// The sheets it took, to be taken off the paper at hand.
#[component]
fn PaperUsed() -> impl IntoView {
    let table = Table::here();
    let Some(syncing) = use_context::<Syncing>() else {
        return Either::Left(());
    };
    let taken = RwSignal::new(false);
    let used = Memo::new(move |_| {
        table.recipe.with(|recipe| {
            table.card.with(|card| {
                let needed = sheets_needed(recipe, card).into_iter();
                let used = needed.filter_map(|(id, sheets)| {
                    let sheets = sheets.filter(|sheets| *sheets > 0)?;
                    Some((Paper::of(recipe.stock(id)?), sheets))
                });
                used.collect::<Vec<_>>()
            })
        })
    });
    let take = move |_| {
        for (paper, sheets) in used.get_untracked() {
            syncing.add_paper(&paper.key(), -sheets);
        }
        taken.set(true);
    };
    let put_back = move |_| {
        for (paper, sheets) in used.get_untracked() {
            syncing.add_paper(&paper.key(), sheets);
        }
        taken.set(false);
    };
    let words = move || {
        let counts = syncing.paper();
        used.with(|used| {
            let rows = used.iter().map(|(paper, sheets)| {
                let at_hand = counts.get(&paper.key()).copied().unwrap_or(0);
                let sheets = if *sheets == 1 {
                    "1 sheet".to_owned()
                } else {
                    format!("{sheets} sheets")
                };
                view! { <li>{format!("{sheets} of {}: {at_hand} at hand", paper.name)}</li> }
            });
            rows.collect_view()
        })
    };
    Either::Right(view! {
        <Show when=move || used.with(|used| !used.is_empty())>
            <div class="task-words">
                <p>"Paper used"</p>
                <ul>{words}</ul>
            </div>
            {move || if taken.get() {
                view! {
                    <button type="button" class="button bench-way" on:click=put_back>
                        "Taken off. Put it back"
                    </button>
                }
                    .into_any()
            } else {
                view! {
                    <button type="button" class="button bench-way" on:click=take>
                        "Take it off the paper at hand"
                    </button>
                }
                    .into_any()
            }}
        </Show>
    })
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
