//! What new things are called, in English.

use foldwright_engine::paper::ReadyPaper;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::recipe::{Direction, End, LayerKind, Listed, ListedPanel, New, Role};
use foldwright_gathered::gathered;

use crate::nouns::en as nouns;

#[gathered]
pub(crate) fn name(new: New<'_>) -> String {
    match new {
        New::Panel(number) => format!("panel {number}"),
        New::Layer(LayerKind::Mat) => "mat".to_owned(),
        New::Layer(LayerKind::Focal) => "focal piece".to_owned(),
        New::Layer(LayerKind::Insert) => "insert".to_owned(),
        New::Piece(number) => format!("piece {number}"),
        New::Tab => "tab".to_owned(),
        New::Flap => "flap".to_owned(),
        New::Window => "window".to_owned(),
        New::Corners => "corners".to_owned(),
        New::Edge => "edge".to_owned(),
        New::Line(LineKind::Crease(_), number) => format!("crease {number}"),
        New::Line(LineKind::Cut, number) => format!("cut {number}"),
        New::Again(name, number) => format!("{name} {number}"),
        New::Measure(part, role) => measure(part, role),
        New::WidthOn(piece, panel) => format!("{piece} {panel} width"),
        New::Paper(paper) => paper_in_its_size(paper).to_owned(),
        New::PaperIn(paper, sheet) => format!("{}, {}", self::paper(paper), nouns::sheet(sheet)),
        New::PaperOf(paper, size) => format!("{}, {size}", self::paper(paper)),
        New::Listed(is) => listed(is).to_owned(),
    }
}

#[gathered]
fn measure(part: &str, role: Role) -> String {
    match role {
        Role::Width => format!("{part} width"),
        Role::Height => format!("{part} height"),
        Role::Length => format!("{part} length"),
        Role::Left => format!("{part} from the left"),
        Role::Bottom => format!("{part} from the bottom"),
        Role::Border => format!("{part} border"),
        Role::Radius => format!("{part} radius"),
        Role::Rise => format!("{part} rise"),
        Role::Depth => format!("{part} depth"),
        Role::End(end, direction) => format!("{part} {}", self::end(end, direction)),
        Role::Mark(end, direction) => format!("{part} line, {}", self::end(end, direction)),
        Role::MarkAt(place, end, direction) => {
            format!("{part} place {place} line, {}", self::end(end, direction))
        }
    }
}

#[gathered]
fn end(end: End, direction: Direction) -> &'static str {
    match (end, direction) {
        (End::From, Direction::Along) => "start from the left",
        (End::From, Direction::Across) => "start from the bottom",
        (End::To, Direction::Along) => "end from the left",
        (End::To, Direction::Across) => "end from the bottom",
    }
}

#[gathered]
fn paper(paper: ReadyPaper) -> &'static str {
    match paper {
        ReadyPaper::Cream => "Cream card 80 lb",
        ReadyPaper::CreamA4 => "Cream card 250 g",
        ReadyPaper::Brown => "Brown card 100 lb",
        ReadyPaper::NightBlue => "Night-blue card 65 lb",
        ReadyPaper::ShoreAndStripes => "Shore and stripes",
        ReadyPaper::Shore => "Shore both sides",
        ReadyPaper::Speckle => "Speckle, white back",
        ReadyPaper::Stripes => "Stripes pad, white back",
        ReadyPaper::Writing => "Writing paper 90 g",
    }
}

#[gathered]
fn paper_in_its_size(paper: ReadyPaper) -> &'static str {
    match paper {
        ReadyPaper::Cream => "Cream card 80 lb, Letter",
        ReadyPaper::CreamA4 => "Cream card 250 g, A4",
        ReadyPaper::Brown => "Brown card 100 lb, Letter",
        ReadyPaper::NightBlue => "Night-blue card 65 lb, Letter",
        ReadyPaper::ShoreAndStripes => "Shore and stripes 12 × 12, head to foot",
        ReadyPaper::Shore => "Shore both sides 12 × 12, head to foot",
        ReadyPaper::Speckle => "Speckle 12 × 12, white back",
        ReadyPaper::Stripes => "Stripes pad 6 × 6, white back",
        ReadyPaper::Writing => "Writing paper 90 g, A4",
    }
}

#[gathered]
fn listed(is: Listed) -> &'static str {
    match is {
        Listed::Recipe => "Card from a list",
        Listed::Panel(panel) => match panel {
            ListedPanel::Card => "card",
            ListedPanel::Front => "front",
            ListedPanel::Back => "back",
            ListedPanel::LeftLeaf => "left leaf",
            ListedPanel::Middle => "middle",
            ListedPanel::RightLeaf => "right leaf",
            ListedPanel::FoldedIn => "folded-in",
            ListedPanel::BehindTheFront => "behind the front",
            ListedPanel::InnerRight => "inner right",
            ListedPanel::InnerLeft => "inner left",
        },
        Listed::CardWidth => "card width",
        Listed::CardHeight => "card height",
        Listed::Allowance => "fold-in allowance",
        Listed::StripLength => "card base length",
        Listed::Gap => "gap between the leaves",
        Listed::Circle => "circle",
        Listed::Oval => "oval",
    }
}
