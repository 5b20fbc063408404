//! What there is to know of a way to lay a piece, to choose it.

use crate::lay::LayReport;
use crate::paper::{Stock, StockSide};
use crate::plane::Edge;
use crate::recipe::{Face, PanelId, Recipe, StripId};

/// What there is to know of a way to lay a piece on its sheet, to choose it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LayFacts {
    /// Whose it is.
    pub of: StripId,
    /// Whether its length runs across the sheet.
    pub across: bool,
    /// Its first panel; `None` where that is the only one.
    pub first: Option<PanelId>,
    /// The edge of the sheet, face up, towards which its first panel lies.
    pub at: Edge,
    /// The side of the paper that becomes the outside, or the back of a piece;
    /// `None` where both look alike.
    pub outside: Option<StockSide>,
    /// How many of them one sheet gives.
    pub per_sheet: i64,
    /// How many of its sides must read upright, and how many do.
    pub upright: (usize, usize),
}

/// What there is to know of a way to lay a piece.
pub fn lay_facts(recipe: &Recipe, of: StripId, stock: &Stock, report: &LayReport) -> LayFacts {
    let panels = recipe.strip(of).map(|strip| &strip.panels[..]);
    let first = match panels.unwrap_or_default() {
        [first, _, ..] => Some(first.id),
        [_] | [] => None,
    };
    let on_it = |face: &&Face| {
        let strip = recipe.strip_with(face.panel);
        strip.is_some_and(|(it, ..)| it == of)
    };
    LayFacts {
        of,
        across: report.lay.runs_across(),
        first,
        at: report.lay.on_table().first,
        outside: stock.sides_matter().then_some(report.lay.outside),
        per_sheet: report.per_sheet,
        upright: (
            recipe.upright.iter().filter(on_it).count(),
            report.upright.len(),
        ),
    }
}
