//! Papers that are there to be chosen from.

use foldwright_engine::paper::{PrintedPaper, ReadyPaper, Stock};
use foldwright_engine::recipe::New;

use crate::spoken::{language, naming};

/// A paper to choose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Offered {
    Ready(ReadyPaper),
    Printed(PrintedPaper),
}

impl Offered {
    /// All of them, in the order offered.
    pub(crate) fn all() -> impl Iterator<Item = Self> {
        let printed = PrintedPaper::ALL.map(Self::Printed);
        ReadyPaper::ALL.map(Self::Ready).into_iter().chain(printed)
    }

    /// What it is called.
    pub(crate) fn name(self) -> String {
        match self {
            Self::Ready(paper) => naming().name(New::Paper(paper)),
            Self::Printed(paper) => language().motifs().sheet(paper),
        }
    }

    /// The paper, numbered by its place among the ready ones.
    pub(crate) fn stock(self) -> Stock {
        match self {
            Self::Ready(paper) => paper.stock(self.name()),
            Self::Printed(paper) => paper.stock(self.name()),
        }
    }
}
