//! One strip, flat: its pattern divided into panels.

use super::cutout::{Paper, cut_out};
use super::faults::pattern_problems;
use super::parts::{Parts, unsaid};
use super::{Crease, LaidPanel, Piece};
use crate::length::Length;
use crate::pattern::{
    self, Divided, Facet, Fault, Hinge, LineId, LineKind, Misfit, Pattern, divide, misfits,
};
use crate::plane::{Point, Rect, Size};
use crate::problem::Problem;
use crate::recipe::{self, Recipe, Strip, StripId};

/// A piece with what is told of all pieces together.
pub(super) struct Laid {
    pub(super) piece: Piece,
    pub(super) panels: Vec<LaidPanel>,
    pub(super) hinges: Vec<Hinge>,
    pub(super) problems: Vec<Problem>,
}

/// A strip as a pattern, with where each of its panels ends, and what is left
/// once all is cut out of it.
fn drawn(recipe: &Recipe, of: StripId, strip: &Strip) -> (Pattern, Vec<Length>, Paper) {
    let height = recipe.value(strip.height);
    let mut ends = Vec::new();
    let mut at = Length::ZERO;
    for panel in &strip.panels {
        at += recipe.value(panel.width);
        ends.push(at);
    }
    let scores = ends.iter().zip(&strip.folds).zip(&strip.panels).enumerate();
    let scores = scores.take(ends.len().saturating_sub(1));
    let scores = scores.map(|(score, ((at, fold), panel))| pattern::Line {
        id: LineId::of_strip_score(of, score, panel.id),
        from: Point::new(*at, Length::ZERO),
        to: Point::new(*at, height),
        kind: LineKind::Crease(*fold),
    });
    let lines = strip.lines.iter().map(|line| pattern::Line {
        id: LineId::of_line(line.id),
        from: recipe.corner(line.from),
        to: recipe.corner(line.to),
        kind: line.kind,
    });
    let outline = Rect::spanning(
        Point::new(Length::ZERO, Length::ZERO),
        Point::new(at, height),
    );
    let paper = cut_out(recipe, strip, outline, &ends);
    let pattern = Pattern {
        outline: paper.outline.clone(),
        holes: paper.holes.clone(),
        lines: scores.chain(lines).collect(),
    };
    (pattern, ends, paper)
}

/// Lays out a strip, that of the base or of a piece, whose panels come after so
/// many others.
pub(super) fn lay_out(
    recipe: &Recipe,
    piece: Option<&recipe::Piece>,
    strip: &Strip,
    before: usize,
) -> Laid {
    let of = piece.map_or(StripId::Base, |piece| StripId::Piece(piece.id));
    let (pattern, ends, paper) = drawn(recipe, of, strip);
    let divided = divide(&pattern);
    let panel_of = |facet: usize| {
        let left = divided.facets.get(facet)?.outline.corners.first()?.x;
        ends.iter().position(|end| left < *end)
    };
    // What no crease joins to the part that is kept falls off when it is cut.
    // The card is a part of the panel that rests.
    let rests = strip.index_of(recipe.base.rests);
    let parts = Parts::of(&divided, recipe.spot_kept(strip), |facet| {
        piece.is_some() || panel_of(facet) == rests
    });
    let kept = parts.kept;
    let panels = named(&divided, &kept, &panel_of, strip);
    let index = |facet: usize| {
        let index = kept.iter().position(|kept| *kept == facet)?;
        Some(before + index)
    };
    let is_flat = |line: LineId| piece.is_some_and(|piece| piece.flat.contains(&line));
    let hinges = divided.hinges.iter().filter_map(|hinge| {
        Some(Hinge {
            left: index(hinge.left)?,
            right: index(hinge.right)?,
            folded: !is_flat(hinge.line),
            ..*hinge
        })
    });
    let hinges = hinges.collect();
    let fallen = parts.fallen.iter().map(|part| {
        let facets = part.iter().filter_map(|facet| divided.facets.get(*facet));
        facets.cloned().collect()
    });
    let fallen: Vec<Vec<Facet>> = fallen.collect();
    let is_cut_out = !paper.waste.is_empty();
    let misfits = shut_misfits(&pattern, &divided, &is_flat);
    let size = Size {
        width: ends.last().copied().unwrap_or_default(),
        height: recipe.value(strip.height),
    };
    let faults: Vec<_> = divided
        .faults
        .iter()
        .filter(|fault| !matches!(fault, Fault::Loose { .. }))
        .filter(|fault| !(is_cut_out && ends_at_cutout(fault, size)))
        .copied()
        .collect();
    let mut problems = paper.problems;
    problems.extend(pattern_problems(of, &pattern, &faults, &misfits));
    if !parts.is_said {
        problems.extend(unsaid(of, fallen.len()));
    }
    let (lines, scores): (Vec<_>, Vec<_>) = pattern
        .lines
        .into_iter()
        .partition(|line| line.id.line().is_some());
    let creases = scores.iter().filter_map(|line| {
        Some(Crease {
            from: line.from,
            to: line.to,
            fold: line.fold()?,
        })
    });
    Laid {
        piece: Piece {
            of,
            stock: strip.stock,
            outline: pattern.outline,
            holes: pattern.holes,
            is_cut_out,
            size,
            panels: before..before + panels.len(),
            creases: creases.collect(),
            lines,
            waste: paper.waste,
            fallen,
            misfits,
        },
        panels,
        hinges,
        problems,
    }
}

/// Whether a line leaves the paper only where something is cut out of the strip:
/// it ends there as it would at an edge.
fn ends_at_cutout(fault: &Fault, strip: Size) -> bool {
    let within = |at: Length, end: Length| (Length::ZERO..=end).contains(&at);
    let inside = |at: Length, end: Length| Length::ZERO < at && at < end;
    match fault {
        Fault::Outside { part, .. } => [part.from, part.to]
            .into_iter()
            .all(|at| within(at.x, strip.width) && within(at.y, strip.height)),
        Fault::AlongEdge { part, .. } => {
            let at = part.middle();
            inside(at.x, strip.width) && inside(at.y, strip.height)
        }
        _ => false,
    }
}

/// Where the panels do not come together once every crease is shut that is
/// shut in the closed card.
fn shut_misfits(
    pattern: &Pattern,
    divided: &Divided,
    is_flat: &dyn Fn(LineId) -> bool,
) -> Vec<Misfit> {
    if !pattern.lines.iter().any(|line| is_flat(line.id)) {
        return misfits(divided);
    }
    let shut = pattern.lines.iter().filter(|line| !is_flat(line.id));
    misfits(&divide(&Pattern {
        lines: shut.copied().collect(),
        ..pattern.clone()
    }))
}

/// The facets that are kept, with the names of the strip's panels they are parts
/// of. The largest part of a panel keeps the panel's own name, and what lies on
/// it.
fn named(
    divided: &Divided,
    kept: &[usize],
    panel_of: &dyn Fn(usize) -> Option<usize>,
    strip: &Strip,
) -> Vec<LaidPanel> {
    let largest: Vec<_> = (0..strip.panels.len())
        .map(|panel| {
            largest_of(divided, |facet| {
                panel_of(facet) == Some(panel) && kept.contains(&facet)
            })
        })
        .collect();
    let mut others = vec![0; strip.panels.len()];
    let kept = kept.iter();
    kept.filter_map(|facet| {
        let panel = panel_of(*facet)?;
        let id = strip.panels.get(panel)?.id;
        let number = if largest.get(panel) == Some(&Some(*facet)) {
            0
        } else {
            let others = others.get_mut(panel)?;
            *others += 1;
            *others
        };
        Some(LaidPanel {
            id: id.part(number),
            facet: divided.facets.get(*facet)?.clone(),
        })
    })
    .collect()
}

/// The largest of some facets. Of equals the last, so that a sheet folded in
/// half rests on its right page and opens like a book.
fn largest_of(divided: &Divided, some: impl Fn(usize) -> bool) -> Option<usize> {
    let facets = divided.facets.iter().enumerate();
    let some = facets.filter(|(facet, _)| some(*facet));
    let largest = some.max_by_key(|(_, facet)| facet.twice_area());
    largest.map(|(facet, _)| facet)
}
