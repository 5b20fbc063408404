//! Parts that reach past the pages of the closed card.

use super::assembly::Facet;
use super::space::{Rigid, flat};
use super::verdict::Finding;
use crate::plane::{CardFrame, Region};

/// How far a part may reach past the pages, in millimetres: a fifth of the
/// finest mark of a ruler, less than a cut is true. (Own choice.)
const FLUSH: f64 = 0.1;

/// Every part that reaches past the outline of the pages, windows filled, with
/// its farthest place. `facets` are placed as in the closed card, flat on the table.
pub(super) fn pokes(facets: &[Facet], lays: &[Rigid]) -> Vec<Finding> {
    let outlines: Vec<Vec<[f64; 2]>> = facets
        .iter()
        .zip(lays)
        .map(|(facet, lay)| {
            let seen = facet.corners.iter().map(|corner| lay.point(flat(*corner)));
            seen.map(|[x, y, _]| [x, y]).collect()
        })
        .collect();
    let pages = || facets.iter().zip(&outlines).filter(|(facet, _)| facet.page);
    let covered = pages().fold(Region::<CardFrame>::default(), |all, (_, page)| {
        all.and(&Region::around(page))
    });
    if covered.is_empty() {
        return Vec::new();
    }
    let beyond = |at: [f64; 2]| {
        pages().fold(f64::MAX, |nearest, (_, page)| {
            nearest.min(from_outline(at, page))
        })
    };
    let mut found = Vec::new();
    for (facet, outline) in outlines.iter().enumerate() {
        if facets[facet].page {
            continue;
        }
        let mut farthest = (FLUSH, None);
        for corner in Region::around(outline).minus(&covered).contours().flatten() {
            let at = [corner.x.as_mm_f64(), corner.y.as_mm_f64()];
            let by = beyond(at);
            if by > farthest.0 {
                farthest = (by, Some(at));
            }
        }
        if let (by, Some(at)) = farthest {
            found.push(Finding::PokesOut { facet, by, at });
        }
    }
    found
}

/// Distance of a point from the nearest side of an outline.
fn from_outline(at: [f64; 2], outline: &[[f64; 2]]) -> f64 {
    let ends = outline.iter().zip(outline.iter().cycle().skip(1));
    ends.fold(f64::MAX, |nearest, (from, to)| {
        let side = [to[0] - from[0], to[1] - from[1]];
        let aside = [at[0] - from[0], at[1] - from[1]];
        let square = side[0] * side[0] + side[1] * side[1];
        let share = (side[0] * aside[0] + side[1] * aside[1]) / square.max(f64::MIN_POSITIVE);
        let share = share.clamp(0.0, 1.0);
        let off = [aside[0] - side[0] * share, aside[1] - side[1] * share];
        nearest.min(off[0].hypot(off[1]))
    })
}
