//! How a card comes out, in English.

use foldwright_engine::allowance::Wrap;
use foldwright_engine::card::Facts;
use foldwright_engine::lay::LayerLies;
use foldwright_engine::length::ceil;
use foldwright_engine::paper::{EnvelopeFit, Lies};
use foldwright_engine::plane::{Bearing, Turn};
use foldwright_engine::problem::Contents;
use foldwright_engine::recipe::Placing;
use foldwright_gathered::gathered;

use super::OfCard;
use crate::names::Names;
use crate::nouns::en as nouns;
use crate::told::sentence;

#[gathered]
pub(crate) fn told(names: &Names<'_>, of: OfCard<'_>) -> String {
    match of {
        OfCard::Whole(facts) => whole(names, facts),
        OfCard::Figures(facts) => figures(names, facts),
        OfCard::Wraps(wrap) => sentence(wraps(names, wrap)),
        OfCard::Stays(inside) => {
            let what = match inside.what {
                Contents::Panel(id) => nouns::panel(names, id),
                Contents::Layer(id) => nouns::layer(names, id),
            };
            sentence(format!("{what} stays {} away.", names.length(inside.gap)))
        }
        OfCard::Placed(of, place) => {
            let what = nouns::shaped(names, of);
            sentence(match place {
                Placing::Distances => format!("{what} is placed by its distances now."),
                Placing::Border(_) => format!("{what} is placed by an even border now."),
                Placing::At(_) => format!("{what} is placed at a point now."),
            })
        }
        OfCard::Print(turned) => print(names, turned),
        OfCard::Spare(fit) => spare(names, fit),
        OfCard::LayerLies(lies) => layer_lies(lies).to_owned(),
        OfCard::PerSheet(count) => per_sheet(count),
    }
}

#[gathered]
fn whole(names: &Names<'_>, facts: &Facts) -> String {
    let Some(closed) = &facts.closed else {
        return match facts.panels {
            1 => "A card base of 1 panel that does not fold flat.".to_owned(),
            panels => format!("A card base of {panels} panels that does not fold flat."),
        };
    };
    let front = closed.front.map(|id| nouns::panel(names, id));
    let front = front.as_deref().unwrap_or("nothing");
    let without: Vec<_> = closed
        .without
        .iter()
        .map(|id| nouns::piece(names, *id))
        .collect();
    match (facts.panels, &without[..]) {
        (1, []) => "A card of 1 panel.".to_owned(),
        (1, without) => format!("A card of 1 panel, shown without {}.", nouns::list(without)),
        (panels, []) => format!("A card of {panels} panels, with {front} in front."),
        (panels, without) => format!(
            "A card of {panels} panels, with {front} in front. It is shown without {}.",
            nouns::list(without)
        ),
    }
}

#[gathered]
fn figures(names: &Names<'_>, facts: &Facts) -> String {
    let Some(closed) = &facts.closed else {
        return format!(
            "Card base {}; it does not fold flat",
            names.short_size(facts.flat)
        );
    };
    let size = names.short_size(closed.size);
    let (thick, mass) = (names.tenths(closed.thickness), names.grams(closed.mass));
    let without: Vec<_> = closed
        .without
        .iter()
        .map(|id| nouns::piece(names, *id))
        .collect();
    match &without[..] {
        [] => format!("Closed {size}, {thick} thick, {mass}"),
        without => format!(
            "Closed {size}, {thick} thick, {mass}, shown without {}",
            nouns::list(without)
        ),
    }
}

#[gathered]
fn wraps(names: &Names<'_>, wrap: &Wrap) -> String {
    let line = nouns::line(names, wrap.line);
    let room = names.length(ceil(wrap.asked, names.step()).at);
    match wrap.sheets {
        1 => format!("{line} wraps 1 sheet: allow {room}."),
        sheets => format!("{line} wraps {sheets} sheets: allow {room}."),
    }
}

#[gathered]
fn print(names: &Names<'_>, turned: Option<Bearing>) -> String {
    let Some(turned) = turned else {
        return "no direction".to_owned();
    };
    match turned.looks_like() {
        Some(Turn::None) => "upright".to_owned(),
        Some(Turn::Left) => "on its side, its head to the left".to_owned(),
        Some(Turn::Half) => "upside down".to_owned(),
        Some(Turn::Right) => "on its side, its head to the right".to_owned(),
        None => match names.slant(turned) {
            (off, true) => format!("{off} to the left of upright"),
            (off, false) => format!("{off} to the right of upright"),
        },
    }
}

/// How many a sheet gives.
#[gathered]
pub(crate) fn per_sheet(count: i64) -> String {
    match count {
        0 => "does not fit the sheet".to_owned(),
        count => format!("{count} a sheet"),
    }
}

#[gathered]
fn layer_lies(lies: LayerLies) -> &'static str {
    match lies {
        LayerLies::Head(Turn::None) => "Print upright",
        LayerLies::Head(Turn::Left) => "Print on its side, its head to the left",
        LayerLies::Head(Turn::Half) => "Print upside down",
        LayerLies::Head(Turn::Right) => "Print on its side, its head to the right",
        LayerLies::AlongGrain(true) => "Grain along the folds",
        LayerLies::AlongGrain(false) => "Grain across the folds",
        LayerLies::Across(true) => "Width across the sheet",
        LayerLies::Across(false) => "Width up the sheet",
    }
}

#[gathered]
fn spare(names: &Names<'_>, fit: &EnvelopeFit) -> String {
    let [length, height] = [fit.spare_length, fit.spare_height].map(|it| names.short(it));
    match fit.lies {
        Lies::Upright => format!("about {length} to spare in length, {height} in height"),
        Lies::Turned => {
            format!("about {length} to spare in length, {height} in height, the card turned")
        }
    }
}
