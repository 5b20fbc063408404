//! The parts of a card in a few words, in German.

use foldwright_engine::card::LayFacts;
use foldwright_engine::paper::StockSide;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::Edge;
use foldwright_engine::problem::Reach;
use foldwright_engine::recipe::{Change, Die, DrawnLineId, Fold, PanelId, Side, Stacked, StripId};
use foldwright_gathered::gathered;

use super::OfPart;
use crate::card::de as card;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};
use crate::told::sentence;

#[gathered]
pub(crate) fn told(names: &Names<'_>, of: OfPart<'_>) -> String {
    match of {
        OfPart::Face(face) => nouns::face(names, face, Case::Nominative),
        OfPart::Strip(of) => nouns::strip(names, of, Case::Nominative),
        OfPart::Cut(part) => nouns::part(names, part, Case::Nominative),
        OfPart::Panel(id) | OfPart::Sheet(Stacked::Panel(id)) => panel(names, id),
        OfPart::Sheet(Stacked::Layer { layer }) => {
            names.layer(layer).unwrap_or("eine Auflage").to_owned()
        }
        OfPart::LayerBack(id) => format!("die Rückseite von {}", nouns::layer(names, id)),
        OfPart::Line(id) => nouns::line(names, id, Case::Nominative),
        OfPart::Runs(id) => runs(names, id),
        OfPart::Flat(StripId::Base, Side::A) => "der Kartenrohling, Innenseite oben".to_owned(),
        OfPart::Flat(StripId::Base, Side::B) => "der Kartenrohling, Außenseite oben".to_owned(),
        OfPart::Flat(StripId::Piece(id), Side::A) => {
            format!("{}, Vorderseite oben", nouns::piece(names, id))
        }
        OfPart::Flat(StripId::Piece(id), Side::B) => {
            format!("{}, Rückseite oben", nouns::piece(names, id))
        }
        OfPart::On(size, seat) => format!(
            "{} auf {}",
            names.short_size(size),
            nouns::seat(names, seat, Case::Dative)
        ),
        OfPart::Moved(change) => moved(names, change),
        OfPart::Rule(relation) => nouns::relation(names, relation),
        OfPart::MakeFit(reach) => make_fit(names, reach),
        OfPart::Lay(facts) => lay(names, facts),
        OfPart::Die(die) => match die {
            Die::Tag => "Anhänger",
            Die::Ticket => "Hohle Ecken",
            Die::Hexagon => "Sechseck",
            Die::Heart => "Herz",
            Die::Star => "Stern",
            Die::Scallops => "Bögen ringsum",
        }
        .to_owned(),
    }
}

#[gathered]
fn panel(names: &Names<'_>, id: PanelId) -> String {
    match names.panel(id) {
        None => "ein Feld".to_owned(),
        Some((name, None)) => name.to_owned(),
        Some((name, Some(part))) => format!("{name}, Teil {part}"),
    }
}

#[gathered]
fn runs(names: &Names<'_>, id: DrawnLineId) -> String {
    let Some((kind, [from, to])) = names.runs(id) else {
        return String::new();
    };
    let from = format!("{}; {}", names.short(from.x), names.short(from.y));
    let to = format!("{}; {}", names.short(to.x), names.short(to.y));
    match kind {
        LineKind::Crease(Fold::Mountain) => format!("Bergfalz von {from} bis {to}"),
        LineKind::Crease(Fold::Valley) => format!("Talfalz von {from} bis {to}"),
        LineKind::Cut => format!("Schnitt von {from} bis {to}"),
    }
}

#[gathered]
fn moved(names: &Names<'_>, change: &Change) -> String {
    format!(
        "{}: {} → {}",
        nouns::measure(names, change.measure),
        names.plain(change.from),
        names.short(change.to)
    )
}

#[gathered]
fn make_fit(names: &Names<'_>, reach: &Reach) -> String {
    let what = nouns::reacher(names, reach.of);
    match reach.fits {
        Some(size) => format!("{what} auf {} bringen", names.short_size(size)),
        None => format!("{what} passend machen"),
    }
}

#[gathered]
fn lay(names: &Names<'_>, facts: &LayFacts) -> String {
    let way = if facts.across {
        "Länge quer über den Bogen"
    } else {
        "Länge den Bogen hinauf"
    };
    let first = match facts.first {
        Some(id) => panel(names, id),
        None => "linke Kante".to_owned(),
    };
    let at = match facts.at {
        Edge::Left => "links",
        Edge::Right => "rechts",
        Edge::Top => "oben",
        Edge::Bottom => "unten",
    };
    let mut told = vec![way.to_owned(), sentence(format!("{first} {at}"))];
    told.extend(facts.outside.map(|side| {
        match (side, facts.of) {
            (StockSide::Face, StripId::Base) => "Schauseite außen",
            (StockSide::Back, StripId::Base) => "Papierrückseite außen",
            (StockSide::Face, StripId::Piece(_)) => "Schauseite hinten",
            (StockSide::Back, StripId::Piece(_)) => "Schauseite vorn",
        }
        .to_owned()
    }));
    told.push(card::per_sheet(facts.per_sheet));
    // What does not fit is never read.
    told.extend(match (facts.per_sheet, facts.upright) {
        (0, _) | (_, (0, _)) => None,
        (_, (1, 1)) => Some("die Seite aufrecht".to_owned()),
        (_, (marked, upright)) => Some(format!("{upright} von {marked} Seiten aufrecht")),
    });
    told.join(" · ")
}
