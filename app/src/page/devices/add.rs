//! One more device for the workshop.

use std::time::Duration;

use foldwright_api::{Code, code};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::refused;
use crate::reachable::is_this_computer;
use crate::spoken::texts;
use crate::store::{Store, now};

/// What starts the server so that phones reach it.
const FOR_PHONES: &str = "foldwright --bind 0.0.0.0 --tls own";

/// Shows a code, to be scanned or typed, for as long as it is good.
#[component]
pub(super) fn AddDevice() -> impl IntoView {
    let store = expect_context::<Store>();
    let shown = RwSignal::new(None::<(Code, u64)>);
    let wrong = RwSignal::new(None::<String>);
    let left = RwSignal::new(0_u64);
    let ask = move |_| {
        let Some(member) = store.member_now() else {
            return;
        };
        wrong.set(None);
        spawn_local(async move {
            match code(member.key).await {
                Ok(code) => {
                    let until = now() + u64::from(code.seconds) * 1000;
                    left.try_set(u64::from(code.seconds));
                    shown.try_set(Some((code, until)));
                }
                Err(why) => {
                    wrong.try_set(Some(refused(&why)));
                }
            }
        });
    };
    let tick = set_interval_with_handle(
        move || {
            if let Some((_, until)) = shown.get_untracked() {
                let seconds = until.saturating_sub(now()) / 1000;
                left.set(seconds);
                if seconds == 0 {
                    shown.set(None);
                }
            }
        },
        Duration::from_secs(1),
    );
    on_cleanup(move || {
        if let Ok(tick) = tick {
            tick.clear();
        }
    });
    view! {
        <section class="group">
            <h2>{texts().devices.one_more}</h2>
            {move || match shown.get() {
                None => {
                    view! {
                        <p>{texts().devices.show_code_here}</p>
                        <p class="wrong" role="alert">{move || wrong.get()}</p>
                        <button class="button primary" on:click=ask>{texts().devices.show_code}</button>
                    }
                        .into_any()
                }
                Some((code, _)) => view! { <Shown code left/> }.into_any(),
            }}
        </section>
    }
}

#[component]
fn Shown(code: Code, left: RwSignal<u64>) -> impl IntoView {
    let minutes = Memo::new(move |_| left.get().div_ceil(60));
    let good = move || texts().devices.good_once(minutes.get());
    let here_only = is_this_computer(&code.link);
    view! {
        <div class="pairing">
            <div
                class="pairing-picture"
                role="img"
                aria-label=texts().devices.address_for_camera
                inner_html=code.picture
            ></div>
            <div>
                <p class="pairing-code" aria-label=texts().devices.code>{code.code}</p>
                <p role="status">{good}</p>
                <p class="quiet">
                    {texts().devices.no_camera} " "
                    <span class="address">{address(&code.link)}</span>
                </p>
            </div>
        </div>
        <Show when=move || here_only>
            <p class="callout warning">
                {texts().devices.this_computer_only(FOR_PHONES)}
            </p>
        </Show>
    }
}

/// The address without the code and what stands before it.
fn address(link: &str) -> String {
    let end = link.find("/devices").unwrap_or(link.len());
    link.get(..end).unwrap_or(link).to_owned()
}
