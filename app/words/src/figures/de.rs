//! What stands beside the sentences of a step, in German: numbers, pictures and tools.

use foldwright_engine::recipe::{Fold, StripId};
use foldwright_engine::steps::{Caption, Label, Point, Tool, Value};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};
use crate::told::sentence;

#[gathered]
pub(crate) fn label(names: &Names<'_>, label: &Label) -> String {
    match *label {
        Label::Paper(id) => names
            .stock(id)
            .map_or("Papier", |(name, _)| name)
            .to_owned(),
        Label::Scraps(id, 1) => format!("1 Reststück {}", nouns::stock(names, id)),
        Label::Scraps(id, count) => format!("{count} Reststücke {}", nouns::stock(names, id)),
        Label::Length => "Länge".to_owned(),
        Label::FromFence => "vom Anschlag".to_owned(),
        Label::Width => "Breite".to_owned(),
        Label::Height => "Höhe".to_owned(),
        Label::Radius => "Radius".to_owned(),
        Label::Rise => "Bogenhöhe".to_owned(),
        Label::Depth => "Tiefe".to_owned(),
        Label::Across => "Durchmesser".to_owned(),
        Label::FromLeft => "von links".to_owned(),
        Label::FromBottom => "von unten".to_owned(),
        Label::PointFromLeft(Point::First) => "erster Punkt, von links".to_owned(),
        Label::PointFromLeft(Point::Second) => "zweiter Punkt, von links".to_owned(),
        Label::PointFromBottom(Point::First) => "erster Punkt, von unten".to_owned(),
        Label::PointFromBottom(Point::Second) => "zweiter Punkt, von unten".to_owned(),
        Label::FromLeftEdge => "von der linken Kante".to_owned(),
        Label::FromBottomEdge => "von der unteren Kante".to_owned(),
        Label::Score {
            of,
            fold,
            ridge_inside,
        } => match (fold, ridge_inside, of) {
            (Fold::Mountain, true, _) => "Bergfalz; Wulst innen",
            (Fold::Valley, true, _) => "Talfalz; Wulst innen",
            (Fold::Mountain, false, StripId::Base) => {
                "Bergfalz; Wulst außen (wende den Kartenrohling, dann liegt er innen)"
            }
            (Fold::Valley, false, StripId::Base) => {
                "Talfalz; Wulst außen (wende den Kartenrohling, dann liegt er innen)"
            }
            (Fold::Mountain, false, StripId::Piece(_)) => {
                "Bergfalz; Wulst außen (wende das Teil, dann liegt er innen)"
            }
            (Fold::Valley, false, StripId::Piece(_)) => {
                "Talfalz; Wulst außen (wende das Teil, dann liegt er innen)"
            }
        }
        .to_owned(),
        Label::FoldInside(Fold::Mountain) => "Bergfalz, von innen gesehen".to_owned(),
        Label::FoldInside(Fold::Valley) => "Talfalz, von innen gesehen".to_owned(),
        Label::LineInside(id) => {
            let line = nouns::line(names, id, Case::Nominative);
            format!("{line}, von innen gesehen")
        }
        Label::SeenInside => "von innen gesehen".to_owned(),
        Label::Line(id) => nouns::line(names, id, Case::Nominative),
        Label::Closed => "geschlossene Karte".to_owned(),
        Label::Thickest => "dickste Stelle".to_owned(),
    }
}

#[gathered]
pub(crate) fn value(names: &Names<'_>, value: &Value) -> String {
    match *value {
        Value::Length(of) => names.short(of),
        Value::Size(of) => names.short_size(of),
        Value::Sheets(None) => "zu klein".to_owned(),
        Value::Sheets(Some(count)) => format!("{count} Bogen"),
        Value::Fold(Fold::Mountain) => "Bergfalz".to_owned(),
        Value::Fold(Fold::Valley) => "Talfalz".to_owned(),
        Value::ThenFlat(Fold::Mountain) => "Bergfalz, dann wieder flach".to_owned(),
        Value::ThenFlat(Fold::Valley) => "Talfalz, dann wieder flach".to_owned(),
    }
}

#[gathered]
pub(crate) fn caption(names: &Names<'_>, caption: &Caption) -> String {
    sentence(match *caption {
        Caption::OnSheet => "Auf dem Bogen, Schauseite oben".to_owned(),
        Caption::SheetAtFence(id) => {
            format!("ein Bogen {} am Anschlag", nouns::stock(names, id))
        }
        Caption::ScrapAtFence(id) => {
            format!("ein Reststück {} am Anschlag", nouns::stock(names, id))
        }
        Caption::StripAtFence(id) => {
            format!("ein Streifen {} am Anschlag", nouns::stock(names, id))
        }
        Caption::SideUp(of, up) => {
            let strip = nouns::strip(names, of, Case::Nominative);
            format!("{strip}, {} oben", nouns::side(of, up))
        }
        Caption::Outline => "Der Umriss".to_owned(),
        Caption::GlueOnBack => "Kleber auf der Rückseite".to_owned(),
        Caption::InPlace => "An der Stelle".to_owned(),
        Caption::OnTheWay => "Unterwegs".to_owned(),
        Caption::Folded => "Gefalzt".to_owned(),
        Caption::PlaceOn(of, side) => format!(
            "Die Stelle auf {}, {} oben",
            nouns::strip(names, of, Case::Dative),
            nouns::side(of, side)
        ),
        Caption::Open => "Die offene Karte".to_owned(),
    })
}

#[gathered]
pub(crate) fn tool(tool: Tool) -> &'static str {
    match tool {
        Tool::Trimmer => "Schneidemaschine oder Hebelschneider",
        Tool::Ruler => "Lineal",
        Tool::ScoringBoard => "Rillbrett",
        Tool::BoneFolder => "Falzbein",
        Tool::Glue => "Kleber",
        Tool::ScrapPaper => "Schmierpapier",
        Tool::Pencil => "Bleistift",
        Tool::CraftKnife => "Cutter",
        Tool::CuttingMat => "Schneidematte",
        Tool::CornerPunch => "Eckenrunder, oder Schablone und Schere",
        Tool::Die => "Stanzform, oder Schablone und Cutter",
        Tool::DieOrRuler => "Stanzform, oder Lineal, Schablone und Cutter",
        Tool::DieOrScissors => "Stanzform, oder Schablone und Schere",
        Tool::Decoration => "Stempel, Farben oder womit du gestaltest",
        Tool::CleanPaper => "sauberes Papier",
        Tool::Weight => "ein Gewicht zum Beschweren",
    }
}
