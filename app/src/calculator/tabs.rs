//! The parts of the page beside the figure, one at a time.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::{Desk, Section};
use super::later::{Coming, Later};
use super::said::Said;
use super::section::{Panels, Pieces};
use crate::part::Choice;
use crate::spoken::{first, texts};

/// What a maker does, and the sections of the page that are for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Doing {
    Card,
    Paper,
    Decorate,
    Fit,
    Make,
}

impl Doing {
    const ALL: [Self; 5] = [
        Self::Card,
        Self::Paper,
        Self::Decorate,
        Self::Fit,
        Self::Make,
    ];

    /// The first of them is shown first.
    const fn sections(self) -> &'static [Section] {
        match self {
            Self::Card => &[Section::Panels, Section::Pieces],
            Self::Paper => &[Section::Paper, Section::Print],
            Self::Decorate => &[Section::Layers],
            Self::Fit => &[Section::Refit, Section::Envelope],
            Self::Make => &[Section::Scores, Section::Class],
        }
    }

    /// What a section is for.
    const fn of(section: Section) -> Self {
        match section {
            Section::Panels | Section::Pieces => Self::Card,
            Section::Paper | Section::Print => Self::Paper,
            Section::Layers => Self::Decorate,
            Section::Refit | Section::Envelope => Self::Fit,
            Section::Scores | Section::Class => Self::Make,
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Card => texts().desk.card,
            Self::Paper => texts().desk.paper,
            Self::Decorate => texts().desk.decorate,
            Self::Fit => texts().desk.fit,
            Self::Make => texts().desk.make,
        }
    }

    /// The name of its tab.
    const fn tab(self) -> &'static str {
        match self {
            Self::Card => "tab-card",
            Self::Paper => "tab-paper",
            Self::Decorate => "tab-decorate",
            Self::Fit => "tab-fit",
            Self::Make => "tab-make",
        }
    }
}

/// A row of tabs and what the chosen one shows: one of its sections at a time.
#[component]
pub(super) fn Tabs() -> impl IntoView {
    let desk = Desk::here();
    let tabs = Doing::ALL.map(|doing| view! { <Tab doing/> });
    let doing = Memo::new(move |_| Doing::of(desk.section.get()));
    let sections = move || {
        let doing = doing.get();
        let sections = doing.sections().iter().copied();
        let sections: Vec<_> = sections.filter(|it| desk.has(*it)).collect();
        (sections.len() > 1).then(|| {
            view! {
                <Choice
                    label=doing.word().to_owned()
                    options=move || sections.iter().map(|it| (*it, it.word())).collect()
                    chosen=desk.section
                    choose=move |section| desk.show(section)
                />
            }
        })
    };
    let coming = Coming::begin();
    let stands = Memo::new(move |_| {
        let section = desk.section.get();
        let here = Later::of(section).map_or(Some(true), |later| coming.is_here(later));
        (section, here)
    });
    let shown = move || {
        let (section, _) = stands.get();
        match Later::of(section) {
            Some(later) => coming.show(later),
            None if section == Section::Pieces => view! { <Pieces/> }.into_any(),
            None => view! { <Panels/> }.into_any(),
        }
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
            aria-labelledby=move || doing.get().tab()
            aria-busy=move || stands.get().1.is_none().to_string()
        >
            {sections}
            {shown}
            <a
                class="button quiet"
                href=move || format!("/words#{}", desk.section.get().term().anchor())
            >
                {first().what_words_mean}
            </a>
        </div>
    }
}

#[component]
fn Tab(doing: Doing) -> impl IntoView {
    let desk = Desk::here();
    let button = NodeRef::<html::Button>::new();
    let chosen = Memo::new(move |_| Doing::of(desk.section.get()) == doing);
    let show = move |doing: Doing| {
        let shown = Doing::of(desk.section.get_untracked());
        if let Some(first) = doing.sections().first().filter(|_| shown != doing) {
            desk.show(*first);
        }
    };
    // The arrow keys go along the row; the chosen tab alone is in the order of
    // the Tab key.
    let key = move |event: ev::KeyboardEvent| {
        let all = Doing::ALL;
        let place = all.iter().position(|other| *other == doing).unwrap_or(0);
        let to = match event.key().as_str() {
            "ArrowRight" => (place + 1) % all.len(),
            "ArrowLeft" => (place + all.len() - 1) % all.len(),
            "Home" => 0,
            "End" => all.len() - 1,
            _ => return,
        };
        event.prevent_default();
        if let Some(to) = all.get(to) {
            show(*to);
            let tab = document().get_element_by_id(to.tab());
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
            id=doing.tab()
            aria-controls="section"
            aria-selected=move || if chosen.get() { "true" } else { "false" }
            tabindex=move || if chosen.get() { "0" } else { "-1" }
            on:click=move |_| show(doing)
            on:keydown=key
        >
            {doing.word()}
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
