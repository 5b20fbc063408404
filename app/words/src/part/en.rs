//! The parts of a card in a few words, in English.

use foldwright_engine::card::LayFacts;
use foldwright_engine::paper::StockSide;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::Edge;
use foldwright_engine::problem::Reach;
use foldwright_engine::recipe::{Change, Die, DrawnLineId, Fold, PanelId, Side, Stacked, StripId};
use foldwright_gathered::gathered;

use super::OfPart;
use crate::card::en as card;
use crate::names::Names;
use crate::nouns::en as nouns;
use crate::told::sentence;

#[gathered]
pub(crate) fn told(names: &Names<'_>, of: OfPart<'_>) -> String {
    match of {
        OfPart::Face(face) => nouns::face(names, face),
        OfPart::Strip(of) => nouns::strip(names, of),
        OfPart::Cut(part) => nouns::part(names, part),
        OfPart::Panel(id) | OfPart::Sheet(Stacked::Panel(id)) => panel(names, id),
        OfPart::Sheet(Stacked::Layer { layer }) => {
            names.layer(layer).unwrap_or("a layer").to_owned()
        }
        OfPart::LayerBack(id) => format!("the back of {}", nouns::layer(names, id)),
        OfPart::Line(id) => nouns::line(names, id),
        OfPart::Runs(id) => runs(names, id),
        OfPart::Flat(StripId::Base, Side::A) => "the card base, inside up".to_owned(),
        OfPart::Flat(StripId::Base, Side::B) => "the card base, outside up".to_owned(),
        OfPart::Flat(StripId::Piece(id), Side::A) => {
            format!("{}, front up", nouns::piece(names, id))
        }
        OfPart::Flat(StripId::Piece(id), Side::B) => {
            format!("{}, back up", nouns::piece(names, id))
        }
        OfPart::On(size, seat) => {
            format!("{} on {}", names.short_size(size), nouns::seat(names, seat))
        }
        OfPart::Moved(change) => moved(names, change),
        OfPart::Rule(relation) => nouns::relation(names, relation),
        OfPart::MakeFit(reach) => make_fit(names, reach),
        OfPart::Lay(facts) => lay(names, facts),
        OfPart::Die(die) => match die {
            Die::Tag => "Tag",
            Die::Ticket => "Hollow corners",
            Die::Hexagon => "Hexagon",
            Die::Heart => "Heart",
            Die::Star => "Star",
            Die::Scallops => "Scallops all round",
        }
        .to_owned(),
    }
}

#[gathered]
fn panel(names: &Names<'_>, id: PanelId) -> String {
    match names.panel(id) {
        None => "a panel".to_owned(),
        Some((name, None)) => name.to_owned(),
        Some((name, Some(part))) => format!("{name}, part {part}"),
    }
}

#[gathered]
fn runs(names: &Names<'_>, id: DrawnLineId) -> String {
    let Some((kind, [from, to])) = names.runs(id) else {
        return String::new();
    };
    let from = format!("{}, {}", names.short(from.x), names.short(from.y));
    let to = format!("{}, {}", names.short(to.x), names.short(to.y));
    match kind {
        LineKind::Crease(Fold::Mountain) => format!("Mountain from {from} to {to}"),
        LineKind::Crease(Fold::Valley) => format!("Valley from {from} to {to}"),
        LineKind::Cut => format!("Cut from {from} to {to}"),
    }
}

#[gathered]
fn moved(names: &Names<'_>, change: &Change) -> String {
    format!(
        "{} {} → {}",
        nouns::measure(names, change.measure),
        names.plain(change.from),
        names.short(change.to)
    )
}

#[gathered]
fn make_fit(names: &Names<'_>, reach: &Reach) -> String {
    let what = nouns::reacher(names, reach.of);
    match reach.fits {
        Some(size) => format!("Make {what} {}", names.short_size(size)),
        None => format!("Make {what} fit"),
    }
}

/// "Length across the sheet · Front at the right · face outside · 2 a sheet · 1 of 2
/// sides upright".
#[gathered]
fn lay(names: &Names<'_>, facts: &LayFacts) -> String {
    let way = if facts.across {
        "Length across the sheet"
    } else {
        "Length up the sheet"
    };
    let first = match facts.first {
        Some(id) => panel(names, id),
        None => "its left edge".to_owned(),
    };
    let at = match facts.at {
        Edge::Left => "at the left",
        Edge::Right => "at the right",
        Edge::Top => "at the top",
        Edge::Bottom => "at the bottom",
    };
    let mut told = vec![way.to_owned(), sentence(format!("{first} {at}"))];
    told.extend(facts.outside.map(|side| {
        match (side, facts.of) {
            (StockSide::Face, StripId::Base) => "face outside",
            (StockSide::Back, StripId::Base) => "back outside",
            (StockSide::Face, StripId::Piece(_)) => "face on its back",
            (StockSide::Back, StripId::Piece(_)) => "face on its front",
        }
        .to_owned()
    }));
    told.push(card::per_sheet(facts.per_sheet));
    // What does not fit is never read.
    told.extend(match (facts.per_sheet, facts.upright) {
        (0, _) | (_, (0, _)) => None,
        (_, (1, 1)) => Some("its side upright".to_owned()),
        (_, (marked, upright)) => Some(format!("{upright} of {marked} sides upright")),
    });
    told.join(" · ")
}
