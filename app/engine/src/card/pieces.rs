//! The strips, each by itself, and how those glued in are glued.

use super::fit::{across_the_grain, not_upright};
use super::reaching::far;
use super::{PieceWork, Tools};
use crate::face::Reading;
use crate::fold::{Folded, Glued};
use crate::laid::{LaidOut, Piece};
use crate::length::Length;
use crate::plane::{FaceFrame, PieceFrame, Placement, Region};
use crate::print::{PrintAdvice, advise};
use crate::problem::{Place, Problem, Weight};
use crate::reach::over;
use crate::recipe::{Face, PieceId, Recipe};
use crate::score::{Chart, chart};
use crate::words::face_name;

/// How far a piece may be from the line it is laid along and still be glued
/// there: paper gives by the width of a pencil line (from memory, about half a
/// millimetre).
const GIVES: Length = Length::hundredths_mm(50);

/// How a strip lies on its paper, and its score chart.
pub(super) fn work(
    recipe: &Recipe,
    tools: Tools,
    laid: &LaidOut,
    piece: &Piece,
    readings: &[Reading],
) -> (Option<PrintAdvice>, Chart) {
    let stock = recipe.stock(piece.stock);
    let of_piece = |face: &&Face| {
        let place = laid.place_of(face.panel);
        place.is_some_and(|place| piece.panels.contains(&place))
    };
    let marked: Vec<_> = recipe.upright.iter().filter(of_piece).copied().collect();
    let chosen = match piece.of {
        None => recipe.lay,
        Some(id) => recipe.piece(id).and_then(|piece| piece.lay),
    };
    let print = stock.map(|stock| advise(&marked, chosen, stock, piece.size, readings));
    let chart = chart(
        piece,
        recipe.scoring,
        recipe.notation.step,
        tools.board,
        stock.zip(print.as_ref().map(|print| print.lay)),
    );
    (print, chart)
}

/// What is wrong with the pieces glued in: their paper, its print, and their
/// glue.
pub(super) fn problems(
    recipe: &Recipe,
    laid: &LaidOut,
    folded: Option<&Folded>,
    readings: &[Reading],
    works: &[PieceWork],
) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (piece, work) in laid.pieces.iter().zip(works) {
        problems.extend(paper(recipe, piece, work));
        let print = work.print.iter();
        problems.extend(print.flat_map(|print| not_upright(recipe, print, readings)));
        let is_across = work
            .print
            .as_ref()
            .is_some_and(PrintAdvice::is_across_grain);
        if is_across && !piece.creases.is_empty() {
            let name = named(recipe, work.of);
            let folds = format!("The folds of {name} run across the grain of its paper.");
            problems.push(across_the_grain(Place::Piece(work.of), folds));
        }
    }
    let glued = folded.map(|folded| &folded.glued).into_iter().flatten();
    let joined = glued.filter_map(|glued| join(recipe, laid, folded, readings, glued));
    problems.extend(joined);
    problems
}

fn named(recipe: &Recipe, id: PieceId) -> &str {
    recipe
        .piece(id)
        .map_or("a piece", |piece| piece.name.as_str())
}

fn paper(recipe: &Recipe, piece: &Piece, work: &PieceWork) -> Option<Problem> {
    let name = named(recipe, work.of);
    let stop = |what: String, why: String, remedy: &str| Problem {
        place: Place::Piece(work.of),
        weight: Weight::Stop,
        what,
        why,
        remedy: remedy.to_owned(),
    };
    let (Some(print), Some(stock)) = (&work.print, recipe.stock(piece.stock)) else {
        return Some(stop(
            format!("There is no paper for {name}."),
            "Its paper is no longer part of the recipe.".to_owned(),
            "Choose a paper for it.",
        ));
    };
    let fits = |report: &crate::print::LayReport| report.lay == print.lay && report.per_sheet > 0;
    (!print.lays.iter().any(fits)).then(|| {
        stop(
            format!("{name} does not fit its paper as it must lie."),
            format!(
                "It is cut from {}, and {} measures {}.",
                recipe.notation.size(piece.size.width, piece.size.height),
                stock.name,
                recipe.notation.size(stock.width, stock.height)
            ),
            "Choose larger paper, or make it smaller.",
        )
    })
}

/// What is wrong with one join.
fn join(
    recipe: &Recipe,
    laid: &LaidOut,
    folded: Option<&Folded>,
    readings: &[Reading],
    glued: &Glued,
) -> Option<Problem> {
    let name = named(recipe, glued.join.0);
    let panel = |place: usize| {
        let panel = laid.panels.get(place);
        panel.map_or_else(String::new, |panel| recipe.panel_name(panel.id))
    };
    let (part, on) = (panel(glued.part), panel(glued.on));
    let problem = |what: String, why: String, remedy: &str| {
        Some(Problem {
            place: Place::Piece(glued.join.0),
            weight: Weight::Stop,
            what,
            why,
            remedy: remedy.to_owned(),
        })
    };
    if glued.turned_over {
        return problem(
            format!("{part} of {name} comes to lie on {on} the other side up."),
            "Folded as it is when the card is closed, its other side faces the glue.".to_owned(),
            "Flip one of its folds, or say that its other side shows.",
        );
    }
    if let Some(off) = glued.off.filter(|off| *off > GIVES) {
        return problem(
            format!(
                "{part} of {name} misses its place on {on} by {}.",
                recipe.notation.with_unit(off)
            ),
            "Folded and glued at its other place, it comes to lie there when the card is closed."
                .to_owned(),
            "Move one of its places, make it fit, or glue this one where it comes to lie.",
        );
    }
    let closed = folded?.states.first()?;
    let (carrier, tab) = (closed.poses.get(glued.on)?, closed.poses.get(glued.part)?);
    let seat = carrier.area().region();
    let tab = tab.area().region();
    if tab.common(&seat).inset(recipe.glue_margin).is_empty() {
        return problem(
            format!("{part} of {name} has no place for glue on {on}."),
            format!(
                "In the closed card it does not lie on it by more than the margin of {} all round.",
                recipe.notation.with_unit(recipe.glue_margin)
            ),
            "Move it, or make it larger.",
        );
    }
    let reading = readings.iter().find(|reading| reading.face == glued.face)?;
    let seen = |panel: usize, place: Placement<PieceFrame, FaceFrame>| {
        let panel = laid.panels.get(panel)?;
        Some(Region::from(&place.polygon(&panel.facet.outline)))
    };
    let tab = seen(glued.part, glued.place.then(&reading.place))?;
    let beyond = over(&tab, &seen(glued.on, reading.place)?)?;
    Some(Problem {
        place: Place::Piece(glued.join.0),
        weight: Weight::Note,
        what: format!(
            "{part} of {name} reaches past {on}: {}.",
            far(recipe, &beyond.edges, beyond.most)
        ),
        why: format!(
            "That is as you look at {}. Glue there would tie it to what lies beside it.",
            face_name(recipe, glued.face)
        ),
        remedy: format!("Put glue only where it lies on {on}."),
    })
}
