//! How much of what is not paper is on hand.

use foldwright_engine::card::Supplied;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Supply, Takes};
use foldwright_words::ClassTongue;
use leptos::either::Either;
use leptos::prelude::*;

use super::super::field::LengthField;
use crate::part::Typed;
use crate::sync::{Syncing, counted, on_hand, supply_key};

/// The most pieces that can be counted. Our own bound: several of the largest packs.
const MOST: u32 = 999_999;

/// What is on hand of supplies, once that is here.
#[derive(Clone, Copy)]
pub(super) struct Stocked(Option<Signal<Option<Syncing>>>);

impl Stocked {
    /// That of this workshop.
    pub(super) fn here() -> Self {
        Self(use_context())
    }

    fn syncing(self) -> Option<Syncing> {
        self.0?.get()
    }

    /// How much of a supply there is; `None` where nobody counts it. Tracks.
    pub(super) fn of(self, supply: &Supply) -> Option<Supplied> {
        on_hand(&self.syncing()?.paper(), supply)
    }

    /// Counts so much of it from now on. Tracks nothing.
    fn set(self, supply: &Supply, now: Supplied) {
        let before = untrack(|| self.of(supply)).map_or(0, counted);
        if let Some(syncing) = untrack(|| self.syncing()) {
            syncing.add_paper(&supply_key(supply), counted(now) - before);
        }
    }
}

/// How much of it there is, to be changed.
#[component]
pub(super) fn SupplyOnHand(
    say: &'static dyn ClassTongue,
    supply: Memo<Option<Supply>>,
) -> impl IntoView {
    let stocked = Stocked::here();
    let now = Memo::new(move |_| supply.with(|it| stocked.of(it.as_ref()?)));
    let set = move |now: Supplied| {
        supply.with_untracked(|it| it.iter().for_each(|it| stocked.set(it, now)));
    };
    let takes = supply.with_untracked(|it| it.as_ref().map(|it| it.takes));
    if matches!(takes, Some(Takes::Ribbon { .. })) {
        let length = Signal::derive(move || match now.get() {
            Some(Supplied::Length(length)) => length,
            _ => Length::ZERO,
        });
        Either::Left(view! {
            <LengthField
                label=say.texts().length_on_hand
                length
                set=move |length: Length| set(Supplied::Length(length.max(Length::ZERO)))
            />
        })
    } else {
        let kept = Signal::derive(move || match now.get() {
            Some(Supplied::Count(count)) => count.to_string(),
            _ => String::new(),
        });
        let take = move |typed: &str| {
            let is_left_open = typed.trim().is_empty() && now.get_untracked().is_none();
            match typed.trim().parse() {
                Ok(count @ 0..=MOST) => set(Supplied::Count(count)),
                _ if is_left_open => {}
                _ => return Err(say.texts().no_count.to_owned()),
            }
            Ok(())
        };
        Either::Right(view! { <Typed label=say.texts().on_hand keys="numeric" kept take/> })
    }
}
