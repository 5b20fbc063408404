//! What can be done with one recipe of the list.

use leptos::either::Either;
use leptos::prelude::*;

use crate::album::uses;
use crate::notice::{Notice, Notices};
use crate::page::share::ShareIt;
use crate::part::{Chosen, Rename};
use crate::spoken::{language, texts};
use crate::store::{Store, save_file};

/// The dialog about the recipe that is chosen.
#[component]
pub(super) fn More(chosen: RwSignal<Option<(String, String)>>) -> impl IntoView {
    let sharing = RwSignal::new(false);
    Effect::new(move || {
        if chosen.with(Option::is_none) {
            sharing.set(false);
        }
    });
    let title = move |(_, name): (String, String)| {
        if sharing.get() {
            texts().list.share(&name)
        } else {
            name
        }
    };
    let inside = move |(id, name): (String, String), open| {
        if sharing.get() {
            Either::Left(view! { <ShareIt id/> })
        } else {
            Either::Right(view! { <Choices id name open sharing/> })
        }
    };
    view! { <Chosen chosen title inside/> }
}

#[component]
fn Choices(
    id: String,
    name: String,
    open: RwSignal<bool>,
    sharing: RwSignal<bool>,
) -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let bench = format!("/bench/{id}");
    let earlier = format!("/earlier/{id}");
    let id = StoredValue::new(id);
    let rename = move |new: String| {
        store.change(&id.get_value(), |recipe| recipe.name = new);
        open.set(false);
    };
    let of_store = move || store.read(&id.get_value());
    let duplicate = move |_| {
        if let Some(mut copy) = of_store() {
            copy.add_to_name(texts().list.copy);
            // What was made was made by the other.
            copy.runs.clear();
            if store.put(&copy).is_some() {
                notices.show(Notice::plain(texts().list.there_too(&copy.name)));
            }
        }
        open.set(false);
    };
    let export = move |_| {
        if let Some(recipe) = of_store() {
            if !uses::of(&recipe).is_empty() {
                notices.show(Notice::plain(language().album().not_in_files));
            }
            save_file(&[recipe]);
        }
        open.set(false);
    };
    let delete = move |_| {
        store.delete(&id.get_value());
        open.set(false);
    };
    let texts = &texts().list;
    view! {
        <Rename name longest=120 rename/>
        <ul class="rows">
            <li><a class="row" href=bench>{texts.to_the_bench}</a></li>
            <li><button class="row" on:click=move |_| sharing.set(true)>{texts.share_by_link}</button></li>
            <li><button class="row" on:click=duplicate>{texts.duplicate}</button></li>
            <li><a class="row" href=earlier>{texts.earlier_versions}</a></li>
            <li><button class="row" on:click=export>{texts.download_as_file}</button></li>
            <li><button class="row danger" on:click=delete>{texts.delete}</button></li>
        </ul>
    }
}
