//! The workshop this device is in.

use foldwright_api::{Device, backup, devices, leave, rename_device, rename_workshop, revoke};
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::add::AddDevice;
use super::ago;
use crate::notice::{Notice, Notices};
use crate::part::{Chosen, Rename, download};
use crate::store::Store;
use crate::sync::{Status, Syncing};
use crate::typing::unless_typing;

/// Its devices, one more device, and the way out.
#[component]
pub(super) fn Workshop() -> impl IntoView {
    let store = expect_context::<Store>();
    let name = move || store.member().map(|member| member.workshop_name);
    let others = RwSignal::new(None::<Result<Vec<Device>, String>>);
    let chosen = RwSignal::new(None::<Device>);
    let look = move || {
        let Some(member) = store.member_now() else {
            return;
        };
        spawn_local(async move {
            let found = devices(member.key).await.map_err(|why| why.to_string());
            others.try_set(Some(found));
        });
    };
    look();
    view! {
        <p class="lead">"In the workshop “" {name} "”."</p>
        <StatusInWords/>
        <AddDevice/>
        <section class="group">
            <h2>"In this workshop"</h2>
            {move || match others.get() {
                None => view! { <p class="quiet" role="status">"Looking who is there…"</p> }.into_any(),
                Some(Err(why)) => {
                    view! {
                        <p class="quiet" role="status">{why}</p>
                        <button class="button" on:click=move |_| look()>"Look again"</button>
                    }
                        .into_any()
                }
                Some(Ok(all)) => {
                    let rows = all.into_iter().map(|device| view! { <OneDevice device chosen/> });
                    view! { <ul class="rows">{rows.collect_view()}</ul> }.into_any()
                }
            }}
        </section>
        <Naming/>
        <ServerCopy/>
        <Chosen
            chosen
            title=|device: Device| device.name
            inside=move |device, open| view! { <Choices device open look/> }
        />
    }
}

/// A copy of what the server has.
#[component]
fn ServerCopy() -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let fetch = move |_| {
        let Some(member) = store.member_now() else {
            return;
        };
        spawn_local(async move {
            match backup(member.key).await {
                Ok(text) => download("workshop.foldwright.json", &text),
                Err(why) => notices.show(Notice::warning("devices", why.to_string())),
            }
        });
    };
    view! {
        <section class="group">
            <h2>"A copy of everything"</h2>
            <p>
                "One file with all that the server has of this workshop, what is deleted \
                 included. “Add from a file” takes it in anywhere."
            </p>
            <button class="button" on:click=fetch>"Download it"</button>
        </section>
    }
}

/// What the workshop is called.
#[component]
fn Naming() -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let field = NodeRef::<html::Input>::new();
    let name = move || store.member().map(|member| member.workshop_name);
    // What is typed stays until it is sent: leaving the field for the button must
    // not take it away.
    let (shown, _) = unless_typing(
        field,
        move || name().unwrap_or_default(),
        Signal::stored(false),
    );
    let rename = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let name = field.get().map(|field| field.value()).unwrap_or_default();
        let Some(mut member) = store.member_now() else {
            return;
        };
        spawn_local(async move {
            match rename_workshop(member.key.clone(), name.clone()).await {
                Ok(()) => {
                    notices.show(Notice::plain(format!(
                        "The workshop is called “{name}” now."
                    )));
                    member.workshop_name = name;
                    store.set_member(Some(member));
                }
                Err(why) => notices.show(Notice::warning("devices", why.to_string())),
            }
        });
    };
    view! {
        <form class="group rename" on:submit=rename>
            <label class="field">
                <span>"Name of the workshop"</span>
                <input
                    node_ref=field
                    type="text"
                    data-unfinished="submit"
                    maxlength="60"
                    required
                    prop:value=shown
                />
            </label>
            <button class="button">"Rename it"</button>
        </form>
    }
}

/// How far what is kept here has come, with what can be done about it.
#[component]
fn StatusInWords() -> impl IntoView {
    let store = expect_context::<Store>();
    let words = move || match store.status() {
        Status::Waiting => String::from(
            "The server can’t be reached at the moment. Everything is saved on this device and \
             goes on its way as soon as it can.",
        ),
        Status::Trouble(why) => format!(
            "Everything is saved on this device, but the server can’t take it: {why} It is tried \
             again by itself."
        ),
        status => format!("{status}."),
    };
    view! { <p class="callout" role="status">{words}</p> }
}

#[component]
fn OneDevice(device: Device, chosen: RwSignal<Option<Device>>) -> impl IntoView {
    let seen = if device.own {
        String::from("this device")
    } else {
        format!("seen {}", ago(device.seen_ago))
    };
    let label = format!("{}, {seen}", device.name);
    let name = device.name.clone();
    view! {
        <li>
            <button
                class="row device"
                aria-label=label
                aria-haspopup="dialog"
                on:click=move |_| chosen.set(Some(device.clone()))
            >
                <span>{name}</span>
                <span class="quiet">{seen}</span>
            </button>
        </li>
    }
}

/// What can be done with one of the devices.
#[component]
fn Choices(
    device: Device,
    open: RwSignal<bool>,
    look: impl Fn() + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let store = expect_context::<Store>();
    let syncing = expect_context::<Syncing>();
    let notices = expect_context::<Notices>();
    let Device { id, name, own, .. } = device;
    let id = StoredValue::new(id);
    let told = move |done: Result<(), foldwright_api::Refused>, what: String| {
        match done {
            Ok(()) => notices.show(Notice::plain(what)),
            Err(why) => notices.show(Notice::warning("devices", why.to_string())),
        }
        look();
    };
    let rename = move |name: String| {
        let Some(member) = store.member_now() else {
            return;
        };
        // What this sheet holds goes with it.
        let id = id.get_value();
        open.set(false);
        spawn_local(async move {
            let done = rename_device(member.key.clone(), id, name.clone()).await;
            if own && done.is_ok() {
                let mut member = member;
                member.device_name.clone_from(&name);
                store.set_member(Some(member));
            }
            told(done, format!("It is called “{name}” now."));
        });
    };
    let remove = move |_| {
        let Some(member) = store.member_now() else {
            return;
        };
        let id = id.get_value();
        open.set(false);
        spawn_local(async move {
            if own {
                // What the server does not hear of now it sees from the key
                // that is never shown again.
                let _ = leave(member.key).await;
                syncing.left();
                notices.show(Notice::plain(
                    "This device has left the workshop. Everything it had is still here.",
                ));
            } else {
                let done = revoke(member.key, id).await;
                told(done, String::from("The device is out of the workshop."));
            }
        });
    };
    view! {
        <Rename name longest=60 rename/>
        <ul class="rows">
            <li>
                <button class="row danger" on:click=remove>
                    {if own { "Leave the workshop" } else { "Remove it from the workshop" }}
                </button>
            </li>
        </ul>
        <p class="quiet">
            {if own {
                "Everything stays on this device. It no longer gets what others change."
            } else {
                "It is cut off at once. What it already has stays on it."
            }}
        </p>
    }
}
