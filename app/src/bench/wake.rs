//! Keeping the screen awake while hands are full.

use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::Promise;
use web_sys::wasm_bindgen::{JsCast as _, JsValue};

use crate::by_name::{call, of};
use crate::spoken::texts;

/// Whether the screen stays on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Awake {
    /// It does, or it has been asked for.
    Kept,
    /// The browser refused, for instance to save the battery.
    Refused,
    /// The browser knows no way.
    Unable,
}

/// Keeps the screen on until the present page is left.
pub(super) fn keep_awake() -> RwSignal<Awake> {
    let awake = RwSignal::new(Awake::Kept);
    let Some(locks) = wake_locks() else {
        awake.set(Awake::Unable);
        return awake;
    };
    let locks = StoredValue::new_local(locks);
    let held = StoredValue::new_local(None);
    let ask = move || {
        let Some(locks) = locks.try_get_value() else {
            return;
        };
        spawn_local(async move {
            let lock = request(&locks).await;
            let state = if lock.is_ok() {
                Awake::Kept
            } else {
                Awake::Refused
            };
            awake.try_set(state);
            // A lock that comes after the page was left is given back.
            if let Some(Some(lock)) = held.try_set_value(lock.ok()) {
                release(&lock);
            }
        });
    };
    ask();
    // The browser drops the lock whenever the page is out of sight.
    let listener = window_event_listener(ev::visibilitychange, move |_| {
        if !document().hidden() {
            ask();
        }
    });
    on_cleanup(move || {
        listener.remove();
        if let Some(Some(lock)) = held.try_get_value() {
            release(&lock);
        }
    });
    awake
}

/// The browser's wake locks.
fn wake_locks() -> Option<JsValue> {
    of(&window().navigator(), "wakeLock")
}

async fn request(locks: &JsValue) -> Result<JsValue, JsValue> {
    let asked: Promise = call(locks, "request", &["screen".into()])?.dyn_into()?;
    JsFuture::from(asked).await
}

fn release(lock: &JsValue) {
    // Where it cannot be called there is nothing to give back.
    drop(call(lock, "release", &[]));
}

/// Says when the screen may go dark.
#[component]
pub(super) fn AwakeWarning(
    /// Whether it stays on.
    awake: RwSignal<Awake>,
) -> impl IntoView {
    let read = RwSignal::new(false);
    let words = move || match awake.get() {
        Awake::Kept => "",
        Awake::Refused => texts().bench.screen_not_now,
        Awake::Unable => texts().bench.screen_never,
    };
    view! {
        <Show when=move || awake.get() != Awake::Kept && !read.get()>
            <div class="bench-awake" role="status">
                <p>{words}</p>
                <button type="button" class="button" on:click=move |_| read.set(true)>{texts().bench.understood}</button>
            </div>
        </Show>
    }
}
