//! What makers call the parts of a card, in English.

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

/// A name within a sentence: "the mat". One that brings its own article, begins
/// with a capital or a number, or ends with a number, stays as it is.
#[gathered]
fn with_article(name: &str) -> String {
    let article = ["the ", "a ", "an "].iter().any(|it| name.starts_with(it));
    let is_noun = name.starts_with(char::is_lowercase) && !name.ends_with(char::is_numeric);
    if is_noun && !article {
        format!("the {name}")
    } else {
        name.to_owned()
    }
}

fn named(name: Option<&str>, missing: &str) -> String {
    name.map_or_else(|| missing.to_owned(), with_article)
}

pub(crate) fn layer(names: &Names<'_>, id: LayerId) -> String {
    named(names.layer(id), "a layer")
}

pub(crate) fn piece(names: &Names<'_>, id: PieceId) -> String {
    named(names.piece(id), "a piece")
}

pub(crate) fn cutout(names: &Names<'_>, id: CutoutId) -> String {
    named(names.cutout(id), "a window")
}

#[gathered]
pub(crate) fn stock(names: &Names<'_>, id: StockId) -> String {
    let stock = names.stock(id);
    stock.map_or_else(|| "its paper".to_owned(), |(name, _)| format!("“{name}”"))
}

pub(crate) fn shaped(names: &Names<'_>, of: Shaped) -> String {
    match of {
        Shaped::Layer(id) => layer(names, id),
        Shaped::Window(id) => cutout(names, id),
    }
}

/// The card base, or a piece by its name.
#[gathered]
pub(crate) fn strip(names: &Names<'_>, of: StripId) -> String {
    match of {
        StripId::Base => "the card base".to_owned(),
        StripId::Piece(id) => piece(names, id),
    }
}

pub(crate) fn part(names: &Names<'_>, part: Part) -> String {
    match part {
        Part::Strip(of) => strip(names, of),
        Part::Layer(id) => layer(names, id),
    }
}

/// "Panel 1", "the front", or of a panel that lines divide "panel 1, part 2".
#[gathered]
pub(crate) fn panel(names: &Names<'_>, id: PanelId) -> String {
    match names.panel(id) {
        None => "a panel".to_owned(),
        Some((name, None)) => with_article(name),
        Some((name, Some(part))) => format!("{}, part {part}", with_article(name)),
    }
}

#[gathered]
pub(crate) fn reacher(names: &Names<'_>, of: Reacher) -> String {
    match of {
        Reacher::Layer(id) => layer(names, id),
        Reacher::Panel(id) => {
            let strip = strip(names, names.strip_with(id));
            format!("{} of {strip}", panel(names, id))
        }
    }
}

/// "the inside of panel 1", "the front of flap".
#[gathered]
pub(crate) fn face(names: &Names<'_>, face: Face) -> String {
    let panel = panel(names, face.panel);
    match (names.strip_with(face.panel), face.side) {
        (StripId::Base, Side::A) => format!("the inside of {panel}"),
        (StripId::Base, Side::B) => format!("the outside of {panel}"),
        (StripId::Piece(_), Side::A) => format!("the front of {panel}"),
        (StripId::Piece(_), Side::B) => format!("the back of {panel}"),
    }
}

/// What a layer lies on.
pub(crate) fn seat(names: &Names<'_>, seat: Seat) -> String {
    match seat {
        Seat::Face(on) => face(names, on),
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

/// A side of the base, "inside" or "outside", or of a piece, "front" or "back".
#[gathered]
pub(crate) fn side(of: StripId, side: Side) -> &'static str {
    match (of, side) {
        (StripId::Base, Side::A) => "inside",
        (StripId::Base, Side::B) => "outside",
        (StripId::Piece(_), Side::A) => "front",
        (StripId::Piece(_), Side::B) => "back",
    }
}

#[gathered]
pub(crate) fn line(names: &Names<'_>, id: LineId) -> String {
    match names.line(id) {
        None => "a crease".to_owned(),
        Some(Called::Score(at)) => format!("the score at {}", names.short(at)),
        Some(Called::PieceScore(of, at)) => {
            format!("the score of {} at {}", piece(names, of), names.short(at))
        }
        Some(Called::Crease(name)) => format!("the crease “{name}”"),
        Some(Called::Cut(name)) => format!("the cut “{name}”"),
    }
}

#[gathered]
pub(crate) fn edge(edge: Edge) -> &'static str {
    match edge {
        Edge::Left => "at the left",
        Edge::Right => "at the right",
        Edge::Top => "at the top",
        Edge::Bottom => "at the bottom",
    }
}

/// More than these are counted.
const MOST_NAMED: usize = 3;

/// "the mat", "the mat and the band", "the mat, the band and the insert".
#[gathered]
pub(crate) fn list(all: &[String]) -> String {
    match all {
        [] => "nothing".to_owned(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// The same of many: the first, and how many more.
#[gathered]
pub(crate) fn short_list(all: &[String]) -> String {
    match all {
        [first, rest @ ..] if all.len() > MOST_NAMED => format!("{first} and {} more", rest.len()),
        all => list(all),
    }
}

pub(crate) fn panels(names: &Names<'_>, ids: &[PanelId]) -> String {
    let called: Vec<_> = ids.iter().map(|id| panel(names, *id)).collect();
    short_list(&called)
}

/// How far something reaches: "13 mm at the right", or past a shaped edge "by up
/// to 4 mm".
#[gathered]
pub(crate) fn far(names: &Names<'_>, edges: &[(Edge, Length)], most: Length) -> String {
    if edges.is_empty() {
        return format!("by up to {}", names.length(ceil(most, names.step()).at));
    }
    if let Some(by) = all_round(edges) {
        return format!("{} all round", names.length(by));
    }
    let edges = edges.iter();
    let edges = edges.map(|(past, by)| format!("{} {}", names.length(*by), edge(*past)));
    list(&edges.collect::<Vec<_>>())
}

/// "2 in from the left and 1 in from the bottom", on a piece with its name.
#[gathered]
pub(crate) fn spot(names: &Names<'_>, of: StripId, at: Point<PieceFrame>) -> String {
    let (left, up) = (names.short(at.x), names.short(at.y));
    match of {
        StripId::Base => format!("{left} from the left and {up} from the bottom"),
        StripId::Piece(id) => format!(
            "{left} from the left and {up} from the bottom of {}",
            piece(names, id)
        ),
    }
}

/// Where a stretch of a line has its middle.
pub(crate) fn middle(names: &Names<'_>, of: StripId, part: &Segment<PieceFrame>) -> String {
    spot(names, of, part.middle())
}

pub(crate) fn measure(names: &Names<'_>, id: MeasureId) -> String {
    names
        .measure(id)
        .unwrap_or("a missing measurement")
        .to_owned()
}

/// "mat width + 2 × border = panel width".
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
        Is::AtLeast => format!("{left} is at least {right}"),
        Is::AtMost => format!("{left} is at most {right}"),
    }
}

/// A weight as on a label: "80 lb cover", "250 g/m²".
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

/// "C6", "A2 announcement", "No. 10", "6 × 9 in booklet", "5 in square".
#[gathered]
pub(crate) fn envelope(envelope: &Envelope) -> String {
    let name = envelope.name;
    match envelope.family {
        EnvelopeFamily::Iso | EnvelopeFamily::Commercial => name.to_owned(),
        EnvelopeFamily::Announcement => format!("{name} announcement"),
        EnvelopeFamily::Booklet => format!("{name} booklet"),
        EnvelopeFamily::Square => format!("{name} square"),
    }
}

/// "A4", "Letter", "Half letter", "8 × 8 in pad".
#[gathered]
pub(crate) fn sheet(sheet: &SheetSize) -> String {
    let name = sheet.name;
    match sheet.form {
        SheetForm::Sheet => name.to_owned(),
        SheetForm::Half => format!("Half {}", name.to_lowercase()),
        SheetForm::Pad => format!("{name} pad"),
    }
}
