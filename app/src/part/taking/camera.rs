//! The camera of the device, for as long as it is looked through.

use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Object, Reflect};
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::wasm_bindgen::JsValue;
use web_sys::{MediaDevices, MediaStream, MediaStreamConstraints, MediaStreamTrack};

use super::Taken;
use super::canvas::shot;
use crate::spoken::language;

/// So many pixels across are asked for: as many as a picture is worked with.
const ACROSS: f64 = 2560.0;

/// The cameras, where the browser lets a page use them: only over HTTPS and on this
/// computer itself.
fn cameras() -> Option<MediaDevices> {
    let cameras = Reflect::get(&window().navigator(), &"mediaDevices".into()).ok()?;
    cameras.dyn_into().ok()
}

/// Whether there may be a camera to use.
pub(super) fn has_camera() -> bool {
    cameras().is_some()
}

/// Asks for the camera at the back, where there are two.
async fn asked() -> Option<MediaStream> {
    let video = Object::new();
    let wanted = Object::new();
    let set = |on: &Object, name: &str, value: &JsValue| Reflect::set(on, &name.into(), value);
    set(&wanted, "ideal", &ACROSS.into()).ok()?;
    set(&video, "width", &wanted).ok()?;
    set(&video, "facingMode", &"environment".into()).ok()?;
    let asked = MediaStreamConstraints::new();
    asked.set_video(&video);
    let stream = cameras()?.get_user_media_with_constraints(&asked).ok()?;
    JsFuture::from(stream).await.ok()?.dyn_into().ok()
}

/// Lets a camera go, so that its light goes out.
fn let_go(stream: &MediaStream) {
    for track in stream.get_tracks() {
        if let Ok(track) = track.dyn_into::<MediaStreamTrack>() {
            track.stop();
        }
    }
}

/// What the camera sees, and its shutter.
#[component]
pub(super) fn Camera(
    /// So many pixels a picture has along the longer side at most.
    most: u32,
    /// Why none comes.
    refused: RwSignal<Option<&'static str>>,
    /// Takes it.
    take: Callback<Taken>,
) -> impl IntoView {
    let texts = language().pictures();
    let video = NodeRef::<html::Video>::new();
    let stream = StoredValue::new_local(None::<MediaStream>);
    let gone = StoredValue::new(false);
    let is_ready = RwSignal::new(false);
    Effect::new(move || {
        let Some(video) = video.get() else { return };
        spawn_local(async move {
            let got = asked().await;
            let Some(got) = got else {
                refused.try_set(Some(texts.no_camera));
                return;
            };
            // The sheet may have been closed while the maker was asked.
            if gone.try_get_value().unwrap_or(true) {
                let_go(&got);
                return;
            }
            video.set_src_object(Some(&got));
            stream.set_value(Some(got));
        });
    });
    on_cleanup(move || {
        gone.set_value(true);
        stream.with_value(|stream| stream.iter().for_each(let_go));
    });
    let press = move |_| {
        let Some(video) = video.get_untracked() else {
            return;
        };
        spawn_local(async move {
            match shot(&video, most).await {
                Some(taken) => drop(take.try_run(taken)),
                None => drop(refused.try_set(Some(texts.no_camera))),
            }
        });
    };
    view! {
        <video
            class="photo-camera"
            node_ref=video
            autoplay
            playsinline
            prop:muted=true
            on:loadeddata=move |_| is_ready.set(true)
        ></video>
        <div class="actions">
            <button type="button" class="button primary" disabled=move || !is_ready.get() on:click=press>
                {texts.shutter}
            </button>
        </div>
    }
}
