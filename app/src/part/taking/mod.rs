//! A photograph is taken with the camera of the device, or chosen from a file, and kept.

mod camera;
pub(crate) mod canvas;

use foldwright_engine::paper::PhotoId;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{Blob, HtmlCanvasElement, HtmlInputElement};

use crate::album::{NotKept, keep};
use crate::spoken::language;
use camera::{Camera, has_camera};
use canvas::{bytes, read};

/// A picture that was taken or chosen.
pub(crate) struct Taken {
    /// What is seen on it, upright, no larger than was asked for.
    pub(crate) canvas: HtmlCanvasElement,
    /// The file that was chosen, or one of what the camera saw.
    pub(crate) picture: Blob,
}

/// Keeps the file of a picture as a photograph.
pub(crate) async fn keep_file(file: &Blob) -> Result<PhotoId, NotKept> {
    match bytes(file).await {
        Some(bytes) => keep(bytes).await,
        None => Err(NotKept::Closed),
    }
}

/// How a picture comes here.
#[component]
pub(crate) fn Taking(
    /// How it is best taken.
    about: &'static str,
    /// So many pixels it has along the longer side at most.
    most: u32,
    /// Why none came, or what came was not taken; whoever takes it says that here too.
    refused: RwSignal<Option<&'static str>>,
    /// Takes it.
    take: Callback<Taken>,
) -> impl IntoView {
    let texts = language().pictures();
    let by_camera = RwSignal::new(false);
    let chosen = move |event: leptos::ev::Event| {
        let input = event
            .target()
            .and_then(|it| it.dyn_into::<HtmlInputElement>().ok());
        let file = input.and_then(|input| {
            let file = input.files()?.item(0);
            // The same one may be chosen again.
            input.set_value("");
            file
        });
        let Some(file) = file else { return };
        refused.set(None);
        spawn_local(async move {
            let picture: Blob = file.into();
            let Some(canvas) = read(&picture, most).await else {
                refused.try_set(Some(texts.not_read));
                return;
            };
            // What asked for it may have been closed meanwhile.
            take.try_run(Taken { canvas, picture });
        });
    };
    view! {
        <p>{about}</p>
        {move || refused.get().map(|words| view! { <p class="said refusal" role="alert">{words}</p> })}
        {move || if by_camera.get() {
            view! { <Camera most refused take/> }.into_any()
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
