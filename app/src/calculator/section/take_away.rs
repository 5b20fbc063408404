//! The card as files to print or for other programs, made on this device.

use std::sync::Arc;

use foldwright_engine::length::Step;
use foldwright_print::Paper;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::js_sys::{Array, Uint8Array};

use super::super::desk::Desk;
use crate::download::{Download, maker};
use crate::part::{NotHere, download_parts, hand_on, to_hand_on};
use crate::spoken::{first, language};
use crate::store::{Store, file_name};
use crate::turns::give_way;

/// What became of a file.
#[derive(Clone)]
enum Made {
    /// Nobody has asked for one.
    None,
    Making,
    /// The code that makes this one could not be fetched.
    NotHere(Download),
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

/// All that can be taken away, those first for the maker's own paper.
#[component]
pub(super) fn TakeAway() -> impl IntoView {
    let desk = Desk::here();
    let store = expect_context::<Store>();
    let say = language().printed();
    let made = RwSignal::new(Made::None);
    let make = move |what: Download| {
        made.set(Made::Making);
        spawn_local(async move {
            let Some(make) = maker().await else {
                made.try_set(Made::NotHere(what));
                return;
            };
            // What is shown meanwhile is painted first.
            give_way().await;
            // The recipe may have been left.
            let Some(recipe) = desk.recipe.try_get_untracked() else {
                return;
            };
            let bytes = desk.card.with_untracked(|card| make(what, &recipe, card));
            made.try_set(match bytes {
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
    let own = match store.settings().notation.step {
        Step::Millimetre | Step::HalfMillimetre | Step::TenthMillimetre => Paper::A4,
        Step::Eighth | Step::Sixteenth | Step::ThirtySecond | Step::SixtyFourth => Paper::Letter,
    };
    let making = move || made.with(|made| matches!(made, Made::Making));
    let choices = Download::all_for(own).map(|what| {
        view! {
            <li>
                <button type="button" class="row" disabled=making on:click=move |_| make(what)>
                    {what.label()}
                </button>
            </li>
        }
    });
    let choices = choices.collect_view();
    let shown = move || match made.get() {
        Made::None | Made::Making => ().into_any(),
        Made::NotHere(what) => view! { <NotHere again=move || make(what)/> }.into_any(),
        Made::Failed => view! { <p class="callout warning">{say.not_made}</p> }.into_any(),
        Made::There(file) => view! { <Offered file/> }.into_any(),
    };
    view! {
        <h2>{say.take_with_you}</h2>
        <p class="quiet">{say.each_a_file}</p>
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
