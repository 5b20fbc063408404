//! The parts of the page beside the figure, one at a time.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::{Desk, Section};
use super::said::Said;
use super::section::{
    Class, Envelope, Layers, Panels, Paper, Pieces, Print, Problems, Refit, Scores,
};
use crate::spoken::texts;

/// A row of tabs and what the chosen one shows.
#[component]
pub(super) fn Tabs() -> impl IntoView {
    let desk = Desk::here();
    let tabs = Section::ALL.map(|section| view! { <Tab section/> });
    let shown = move || match desk.section.get() {
        Section::Panels => view! { <Panels/> }.into_any(),
        Section::Layers => view! { <Layers/> }.into_any(),
        Section::Pieces => view! { <Pieces/> }.into_any(),
        Section::Paper => view! { <Paper/> }.into_any(),
        Section::Print => view! { <Print/> }.into_any(),
        Section::Scores => view! { <Scores/> }.into_any(),
        Section::Envelope => view! { <Envelope/> }.into_any(),
        Section::Class => view! { <Class/> }.into_any(),
        Section::Refit => view! { <Refit/> }.into_any(),
        Section::Problems => view! { <Problems/> }.into_any(),
    };
    view! {
        <div class="tabs" role="tablist" aria-label=texts().desk.parts_of_the_card>
            {tabs.into_iter().collect_view()}
        </div>
        // While the editor is open, it tells what came of a change.
        <Show when=move || !desk.editor_open.get()>
            <Said/>
        </Show>
        <div
            class="section"
            role="tabpanel"
            id="section"
            tabindex="-1"
            aria-labelledby=move || format!("tab-{}", desk.section.get().key())
        >
            {shown}
        </div>
    }
}

#[component]
fn Tab(section: Section) -> impl IntoView {
    let desk = Desk::here();
    let button = NodeRef::<html::Button>::new();
    let chosen = Memo::new(move |_| desk.section.get() == section);
    // The arrow keys go along the row; the chosen tab alone is in the order of
    // the Tab key.
    let key = move |event: ev::KeyboardEvent| {
        let all = Section::ALL;
        let place = all.iter().position(|other| *other == section).unwrap_or(0);
        let to = match event.key().as_str() {
            "ArrowRight" => (place + 1) % all.len(),
            "ArrowLeft" => (place + all.len() - 1) % all.len(),
            "Home" => 0,
            "End" => all.len() - 1,
            _ => return,
        };
        event.prevent_default();
        if let Some(to) = all.get(to) {
            desk.show(*to);
            let tab = document().get_element_by_id(&format!("tab-{}", to.key()));
            let tab = tab.and_then(|tab| {
                use leptos::wasm_bindgen::JsCast as _;
                tab.dyn_into::<leptos::web_sys::HtmlElement>().ok()
            });
            if let Some(tab) = tab {
                let _ = tab.focus();
            }
        }
    };
    Effect::new(move || {
        if let (true, Some(button)) = (chosen.get(), button.get()) {
            show_in_row(&button);
        }
    });
    view! {
        <button
            node_ref=button
            type="button"
            role="tab"
            id=format!("tab-{}", section.key())
            aria-controls="section"
            aria-selected=move || if chosen.get() { "true" } else { "false" }
            tabindex=move || if chosen.get() { "0" } else { "-1" }
            on:click=move |_| desk.show(section)
            on:keydown=key
        >
            {section.word()}
        </button>
    }
}

/// Scrolls the row, and nothing else, until a tab is in the middle of it.
fn show_in_row(tab: &leptos::web_sys::HtmlElement) {
    if let Some(row) = tab.parent_element() {
        let middle = tab.offset_left() + tab.offset_width() / 2;
        row.set_scroll_left(middle - row.client_width() / 2);
    }
}
