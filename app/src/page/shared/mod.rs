//! A recipe somebody else shares by link: read, fitted to the reader's unit
//! and paper, made at the bench, and kept.

mod asked;
mod fit;
mod reader;

use leptos::either::EitherOf3;
use leptos::prelude::*;
use leptos_router::hooks::use_params_map;

use super::page_title;
use crate::spoken::{first, texts};
use crate::stand_in::take_place;
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
                take_place();
                return EitherOf3::A(view! { <Reader asked/> });
            }
            let stands = asked.stands.get();
            if stands != Stands::Asking {
                take_place();
            }
            match stands {
                Stands::Asking => EitherOf3::B(view! {
                    <section class="page message">
                        <h1>{texts().shared.a_shared_recipe}</h1>
                        <p role="status">{texts().shared.fetching}</p>
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
        Stands::Newer => (texts().shared.by_a_newer, texts().shared.written_by_newer),
        Stands::Unreached => (texts().shared.not_here_yet, texts().shared.needs_connection),
        Stands::Asking | Stands::Here | Stands::Nothing => {
            (texts().shared.nothing_shared, texts().shared.not_opened)
        }
    };
    page_title(move || title.to_owned());
    view! {
        <section class="page message">
            <h1>{title}</h1>
            <p>{words}</p>
            <div class="actions">
                <button type="button" class="button primary" on:click=move |_| asked.ask()>
                    {first().try_again}
                </button>
                <a class="button" href="/">{first().to_recipes}</a>
            </div>
        </section>
    }
}
