//! What cards weigh in their envelopes, and how each post takes one.

use foldwright_engine::card::Card;
use foldwright_engine::length::Length;
use foldwright_engine::paper::Country;
use foldwright_engine::post::{Posted, PostedIn, posted};
use foldwright_engine::recipe::Recipe;
use foldwright_words::{ClassTongue, OfClass};
use leptos::either::Either;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pull_down::Pick;
use crate::part::heard;
use crate::spoken::speaker;

/// In which envelope a card is posted, and what comes of that.
#[component]
pub(super) fn Post(say: &'static dyn ClassTongue, cards: Memo<u32>) -> impl IntoView {
    let desk = Desk::here();
    let of_papers = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let made = recipe.stocks.iter().map(|stock| {
                let words = say.told(recipe, OfClass::MadeOf(&stock.name));
                (Some(stock.id), words)
            });
            let bought = (None, say.texts().bought_envelope.to_owned());
            std::iter::once(bought).chain(made).collect::<Vec<_>>()
        })
    });
    let chosen = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let of = recipe.posting.made_of?;
            Some(recipe.stock(of)?.id)
        })
    });
    let choose = move |of| desk.change(|recipe| recipe.posting.made_of = of);
    view! {
        <Pick label=say.texts().which_envelope options=of_papers chosen choose/>
        {move || {
            desk.recipe.with(|recipe| desk.card.with(|card| taken(say, (recipe, card), cards.get())))
        }}
    }
}

fn taken(
    say: &'static dyn ClassTongue,
    (recipe, card): (&Recipe, &Card),
    cards: u32,
) -> impl IntoView + use<> {
    let Some(Posted { envelope, mail }) = posted(recipe, card) else {
        return Either::Left(view! { <p>{say.texts().no_envelope}</p> });
    };
    let (called, counted) = match envelope {
        PostedIn::Bought(envelope) => {
            let called = speaker(recipe).envelope(envelope);
            (called, say.texts().envelope_paper)
        }
        PostedIn::Made { of, .. } => {
            let paper = recipe.stock(of).map(|stock| stock.name.clone());
            (paper.unwrap_or_default(), say.texts().made_counted)
        }
    };
    let weighs = OfClass::Weighs {
        envelope: &called,
        is_made: matches!(envelope, PostedIn::Made { .. }),
        mail,
        cards,
    };
    let told = |of| heard(say.told(recipe, of));
    // Less is told as nothing.
    let varies = (mail.uneven >= Length::microns(50)).then(|| {
        view! { <p>{told(OfClass::Varies(mail.uneven))}</p> }
    });
    let besides = (!recipe.supplies.is_empty()).then(|| {
        view! { <p>{say.texts().supplies_not_weighed}</p> }
    });
    let posts = Country::ALL.map(|country| {
        let taken = country.takes(mail);
        let because = taken.because.iter();
        let because: Vec<_> = because
            .map(|past| say.told(recipe, OfClass::Past(country, *past)))
            .collect();
        let why = (!because.is_empty()).then(|| {
            view! {
                <span class="quiet">
                    {say.texts().why_not_cheaper} ": " {heard(because.join(" "))}
                </span>
            }
        });
        let doubts = country.doubts().iter();
        let doubts = doubts.map(|doubt| {
            view! { <span class="quiet">{told(OfClass::Doubt(country, *doubt))}</span> }
        });
        view! {
            <li class="post">
                <b>{told(OfClass::Country(country))}</b>
                <span>{told(OfClass::Letter(taken.class.map(|class| class.is)))}</span>
                {why}
                {doubts.collect_view()}
                <span class="quiet">{told(OfClass::Source(country))}</span>
            </li>
        }
    });
    Either::Right(view! {
        <p>{told(weighs)} " " <span class="quiet">{counted}</span></p>
        {varies}
        {besides}
        <ul class="rows posts">{posts.into_iter().collect_view()}</ul>
        <p class="callout">{say.texts().stiff} " " {say.texts().ask_post}</p>
    })
}
