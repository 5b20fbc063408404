//! Paper, sheets and envelopes, in German.

use foldwright_engine::paper::{CaliperIs, Clearance, FoldIn, Grade, Source, Weight};
use foldwright_gathered::gathered;

use super::OfPaper;
use crate::names::Names;
use crate::nouns::de as nouns;

#[gathered]
pub(crate) fn told(names: &Names<'_>, of: OfPaper) -> String {
    match of {
        OfPaper::Source(source) => self::source(source).to_owned(),
        OfPaper::Clearance(rule) => clearance(rule).to_owned(),
        OfPaper::Asks(rule) => asks(rule).to_owned(),
        OfPaper::FoldIn(rule) => fold_in(rule).to_owned(),
        OfPaper::Caliper(is) => caliper(names, is),
        OfPaper::Weight(weight) => nouns::weight(names, weight),
        OfPaper::Grade(of) => match of {
            Grade::Bond => "lb bond (Schreibpapier)",
            Grade::Cover => "lb cover (Karton)",
            Grade::Text => "lb text (Druckpapier)",
            Grade::Index => "lb index (Karteikarton)",
            Grade::Bristol => "lb bristol (Bristolkarton)",
            Grade::Tag => "lb tag (Etikettenkarton)",
        }
        .to_owned(),
        OfPaper::Envelope(envelope) => nouns::envelope(envelope),
        OfPaper::Sheet(sheet) => nouns::sheet(sheet),
    }
}

#[gathered]
fn source(source: Source) -> &'static str {
    match source {
        Source::Iso216 => "Quelle: ISO 216.",
        Source::Iso269 => "Quelle: ISO 269.",
        Source::FromIso269 => {
            "Quelle: aus ISO 269 errechnet, die kleinste Luft von A6 in C6 und einem Drittel A4 in \
             DL."
        }
        Source::AnsiY14 => "Quelle: ANSI/ASME Y14.1.",
        Source::Pwg5101 => "Quelle: Mediennamen nach PWG 5101.1.",
        Source::Practice => "Quelle: allgemein üblich.",
        Source::Memory => "Quelle: allgemein üblich, aus dem Gedächtnis.",
        Source::SheetTables => "Quelle: allgemein üblich, Bogenformate aus Druckereitabellen.",
        Source::BasisWeightTables => {
            "Quelle: allgemein üblich, amerikanische Druckereitabellen zum Papiergewicht."
        }
        Source::BondCalipers => {
            "Quelle: allgemein üblich, Dickentabelle von Druckereien für Schreibpapier."
        }
        Source::WeightChart => "Quelle: allgemein üblich, Druckereiübersicht zum Papiergewicht.",
        Source::OfficePrinters => "Quelle: allgemein üblich, Papiertabellen von Bürodruckern.",
        Source::CardGuide => "Quelle: allgemein üblich, Ratgeber zu Gewicht und Dicke von Karton.",
        Source::CardPairs => "Quelle: allgemein üblich, Seite zu Gewicht und Dicke von Karton.",
        Source::EnvelopeCharts => "Quelle: allgemein üblich, Übersichten der Umschlagformate.",
        Source::SquareEnvelopes => "Quelle: allgemein üblich, Übersicht quadratischer Umschläge.",
        Source::EnvelopeTips => {
            "Quelle: allgemein üblich, Umschlagtipps einer Druckerei. So passt eine Karte von \
             4¼\u{a0}× 5½\u{a0}in in A2."
        }
        Source::EnclosureChart => {
            "Quelle: allgemein üblich, Übersicht von Umschlägen und Einlagen. Auch für \
             quadratische Umschläge."
        }
        Source::EnvelopeNewsletters => {
            "Quelle: allgemein üblich, Druckereirundbriefe und Vorgaben für Umschläge."
        }
        Source::MailCourse => "Quelle: allgemein üblich, Kursunterlage zu Werbepost.",
        Source::FoldingGuides => "Quelle: allgemein üblich, Falzanleitungen von Druckereien.",
        Source::PanelGuide => {
            "Quelle: allgemein üblich, Ratgeber der Druckvorstufe zu Feldern. Eine Übersicht der \
             Falzarten nennt dasselbe."
        }
        Source::LetterFolds => "Quelle: allgemein üblich, Artikel über Wickelfalze.",
        Source::FolderGuides => {
            "Quelle: allgemein üblich, Vorgaben für dreiteilige Faltblätter aus A4."
        }
        Source::SimpleCreep => {
            "Quelle: einfacher Bundzuwachs der Druckereien, ein Viertel der Seiten mal Papierdicke, \
             von uns angewandt."
        }
        Source::FoldingFormula => {
            "Quelle: die 2002 veröffentlichte Formel für immer wieder halbiertes Papier, von uns \
             angewandt."
        }
        Source::CurvedCreep => {
            "Quelle: Druckereirechner für Bundzuwachs, die die Rundung zählen, von uns angewandt."
        }
        Source::BinderyPage => "Quelle: allgemein üblich, Buchbindereiseite zum Falzen.",
        Source::FoldingStyles => "Quelle: allgemein üblich, Übersicht der Falzarten.",
        Source::CreasingGuide => {
            "Quelle: allgemein üblich, Hinweise einer Papierfabrik zum Rillen."
        }
        Source::CreasingArticle => {
            "Quelle: allgemein üblich, Artikel aus der Weiterverarbeitung zum Rillen."
        }
        Source::FinishingGlossary => {
            "Quelle: allgemein üblich, Glossar der Druckweiterverarbeitung."
        }
    }
}

#[gathered]
pub(crate) fn clearance(rule: Clearance) -> &'static str {
    match rule {
        Clearance::EighthRound => "⅛\u{a0}in oben und an jeder Seite",
        Clearance::QuarterInAll => "¼\u{a0}in in beiden Richtungen",
        Clearance::IsoPairs => "Wie metrisches Papier in seinen Umschlägen",
        Clearance::HalfAndQuarter => "½\u{a0}in in der Länge, ¼\u{a0}in in der Höhe",
        Clearance::Booklet => "Hefte: ½\u{a0}in in der Länge, ¼\u{a0}in in der Höhe",
    }
}

#[gathered]
fn asks(rule: Clearance) -> &'static str {
    match rule {
        Clearance::EighthRound => {
            "Der Umschlag ist ¼\u{a0}in länger und ⅛\u{a0}in höher als die Karte."
        }
        Clearance::QuarterInAll => {
            "Der Umschlag ist ¼\u{a0}in länger und ¼\u{a0}in höher als die Karte."
        }
        Clearance::IsoPairs => {
            "Der Umschlag ist mindestens 10 mm länger und 9 mm höher als die Karte."
        }
        Clearance::HalfAndQuarter => {
            "Der Umschlag ist ½\u{a0}in länger und ¼\u{a0}in höher als die Karte, bei dicken noch mehr."
        }
        Clearance::Booklet => {
            "Der Umschlag ist ½\u{a0}in länger und ¼\u{a0}in höher als das Heft. Maschinen brauchen mehr."
        }
    }
}

#[gathered]
fn fold_in(rule: FoldIn) -> &'static str {
    match rule {
        FoldIn::Sixteenth => "¹⁄₁₆\u{a0}in bei jedem Papier",
        FoldIn::SixteenthEighth => "¹⁄₁₆\u{a0}in bei dünnem Papier, ⅛\u{a0}in bei Karton",
        FoldIn::ThirtySecondEighth => "¹⁄₃₂\u{a0}in bei den meisten Papieren, ⅛\u{a0}in bei dicken",
        FoldIn::ThreeMm => "3 mm, wie bei gedritteltem A4",
        FoldIn::Radius => "Nach Dicke: der Radius des Falzes",
        FoldIn::Bend => "Nach Dicke: halb so viel wie ein runder Falz",
        FoldIn::BendAir => "Nach Dicke: ein runder Falz und ein Fünftel für Luft",
    }
}

#[gathered]
fn caliper(names: &Names<'_>, is: CaliperIs) -> String {
    let weight = |of: Weight| nouns::weight(names, of);
    match is {
        CaliperIs::Printed(row) => format!(
            "Üblich für Papier von {}. Papier schwankt; was du misst, geht vor. {}",
            weight(row.weight),
            source(row.source)
        ),
        CaliperIs::Estimated(row) => format!(
            "Geschätzt, so dicht wie Papier von {}. Was du misst, geht vor. {}",
            weight(row.weight),
            source(row.source)
        ),
        CaliperIs::Own => {
            "Dein eigener Wert. Keine gedruckte Tabelle nennt dieses Gewicht.".to_owned()
        }
    }
}
