//! The two things asked of a card first: how large it is, and of which paper.

use foldwright_engine::card::Card;
use leptos::prelude::*;

use super::desk::{Desk, Section};
use crate::part::{Swatch, heard, told};
use crate::spoken::{speaker, texts};

/// The closed size with the envelope it goes into, and the paper of the base; a tap
/// leads to where each is changed.
#[component]
pub(super) fn Essentials() -> impl IntoView {
    let desk = Desk::here();
    let size = Memo::new(move |_| {
        let facts = desk.card.with(Card::facts);
        let (label, size) = match facts.closed {
            Some(closed) => (texts().desk.closed, closed.size),
            None => (texts().desk.flat, facts.flat),
        };
        desk.recipe
            .with(|recipe| (label, speaker(recipe).with_exact().short_size(size)))
    });
    let envelope = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let envelope = desk.card.with(|card| card.envelope(recipe))?;
            Some(speaker(recipe).envelope(envelope))
        })
    });
    let paper = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let stock = recipe.stock(recipe.base.stock)?;
            Some((stock.name.clone(), stock.face))
        })
    });
    let look = Signal::derive(move || paper.with(|paper| Some(paper.as_ref()?.1)));
    view! {
        <div class="essentials">
            <button type="button" class="essential" on:click=move |_| desk.show(Section::Refit)>
                <span class="number-label">{move || size.with(|(label, _)| *label)}</span>
                <b>{move || told(size.with(|(_, size)| size.clone()))}</b>
                <span class="quiet">{move || envelope.get().map(heard)}</span>
            </button>
            <button type="button" class="essential" on:click=move |_| desk.show(Section::Paper)>
                <span class="number-label">{texts().desk.paper}</span>
                <b>{move || paper.get().map(|(name, _)| name)}</b>
                <Swatch look/>
            </button>
        </div>
    }
}
