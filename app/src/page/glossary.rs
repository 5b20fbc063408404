//! The words of the trade, with figures drawn from cards.

use foldwright_engine::card::work_out;
use foldwright_engine::draw::{flat, state, svg};
use foldwright_engine::faces::View;
use foldwright_engine::recipe::{Side, StripId};
use foldwright_words::{Explained, Group, Term};
use leptos::prelude::*;

use super::page_title;
use crate::album::address;
use crate::part::{InSpace, Pictured};
use crate::samples::SAMPLES;
use crate::spoken::{first, language};
use crate::store::{Settings, Store};

/// All words, each at an address of its own on this page.
#[component]
pub(crate) fn Glossary() -> impl IntoView {
    page_title(|| first().words_of_trade.to_owned());
    // The page is here later than the browser looks for the word.
    request_animation_frame(|| {
        let asked = window().location().hash().unwrap_or_default();
        let word = document().get_element_by_id(asked.trim_start_matches('#'));
        if let Some(word) = word {
            word.scroll_into_view();
        }
    });
    let groups = Group::ALL.map(|group| view! { <OneGroup group/> });
    view! {
        <section class="page glossary">
            <h1>{first().words_of_trade}</h1>
            {groups.into_iter().collect_view()}
        </section>
    }
}

#[component]
fn OneGroup(group: Group) -> impl IntoView {
    let terms = group
        .terms()
        .iter()
        .map(|term| view! { <OneTerm term=*term/> });
    let terms = terms.collect_view();
    let settings = expect_context::<Store>().settings();
    let figure = figure(group, &settings).map(|figure| {
        view! { <div class="glossary-figure">{figure}</div> }
    });
    view! {
        <section class="group">
            <h2>{language().about(group)}</h2>
            {figure}
            <dl>{terms}</dl>
        </section>
    }
}

#[component]
fn OneTerm(term: Term) -> impl IntoView {
    let Explained { word, means } = language().explained(term);
    view! {
        <dt id=term.anchor()>{word}</dt>
        <dd>{means}</dd>
    }
}

/// The finished card of a workshop that shows what a group is about, and how it is
/// looked at.
const fn example(group: Group) -> Option<(&'static str, Look)> {
    Some(match group {
        Group::Card => ("z", Look::HalfOpen),
        Group::Folds => ("z", Look::Flat),
        Group::Layers => ("tent", Look::Closed),
        Group::Paper => ("gate", Look::Heads),
        Group::Tools | Group::Making => return None,
    })
}

#[derive(Clone, Copy)]
enum Look {
    HalfOpen,
    Flat,
    Closed,
    /// Flat from outside, with the direction of the print.
    Heads,
}

/// What a group is about, drawn; nothing where that is no part of a card.
fn figure(group: Group, settings: &Settings) -> Option<AnyView> {
    let (fold, look) = example(group)?;
    let sample = SAMPLES.iter().find(|sample| sample.fold == fold)?;
    let recipe = sample
        .recipe(language().samples(), settings.notation)
        .ok()?;
    let card = work_out(&recipe, &settings.tools());
    let name = format!("{fold}{}", look as u8);
    let drawing = match look {
        Look::HalfOpen => return Some(view! { <InSpace recipe card name/> }.into_any()),
        Look::Flat => flat(&recipe, &card, StripId::Base, Side::A),
        Look::Closed => state(&recipe, &card, 0, View::Front),
        Look::Heads => flat(&recipe, &card, StripId::Base, Side::B).with_heads(),
    };
    let drawn = svg(&drawing, &name, &address);
    Some(view! { <Pictured drawn class="in-space"/> }.into_any())
}
