//! The pictures of a step, one at a time.

use foldwright_engine::draw::{Drawing, svg};
use leptos::prelude::*;

use super::said::Said;
use super::table::Table;
use crate::album::address;
use crate::spoken::texts;

/// The pictures of the step at this place. A tap on the picture shows the next
/// one, and every one has a button with its caption.
#[component]
pub(super) fn Pictures() -> impl IntoView {
    let table = Table::here();
    let said = Said::here();
    let pictures = Memo::new(move |_| {
        let step = table.step.get();
        let captions = said.step.with(|step| step.captions.clone());
        let pictures = step.map(|step| step.pictures).unwrap_or_default();
        let pictures = pictures.into_iter().zip(captions);
        table.bare.with(|recipe| {
            table.card.with(|card| {
                let drawn =
                    pictures.map(|(picture, caption)| (caption, picture.drawing(recipe, card)));
                drawn.collect::<Vec<_>>()
            })
        })
    });
    move || pictures.with(|pictures| (!pictures.is_empty()).then(|| album(pictures)))
}

fn album(pictures: &[(String, Drawing)]) -> impl IntoView + use<> {
    let count = pictures.len();
    let shown = RwSignal::new(0_usize);
    let drawn = pictures
        .iter()
        .enumerate()
        .map(|(number, (caption, drawing))| {
            let drawn = svg(drawing, &format!("bench-{number}"), &address);
            let caption = caption.clone();
            view! {
                <svg
                    role="img"
                    aria-label=caption
                    viewBox=drawn.view_box.clone()
                    class:away=move || shown.get() != number
                >
                    <g inner_html=drawn.inside()></g>
                </svg>
            }
        })
        .collect_view();
    let captions: Vec<_> = pictures
        .iter()
        .map(|(caption, _)| caption.clone())
        .collect();
    let below = if count == 1 {
        view! { <figcaption>{captions}</figcaption> }.into_any()
    } else {
        let buttons = captions.into_iter().enumerate().map(|(number, caption)| {
            view! {
                <button
                    type="button"
                    aria-pressed=move || if shown.get() == number { "true" } else { "false" }
                    on:click=move |_| shown.set(number)
                >
                    {caption}
                </button>
            }
        });
        view! {
            <div class="album-choice" role="group" aria-label=texts().bench.pictures>
                {buttons.collect_view()}
            </div>
        }
        .into_any()
    };
    view! {
        <figure class="album">
            <div
                class="album-picture"
                class:flips=count != 1
                on:click=move |_| shown.update(|shown| *shown = (*shown + 1) % count)
            >
                {drawn}
            </div>
            {below}
        </figure>
    }
}
