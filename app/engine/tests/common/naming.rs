//! Names in few words, for what tests add.

use foldwright_engine::pattern::LineKind;
use foldwright_engine::recipe::{
    Direction, End, LayerKind, Listed, ListedPanel, Naming, New, Role,
};

/// Names everything in the words of these tests.
pub(crate) struct Plain;

impl Naming for Plain {
    fn name(&self, new: New<'_>) -> String {
        let word = match new {
            New::Panel(number) => return format!("panel {number}"),
            New::Piece(number) => return format!("piece {number}"),
            New::Line(LineKind::Crease(_), number) => return format!("crease {number}"),
            New::Line(LineKind::Cut, number) => return format!("cut {number}"),
            New::Again(name, number) => return format!("{name} {number}"),
            New::Measure(part, role) => return format!("{part} {}", self::role(role)),
            New::WidthOn(piece, panel) => return format!("{piece} {panel} width"),
            New::Paper(paper) => return format!("{paper:?}"),
            New::PaperIn(paper, sheet) => return format!("{paper:?}, {}", sheet.name),
            New::PaperOf(paper, size) => return format!("{paper:?}, {size}"),
            New::Layer(LayerKind::Mat) => "mat",
            New::Layer(LayerKind::Focal) => "focal piece",
            New::Layer(LayerKind::Insert) => "insert",
            New::Tab => "tab",
            New::Flap => "flap",
            New::Window => "window",
            New::Corners => "corners",
            New::Edge => "edge",
            New::Listed(is) => listed(is),
        };
        word.to_owned()
    }
}

fn role(role: Role) -> String {
    let end = |end, direction| {
        let end = match end {
            End::From => "start",
            End::To => "end",
        };
        match direction {
            Direction::Along => format!("{end} along"),
            Direction::Across => format!("{end} across"),
        }
    };
    let word = match role {
        Role::Width => "width",
        Role::Height => "height",
        Role::Length => "length",
        Role::Left => "from the left",
        Role::Bottom => "from the bottom",
        Role::Border => "border",
        Role::Radius => "radius",
        Role::Rise => "rise",
        Role::Depth => "depth",
        Role::End(of, direction) => return end(of, direction),
        Role::Mark(of, direction) => return format!("line {}", end(of, direction)),
        Role::MarkAt(place, of, direction) => {
            return format!("place {place} line {}", end(of, direction));
        }
    };
    word.to_owned()
}

const fn listed(is: Listed) -> &'static str {
    match is {
        Listed::Recipe => "card from a list",
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
        Listed::StripLength => "strip length",
        Listed::Gap => "gap between the leaves",
        Listed::Circle => "circle",
        Listed::Oval => "oval",
    }
}
