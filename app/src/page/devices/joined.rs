//! The workshop this device is in.

use foldwright_api::{
    Device, MOST_PHOTOS, ROOM_FOR_PHOTOS, Room, backup, devices, leave, rename_device,
    rename_workshop, revoke, room,
};
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::add::AddDevice;
use super::{ago, ailing, refused};
use crate::notice::{Notice, Notices};
use crate::part::{Chosen, Rename, download, is_nearly_full, room_in_words};
use crate::spoken::{first, language, texts};
use crate::store::Store;
use crate::sync::{Status, Syncing, Trouble, too_large};
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
            let found = devices(member.key).await.map_err(|why| refused(&why));
            others.try_set(Some(found));
        });
    };
    look();
    view! {
        <p class="lead">{move || name().map(|name| texts().devices.in_workshop(&name))}</p>
        <StatusInWords/>
        <AddDevice/>
        <section class="group">
            <h2>{texts().devices.in_this_workshop}</h2>
            {move || match others.get() {
                None => view! { <p class="quiet" role="status">{texts().devices.looking}</p> }.into_any(),
                Some(Err(why)) => {
                    view! {
                        <p class="quiet" role="status">{why}</p>
                        <button class="button" on:click=move |_| look()>{texts().devices.look_again}</button>
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
        <RoomThere/>
        <ServerCopy/>
        <Chosen
            chosen
            title=|device: Device| device.name
            inside=move |device, open| view! { <Choices device open look/> }
        />
    }
}

/// How much room there is at the server.
#[component]
fn RoomThere() -> impl IntoView {
    let store = expect_context::<Store>();
    let found = RwSignal::new(None::<Room>);
    if let Some(member) = store.member_now() {
        spawn_local(async move {
            // Why the server does not answer is said above already.
            found.try_set(room(member.key).await.ok());
        });
    }
    let there = move |room: Room| {
        view! {
            <section class="group">
                <h2>{texts().devices.room_at_server}</h2>
                {is_nearly_full(room)
                    .then(|| {
                        view! {
                            <p class="callout warning">
                                {texts().devices.disk_nearly_full}
                            </p>
                        }
                    })}
                <p>{room_in_words(room)}</p>
            </section>
        }
    };
    move || found.get().map(there)
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
                Err(why) => notices.show(Notice::warning("devices", refused(&why))),
            }
        });
    };
    view! {
        <section class="group">
            <h2>{texts().devices.copy_of_everything}</h2>
            <p>
                {texts().devices.one_file_with_all}
            </p>
            <button class="button" on:click=fetch>{first().download_it}</button>
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
                    notices.show(Notice::plain(texts().devices.workshop_called(&name)));
                    member.workshop_name = name;
                    store.set_member(Some(member));
                }
                Err(why) => notices.show(Notice::warning("devices", refused(&why))),
            }
        });
    };
    view! {
        <form class="group rename" on:submit=rename>
            <label class="field">
                <span>{texts().devices.name_of_workshop}</span>
                <input
                    node_ref=field
                    type="text"
                    data-unfinished="submit"
                    maxlength="60"
                    required
                    prop:value=shown
                />
            </label>
            <button class="button">{texts().devices.rename_it}</button>
        </form>
    }
}

/// How far what is kept here has come, with what can be done about it.
#[component]
fn StatusInWords() -> impl IntoView {
    let store = expect_context::<Store>();
    let words = move || match store.status() {
        Status::Waiting => texts().devices.server_not_reached.to_owned(),
        Status::Trouble(Trouble::Told(why)) => texts().devices.server_cannot_take(ailing(why)),
        Status::Trouble(Trouble::Misunderstood) => texts().devices.server_misunderstood.to_owned(),
        Status::Trouble(Trouble::PhotosFull) => {
            let megabytes = ROOM_FOR_PHOTOS / 1_000_000;
            language().album().workshop_full(MOST_PHOTOS, megabytes)
        }
        Status::TooLarge(names) => {
            let told = names
                .iter()
                .filter_map(|name| too_large::words(store, name));
            told.collect::<Vec<_>>().join(" ")
        }
        status => format!("{}.", status.told()),
    };
    view! { <p class="callout" role="status">{words}</p> }
}

#[component]
fn OneDevice(device: Device, chosen: RwSignal<Option<Device>>) -> impl IntoView {
    let seen = if device.own {
        String::from(texts().devices.this_device)
    } else {
        texts().devices.seen(&ago(device.seen_ago))
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
            Err(why) => notices.show(Notice::warning("devices", refused(&why))),
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
            told(done, texts().devices.called_now(&name));
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
                notices.show(Notice::plain(texts().devices.has_left));
            } else {
                let done = revoke(member.key, id).await;
                told(done, String::from(texts().devices.is_out));
            }
        });
    };
    view! {
        <Rename name longest=60 rename/>
        <ul class="rows">
            <li>
                <button class="row danger" on:click=remove>
                    {if own { texts().devices.leave } else { texts().devices.remove }}
                </button>
            </li>
        </ul>
        <p class="quiet">
            {if own {
                texts().devices.all_stays_here
            } else {
                texts().devices.is_cut_off
            }}
        </p>
    }
}
