//! How a card comes out, in German.

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
use crate::nouns::de::{self as nouns, Case};
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
            sentence(format!(
                "{what} bleibt {} davon weg.",
                names.length(inside.gap)
            ))
        }
        OfCard::Placed(of, place) => {
            let what = nouns::shaped(names, of);
            sentence(match place {
                Placing::Distances => format!("{what} ist jetzt mit Abständen platziert."),
                Placing::Border(_) => {
                    format!("{what} hat jetzt ringsum den gleichen Rand.")
                }
                Placing::At(_) => format!("{what} ist jetzt an einem Punkt platziert."),
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
            1 => "Ein Kartenrohling mit 1 Feld, der sich nicht flach falten lässt.".to_owned(),
            panels => {
                format!(
                    "Ein Kartenrohling mit {panels} Feldern, der sich nicht flach falten lässt."
                )
            }
        };
    };
    let front = closed.front.map(|id| nouns::panel(names, id));
    let front = front.as_deref().unwrap_or("nichts");
    let without: Vec<_> = closed
        .without
        .iter()
        .map(|id| nouns::piece(names, *id))
        .collect();
    match (facts.panels, &without[..]) {
        (1, []) => "Eine Karte mit 1 Feld.".to_owned(),
        (1, without) => format!(
            "Eine Karte mit 1 Feld, gezeigt ohne {}.",
            nouns::list(without)
        ),
        (panels, []) => format!("Eine Karte mit {panels} Feldern, vorn {front}."),
        (panels, without) => format!(
            "Eine Karte mit {panels} Feldern, vorn {front}, gezeigt ohne {}.",
            nouns::list(without)
        ),
    }
}

#[gathered]
fn figures(names: &Names<'_>, facts: &Facts) -> String {
    let Some(closed) = &facts.closed else {
        return format!(
            "Kartenrohling {}; er lässt sich nicht flach falten",
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
        [] => format!("Geschlossen {size}, {thick} dick, {mass}"),
        without => format!(
            "Geschlossen {size}, {thick} dick, {mass}, gezeigt ohne {}",
            nouns::list(without)
        ),
    }
}

#[gathered]
fn wraps(names: &Names<'_>, wrap: &Wrap) -> String {
    let line = nouns::line(names, wrap.line, Case::Nominative);
    let room = names.length(ceil(wrap.asked, names.step()).at);
    match wrap.sheets {
        1 => format!("{line} umschließt 1 Lage: Lass dort {room} Platz."),
        sheets => format!("{line} umschließt {sheets} Lagen: Lass dort {room} Platz."),
    }
}

#[gathered]
fn print(names: &Names<'_>, turned: Option<Bearing>) -> String {
    let Some(turned) = turned else {
        return "ohne Richtung".to_owned();
    };
    match turned.looks_like() {
        Some(Turn::None) => "aufrecht".to_owned(),
        Some(Turn::Left) => "auf der Seite, oben ist links".to_owned(),
        Some(Turn::Half) => "auf dem Kopf".to_owned(),
        Some(Turn::Right) => "auf der Seite, oben ist rechts".to_owned(),
        None => match names.slant(turned) {
            (off, true) => format!("um {off} nach links gedreht"),
            (off, false) => format!("um {off} nach rechts gedreht"),
        },
    }
}

/// How many a sheet gives.
#[gathered]
pub(crate) fn per_sheet(count: i64) -> String {
    match count {
        0 => "passt nicht auf den Bogen".to_owned(),
        count => format!("{count} je Bogen"),
    }
}

#[gathered]
fn layer_lies(lies: LayerLies) -> &'static str {
    match lies {
        LayerLies::Head(Turn::None) => "Druck aufrecht",
        LayerLies::Head(Turn::Left) => "Druck auf der Seite, Kopf nach links",
        LayerLies::Head(Turn::Half) => "Druck auf dem Kopf",
        LayerLies::Head(Turn::Right) => "Druck auf der Seite, Kopf nach rechts",
        LayerLies::AlongGrain(true) => "Laufrichtung längs der Falze",
        LayerLies::AlongGrain(false) => "Laufrichtung quer zu den Falzen",
        LayerLies::Across(true) => "Breite quer über den Bogen",
        LayerLies::Across(false) => "Breite den Bogen hinauf",
    }
}

#[gathered]
fn spare(names: &Names<'_>, fit: &EnvelopeFit) -> String {
    let [length, height] = [fit.spare_length, fit.spare_height].map(|it| names.short(it));
    match fit.lies {
        Lies::Upright => format!("etwa {length} Luft in der Länge, {height} in der Höhe"),
        Lies::Turned => {
            format!("etwa {length} Luft in der Länge, {height} in der Höhe, die Karte gedreht")
        }
    }
}
