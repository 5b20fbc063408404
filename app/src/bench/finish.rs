//! After the last step.

use foldwright_engine::card::Card;
use foldwright_engine::draw::{Colouring, as_it_stands, on_table, state, svg};
use foldwright_engine::faces::View;
use foldwright_engine::steps::Kind;
use leptos::html;
use leptos::prelude::*;

use super::log::Log;
use super::place::State;
use super::rescue::CameOutDifferent;
use super::table::Table;
use super::used::Used;
use crate::album::address;
use crate::notice::{Notice, Notices};
use crate::part::told;
use crate::spoken::{first, speaker, texts};

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
        let copies = table.recipe.with(|recipe| recipe.copies);
        texts().bench.made(copies)
    };
    let figures = move || {
        let facts = table.card.with(Card::facts);
        table
            .recipe
            .with(|recipe| told(speaker(recipe).with_exact().figures(&facts)))
    };
    let envelope = move || {
        table.steps.with(|steps| {
            let envelope = steps.iter().find(|step| step.kind == Kind::Envelope);
            let does = envelope.and_then(|step| step.does.first().copied());
            let bare = table.bare;
            does.map(|does| {
                bare.with(|recipe| told(speaker(recipe).with_exact().instruction(&does)))
            })
        })
    };
    let anew = move |_| {
        let undo = table.begin_anew();
        notices.show(Notice::plain(texts().bench.back_at_first).with(first().undo, undo));
    };
    view! {
        <article class="task finish">
            <header class="task-head">
                <p class="task-kind">{texts().bench.finished}</p>
                <h1 node_ref=heading tabindex="-1">{title}</h1>
            </header>
            <div class="task-see">
                <Finished/>
            </div>
            <div class="task-do">
                <p class="finish-name">{move || table.recipe.with(|recipe| recipe.name.clone())}</p>
                <div class="task-words">
                    <p>{figures}</p>
                    <p>{envelope}</p>
                </div>
                <LeftOver/>
                <Used/>
                <Log/>
                <CameOutDifferent/>
                <button type="button" class="button bench-way" on:click=anew>{texts().bench.start_again}</button>
            </div>
        </article>
    }
}

/// The card as it stands, or closed where it does not stand open.
#[component]
fn Finished() -> impl IntoView {
    let table = Table::here();
    move || {
        table.recipe.with(|recipe| {
            table.card.with(|card| {
                let say = speaker(recipe);
                let (drawing, caption) = match as_it_stands(recipe, card) {
                    Some(look) => {
                        let seen = (look.direction, Colouring::Paper);
                        (on_table(recipe, card, &look.posed, seen), say.stands(look.stands))
                    }
                    None if card.folded.is_some() => {
                        let caption = texts().bench.closed_from_front.to_owned();
                        (state(recipe, card, 0, View::Front), caption)
                    }
                    None => return None,
                };
                let drawn = svg(&drawing, "bench-finished", &address);
                Some(view! {
                    <figure class="album">
                        <div class="album-picture">
                            <svg role="img" aria-label=say.whole(&card.facts()) viewBox=drawn.view_box.clone()>
                                <g inner_html=drawn.inside()></g>
                            </svg>
                        </div>
                        <figcaption>{told(caption)}</figcaption>
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
                {move || texts().bench.steps_left(open.get())}
            </p>
        </Show>
    }
}
