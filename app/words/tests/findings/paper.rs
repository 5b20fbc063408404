//! Everything there is to say of paper, of envelopes and of the rules for them.

use foldwright_engine::paper::{
    CALIPERS, CaliperIs, Clearance, ENVELOPES, EnvelopeFamily, FoldIn, Grade, SHEETS, SheetForm,
    Source, Weight,
};
use foldwright_words::OfPaper;

/// What is a sentence, or several.
pub(crate) fn sentences() -> Vec<OfPaper> {
    let sources = every!(Source:
        Source::Iso216 => [Source::Iso216],
        Source::Iso269 => [Source::Iso269],
        Source::FromIso269 => [Source::FromIso269],
        Source::AnsiY14 => [Source::AnsiY14],
        Source::Pwg5101 => [Source::Pwg5101],
        Source::Practice => [Source::Practice],
        Source::Memory => [Source::Memory],
        Source::SheetTables => [Source::SheetTables],
        Source::BasisWeightTables => [Source::BasisWeightTables],
        Source::BondCalipers => [Source::BondCalipers],
        Source::WeightChart => [Source::WeightChart],
        Source::OfficePrinters => [Source::OfficePrinters],
        Source::CardGuide => [Source::CardGuide],
        Source::CardPairs => [Source::CardPairs],
        Source::EnvelopeCharts => [Source::EnvelopeCharts],
        Source::SquareEnvelopes => [Source::SquareEnvelopes],
        Source::EnvelopeTips => [Source::EnvelopeTips],
        Source::EnclosureChart => [Source::EnclosureChart],
        Source::EnvelopeNewsletters => [Source::EnvelopeNewsletters],
        Source::MailCourse => [Source::MailCourse],
        Source::FoldingGuides => [Source::FoldingGuides],
        Source::PanelGuide => [Source::PanelGuide],
        Source::LetterFolds => [Source::LetterFolds],
        Source::FolderGuides => [Source::FolderGuides],
        Source::SimpleCreep => [Source::SimpleCreep],
        Source::FoldingFormula => [Source::FoldingFormula],
        Source::CurvedCreep => [Source::CurvedCreep],
        Source::BinderyPage => [Source::BinderyPage],
        Source::FoldingStyles => [Source::FoldingStyles],
        Source::CreasingGuide => [Source::CreasingGuide],
        Source::CreasingArticle => [Source::CreasingArticle],
        Source::FinishingGlossary => [Source::FinishingGlossary],
    );
    let is = every!(CaliperIs:
        CaliperIs::Printed(_) => [CaliperIs::Printed(&CALIPERS[0])],
        CaliperIs::Estimated(_) => [CaliperIs::Estimated(&CALIPERS[12])],
        CaliperIs::Own => [CaliperIs::Own],
    );
    let sources = sources.into_iter().map(OfPaper::Source);
    let asks = clearances().into_iter().map(OfPaper::Asks);
    let is = is.into_iter().map(OfPaper::Caliper);
    sources.chain(asks).chain(is).collect()
}

/// What is a label.
pub(crate) fn labels() -> Vec<OfPaper> {
    let folds = every!(FoldIn:
        FoldIn::Sixteenth => [FoldIn::Sixteenth],
        FoldIn::SixteenthEighth => [FoldIn::SixteenthEighth],
        FoldIn::ThirtySecondEighth => [FoldIn::ThirtySecondEighth],
        FoldIn::ThreeMm => [FoldIn::ThreeMm],
        FoldIn::Radius => [FoldIn::Radius],
        FoldIn::Bend => [FoldIn::Bend],
        FoldIn::BendAir => [FoldIn::BendAir],
    );
    let clearances = clearances().into_iter().map(OfPaper::Clearance);
    clearances
        .chain(folds.into_iter().map(OfPaper::FoldIn))
        .collect()
}

/// Names of what is sold, of which many are the same in each language.
pub(crate) fn sold() -> Vec<OfPaper> {
    let families = every!(EnvelopeFamily:
        EnvelopeFamily::Iso => [EnvelopeFamily::Iso],
        EnvelopeFamily::Announcement => [EnvelopeFamily::Announcement],
        EnvelopeFamily::Commercial => [EnvelopeFamily::Commercial],
        EnvelopeFamily::Booklet => [EnvelopeFamily::Booklet],
        EnvelopeFamily::Square => [EnvelopeFamily::Square],
    );
    let envelopes = families.into_iter().map(|family| {
        let mut all = ENVELOPES.iter();
        let first = all.find(|it| it.family == family);
        OfPaper::Envelope(first.expect("each family has envelopes"))
    });
    let forms = every!(SheetForm:
        SheetForm::Sheet => [SheetForm::Sheet],
        SheetForm::Half => [SheetForm::Half],
        SheetForm::Pad => [SheetForm::Pad],
    );
    let sheets = forms.into_iter().map(|form| {
        let first = SHEETS.iter().find(|it| it.form == form);
        OfPaper::Sheet(first.expect("there are sheets of each form"))
    });
    let grades = Grade::ALL.into_iter();
    let basis = grades.map(|grade| OfPaper::Weight(Weight::pounds(80, grade)));
    let grams = [Weight::grams(250), Weight::Grammage { tenths: 1205 }];
    let weights = grams.map(OfPaper::Weight).into_iter().chain(basis);
    let grades = Grade::ALL.map(OfPaper::Grade);
    envelopes
        .chain(sheets)
        .chain(weights)
        .chain(grades)
        .collect()
}

fn clearances() -> Vec<Clearance> {
    every!(Clearance:
        Clearance::EighthRound => [Clearance::EighthRound],
        Clearance::QuarterInAll => [Clearance::QuarterInAll],
        Clearance::IsoPairs => [Clearance::IsoPairs],
        Clearance::HalfAndQuarter => [Clearance::HalfAndQuarter],
        Clearance::Booklet => [Clearance::Booklet],
    )
}
