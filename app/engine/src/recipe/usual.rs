//! What a recipe starts out with that is made of measures from elsewhere: papers, rules,
//! and what it leaves room for.

use super::{FoldingIn, MeasureId, Naming, New, Posting};
use crate::length::{Length, Notation, Unit};
use crate::paper::{ReadyPaper, SHEETS, SheetSize, Stock, StockId};
use crate::plane::Size;

/// Whether one size can be cut from another, either way round.
pub(crate) fn fits(size: Size, from: Size) -> bool {
    let within = |size: Size| size.width <= from.width && size.height <= from.height;
    within(size) || within(size.turned())
}

/// The paper of the base, then two for layers: of the sheet that is named, where a strip
/// can be cut from it, else of the smallest usual one from which it can.
pub(crate) fn usual_stocks(
    strip: Size,
    named: Option<(Size, Option<&'static SheetSize>)>,
    notation: Notation,
    naming: &dyn Naming,
) -> Vec<Stock> {
    let size_of = |sheet: &SheetSize| Size {
        width: sheet.width,
        height: sheet.height,
    };
    let named = named.filter(|(size, _)| fits(strip, *size));
    let usual = match notation.unit() {
        Unit::Inch => ["na-letter", "trade-12x12-in"],
        Unit::Millimetre => ["iso-a4", "trade-300-mm"],
    };
    let usual = usual.iter().filter_map(|id| SheetSize::by_id(id));
    let others = SHEETS.iter().rev();
    let sheet = usual
        .chain(others)
        .find(|sheet| fits(strip, size_of(sheet)));
    let (size, sheet) = match (named, sheet) {
        (Some((size, sheet)), _) => (size, sheet),
        (None, Some(sheet)) => (size_of(sheet), Some(sheet)),
        (None, None) => (strip, None),
    };
    let base = match notation.unit() {
        Unit::Inch => ReadyPaper::Cream,
        Unit::Millimetre => ReadyPaper::CreamA4,
    };
    let papers = [base, ReadyPaper::NightBlue, ReadyPaper::Brown];
    (1..)
        .zip(papers)
        .map(|(id, paper)| {
            let written = notation.size_in_names(size.width, size.height);
            let name = naming.name(match sheet {
                Some(sheet) => New::PaperIn(paper, sheet),
                None => New::PaperOf(paper, &written),
            });
            Stock {
                id: StockId(id),
                width: size.width,
                height: size.height,
                ..paper.stock(name)
            }
        })
        .collect()
}

/// By what a panel folded in is shorter: 1/16 in or 3 mm (common practice).
pub(crate) const fn usual_allowance(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::sixty_fourths(4),
        Unit::Millimetre => Length::mm(3),
    }
}

/// The rule for panels folded in that is usual in a unit, and the one for envelopes.
pub(crate) fn usual_rules(unit: Unit, allowance: MeasureId) -> (FoldingIn, Posting) {
    let (rule, clearance) = match unit {
        Unit::Inch => ("sixteenth", "eighth-round"),
        Unit::Millimetre => ("three-mm", "iso-pairs"),
    };
    let folding_in = FoldingIn {
        rule: rule.to_owned(),
        allowance,
    };
    let posting = Posting {
        rule: clearance.to_owned(),
        envelope: None,
        is_envelope: false,
        made_of: None,
    };
    (folding_in, posting)
}
