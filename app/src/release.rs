//! Telling that a newer release of the app is there, and changing to it when
//! the maker says so.

use std::pin::Pin;
use std::time::Duration;

use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Object, Reflect};
use web_sys::wasm_bindgen::prelude::Closure;
use web_sys::wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{
    HtmlMetaElement, ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration,
    ServiceWorkerState,
};

use foldwright_api::served_release;
use foldwright_words::Language;

use crate::fetched::asking_release;
use crate::spoken::first;

/// How long after the page the code is fetched that asks the server. Our own choice:
/// the page has been painted by then.
const PAUSE: Duration = Duration::from_millis(500);

/// Something the browser holds, which never leaves this thread.
type Local<T> = RwSignal<T, LocalStorage>;

/// Offers a newer release as soon as there is one.
#[component]
pub(crate) fn NewRelease(
    /// While this holds nothing is offered: somebody has their hands full.
    #[prop(into)]
    busy: Signal<bool>,
) -> impl IntoView {
    let waiting: Local<Option<ServiceWorker>> = RwSignal::new_local(None);
    let served = RwSignal::new(false);
    let put_off = RwSignal::new(false);
    match workers() {
        Some(workers) => watch_worker(workers, waiting),
        None => watch_server(served),
    }
    let there = move || waiting.with(Option::is_some) || served.get();
    let change = move |_| {
        if let (Some(worker), Some(workers)) = (waiting.get_untracked(), workers()) {
            take_over(&worker, &workers);
        } else {
            reload();
        }
    };
    view! {
        <Show when=move || there() && !put_off.get() && !busy.get()>
            <aside class="notice release" aria-label=first().new_version>
                <p>{first().newer_is_ready}</p>
                <button class="button primary" on:click=change>{first().change_to_it}</button>
                <button class="button quiet" on:click=move |_| put_off.set(true)>{first().later}</button>
            </aside>
        </Show>
    }
}

/// The browser's workers; missing where the address is neither localhost nor
/// HTTPS.
fn workers() -> Option<ServiceWorkerContainer> {
    let workers = window().navigator().service_worker();
    let there = AsRef::<JsValue>::as_ref(&workers).is_truthy();
    there.then_some(workers)
}

fn watch_worker(workers: ServiceWorkerContainer, waiting: Local<Option<ServiceWorker>>) {
    spawn_local(async move {
        let Ok(ready) = workers.ready() else { return };
        let Ok(registration) = JsFuture::from(ready).await else {
            return;
        };
        let registration: ServiceWorkerRegistration = registration.unchecked_into();
        waiting.try_set(registration.waiting());
        let found = registration.clone();
        let watch = Closure::<dyn Fn()>::new(move || {
            if let Some(worker) = found.installing() {
                watch_install(&worker, waiting);
            }
        });
        registration.set_onupdatefound(Some(watch.as_ref().unchecked_ref()));
        // Listens until the page is left.
        watch.forget();
        when_seen_again(move || {
            let registration = registration.clone();
            spawn_local(async move {
                // Without a connection there is nothing new to find.
                if let Ok(update) = registration.update() {
                    let _ = JsFuture::from(update).await;
                }
            });
        });
    });
}

fn watch_install(worker: &ServiceWorker, waiting: Local<Option<ServiceWorker>>) {
    let watched = worker.clone();
    let watch = Closure::<dyn Fn()>::new(move || {
        match watched.state() {
            ServiceWorkerState::Installed => waiting.try_set(Some(watched.clone())),
            // It took over by itself, or another tab asked it to.
            ServiceWorkerState::Activating | ServiceWorkerState::Redundant => waiting.try_set(None),
            _ => None,
        };
    });
    worker.set_onstatechange(Some(watch.as_ref().unchecked_ref()));
    watch.forget();
}

/// Asks the waiting worker to take over, and loads this page anew once it has.
/// Other tabs stay as they are.
fn take_over(worker: &ServiceWorker, workers: &ServiceWorkerContainer) {
    let changed = Closure::<dyn Fn()>::new(reload);
    workers.set_oncontrollerchange(Some(changed.as_ref().unchecked_ref()));
    changed.forget();
    let message = Object::new();
    // A fresh object takes any property, and a worker any plain object.
    let _ = Reflect::set(&message, &"type".into(), &"take-over".into());
    let _ = worker.post_message(&message);
}

/// Compares this page's release with the server's whenever it is looked at
/// again. The code for that comes after the page: nobody waits for it.
fn watch_server(served: RwSignal<bool>) {
    let begin = move || {
        spawn_local(async move {
            let Ok(ask) = asking_release().await else {
                return;
            };
            when_seen_again(move || {
                spawn_local(async move {
                    if let Some(release) = ask().await {
                        served.try_set(Some(release) != own_release());
                    }
                });
            });
        });
    };
    set_timeout(begin, PAUSE);
}

/// The release that a server has, once it answers.
pub(crate) type AskedRelease = Pin<Box<dyn Future<Output = Option<String>>>>;

/// Asks the server for its release.
pub(crate) fn ask_release() -> AskedRelease {
    Box::pin(async { Some(served_release().await.ok()?.id) })
}

/// Lets the worker keep a language, so that it is there without a connection.
pub(crate) fn keep_language(language: Language) {
    let Some(workers) = workers() else { return };
    spawn_local(async move {
        let Ok(ready) = workers.ready() else { return };
        let Ok(registration) = JsFuture::from(ready).await else {
            return;
        };
        let registration: ServiceWorkerRegistration = registration.unchecked_into();
        let message = Object::new();
        for (of, is) in [("type", "keep-language"), ("language", language.tag())] {
            // A fresh object takes any property.
            let _ = Reflect::set(&message, &of.into(), &is.into());
        }
        // The one that waits is of a newer release, with files of its own.
        let workers = [registration.active(), registration.waiting()];
        for worker in workers.into_iter().flatten() {
            // A worker takes any plain object.
            let _ = worker.post_message(&message);
        }
    });
}

fn own_release() -> Option<String> {
    let meta = document()
        .query_selector("meta[name=release]")
        .ok()
        .flatten()?;
    Some(meta.dyn_into::<HtmlMetaElement>().ok()?.content())
}

fn when_seen_again(act: impl Fn() + 'static) {
    // The listener stays as long as the app.
    let _ = window_event_listener(ev::visibilitychange, move |_| {
        if !document().hidden() {
            act();
        }
    });
}

fn reload() {
    // Fails only where the page may not be left, and then stays as it is.
    let _ = window().location().reload();
}
