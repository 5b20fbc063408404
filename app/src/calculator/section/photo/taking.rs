//! The first stage: a picture is chosen, or taken with the camera of the device.

use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{Blob, HtmlInputElement};

use super::camera::{Camera, has_camera};
use super::canvas::read;
use super::{Placed, Source, Stage, Subject};
use crate::spoken::language;

impl Subject {
    /// Goes on with a picture.
    pub(super) fn has_taken(self, source: Source) {
        let placed = Placed::first(source.size());
        self.stage.set(Stage::Corners(source, placed));
    }
}

/// How a picture comes here.
#[component]
pub(super) fn Taking(subject: Subject) -> impl IntoView {
    let texts = language().photos();
    let by_camera = RwSignal::new(false);
    let refused = RwSignal::new(false);
    let chosen = move |event: leptos::ev::Event| {
        let input = event
            .target()
            .and_then(|it| it.dyn_into::<HtmlInputElement>().ok());
        let file = input.and_then(|input| input.files()?.item(0));
        let Some(file) = file else { return };
        refused.set(false);
        spawn_local(async move {
            let file: &Blob = &file;
            let source = read(file)
                .await
                .and_then(|pixels| Source::new(pixels, file));
            match source {
                Some(source) => subject.has_taken(source),
                None => refused.set(true),
            }
        });
    };
    view! {
        <p>{texts.about}</p>
        <Show when=move || refused.get()>
            <p class="said refusal" role="alert">{texts.not_read}</p>
        </Show>
        {move || if by_camera.get() {
            view! { <Camera subject/> }.into_any()
        } else {
            view! {
                <div class="actions photo-from">
                    <label class="button primary file">
                        <span>{texts.choose}</span>
                        <input type="file" accept="image/*" class="visually-hidden" on:change=chosen/>
                    </label>
                    <Show when=has_camera>
                        <button type="button" class="button" on:click=move |_| by_camera.set(true)>
                            {texts.camera}
                        </button>
                    </Show>
                </div>
            }.into_any()
        }}
    }
}
