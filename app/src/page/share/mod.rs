//! Sharing a recipe by link.

mod link;

use foldwright_api::{Refused, Share, share, shares, unshare};
use leptos::either::Either;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::devices::refused;
use crate::part::day;
use crate::spoken::texts;
use crate::store::Store;
use crate::sync::{Member, name};
use link::TheLink;

/// The links of a recipe, and a new one. Without a workshop, what that takes.
#[component]
pub(super) fn ShareIt(
    /// The recipe's name in the store.
    id: String,
) -> impl IntoView {
    let store = expect_context::<Store>();
    // What was tapped to come here is gone.
    let place = NodeRef::<html::Div>::new();
    place.on_load(|place| {
        request_animation_frame(move || {
            // Fails only for an element that is no longer in the page.
            let _ = place.focus();
        });
    });
    let inside = match store.member_now() {
        None => Either::Left(view! {
            <p>
                {texts().share.needs_workshop}
            </p>
            <a class="button primary" href="/devices">{texts().share.to_workshop}</a>
        }),
        Some(member) => Either::Right(view! { <Links sharing=Sharing::new(store, member, &id)/> }),
    };
    view! { <div class="share" tabindex="-1" node_ref=place>{inside}</div> }
}

/// The shares of one recipe.
#[derive(Clone, Copy)]
struct Sharing {
    store: Store,
    key: StoredValue<String>,
    document: StoredValue<String>,
    /// The shares; none before the server has told.
    shares: RwSignal<Option<Vec<Share>>>,
    refused: RwSignal<Option<Refused>>,
    waits: RwSignal<bool>,
}

impl Sharing {
    fn new(store: Store, member: Member, id: &str) -> Self {
        let sharing = Self {
            store,
            key: StoredValue::new(member.key),
            document: StoredValue::new(name::of_recipe(id)),
            shares: RwSignal::new(None),
            refused: RwSignal::new(None),
            waits: RwSignal::new(false),
        };
        sharing.run(async move || Ok(()));
        sharing
    }

    /// Does something at the server and asks for the shares again.
    fn run(self, act: impl AsyncFnOnce() -> Result<(), Refused> + 'static) {
        self.waits.set(true);
        let (key, document) = (self.key.get_value(), self.document.get_value());
        spawn_local(async move {
            let told = match act().await {
                Ok(()) => shares(key).await,
                Err(why) => Err(why),
            };
            // The sheet may be closed by now.
            match told {
                Ok(mut all) => {
                    self.store.know_shares(&all);
                    all.retain(|share| share.document == document);
                    all.sort_by_key(|share| std::cmp::Reverse(share.made));
                    self.shares.try_set(Some(all));
                    self.refused.try_set(None);
                }
                Err(why) => {
                    self.refused.try_set(Some(why));
                }
            }
            self.waits.try_set(false);
        });
    }

    fn begin(self) {
        let (store, key, document) = (self.store, self.key.get_value(), self.document.get_value());
        self.run(async move || {
            let link = share(key, document).await?;
            store.keep_link(&link);
            Ok(())
        });
    }

    fn end(self, id: String) {
        let (store, key) = (self.store, self.key.get_value());
        self.run(async move || {
            unshare(key, id.clone()).await?;
            store.forget_link(&id);
            Ok(())
        });
    }
}

#[component]
fn Links(sharing: Sharing) -> impl IntoView {
    let trouble = move || {
        sharing.refused.get().map(|why| match why {
            Refused::Missing => texts().share.not_at_server.to_owned(),
            other => refused(&other),
        })
    };
    view! {
        <p>
            {texts().share.who_can_read}
        </p>
        <p class="callout warning" role="alert" hidden=move || sharing.refused.with(Option::is_none)>
            {trouble}
        </p>
        <button
            type="button"
            class="button primary"
            disabled=move || sharing.waits.get()
            on:click=move |_| sharing.begin()
        >
            {texts().share.make_link}
        </button>
        <ul class="share-list" aria-label=texts().share.links_of_recipe>
            <For
                each=move || sharing.shares.get().unwrap_or_default()
                key=|share| share.id.clone()
                children=move |share| view! { <OneShare sharing share/> }
            />
        </ul>
    }
}

#[component]
fn OneShare(sharing: Sharing, share: Share) -> impl IntoView {
    let made = day(u64::try_from(share.made).unwrap_or_default() * 1000);
    let id = share.id.clone();
    let link = match sharing.store.link(&share.id) {
        Some(link) => Either::Left(view! { <TheLink link/> }),
        None => Either::Right(view! {
            <p class="quiet">
                {texts().share.made_elsewhere}
            </p>
        }),
    };
    view! {
        <li>
            <span>{texts().share.made_on(&made)}</span>
            <button
                type="button"
                class="button danger"
                disabled=move || sharing.waits.get()
                on:click=move |_| sharing.end(id.clone())
            >
                {texts().share.end_link}
            </button>
            {link}
        </li>
    }
}
