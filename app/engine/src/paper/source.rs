//! Where published numbers were read.

/// Where a number comes from: a standard by its name, or common practice by the
/// kind of text it was read in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Source {
    /// ISO 216, writing paper and printed matter.
    Iso216,
    /// ISO 269, envelopes.
    Iso269,
    /// Worked out from ISO 269: the least room left by A6 in C6 and a third of A4
    /// in DL.
    FromIso269,
    /// ANSI/ASME Y14.1, drawing sheets.
    AnsiY14,
    /// PWG 5101.1, the names of media.
    Pwg5101,
    /// Common practice, no text named.
    Practice,
    /// Common practice, written down from memory.
    Memory,
    /// Printers' tables of sheet sizes.
    SheetTables,
    /// Printers' tables of basis weights.
    BasisWeightTables,
    /// A printers' caliper table for bond paper.
    BondCalipers,
    /// A printers' chart of paper weights.
    WeightChart,
    /// The paper tables of office printers.
    OfficePrinters,
    /// A guide to card weight and caliper.
    CardGuide,
    /// A page of card weights and thicknesses.
    CardPairs,
    /// Charts of envelope sizes.
    EnvelopeCharts,
    /// An overview of square envelopes.
    SquareEnvelopes,
    /// A printer's tips for envelopes, by which a 4 1/4 × 5 1/2 in card goes into
    /// A2.
    EnvelopeTips,
    /// A chart of envelopes and enclosures, whose room is also given for square
    /// envelopes.
    EnclosureChart,
    /// Printers' newsletters and envelope specifications.
    EnvelopeNewsletters,
    /// A course note on direct mail.
    MailCourse,
    /// Printers' folding guides.
    FoldingGuides,
    /// A prepress guide to panels, and a guide to folding styles with the same
    /// range.
    PanelGuide,
    /// An article on letter folds.
    LetterFolds,
    /// Design guides for three-panel A4 folders.
    FolderGuides,
    /// Our own use of printers' simple creep, a quarter of the pages times the
    /// caliper.
    SimpleCreep,
    /// Our own use of the formula published in 2002 for paper halved again and
    /// again (Gallivan).
    FoldingFormula,
    /// Our own use of printers' creep calculators that count the curve.
    CurvedCreep,
    /// A bindery's folding page.
    BinderyPage,
    /// A guide to folding styles.
    FoldingStyles,
    /// A paper mill's guide to creasing.
    CreasingGuide,
    /// A print finisher's article on creasing.
    CreasingArticle,
    /// A glossary of print finishing.
    FinishingGlossary,
}

impl Source {
    /// Whether it is a standard that can be looked up by its name, or was worked
    /// out from one.
    pub const fn is_standard(self) -> bool {
        matches!(
            self,
            Self::Iso216 | Self::Iso269 | Self::FromIso269 | Self::AnsiY14 | Self::Pwg5101
        )
    }
}
