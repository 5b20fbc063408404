//! How the sheet and what is cut from it are laid down, for cutting and for
//! scoring.

use super::{Instruction, Label, Move, Runs, SheetLies};
use crate::card::Card;
use crate::cut_list::Blank;
use crate::glue::Gluing;
use crate::lay::LayAdvice;
use crate::paper::{Heads, Print, SideLook, Stock};
use crate::part::Part;
use crate::plane::Size;
use crate::recipe::{LayerId, Recipe, Side, StripId};
use crate::score::{AtStop, Pass, ScoreMark};

/// How to lay the sheet and which way to cut the base, or a piece glued in, from
/// it.
pub fn how_to_cut(recipe: &Recipe, card: &Card, of: StripId) -> Vec<Instruction> {
    let part = Part::Strip(of);
    let Some(blank) = card.cut_list.of(part) else {
        return Vec::new();
    };
    let (Some(lies), Some(stock)) = (&blank.lies, recipe.stock(blank.stock)) else {
        return Vec::new();
    };
    let runs = match (lies.lay.runs_across(), stock.has_direction()) {
        (true, true) => Runs::AcrossPrint,
        (false, true) => Runs::UpPrint,
        (true, false) => Runs::AcrossSheet,
        (false, false) => Runs::UpSheet,
    };
    let cut = Instruction::CutStrip {
        of,
        size: blank.size,
        runs,
    };
    let mut does = match cut_at(blank, stock) {
        Some(at) => vec![lay_sheet(stock), cut, at],
        None => vec![Instruction::MeasureFromCorner(part), lay_sheet(stock), cut],
    };
    if stock.sides_matter() {
        does.extend(strip_lies(recipe, of, lies));
    }
    does
}

/// Where on its sheet a part is cut, where that is not anywhere.
fn cut_at(blank: &Blank, stock: &Stock) -> Option<Instruction> {
    let at = blank.at?;
    Some(Instruction::CutAt {
        part: blank.part,
        left: at.x,
        top: stock.height - at.y - blank.size_on_sheet().height,
    })
}

/// Which side of a strip is up as it lies on its sheet, and where its first panel
/// is.
fn strip_lies(recipe: &Recipe, of: StripId, lies: &LayAdvice) -> [Instruction; 2] {
    let on_sheet = lies.lay.on_table();
    let panels = recipe.strip(of).map(|strip| &strip.panels[..]);
    let first = match panels.unwrap_or_default() {
        [first, _, ..] => Some(first.id),
        [_] | [] => None,
    };
    let lies_there = Instruction::LiesThere {
        of,
        up: on_sheet.up,
        first,
        at: on_sheet.first,
    };
    [lies_there, Instruction::Outside(of, lies.lay.outside)]
}

/// How to lay a piece that is cut, where it matters, so that its sides and its
/// print are as they are to be.
pub(super) fn how_piece_lies(recipe: &Recipe, blank: &Blank) -> Vec<Instruction> {
    let (Some(lies), Some(stock)) = (&blank.lies, recipe.stock(blank.stock)) else {
        return Vec::new();
    };
    let lay = Instruction::LayPiece(blank.part, sheet_lies(stock));
    match blank.part {
        Part::Strip(of) if stock.sides_matter() => {
            let [there, outside] = strip_lies(recipe, of, lies);
            vec![lay, there, outside]
        }
        Part::Strip(_) => Vec::new(),
        Part::Layer(id) => match way_up(recipe, blank, lies) {
            WayUp::Any => Vec::new(),
            WayUp::Print => vec![Instruction::UpPrint(id)],
            WayUp::Sheet => vec![lay, Instruction::TopLies(id, lies.lay.on_table().top)],
        },
    }
}

/// What tells which way up a layer is.
enum WayUp {
    /// Nothing: any way it lies is as good as another.
    Any,
    /// Its print.
    Print,
    /// Only how it lay on its sheet.
    Sheet,
}

fn way_up(recipe: &Recipe, blank: &Blank, lies: &LayAdvice) -> WayUp {
    let stock = recipe.stock(blank.stock);
    let head = stock.and_then(|stock| lies.lay.head_on(stock, Side::A));
    let is_upright = lies.used().is_some_and(|used| !used.upright.is_empty());
    match head {
        Some(_) if is_upright => WayUp::Print,
        None if lies.asks.is_empty() => WayUp::Any,
        _ => WayUp::Sheet,
    }
}

/// How to cut a layer, and how to lay its sheet where it matters how that lies.
pub(super) fn how_to_cut_layer(
    recipe: &Recipe,
    blank: &Blank,
    lies: &LayAdvice,
    id: LayerId,
) -> Vec<Instruction> {
    let cut = Instruction::CutLayer(id, blank.stock);
    let stock = recipe.stock(blank.stock);
    if let Some((stock, at)) = stock.and_then(|stock| Some((stock, cut_at(blank, stock)?))) {
        let top = Instruction::TopLies(id, lies.lay.on_table().top);
        return vec![lay_sheet(stock), cut, at, top];
    }
    let mut does = vec![Instruction::MeasureFromCorner(blank.part)];
    match way_up(recipe, blank, lies) {
        WayUp::Print => does.extend([cut, Instruction::UpPrint(id)]),
        WayUp::Any => does.push(cut),
        WayUp::Sheet => {
            does.extend(stock.map(lay_sheet));
            does.extend([cut, Instruction::TopLies(id, lies.lay.on_table().top)]);
        }
    }
    does
}

/// To lay a sheet face up.
fn lay_sheet(stock: &Stock) -> Instruction {
    Instruction::LaySheet {
        lies: sheet_lies(stock),
        side: stock.width,
    }
}

/// Which way round a sheet lies whose width alone does not tell.
fn sheet_lies(stock: &Stock) -> SheetLies {
    let points = |look: SideLook| matches!(look.print, Print::OneWay | Print::TwoWay);
    match (points(stock.face), points(stock.back), stock.heads) {
        (true, ..) => SheetLies::Upright,
        (false, true, Heads::ToHead) => SheetLies::HeadAway,
        (false, true, Heads::ToFoot) => SheetLies::HeadTowards,
        (false, false, _) => SheetLies::Either,
    }
}

/// How to lay the base, or a piece glued in, on the scoring board.
pub fn how_to_lay(recipe: &Recipe, card: &Card, of: StripId, pass: &Pass) -> Vec<Instruction> {
    let panels = recipe.strip(of).map(|strip| &strip.panels[..]);
    let panels = panels.unwrap_or_default();
    let at_stop = match pass.at_stop {
        AtStop::First => panels.first(),
        AtStop::Last => panels.last(),
    };
    let size = card.laid.piece(of).map_or_else(Size::default, |it| it.size);
    let at_fence = at_stop.map(|panel| Instruction::AtFence {
        of,
        up: pass.up,
        panel: panel.id,
        long: size.height > size.width,
    });
    let head = pass.head.map(Instruction::Head);
    at_fence.into_iter().chain(head).collect()
}

/// What to do with a strip between two passes.
pub fn between_passes(of: StripId, before: &Pass, after: &Pass) -> Instruction {
    let over = before.up != after.up;
    let round = before.at_stop != after.at_stop;
    let way = match (over, round) {
        (true, false) => Move::Over,
        (true, true) => Move::EndForEnd,
        (false, true) => Move::HalfRound,
        (false, false) => Move::Stay,
    };
    Instruction::Between(of, way)
}

/// Where glue goes on the back of a layer, as it is seen when gluing: where the
/// maker wants it, or where it is safe.
pub fn how_to_glue(gluing: &Gluing) -> Vec<Instruction> {
    let Some(region) = gluing.wanted.as_ref().or(gluing.safe.as_ref()) else {
        return vec![Instruction::NowhereToGlue(gluing.layer)];
    };
    let edges = gluing.edges(region);
    let mut does = vec![
        Instruction::GlueAcross {
            left: edges.left,
            right: edges.right,
        },
        Instruction::GlueUp {
            top: edges.top,
            bottom: edges.bottom,
        },
    ];
    if !region.is_rectangle() {
        does.push(Instruction::KeepToShape);
    }
    does
}

/// How a score folds, and where its ridge goes.
pub const fn score_label(of: StripId, mark: &ScoreMark) -> Label {
    Label::Score {
        of,
        fold: mark.fold,
        ridge_inside: mark.bump_inside,
    }
}
