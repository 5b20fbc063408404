//! The card on paper: a sheet to print, made on this device.

use std::sync::Arc;

use foldwright_engine::card::work_out;
use foldwright_print::Paper;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::js_sys::{Array, Uint8Array};

use super::super::desk::Desk;
use crate::part::{NotHere, download_parts, hand_on, to_hand_on};
use crate::printing::printer;
use crate::spoken::{first, language};
use crate::store::{Store, file_name};
use crate::turns::give_way;

/// What became of a sheet.
#[derive(Clone)]
enum Made {
    /// Nobody has asked for one.
    None,
    Making,
    /// The code for it could not be fetched; the paper was this.
    NotHere(Paper),
    /// It could not be made.
    Failed,
    /// It is there, and can be handed on.
    There(File),
}

/// A sheet as a file.
#[derive(Clone)]
struct File {
    name: String,
    pdf: Arc<[u8]>,
}

impl File {
    fn save(&self) {
        let parts = Array::of1(&Uint8Array::from(&*self.pdf));
        download_parts(&self.name, &parts);
    }

    fn to_hand_on(&self) -> Option<web_sys::ShareData> {
        to_hand_on(&self.name, "application/pdf", &self.pdf)
    }
}

/// A sheet to print, on the paper of one's printer.
#[component]
pub(super) fn ToPrint() -> impl IntoView {
    let desk = Desk::here();
    let store = expect_context::<Store>();
    let say = language().printed();
    let made = RwSignal::new(Made::None);
    let make = move |paper: Paper| {
        made.set(Made::Making);
        spawn_local(async move {
            let Some(print) = printer().await else {
                made.try_set(Made::NotHere(paper));
                return;
            };
            // What is shown meanwhile is painted first.
            give_way().await;
            // The recipe may have been left.
            let Some(recipe) = desk.recipe.try_get_untracked() else {
                return;
            };
            let card = work_out(&recipe, &store.settings().tools());
            made.try_set(match print(&recipe, &card, paper) {
                Ok(pdf) => {
                    let file = File {
                        name: file_name(&recipe.name, "pdf"),
                        pdf: pdf.into(),
                    };
                    if file.to_hand_on().is_none() {
                        file.save();
                    }
                    Made::There(file)
                }
                Err(_) => Made::Failed,
            });
        });
    };
    let choose = move |paper, word| {
        view! {
            <button
                type="button"
                class="button"
                disabled=move || made.with(|made| matches!(made, Made::Making))
                on:click=move |_| make(paper)
            >
                {word}
            </button>
        }
    };
    let shown = move || match made.get() {
        Made::None | Made::Making => ().into_any(),
        Made::NotHere(paper) => view! { <NotHere again=move || make(paper)/> }.into_any(),
        Made::Failed => view! { <p class="callout warning">{say.not_made}</p> }.into_any(),
        Made::There(file) => view! { <Offered file/> }.into_any(),
    };
    view! {
        <h2>{say.to_print}</h2>
        <p class="quiet">{say.all_of_it}</p>
        <div class="actions">
            {choose(Paper::A4, say.sheet_on_a4)}
            {choose(Paper::Letter, say.sheet_on_letter)}
        </div>
        <div role="status" aria-busy=move || made.with(|made| matches!(made, Made::Making)).to_string()>
            {shown}
        </div>
    }
}

/// A sheet that was made, to be kept or handed on.
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
