//! What stands beside the sentences of a step, in English: numbers, pictures and tools.

use foldwright_engine::recipe::{Fold, StripId};
use foldwright_engine::steps::{Caption, Label, Point, Tool, Value};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::en as nouns;
use crate::told::sentence;

#[gathered]
pub(crate) fn label(names: &Names<'_>, label: &Label) -> String {
    match *label {
        Label::Paper(id) => names.stock(id).map_or("paper", |(name, _)| name).to_owned(),
        Label::Scraps(id, 1) => format!("1 scrap of {}", nouns::stock(names, id)),
        Label::Scraps(id, count) => format!("{count} scraps of {}", nouns::stock(names, id)),
        Label::Length => "length".to_owned(),
        Label::FromFence => "from the fence".to_owned(),
        Label::Width => "width".to_owned(),
        Label::Height => "height".to_owned(),
        Label::Radius => "radius".to_owned(),
        Label::Rise => "rise".to_owned(),
        Label::Depth => "depth".to_owned(),
        Label::Across => "across".to_owned(),
        Label::FromLeft => "from the left".to_owned(),
        Label::FromBottom => "from the bottom".to_owned(),
        Label::PointFromLeft(Point::First) => "first point, from the left".to_owned(),
        Label::PointFromLeft(Point::Second) => "second point, from the left".to_owned(),
        Label::PointFromBottom(Point::First) => "first point, from the bottom".to_owned(),
        Label::PointFromBottom(Point::Second) => "second point, from the bottom".to_owned(),
        Label::FromLeftEdge => "from the left edge".to_owned(),
        Label::FromBottomEdge => "from the bottom edge".to_owned(),
        Label::Score {
            fold,
            ridge_inside,
            of,
        } => match (fold, ridge_inside, of) {
            (Fold::Mountain, true, _) => "mountain; ridge inside",
            (Fold::Valley, true, _) => "valley; ridge inside",
            (Fold::Mountain, false, StripId::Base) => {
                "mountain; ridge outside (flip the base to put it inside)"
            }
            (Fold::Valley, false, StripId::Base) => {
                "valley; ridge outside (flip the base to put it inside)"
            }
            (Fold::Mountain, false, StripId::Piece(_)) => {
                "mountain; ridge outside (flip the piece to put it inside)"
            }
            (Fold::Valley, false, StripId::Piece(_)) => {
                "valley; ridge outside (flip the piece to put it inside)"
            }
        }
        .to_owned(),
        Label::FoldInside(Fold::Mountain) => "mountain, seen from the inside".to_owned(),
        Label::FoldInside(Fold::Valley) => "valley, seen from the inside".to_owned(),
        Label::LineInside(id) => format!("{}, seen from the inside", nouns::line(names, id)),
        Label::SeenInside => "seen from the inside".to_owned(),
        Label::Line(id) => nouns::line(names, id),
        Label::Closed => "closed card".to_owned(),
        Label::Thickest => "thickest place".to_owned(),
    }
}

#[gathered]
pub(crate) fn value(names: &Names<'_>, value: &Value) -> String {
    match *value {
        Value::Length(of) => names.short(of),
        Value::Size(of) => names.short_size(of),
        Value::Sheets(None) => "too small".to_owned(),
        Value::Sheets(Some(1)) => "1 sheet".to_owned(),
        Value::Sheets(Some(count)) => format!("{count} sheets"),
        Value::Fold(Fold::Mountain) => "mountain".to_owned(),
        Value::Fold(Fold::Valley) => "valley".to_owned(),
        Value::ThenFlat(Fold::Mountain) => "mountain, then flat again".to_owned(),
        Value::ThenFlat(Fold::Valley) => "valley, then flat again".to_owned(),
    }
}

#[gathered]
pub(crate) fn caption(names: &Names<'_>, caption: &Caption) -> String {
    sentence(match *caption {
        Caption::OnSheet => "On the sheet, face up".to_owned(),
        Caption::SheetAtFence(id) => {
            format!("a sheet of {} at the fence", nouns::stock(names, id))
        }
        Caption::ScrapAtFence(id) => {
            format!("a scrap of {} at the fence", nouns::stock(names, id))
        }
        Caption::StripAtFence(id) => {
            format!("a strip of {} at the fence", nouns::stock(names, id))
        }
        Caption::SideUp(of, up) => {
            let strip = nouns::strip(names, of);
            format!("{strip}, {} up", nouns::side(of, up))
        }
        Caption::Outline => "Its outline".to_owned(),
        Caption::GlueOnBack => "Glue on its back".to_owned(),
        Caption::InPlace => "In its place".to_owned(),
        Caption::OnTheWay => "On the way".to_owned(),
        Caption::Folded => "Folded".to_owned(),
        Caption::PlaceOn(of, side) => format!(
            "Its place on {}, seen from the {}",
            nouns::strip(names, of),
            nouns::side(of, side)
        ),
        Caption::Open => "The card open".to_owned(),
    })
}

#[gathered]
pub(crate) fn tool(tool: Tool) -> &'static str {
    match tool {
        Tool::Trimmer => "trimmer or guillotine",
        Tool::Ruler => "ruler",
        Tool::ScoringBoard => "scoring board",
        Tool::BoneFolder => "bone folder",
        Tool::Glue => "glue",
        Tool::ScrapPaper => "scrap paper",
        Tool::Pencil => "pencil",
        Tool::CraftKnife => "craft knife",
        Tool::CuttingMat => "cutting mat",
        Tool::CornerPunch => "corner punch, or a template and scissors",
        Tool::Die => "die, or a template and a craft knife",
        Tool::DieOrRuler => "die, or a ruler, a template and a craft knife",
        Tool::DieOrScissors => "die, or a template and scissors",
        Tool::Decoration => "stamps, inks or whatever you decorate with",
        Tool::CleanPaper => "clean paper",
        Tool::Weight => "a weight",
    }
}
