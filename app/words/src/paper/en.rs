//! Paper, sheets and envelopes, in English.

use foldwright_engine::paper::{CaliperIs, Clearance, FoldIn, Grade, Source, Weight};
use foldwright_gathered::gathered;

use super::OfPaper;
use crate::names::Names;
use crate::nouns::en as nouns;

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
            Grade::Bond => "lb bond",
            Grade::Cover => "lb cover",
            Grade::Text => "lb text",
            Grade::Index => "lb index",
            Grade::Bristol => "lb bristol",
            Grade::Tag => "lb tag",
        }
        .to_owned(),
        OfPaper::Envelope(envelope) => nouns::envelope(envelope),
        OfPaper::Sheet(sheet) => nouns::sheet(sheet),
    }
}

#[gathered]
fn source(source: Source) -> &'static str {
    match source {
        Source::Iso216 => "Source: ISO 216.",
        Source::Iso269 => "Source: ISO 269.",
        Source::FromIso269 => {
            "Source: worked out from ISO 269, the least room left by A6 in C6 and a third of A4 in \
             DL."
        }
        Source::AnsiY14 => "Source: ANSI/ASME Y14.1.",
        Source::Pwg5101 => "Source: PWG 5101.1 media names.",
        Source::Practice => "Source: common practice.",
        Source::Memory => "Source: common practice, from memory.",
        Source::SheetTables => "Source: common practice, in printers' tables of sheet sizes.",
        Source::BasisWeightTables => "Source: common practice, in printers' basis weight tables.",
        Source::BondCalipers => {
            "Source: common practice, in a printers' caliper table for bond paper."
        }
        Source::WeightChart => "Source: common practice, in a printers' chart of paper weights.",
        Source::OfficePrinters => {
            "Source: common practice, in the paper tables of office printers."
        }
        Source::CardGuide => "Source: common practice, in a guide to card weight and caliper.",
        Source::CardPairs => "Source: common practice, in a page of card weights and thicknesses.",
        Source::EnvelopeCharts => "Source: common practice, in envelope size charts.",
        Source::SquareEnvelopes => "Source: common practice, in an overview of square envelopes.",
        Source::EnvelopeTips => {
            "Source: common practice, in a printer's tips for envelopes. It is how a 4¼\u{a0}× 5½\u{a0}in \
             card goes into A2."
        }
        Source::EnclosureChart => {
            "Source: common practice, in a chart of envelopes and enclosures. It is also given for \
             square envelopes."
        }
        Source::EnvelopeNewsletters => {
            "Source: common practice, in printers' newsletters and envelope specifications."
        }
        Source::MailCourse => "Source: common practice, in a course note on direct mail.",
        Source::FoldingGuides => "Source: common practice, in printers' folding guides.",
        Source::PanelGuide => {
            "Source: common practice, in a prepress guide to panels. A guide to folding styles \
             gives the same range."
        }
        Source::LetterFolds => "Source: common practice, in an article on letter folds.",
        Source::FolderGuides => {
            "Source: common practice, in design guides for three-panel A4 folders."
        }
        Source::SimpleCreep => {
            "Source: our own use of printers' simple creep, a quarter of the pages times the \
             thickness of a sheet."
        }
        Source::FoldingFormula => {
            "Source: our own use of the formula published in 2002 for paper halved again and again."
        }
        Source::CurvedCreep => {
            "Source: our own use of printers' creep calculators that count the curve."
        }
        Source::BinderyPage => "Source: common practice, in a bindery's folding page.",
        Source::FoldingStyles => "Source: common practice, in a guide to folding styles.",
        Source::CreasingGuide => "Source: common practice, in a paper mill's guide to creasing.",
        Source::CreasingArticle => {
            "Source: common practice, in a print finisher's article on creasing."
        }
        Source::FinishingGlossary => "Source: common practice, in a glossary of print finishing.",
    }
}

#[gathered]
pub(crate) fn clearance(rule: Clearance) -> &'static str {
    match rule {
        Clearance::EighthRound => "⅛\u{a0}in on top and at each side",
        Clearance::QuarterInAll => "¼\u{a0}in each way",
        Clearance::IsoPairs => "As metric paper in its envelopes",
        Clearance::HalfAndQuarter => "½\u{a0}in long, ¼\u{a0}in high",
        Clearance::Booklet => "Booklets: ½\u{a0}in long, ¼\u{a0}in high",
    }
}

#[gathered]
fn asks(rule: Clearance) -> &'static str {
    match rule {
        Clearance::EighthRound => {
            "The envelope is ¼\u{a0}in longer and ⅛\u{a0}in higher than the card."
        }
        Clearance::QuarterInAll => {
            "The envelope is ¼\u{a0}in longer and ¼\u{a0}in higher than the card."
        }
        Clearance::IsoPairs => {
            "The envelope is at least 10 mm longer and 9 mm higher than the card."
        }
        Clearance::HalfAndQuarter => {
            "The envelope is ½\u{a0}in longer and ¼\u{a0}in higher than the card, and more for a thick \
             one."
        }
        Clearance::Booklet => {
            "The envelope is ½\u{a0}in longer and ¼\u{a0}in higher than the booklet. A machine needs \
             more."
        }
    }
}

#[gathered]
fn fold_in(rule: FoldIn) -> &'static str {
    match rule {
        FoldIn::Sixteenth => "¹⁄₁₆\u{a0}in on any paper",
        FoldIn::SixteenthEighth => "¹⁄₁₆\u{a0}in on text paper, ⅛\u{a0}in on card",
        FoldIn::ThirtySecondEighth => "¹⁄₃₂\u{a0}in on most paper, ⅛\u{a0}in on thick",
        FoldIn::ThreeMm => "3 mm, as for A4 folded in three",
        FoldIn::Radius => "By thickness: the fold's radius",
        FoldIn::Bend => "By thickness: half of what a round fold takes up",
        FoldIn::BendAir => "By thickness: a round fold, and a fifth for air",
    }
}

#[gathered]
fn caliper(names: &Names<'_>, is: CaliperIs) -> String {
    let weight = |of: Weight| nouns::weight(names, of);
    match is {
        CaliperIs::Printed(row) => format!(
            "Typical of {} paper. Paper varies, so what you measure goes first. {}",
            weight(row.weight),
            source(row.source)
        ),
        CaliperIs::Estimated(row) => format!(
            "An estimate, as dense as {} paper. What you measure goes first. {}",
            weight(row.weight),
            source(row.source)
        ),
        CaliperIs::Own => "Your own value. No printed table gives it for this weight.".to_owned(),
    }
}
