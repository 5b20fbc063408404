//! Parts of a card that pops up that reach past its pages when it is shut.

use super::opening::main_fold;
use crate::fold::Folded;
use crate::laid::LaidOut;
use crate::length::Length;
use crate::pattern::LineKind;
use crate::plane::{CardFrame, PieceFrame, Point, Rect, SAME_WITHIN, Segment, Size, bounds};
use crate::problem::{Finding, OpeningFinding, Place, Problem};
use crate::recipe::Recipe;

/// How far a part may reach past the pages: a fifth of the finest mark of a
/// ruler, less than a cut is true. (Own choice.)
const FLUSH: Length = Length::hundredths_mm(10);

/// Of a card whose creases open together, the part that makes it larger than
/// its two pages, on each side the one that reaches furthest of what is cut free
/// within the base; what is glued in is told of with the layers
/// ([`crate::reach`]). The size of the closed card counts it in.
pub(super) fn past_the_pages(
    recipe: &Recipe,
    laid: &LaidOut,
    folded: &Folded,
    finished: Size,
) -> Vec<Problem> {
    let reach = || {
        let closed = folded.states.first().filter(|_| folded.opens_together())?;
        let root = laid.index_of(recipe.base.rests)?;
        let pages = [root, laid.hinges.get(main_fold(laid, root)?)?.across(root)];
        let covers = |panel: usize| {
            let pose = closed.poses.get(panel).filter(|pose| !pose.stands)?;
            Some(pose.covers)
        };
        let corners: Vec<_> = pages
            .iter()
            .filter_map(|page| covers(*page))
            .flat_map(|covers| covers.corners())
            .collect();
        let pages_cover = bounds(&corners)?;
        let parts = laid
            .base
            .panels
            .clone()
            .filter(|panel| !pages.contains(panel) && is_cut_free(laid, *panel));
        let parts: Vec<_> = parts
            .filter_map(|panel| Some((panel, beyond(&covers(panel)?, &pages_cover))))
            .collect();
        let mut furthest: Vec<(usize, Length)> = Vec::new();
        for side in 0..4 {
            let past = parts.iter().map(|(panel, beyond)| (beyond[side], *panel));
            // Of equals the first.
            let most = past.max_by_key(|(by, panel)| (*by, std::cmp::Reverse(*panel)));
            let Some((by, panel)) = most.filter(|(by, _)| *by > FLUSH) else {
                continue;
            };
            match furthest.iter_mut().find(|(known, _)| *known == panel) {
                Some((_, most)) => *most = by.max(*most),
                None => furthest.push((panel, by)),
            }
        }
        Some(furthest)
    };
    let found = reach().unwrap_or_default().into_iter();
    found
        .filter_map(|(panel, by)| {
            let panel = laid.panels.get(panel)?.id;
            let found = OpeningFinding::PastThePages {
                panel,
                by,
                finished,
            };
            Some(Problem::warning(
                Place::Panel(panel),
                Finding::Opening(found),
            ))
        })
        .collect()
}

/// How far a part reaches past the pages to the left, to the right, below and
/// above.
fn beyond(part: &Rect<CardFrame>, pages: &Rect<CardFrame>) -> [Length; 4] {
    [
        pages.low.x - part.low.x,
        part.high.x - pages.high.x,
        pages.low.y - part.low.y,
        part.high.y - pages.high.y,
    ]
}

/// Whether a cut within the base frees an edge of a panel. A sheet that is only
/// folded has no pages: all of it makes the card.
fn is_cut_free(laid: &LaidOut, panel: usize) -> bool {
    let Some(panel) = laid.panels.get(panel) else {
        return false;
    };
    let cuts = laid.base.lines.iter();
    let cuts = cuts.filter(|line| line.kind == LineKind::Cut);
    let corners = &panel.facet.outline.corners;
    let next = corners.iter().cycle().skip(1);
    let edges: Vec<Segment<PieceFrame>> = corners
        .iter()
        .zip(next)
        .map(|(from, to): (&Point<PieceFrame>, _)| Segment::new(*from, *to))
        .collect();
    let mut cuts = cuts.map(crate::pattern::Line::course);
    cuts.any(|cut| {
        let mut edges = edges.iter();
        edges.any(|edge| cut.is_near(edge.middle(), SAME_WITHIN) && is_along(&cut, edge))
    })
}

/// Whether an edge runs along a cut.
fn is_along(cut: &Segment<PieceFrame>, edge: &Segment<PieceFrame>) -> bool {
    cut.is_in_line(edge.from, SAME_WITHIN) && cut.is_in_line(edge.to, SAME_WITHIN)
}
