//! Files that are made on this device: asked for, made, and kept or handed on.

use std::sync::Arc;

use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::js_sys::{Array, Uint8Array};

use super::super::desk::Desk;
use crate::album::{bytes, uses};
use crate::download::{Source, Wanted, maker};
use crate::part::{NotHere, download_parts, hand_on, to_hand_on};
use crate::spoken::{first, language};
use crate::store::{Store, file_name};
use crate::sync::name;
use crate::turns::give_way;

/// What is asked for by a choice, as it is when it is made.
pub(super) type Asked = Callback<(), Wanted>;

/// What became of a file.
#[derive(Clone)]
enum Made {
    /// Nobody has asked for one.
    None,
    Making,
    /// The code that makes this one could not be fetched.
    NotHere(Asked),
    /// It could not be made.
    Failed,
    There(File),
}

/// A file that was made.
#[derive(Clone)]
struct File {
    name: String,
    kind: &'static str,
    bytes: Arc<[u8]>,
}

impl File {
    fn save(&self) {
        let parts = Array::of1(&Uint8Array::from(&*self.bytes));
        download_parts(&self.name, &parts);
    }

    fn to_hand_on(&self) -> Option<web_sys::ShareData> {
        to_hand_on(&self.name, self.kind, &self.bytes)
    }
}

/// A choice of files, each by its label.
#[component]
pub(super) fn Files(choices: Vec<(&'static str, Asked)>) -> impl IntoView {
    let desk = Desk::here();
    let store = expect_context::<Store>();
    let say = language().printed();
    let made = RwSignal::new(Made::None);
    let make = move |asked: Asked| {
        made.set(Made::Making);
        spawn_local(async move {
            let Some(make) = maker().await else {
                made.try_set(Made::NotHere(asked));
                return;
            };
            // What is shown meanwhile is painted first.
            give_way().await;
            let document = desk.id.try_with_value(|id| name::of_recipe(id));
            let link = document.and_then(|document| store.link_to(&document));
            let link = link.map(|link| link.link).unwrap_or_default();
            // The recipe may have been left.
            let Some(recipe) = desk.recipe.try_get_untracked() else {
                return;
            };
            let mut photos = Vec::new();
            for photo in uses::of_papers(&recipe) {
                photos.extend(bytes(photo).await.map(|file| (photo, file)));
            }
            let what = asked.run(());
            let source = Source {
                from: "",
                link: &link,
                photos: &photos,
            };
            let bytes = desk
                .card
                .try_with_untracked(|card| make(&what, &recipe, card, source));
            made.try_set(match bytes.flatten() {
                Some(bytes) => {
                    let file = File {
                        name: file_name(&recipe.name, what.ending()),
                        kind: what.media_type(),
                        bytes: bytes.into(),
                    };
                    if file.to_hand_on().is_none() {
                        file.save();
                    }
                    Made::There(file)
                }
                None => Made::Failed,
            });
        });
    };
    let making = move || made.with(|made| matches!(made, Made::Making));
    let choices = choices.into_iter().map(|(label, asked)| {
        view! {
            <li>
                <button type="button" class="row" disabled=making on:click=move |_| make(asked)>
                    {label}
                </button>
            </li>
        }
    });
    let choices = choices.collect_view();
    let shown = move || match made.get() {
        Made::None | Made::Making => ().into_any(),
        Made::NotHere(asked) => view! { <NotHere again=move || make(asked)/> }.into_any(),
        Made::Failed => view! { <p class="callout warning">{say.not_made}</p> }.into_any(),
        Made::There(file) => view! { <Offered file/> }.into_any(),
    };
    view! {
        <div role="status" aria-busy=move || making().to_string()>
            {shown}
        </div>
        <ul class="rows">{choices}</ul>
    }
}

/// A file that was made, to be kept or handed on.
#[component]
fn Offered(file: File) -> impl IntoView {
    let say = language().printed();
    let saved = file.clone();
    let pass_on = file.to_hand_on().map(|_| {
        let file = file.clone();
        let pass_on = move |_| {
            if let Some(data) = file.to_hand_on() {
                spawn_local(async move { hand_on(&data).await });
            }
        };
        view! {
            <button type="button" class="button primary" on:click=pass_on>{say.hand_on}</button>
        }
    });
    view! {
        <p>{file.name}</p>
        <div class="actions">
            {pass_on}
            <button type="button" class="button" on:click=move |_| saved.save()>
                {first().download_it}
            </button>
        </div>
    }
}
