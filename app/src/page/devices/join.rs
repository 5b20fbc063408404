//! Coming into a workshop with a code.

use foldwright_api::{Refused, join};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::notice::{Notice, Notices};
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
                    notices.show(Notice::plain(format!(
                        "This device is in the workshop “{workshop}” now."
                    )));
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
                {words} " With a code of the workshop you can bring it in again."
            </p>
        })}
        <p class="lead">
            {move || if comes_with_code() {
                "Give this device a name, and it has the same recipes, paper and progress as the \
                 others."
            } else {
                "Recipes, paper and progress can be the same on your laptop and your phone. Each \
                 works by itself for as long as you like; what changed comes together when they \
                 are on the network again."
            }}
        </p>
        <form class="group join" on:submit=submit>
            <h2>"Bring this device in"</h2>
            <label class="field">
                <span>"Code"</span>
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
                <span>"Name of this device"</span>
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
            <button class="button primary" disabled=busy>"Bring it in"</button>
            <p id="join-where" class="quiet">
                "The first device takes the code that the server prints when it starts. Every \
                 other one takes a code that a device already in the workshop shows under Devices. \
                 Recipes that are here come along."
            </p>
        </form>
    }
}

fn words(why: &Refused) -> String {
    match why {
        Refused::Missing => String::from(
            "This code opens nothing. It may be mistyped, used already, or older than ten \
             minutes; ask for a new one.",
        ),
        Refused::Senseless => String::from("Type the code and a name for this device."),
        why => why.to_string(),
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
        (_, true) => "Phone",
        (true, false) => "Tablet",
        (false, false) => "Laptop",
    }
}
