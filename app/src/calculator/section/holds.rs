//! What holds between the numbers, and how much each matters.

use foldwright_engine::recipe::Holds;
use leptos::prelude::*;

use super::super::desk::Desk;
use crate::part::{Choice, told};
use crate::spoken::{aloud, speaker, texts};

/// The relations of the recipe, the most important first.
#[component]
pub(super) fn Holding() -> impl IntoView {
    let desk = Desk::here();
    let count = Memo::new(move |_| desk.recipe.with(|recipe| recipe.relations.len()));
    view! {
        <h2>{texts().desk.rules_kept}</h2>
        <p class="quiet">
            {texts().desk.kept_when_numbers_move}
        </p>
        <Show when=move || count.get() == 0>
            <p class="quiet">{texts().desk.only_sums}</p>
        </Show>
        <ol class="panels holding">
            <For each=move || 0..count.get() key=|place| *place children=move |place| view! { <RelationRow place/> }/>
        </ol>
    }
}

#[component]
fn RelationRow(place: usize) -> impl IntoView {
    let desk = Desk::here();
    let words = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let relation = recipe.relations.get(place);
            relation.map_or_else(String::new, |relation| {
                speaker(recipe).with_exact().rule(relation)
            })
        })
    });
    let holds = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let relation = recipe.relations.get(place);
            relation.map_or(Holds::Must, |relation| relation.holds)
        })
    });
    let choose = move |wanted: Holds| {
        if wanted != holds.get_untracked() {
            desk.edit(None, |recipe| recipe.let_hold(place, wanted));
        }
    };
    let up = move |_| {
        desk.edit(None, |recipe| recipe.prefer(place));
    };
    let drop = move |_| {
        desk.edit(None, |recipe| recipe.untie(place));
    };
    view! {
        <li class="panel">
            <p>{move || told(words.get())}</p>
            <Choice
                label=texts().desk.how_much_it_matters
                options=|| vec![(Holds::Must, texts().desk.always), (Holds::Should, texts().desk.if_possible)]
                chosen=holds
                choose
            />
            <div class="actions">
                <button
                    type="button"
                    class="button quiet"
                    disabled=place == 0
                    aria-label=move || aloud(&texts().desk.move_this_up(&words.get()))
                    on:click=up
                >
                    {texts().desk.move_up}
                </button>
                <button
                    type="button"
                    class="button quiet"
                    aria-label=move || aloud(&texts().desk.remove_holding(&words.get()))
                    on:click=drop
                >
                    {texts().desk.remove}
                </button>
            </div>
        </li>
    }
}
