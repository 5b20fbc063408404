//! The reader's version of a shared recipe.

use leptos::either::Either;
use leptos::prelude::*;

use super::super::one_recipe::CannotOpen;
use super::super::page_title;
use super::asked::{Asked, Stands};
use super::fit::FitIt;
use crate::notice::{Notice, Notices};
use crate::part::{Icon, Symbol};
use crate::shared::{WholeCard, with_notes};
use crate::spoken::{first, texts};
use crate::store::{Open, version_id};

/// The card, and what its reader can do with it.
#[component]
pub(super) fn Reader(asked: Asked) -> impl IntoView {
    let token = asked.token.get_value();
    if let Some(guest) = asked.guest.get_untracked() {
        asked
            .store
            .begin_version(&token, &asked.first(&guest.shared));
    }
    match asked.store.open(&version_id(&token)) {
        Ok(open) => {
            page_title(move || open.recipe.with(|recipe| recipe.name.clone()));
            Either::Left(view! { <Version asked open/> })
        }
        Err(why) => Either::Right(view! { <CannotOpen why/> }),
    }
}

#[component]
fn Version(asked: Asked, open: Open) -> impl IntoView {
    let store = asked.store;
    let from = Memo::new(move |_| {
        let from = asked.guest.with(|guest| Some(guest.as_ref()?.from.clone()));
        from.unwrap_or_default()
    });
    view! {
        <section class="page shared">
            <h1>{move || open.recipe.with(|recipe| recipe.name.clone())}</h1>
            <Show when=move || !from.with(String::is_empty)>
                <p class="quiet">{move || texts().shared.shared_by(&from.get())}</p>
            </Show>
            <News asked open/>
            <Ways asked open/>
            <FitIt asked open/>
            {move || {
                let recipe = open.recipe.get();
                view! { <WholeCard recipe tools=store.settings().tools()/> }
            }}
        </section>
    }
}

/// What has become of what is shared.
#[component]
fn News(asked: Asked, open: Open) -> impl IntoView {
    let notices = expect_context::<Notices>();
    let has = move |what: fn(&crate::store::Guest) -> bool| {
        Memo::new(move |_| asked.guest.with(|guest| guest.as_ref().is_some_and(what)))
    };
    let newer = has(|guest| guest.newer.is_some());
    let ended = has(|guest| guest.ended);
    let take = move |_| {
        let Some(guest) = asked.guest.get_untracked() else {
            return;
        };
        let Some(newer) = guest.newer else { return };
        let before = open.recipe.get_untracked();
        let taken = with_notes(asked.first(&newer), &before, &guest.shared);
        open.history.edit(|recipe| *recipe = taken);
        let old = guest.shared;
        asked.change(|guest| {
            guest.shared = newer;
            guest.newer = None;
        });
        let back = move || {
            open.recipe.try_set(before.clone());
            asked.change(|guest| {
                let newer = std::mem::replace(&mut guest.shared, old.clone());
                guest.newer = Some(newer);
            });
        };
        notices.show(Notice::plain(texts().shared.is_newer_card).with(first().undo, back));
    };
    view! {
        <div role="status">
            <Show when=move || newer.get()>
                <div class="callout">
                    <p>{texts().shared.has_changed}</p>
                    <button type="button" class="button" on:click=take>{texts().shared.take_newer}</button>
                </div>
            </Show>
            <Show when=move || ended.get()>
                <p class="callout">
                    {texts().shared.has_ended}
                </p>
            </Show>
            <Show when=move || asked.stands.get() == Stands::Unreached>
                <p class="quiet">{texts().shared.no_connection}</p>
            </Show>
            <Show when=move || asked.stands.get() == Stands::Newer>
                <p class="callout">
                    {texts().shared.newer_has_changed}
                </p>
            </Show>
        </div>
    }
}

/// To the bench, into one's own recipes, onto paper.
#[component]
fn Ways(asked: Asked, open: Open) -> impl IntoView {
    let store = asked.store;
    let notices = expect_context::<Notices>();
    let bench = asked
        .token
        .with_value(|token| format!("/bench/{}", version_id(token)));
    let own = Memo::new(move |_| {
        let own = asked.guest.with(|guest| guest.as_ref()?.own.clone())?;
        // It may have been deleted since.
        store.has(&own).then_some(own)
    });
    let keep = move |_| {
        let version = open.recipe.get_untracked();
        let kept = asked
            .token
            .with_value(|token| store.keep_version(token, &version));
        let Some(kept) = kept else { return };
        asked.change(|guest| guest.own = Some(kept.clone()));
        notices.show(Notice::plain(texts().shared.among_yours(&version.name)));
    };
    view! {
        <div class="shared-ways">
            <a class="button primary" href=bench><Icon symbol=Symbol::Bench/> {texts().list.to_the_bench}</a>
            {move || match own.get() {
                None => Either::Left(view! {
                    <button type="button" class="button" on:click=keep>{texts().shared.keep_it}</button>
                }),
                Some(own) => Either::Right(view! {
                    <a class="button" href=format!("/recipe/{own}")>{texts().shared.open_copy}</a>
                }),
            }}
            <button
                type="button"
                class="button"
                on:click=move |_| {
                    // Fails only where the browser does not print.
                    let _ = window().print();
                }
            >
                {texts().shared.print}
            </button>
            <Show when=move || open.history.can_undo()>
                <button type="button" class="button" on:click=move |_| open.history.undo()>
                    <Icon symbol=Symbol::Undo/> {first().undo}
                </button>
            </Show>
        </div>
    }
}
