//! An envelope made for a card, as a recipe of its own.

use foldwright_engine::card::Card;
use foldwright_engine::envelope::{EnvelopeName, envelope_for};
use foldwright_engine::recipe::Recipe;
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::{use_location, use_navigate};

use super::class_words::InClassWords;
use crate::notice::{Notice, Notices};
use crate::spoken::{first, naming, texts};
use crate::store::Store;

/// An envelope for a card; `None` where there can be none.
pub(super) fn made_for(
    say: &'static dyn ClassTongue,
    recipe: &Recipe,
    card: &Card,
) -> Option<Recipe> {
    let called = |of: EnvelopeName<'_>| say.told(recipe, OfClass::Envelope(of));
    envelope_for(recipe, card, naming(), &called)
}

/// The button that makes an envelope, where one can be made.
#[component]
pub(super) fn MakeEnvelope(
    /// The envelope for the card as it is at the time. Tracks.
    made: impl Fn(&'static dyn ClassTongue) -> Option<Recipe> + Copy + Send + Sync + 'static,
    /// Whether it is opened then. It is not where that would lose what is asked for.
    opens: bool,
) -> impl IntoView {
    view! { <InClassWords inside=move |say| view! { <Button say made opens/> }.into_any()/> }
}

#[component]
fn Button(
    say: &'static dyn ClassTongue,
    made: impl Fn(&'static dyn ClassTongue) -> Option<Recipe> + Copy + Send + Sync + 'static,
    opens: bool,
) -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let navigate = use_navigate();
    let here = use_location().pathname;
    let made = Memo::new(move |_| made(say));
    let make = move |_| {
        let Some(recipe) = made.get_untracked() else {
            return;
        };
        let Some(id) = store.put(&recipe) else { return };
        let (card, back) = (here.get_untracked(), navigate.clone());
        let address = format!("/recipe/{id}");
        if opens {
            navigate(&address, NavigateOptions::default());
        }
        let undo = move || {
            // What is shown is not taken away.
            if window().location().pathname().as_deref() == Ok(&address) {
                back(&card, NavigateOptions::default());
            }
            store.delete(&id);
        };
        let told = Notice::plain(texts().list.there_too(&recipe.name));
        notices.show(told.with(first().undo, undo));
    };
    let make = StoredValue::new_local(make);
    view! {
        <Show when=move || made.with(Option::is_some)>
            <div class="actions">
                <button
                    type="button"
                    class="button"
                    on:click=move |event| make.with_value(|make| make(event))
                >
                    {say.texts().make_envelope}
                </button>
            </div>
            <p class="quiet">{say.texts().flat_pattern}</p>
        </Show>
    }
}
