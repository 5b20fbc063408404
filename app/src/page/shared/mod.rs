//! A recipe somebody else shares by link: read, fitted to the reader's unit
//! and paper, made at the bench, and kept.

mod asked;
mod fit;
mod reader;

use leptos::either::EitherOf3;
use leptos::prelude::*;
use leptos_router::hooks::use_params_map;

use super::page_title;
use crate::shared::{NOT_OPENED, NOTHING_SHARED};
use asked::{Asked, Stands};
use reader::Reader;

/// What the link in the address opens.
#[component]
pub(crate) fn OfLink() -> impl IntoView {
    let address = use_params_map();
    let token = Memo::new(move |_| address.with(|address| address.get("token")));
    move || {
        let asked = Asked::new(token.get().unwrap_or_default());
        asked.ask();
        let is_here = Memo::new(move |_| asked.guest.with(Option::is_some));
        move || {
            if is_here.get() {
                return EitherOf3::A(view! { <Reader asked/> });
            }
            match asked.stands.get() {
                Stands::Asking => EitherOf3::B(view! {
                    <section class="page message">
                        <h1>"A shared recipe"</h1>
                        <p role="status">"Fetching it …"</p>
                    </section>
                }),
                stands => EitherOf3::C(view! { <NotHere asked stands/> }),
            }
        }
    }
}

/// Why nothing is shown.
#[component]
fn NotHere(asked: Asked, stands: Stands) -> impl IntoView {
    let (title, words) = match stands {
        Stands::Newer => (
            "Shared by a newer Foldwright",
            "This recipe was written by a newer Foldwright. Close all Foldwright tabs and open \
             the link again to get the newer one.",
        ),
        Stands::Unreached => (
            "Not on this device yet",
            "The server can’t be reached now. Once this page has been opened with a connection, \
             it also opens without one.",
        ),
        Stands::Asking | Stands::Here | Stands::Nothing => (NOTHING_SHARED, NOT_OPENED),
    };
    page_title(move || title.to_owned());
    view! {
        <section class="page message">
            <h1>{title}</h1>
            <p>{words}</p>
            <div class="actions">
                <button type="button" class="button primary" on:click=move |_| asked.ask()>
                    "Try again"
                </button>
                <a class="button" href="/">"To the recipes"</a>
            </div>
        </section>
    }
}
