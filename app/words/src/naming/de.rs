//! What new things are called, in German.

use foldwright_engine::paper::ReadyPaper;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::recipe::{Direction, End, LayerKind, Listed, ListedPanel, New, Role};
use foldwright_gathered::gathered;

use crate::nouns::de as nouns;

#[gathered]
pub(crate) fn name(new: New<'_>) -> String {
    match new {
        New::Panel(number) => format!("Feld {number}"),
        New::Layer(LayerKind::Mat) => "Auflage".to_owned(),
        New::Layer(LayerKind::Focal) => "Blickfang".to_owned(),
        New::Layer(LayerKind::Insert) => "Einlage".to_owned(),
        New::Piece(number) => format!("Teil {number}"),
        New::Tab => "Klebelasche".to_owned(),
        New::Flap => "Klappe".to_owned(),
        New::Window => "Fenster".to_owned(),
        New::Corners => "Ecken".to_owned(),
        New::Edge => "Kante".to_owned(),
        New::Line(LineKind::Crease(_), number) => format!("Falz {number}"),
        New::Line(LineKind::Cut, number) => format!("Schnitt {number}"),
        New::Again(name, number) => format!("{name} {number}"),
        New::Measure(part, role) => measure(part, role),
        New::WidthOn(piece, panel) => format!("Breite {panel}, {piece}"),
        New::Paper(paper) => paper_in_its_size(paper).to_owned(),
        New::PaperIn(paper, sheet) => format!("{}, {}", self::paper(paper), nouns::sheet(sheet)),
        New::PaperOf(paper, size) => format!("{}, {size}", self::paper(paper)),
        New::Listed(is) => listed(is).to_owned(),
    }
}

#[gathered]
fn measure(part: &str, role: Role) -> String {
    match role {
        Role::Width => format!("Breite {part}"),
        Role::Height => format!("Höhe {part}"),
        Role::Length => format!("Länge {part}"),
        Role::Left => format!("{part} von links"),
        Role::Bottom => format!("{part} von unten"),
        Role::Border => format!("Rand {part}"),
        Role::Radius => format!("Radius {part}"),
        Role::Rise => format!("Bogenhöhe {part}"),
        Role::Depth => format!("Tiefe {part}"),
        Role::End(end, direction) => format!("{part}, {}", self::end(end, direction)),
        Role::Mark(end, direction) => format!("{part}, Linie, {}", self::end(end, direction)),
        Role::MarkAt(place, end, direction) => {
            format!("{part}, Linie {place}, {}", self::end(end, direction))
        }
    }
}

#[gathered]
fn end(end: End, direction: Direction) -> &'static str {
    match (end, direction) {
        (End::From, Direction::Along) => "Anfang von links",
        (End::From, Direction::Across) => "Anfang von unten",
        (End::To, Direction::Along) => "Ende von links",
        (End::To, Direction::Across) => "Ende von unten",
    }
}

#[gathered]
fn paper(paper: ReadyPaper) -> &'static str {
    match paper {
        ReadyPaper::Cream => "Cremekarton 80 lb",
        ReadyPaper::CreamA4 => "Cremekarton 250 g",
        ReadyPaper::Brown => "Brauner Karton 100 lb",
        ReadyPaper::NightBlue => "Nachtblauer Karton 65 lb",
        ReadyPaper::ShoreAndStripes => "Ufer und Streifen",
        ReadyPaper::Shore => "Ufer beidseitig",
        ReadyPaper::Speckle => "Sprenkel, Rückseite weiß",
        ReadyPaper::Stripes => "Streifenblock, Rückseite weiß",
        ReadyPaper::Writing => "Schreibpapier 90 g",
    }
}

#[gathered]
fn paper_in_its_size(paper: ReadyPaper) -> &'static str {
    match paper {
        ReadyPaper::Cream => "Cremekarton 80 lb, Letter",
        ReadyPaper::CreamA4 => "Cremekarton 250 g, A4",
        ReadyPaper::Brown => "Brauner Karton 100 lb, Letter",
        ReadyPaper::NightBlue => "Nachtblauer Karton 65 lb, Letter",
        ReadyPaper::ShoreAndStripes => "Ufer und Streifen 12 × 12, Kopf an Fuß",
        ReadyPaper::Shore => "Ufer beidseitig 12 × 12, Kopf an Fuß",
        ReadyPaper::Speckle => "Sprenkel 12 × 12, Rückseite weiß",
        ReadyPaper::Stripes => "Streifenblock 6 × 6, Rückseite weiß",
        ReadyPaper::Writing => "Schreibpapier 90 g, A4",
    }
}

#[gathered]
fn listed(is: Listed) -> &'static str {
    match is {
        Listed::Recipe => "Karte aus einer Liste",
        Listed::Panel(panel) => match panel {
            ListedPanel::Card => "Karte",
            ListedPanel::Front => "Vorderseite",
            ListedPanel::Back => "Rückseite",
            ListedPanel::LeftLeaf => "linker Flügel",
            ListedPanel::Middle => "Mitte",
            ListedPanel::RightLeaf => "rechter Flügel",
            ListedPanel::FoldedIn => "eingeschlagen",
            ListedPanel::BehindTheFront => "hinter der Vorderseite",
            ListedPanel::InnerRight => "innen rechts",
            ListedPanel::InnerLeft => "innen links",
        },
        Listed::CardWidth => "Breite Karte",
        Listed::CardHeight => "Höhe Karte",
        Listed::Allowance => "Zugabe fürs Einschlagen",
        Listed::StripLength => "Länge Kartenrohling",
        Listed::Gap => "Spalt zwischen den Flügeln",
        Listed::Circle => "Kreis",
        Listed::Oval => "Oval",
    }
}
