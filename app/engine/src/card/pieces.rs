//! How each strip is scored, and how those glued in are glued.

use super::Tools;
use crate::cut_list::CutList;
use crate::faces::Reading;
use crate::fold::{Folded, Glued};
use crate::laid::{LaidOut, Piece};
use crate::length::Length;
use crate::part::Part;
use crate::plane::{FaceFrame, PieceFrame, Placement, Region};
use crate::problem::{Finding, JoinFinding, Place, Problem};
use crate::reach::over;
use crate::recipe::Recipe;
use crate::score::{self, Chart};

/// How far a piece may be from the line it is laid along and still be glued
/// there: paper gives by the width of a pencil line (from memory, about half a
/// millimetre).
const GIVES: Length = Length::hundredths_mm(50);

/// The score chart of a strip.
pub(super) fn chart(recipe: &Recipe, tools: Tools, cut_list: &CutList, piece: &Piece) -> Chart {
    let blank = cut_list.of(Part::Strip(piece.of));
    let lies = blank.and_then(|blank| blank.lies.as_ref());
    let stock = recipe.stock(piece.stock);
    score::chart(
        piece,
        recipe.scoring,
        recipe.notation.step,
        tools.board,
        stock.zip(lies.map(|lies| lies.lay)),
    )
}

/// What is wrong with the glue of the pieces glued in.
pub(super) fn problems(
    recipe: &Recipe,
    laid: &LaidOut,
    folded: Option<&Folded>,
    readings: &[Reading],
) -> Vec<Problem> {
    let glued = folded.map(|folded| &folded.glued).into_iter().flatten();
    let joined = glued.filter_map(|glued| join(recipe, laid, folded, readings, glued));
    joined.collect()
}

/// What is wrong with one join.
fn join(
    recipe: &Recipe,
    laid: &LaidOut,
    folded: Option<&Folded>,
    readings: &[Reading],
    glued: &Glued,
) -> Option<Problem> {
    let part = laid.panels.get(glued.part)?.id;
    let piece = glued.join.0;
    let (place, on) = (Place::Piece(piece), glued.face);
    let found = |is| Finding::Join {
        piece,
        part,
        on,
        is,
    };
    if glued.turned_over {
        return Some(Problem::stop(place, found(JoinFinding::TurnedOver)));
    }
    if let Some(off) = glued.off.filter(|off| *off > GIVES) {
        return Some(Problem::stop(place, found(JoinFinding::Misses(off))));
    }
    let closed = folded?.states.first()?;
    let (carrier, tab) = (closed.poses.get(glued.on)?, closed.poses.get(glued.part)?);
    let seat = carrier.area().region();
    let tab = tab.area().region();
    let margin = recipe.glue_margin;
    if tab.common(&seat).inset(margin).is_empty() {
        return Some(Problem::stop(place, found(JoinFinding::NoRoom { margin })));
    }
    let reading = readings.iter().find(|reading| reading.face == glued.face)?;
    let seen = |panel: usize, place: Placement<PieceFrame, FaceFrame>| {
        let panel = laid.panels.get(panel)?;
        Some(Region::from(&place.polygon(&panel.facet.outline)))
    };
    let tab = seen(glued.part, glued.place.then(&reading.place))?;
    let beyond = over(&tab, &seen(glued.on, reading.place)?)?;
    let past = JoinFinding::Past {
        edges: beyond.edges,
        most: beyond.most,
    };
    Some(Problem::note(place, found(past)))
}
