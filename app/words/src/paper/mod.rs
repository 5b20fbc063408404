//! Paper, sheets and envelopes, and the printed rules for them.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::paper::{
    CaliperIs, Clearance, Envelope, FoldIn, Grade, SheetSize, Source, Weight,
};
use foldwright_engine::plane::Size;
use foldwright_engine::refit::standard_sheet;

use crate::Speaker;

/// Something of paper, of an envelope or of a rule for them.
#[derive(Debug, Clone, Copy)]
pub enum OfPaper {
    /// Where a number was read. A sentence.
    Source(Source),
    /// A clearance, for a choice. A label.
    Clearance(Clearance),
    /// What it asks for. A sentence.
    Asks(Clearance),
    /// A rule for what is folded inside others, for a choice. A label.
    FoldIn(FoldIn),
    /// What the thickness of a paper is. Sentences.
    Caliper(CaliperIs),
    /// A weight as on a label: "80 lb cover". A label.
    Weight(Weight),
    /// A grade as a unit of weight: "lb cover". A label.
    Grade(Grade),
    /// An envelope by its name. A label.
    Envelope(&'static Envelope),
    /// A size of sheets by its name. A label.
    Sheet(&'static SheetSize),
}

impl Speaker<'_> {
    /// Where a number was read, in a sentence.
    pub fn source(&self, source: Source) -> String {
        self.of_paper(OfPaper::Source(source))
    }

    /// A clearance, as a label.
    pub fn clearance(&self, rule: Clearance) -> String {
        self.of_paper(OfPaper::Clearance(rule))
    }

    /// What a clearance asks for, in a sentence.
    pub fn asks(&self, rule: Clearance) -> String {
        self.of_paper(OfPaper::Asks(rule))
    }

    /// A rule for what is folded inside others, as a label.
    pub fn fold_in(&self, rule: FoldIn) -> String {
        self.of_paper(OfPaper::FoldIn(rule))
    }

    /// What the thickness of a paper is, in sentences.
    pub fn caliper(&self, is: CaliperIs) -> String {
        self.of_paper(OfPaper::Caliper(is))
    }

    /// A weight as on a label of paper.
    pub fn weight(&self, weight: Weight) -> String {
        self.of_paper(OfPaper::Weight(weight))
    }

    /// A grade as a unit of weight.
    pub fn grade(&self, grade: Grade) -> String {
        self.of_paper(OfPaper::Grade(grade))
    }

    /// An envelope by its name.
    pub fn envelope(&self, envelope: &'static Envelope) -> String {
        self.of_paper(OfPaper::Envelope(envelope))
    }

    /// A size of sheets by its name.
    pub fn sheet(&self, sheet: &'static SheetSize) -> String {
        self.of_paper(OfPaper::Sheet(sheet))
    }

    /// What people call a sheet so large, or the size itself where none is sold
    /// in it.
    pub fn sheet_of(&self, size: Size) -> String {
        standard_sheet(size).map_or_else(|| self.short_size(size), |sheet| self.sheet(sheet))
    }

    /// The same in a name that is kept.
    pub fn sheet_in_names(&self, size: Size) -> String {
        let named = || self.names().size_in_names(size);
        standard_sheet(size).map_or_else(named, |sheet| self.sheet(sheet))
    }
}
