//! What makers call the parts of a card, in German. What the
//! maker named stands in quotation marks, without an article.

use foldwright_engine::length::{Length, ceil};
use foldwright_engine::paper::{
    Envelope, EnvelopeFamily, Grade, SheetForm, SheetSize, StockId, Weight,
};
use foldwright_engine::part::Part;
use foldwright_engine::pattern::LineId;
use foldwright_engine::plane::{Edge, PieceFrame, Point, Segment};
use foldwright_engine::problem::Reacher;
use foldwright_engine::recipe::{
    CutoutId, Face, Is, LayerId, MeasureId, PanelId, PieceId, Relation, Seat, Shaped, Side,
    StripId, Term,
};
use foldwright_gathered::gathered;

use super::all_round;
use crate::names::{Called, Names};

/// What a noun is in its sentence.
#[derive(Clone, Copy)]
pub(crate) enum Case {
    /// Wer oder was.
    Nominative,
    /// Wessen.
    Genitive,
    /// Wem.
    Dative,
    /// Wen oder was.
    Accusative,
}

#[gathered]
fn quoted(name: &str) -> String {
    format!("„{name}“")
}

fn named(name: Option<&str>, missing: &str) -> String {
    name.map_or_else(|| missing.to_owned(), quoted)
}

pub(crate) fn layer(names: &Names<'_>, id: LayerId) -> String {
    named(names.layer(id), "eine Auflage")
}

pub(crate) fn piece(names: &Names<'_>, id: PieceId) -> String {
    named(names.piece(id), "ein Teil")
}

pub(crate) fn cutout(names: &Names<'_>, id: CutoutId) -> String {
    named(names.cutout(id), "ein Ausschnitt")
}

pub(crate) fn stock(names: &Names<'_>, id: StockId) -> String {
    named(names.stock(id).map(|(name, _)| name), "das Papier")
}

pub(crate) fn shaped(names: &Names<'_>, of: Shaped) -> String {
    match of {
        Shaped::Layer(id) => layer(names, id),
        Shaped::Window(id) => cutout(names, id),
    }
}

/// The card base, or a piece by its name, before which "von" stands for whose.
#[gathered]
pub(crate) fn strip(names: &Names<'_>, of: StripId, case: Case) -> String {
    match (of, case) {
        (StripId::Base, Case::Nominative) => "der Kartenrohling".to_owned(),
        (StripId::Base, Case::Genitive) => "des Kartenrohlings".to_owned(),
        (StripId::Base, Case::Dative) => "dem Kartenrohling".to_owned(),
        (StripId::Base, Case::Accusative) => "den Kartenrohling".to_owned(),
        (StripId::Piece(id), Case::Genitive) => format!("von {}", piece(names, id)),
        (StripId::Piece(id), _) => piece(names, id),
    }
}

pub(crate) fn part(names: &Names<'_>, part: Part, case: Case) -> String {
    match part {
        Part::Strip(of) => strip(names, of, case),
        Part::Layer(id) => layer(names, id),
    }
}

#[gathered]
pub(crate) fn panel(names: &Names<'_>, id: PanelId) -> String {
    match names.panel(id) {
        None => "ein Feld".to_owned(),
        Some((name, None)) => quoted(name),
        Some((name, Some(part))) => format!("„{name}“, Teil {part}"),
    }
}

#[gathered]
pub(crate) fn reacher(names: &Names<'_>, of: Reacher) -> String {
    match of {
        Reacher::Layer(id) => layer(names, id),
        Reacher::Panel(id) => {
            let strip = strip(names, names.strip_with(id), Case::Genitive);
            format!("{} {strip}", panel(names, id))
        }
    }
}

#[gathered]
pub(crate) fn face(names: &Names<'_>, face: Face, case: Case) -> String {
    let panel = panel(names, face.panel);
    let article = match case {
        Case::Nominative | Case::Accusative => "die",
        Case::Genitive | Case::Dative => "der",
    };
    match (names.strip_with(face.panel), face.side) {
        (StripId::Base, Side::A) => format!("{article} Innenseite von {panel}"),
        (StripId::Base, Side::B) => format!("{article} Außenseite von {panel}"),
        (StripId::Piece(_), Side::A) => format!("{article} Vorderseite von {panel}"),
        (StripId::Piece(_), Side::B) => format!("{article} Rückseite von {panel}"),
    }
}

/// What a layer lies on.
pub(crate) fn seat(names: &Names<'_>, seat: Seat, case: Case) -> String {
    match seat {
        Seat::Face(on) => face(names, on, case),
        Seat::Layer(id) => layer(names, id),
    }
}

/// The panel a layer lies on, or the layer.
pub(crate) fn carrier(names: &Names<'_>, seat: Seat) -> String {
    match seat {
        Seat::Face(on) => panel(names, on.panel),
        Seat::Layer(id) => layer(names, id),
    }
}

/// A side of the base or of a piece; all are feminine.
#[gathered]
pub(crate) fn side(of: StripId, side: Side) -> &'static str {
    match (of, side) {
        (StripId::Base, Side::A) => "Innenseite",
        (StripId::Base, Side::B) => "Außenseite",
        (StripId::Piece(_), Side::A) => "Vorderseite",
        (StripId::Piece(_), Side::B) => "Rückseite",
    }
}

#[gathered]
pub(crate) fn line(names: &Names<'_>, id: LineId, case: Case) -> String {
    let feminine = match case {
        Case::Nominative | Case::Accusative => "die",
        Case::Genitive | Case::Dative => "der",
    };
    let masculine = match case {
        Case::Nominative => "der",
        Case::Genitive => "des",
        Case::Dative => "dem",
        Case::Accusative => "den",
    };
    match names.line(id) {
        None => format!("{feminine} Falzlinie"),
        Some(Called::Score(at)) => format!("{feminine} Rille bei {}", names.short(at)),
        Some(Called::PieceScore(of, at)) => {
            let (of, at) = (piece(names, of), names.short(at));
            format!("{feminine} Rille von {of} bei {at}")
        }
        Some(Called::Crease(name)) => format!("{feminine} Falzlinie „{name}“"),
        Some(Called::Cut(name)) => match case {
            Case::Genitive => format!("{masculine} Schnitts „{name}“"),
            _ => format!("{masculine} Schnitt „{name}“"),
        },
    }
}

#[gathered]
pub(crate) fn edge(edge: Edge) -> &'static str {
    match edge {
        Edge::Left => "links",
        Edge::Right => "rechts",
        Edge::Top => "oben",
        Edge::Bottom => "unten",
    }
}

/// More than these are counted.
const MOST_NAMED: usize = 3;

#[gathered]
pub(crate) fn list(all: &[String]) -> String {
    match all {
        [] => "nichts".to_owned(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} und {last}", first.join(", ")),
    }
}

/// The same of many: the first, and how many more.
#[gathered]
pub(crate) fn short_list(all: &[String]) -> String {
    match all {
        [first, rest @ ..] if all.len() > MOST_NAMED => {
            format!("{first} und {} weitere", rest.len())
        }
        all => list(all),
    }
}

pub(crate) fn panels(names: &Names<'_>, ids: &[PanelId]) -> String {
    let called: Vec<_> = ids.iter().map(|id| panel(names, *id)).collect();
    short_list(&called)
}

#[gathered]
pub(crate) fn far(names: &Names<'_>, edges: &[(Edge, Length)], most: Length) -> String {
    if edges.is_empty() {
        return format!("um bis zu {}", names.length(ceil(most, names.step()).at));
    }
    if let Some(by) = all_round(edges) {
        return format!("ringsum {}", names.length(by));
    }
    let edges = edges.iter();
    let edges = edges.map(|(past, by)| format!("{} {}", edge(*past), names.length(*by)));
    list(&edges.collect::<Vec<_>>())
}

#[gathered]
pub(crate) fn spot(names: &Names<'_>, of: StripId, at: Point<PieceFrame>) -> String {
    let (left, up) = (names.short(at.x), names.short(at.y));
    match of {
        StripId::Base => format!("{left} von links und {up} von unten"),
        StripId::Piece(id) => format!(
            "{left} von links und {up} von unten auf {}",
            piece(names, id)
        ),
    }
}

/// Where a stretch of a line has its middle.
pub(crate) fn middle(names: &Names<'_>, of: StripId, part: &Segment<PieceFrame>) -> String {
    spot(names, of, part.middle())
}

pub(crate) fn measure(names: &Names<'_>, id: MeasureId) -> String {
    names.measure(id).unwrap_or("ein fehlendes Maß").to_owned()
}

#[gathered]
pub(crate) fn relation(names: &Names<'_>, relation: &Relation) -> String {
    let term = |term: &Term| match term.times {
        1 => measure(names, term.of),
        times => format!("{times} × {}", measure(names, term.of)),
    };
    let left: Vec<_> = relation.left.iter().map(term).collect();
    let mut right: Vec<_> = relation.right.iter().map(term).collect();
    if relation.plus != Length::ZERO || right.is_empty() {
        right.push(names.short(relation.plus));
    }
    let (left, right) = (left.join(" + "), right.join(" + "));
    match relation.is {
        Is::Equal => format!("{left} = {right}"),
        Is::AtLeast => format!("{left} ist mindestens {right}"),
        Is::AtMost => format!("{left} ist höchstens {right}"),
    }
}

/// "250 g/m²", "80 lb cover": the American grades keep their names.
#[gathered]
pub(crate) fn weight(names: &Names<'_>, weight: Weight) -> String {
    match weight {
        Weight::Grammage { tenths } => names.grammage(tenths),
        Weight::Basis { pounds, grade } => match grade {
            Grade::Bond => format!("{pounds} lb bond"),
            Grade::Cover => format!("{pounds} lb cover"),
            Grade::Text => format!("{pounds} lb text"),
            Grade::Index => format!("{pounds} lb index"),
            Grade::Bristol => format!("{pounds} lb bristol"),
            Grade::Tag => format!("{pounds} lb tag"),
        },
    }
}

/// "C6", "A2 (amerikanisch)", "No. 10", "6 × 9 in (Heftumschlag)", "5 in
/// quadratisch".
#[gathered]
pub(crate) fn envelope(envelope: &Envelope) -> String {
    let name = envelope.name;
    match envelope.family {
        EnvelopeFamily::Iso | EnvelopeFamily::Commercial => name.to_owned(),
        EnvelopeFamily::Announcement => format!("{name} (amerikanisch)"),
        EnvelopeFamily::Booklet => format!("{name} (Heftumschlag)"),
        EnvelopeFamily::Square => format!("{name} quadratisch"),
    }
}

/// "A4", "Letter", "Halbes Letter", "Block 8 × 8 in".
#[gathered]
pub(crate) fn sheet(sheet: &SheetSize) -> String {
    let name = sheet.name;
    match sheet.form {
        SheetForm::Sheet => name.to_owned(),
        SheetForm::Half => format!("halbes {name}"),
        SheetForm::Pad => format!("Block {name}"),
    }
}
