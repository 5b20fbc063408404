//! Coming into a workshop with a code.

use foldwright_api::{Refused, join};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::refused;
use crate::notice::{Notice, Notices};
use crate::spoken::texts;
use crate::store::{Store, ask_to_keep};
use crate::sync::Syncing;

/// The form for code and name.
#[component]
pub(super) fn Join() -> impl IntoView {
    let syncing = expect_context::<Syncing>();
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let code = NodeRef::<html::Input>::new();
    let name = NodeRef::<html::Input>::new();
    let wrong = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    // A code that is scanned while the page is open changes the address only.
    let brought = RwSignal::new(code_in_address());
    let heard = window_event_listener(ev::hashchange, move |_| brought.set(code_in_address()));
    on_cleanup(move || heard.remove());
    let comes_with_code = move || !brought.with(String::is_empty);
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let text = |field: NodeRef<html::Input>| field.get().map(|field| field.value());
        let (Some(typed), Some(called)) = (text(code), text(name)) else {
            return;
        };
        busy.set(true);
        wrong.set(None);
        spawn_local(async move {
            match join(typed, called).await {
                Ok(joined) => {
                    let workshop = joined.workshop_name.clone();
                    syncing.joined(joined);
                    ask_to_keep().await;
                    notices.show(Notice::plain(texts().devices.in_now(&workshop)));
                }
                Err(why) => {
                    busy.try_set(false);
                    wrong.try_set(Some(words(&why)));
                }
            }
        });
    };
    let cut_off = move || {
        let cut_off = store.cut_off()?;
        Some(cut_off.words(syncing.only_here()))
    };
    view! {
        {move || cut_off().map(|words| view! {
            <p class="callout warning">
                {words} " " {texts().devices.bring_in_again}
            </p>
        })}
        <p class="lead">
            {move || if comes_with_code() {
                texts().devices.give_a_name
            } else {
                texts().devices.why_devices
            }}
        </p>
        <form class="group join" on:submit=submit>
            <h2>{texts().devices.bring_device_in}</h2>
            <label class="field">
                <span>{texts().devices.code}</span>
                <input
                    node_ref=code
                    class="code"
                    type="text"
                    data-unfinished="submit"
                    required
                    maxlength="20"
                    autocomplete="off"
                    autocapitalize="characters"
                    spellcheck="false"
                    placeholder="0000-0000"
                    prop:value=brought
                    aria-describedby="join-trouble join-where"
                />
            </label>
            <label class="field">
                <span>{texts().devices.name_of_device}</span>
                <input
                    node_ref=name
                    type="text"
                    data-unfinished="submit"
                    required
                    maxlength="60"
                    autocomplete="off"
                    value=usual_name()
                />
            </label>
            <p id="join-trouble" class="wrong" role="alert">{move || wrong.get()}</p>
            <button class="button primary" disabled=busy>{texts().devices.bring_in}</button>
            <p id="join-where" class="quiet">
                {texts().devices.where_codes_are}
            </p>
        </form>
    }
}

fn words(why: &Refused) -> String {
    match why {
        Refused::Missing => String::from(texts().devices.code_does_not_work),
        Refused::Senseless => String::from(texts().devices.type_code_and_name),
        why => refused(why),
    }
}

/// The code that a scanned address brings along.
fn code_in_address() -> String {
    let hash = window().location().hash().unwrap_or_default();
    let code = hash.strip_prefix("#code=").unwrap_or_default();
    code.chars()
        .filter(|c| c.is_ascii_alphanumeric() || *c == '-')
        .take(20)
        .collect()
}

/// What somebody probably calls this device.
fn usual_name() -> &'static str {
    let touch = window().match_media("(pointer: coarse)").ok().flatten();
    let small = window().match_media("(max-width: 43.99rem)").ok().flatten();
    let is = |query: Option<web_sys::MediaQueryList>| query.is_some_and(|query| query.matches());
    match (is(touch), is(small)) {
        (_, true) => texts().devices.phone,
        (true, false) => texts().devices.tablet,
        (false, false) => texts().devices.laptop,
    }
}
