//! The flat pieces with their numbers.

use super::{Affine, Drawing, Fill, Ink, Mark, Role, Spot, millimetres, spot};
use crate::card::Card;
use crate::draw::look::look;
use crate::faces::Part;
use crate::glue::Gluing;
use crate::laid::{LaidLayer, Piece};
use crate::length::Length;
use crate::pattern::{Facet, LineId};
use crate::plane::{PieceFrame, Placement, Point, Polygon, Region, Segment, Turn};
use crate::recipe::{Face, Fold, MeasureId, PieceId, Recipe, Side, Strip, StripId};

/// The base, or a piece glued in, before it is folded, one side up, with its
/// measures. Turned over, it is turned about its long axis, so that the first
/// panel stays at the left. Empty where there is no such piece.
pub fn flat(recipe: &Recipe, card: &Card, of: StripId, up: Side) -> Drawing {
    let (Some(base), Some(strip)) = (card.laid.piece(of), recipe.strip(of)) else {
        return Drawing::empty();
    };
    let turned = side_up(base, up);
    let mut marks = paper(recipe, card, base, up, &turned);
    layers(recipe, card, base, up, &turned, &mut marks);
    glued(recipe, card, base, (up, &turned), |_| true, &mut marks);
    marks.extend(edges(base, &turned));
    marks.extend(lines(card, base, strip, up).map(|it| Mark::Line {
        from: spot(turned.point(it.course.from)),
        to: spot(turned.point(it.course.to)),
        ink: it.ink,
        line: it.is_longest.then_some(it.line),
    }));
    marks.extend(strip.cutouts.iter().filter_map(|cutout| {
        let at = recipe.window_on_strip(cutout.id)?;
        let middle = Segment::new(at.low, at.high).middle();
        Some(Mark::Grip {
            at: spot(turned.point(middle)),
            window: cutout.id,
        })
    }));
    dimensions(recipe, base, strip, &mut marks);
    Drawing::framed(marks, 0.04)
}

/// A piece as it lies with a side up: turned about its long axis where that is its
/// outside.
pub(super) fn side_up(base: &Piece, up: Side) -> Placement<PieceFrame, PieceFrame> {
    match up {
        Side::A => Placement::unmoved(),
        Side::B => Placement::new(true, Turn::Half, Point::new(Length::ZERO, base.size.height)),
    }
}

/// The panels of a piece with a side up, what is cut away from it, and what falls off.
pub(super) fn paper(
    recipe: &Recipe,
    card: &Card,
    base: &Piece,
    up: Side,
    turned: &Placement<PieceFrame, PieceFrame>,
) -> Vec<Mark> {
    let place = affine(turned);
    let panels = card.laid.panels_of(base).iter().map(|panel| {
        let face = Face {
            panel: panel.id,
            side: up,
        };
        let fill = look(recipe, card, Part::Face(face)).map(|look| look.fill(&place, 0.0));
        Mark::Area {
            outlines: outlines(turned, &panel.facet),
            fill: fill.unwrap_or(Fill::Ground),
            edged: false,
            part: Some(Part::Face(face)),
        }
    });
    let waste = base.waste.iter().map(|facet| Mark::Area {
        outlines: outlines(turned, facet),
        fill: Fill::Waste,
        edged: false,
        part: None,
    });
    let fallen = base.fallen.iter().enumerate();
    let fallen = fallen.map(|(part, facets)| Mark::Fallen {
        outlines: facets
            .iter()
            .flat_map(|facet| outlines(turned, facet))
            .collect(),
        of: base.of,
        part,
    });
    panels.chain(waste).chain(fallen).collect()
}

/// The edges of a piece, and of what is cut out of it.
pub(super) fn edges(
    base: &Piece,
    turned: &Placement<PieceFrame, PieceFrame>,
) -> impl Iterator<Item = Mark> {
    let edges = std::iter::once(&base.outline).chain(&base.holes);
    edges.map(|edge| Mark::Outline {
        corners: outline(&turned.polygon(edge)),
        ink: Ink::Edge,
    })
}

/// A stretch of a score, or a crease or cut.
pub(super) struct Stretch {
    pub(super) line: LineId,
    pub(super) course: Segment<PieceFrame>,
    /// What it does, seen from the side that is up.
    pub(super) ink: Ink,
    /// Whether the line has no longer stretch, nor one as long before.
    pub(super) is_longest: bool,
}

/// The scores of a piece, as far as something cut out of the paper leaves them, then its
/// creases and cuts.
pub(super) fn lines(
    card: &Card,
    base: &Piece,
    strip: &Strip,
    up: Side,
) -> impl Iterator<Item = Stretch> {
    let ink = move |fold: Fold| match (fold, up) {
        (Fold::Mountain, Side::A) | (Fold::Valley, Side::B) => Ink::Mountain,
        (Fold::Valley, Side::A) | (Fold::Mountain, Side::B) => Ink::Valley,
    };
    let scores = base.creases.iter().zip(&strip.panels).enumerate();
    let scores = scores.flat_map(move |(score, (crease, panel))| {
        let line = LineId::of_strip_score(base.of, score, panel.id);
        let course = Segment::new(crease.from, crease.to);
        let all = stretches(card, base, line, course).into_iter();
        all.map(move |(course, is_longest)| Stretch {
            line,
            course,
            ink: ink(crease.fold),
            is_longest,
        })
    });
    let lines = base.lines.iter().map(move |line| Stretch {
        line: line.id,
        course: line.course(),
        ink: line.fold().map_or(Ink::Cut, ink),
        is_longest: true,
    });
    scores.chain(lines)
}

/// The stretches of a score that something cut out of the paper leaves, each with
/// whether it is the longest, by which the score is taken hold of.
fn stretches(
    card: &Card,
    base: &Piece,
    line: LineId,
    course: Segment<PieceFrame>,
) -> Vec<(Segment<PieceFrame>, bool)> {
    let found = if base.is_cut_out {
        card.laid.stretches(line, course)
    } else {
        vec![course]
    };
    let longest = found.iter().enumerate();
    let longest = longest.max_by_key(|(index, part)| (part.length(), std::cmp::Reverse(*index)));
    let longest = longest.map(|(index, _)| index);
    let parts = found.iter().enumerate();
    parts
        .map(|(index, part)| (*part, Some(index) == longest))
        .collect()
}

/// The layers on the side that is up, in place, and the outlines of those on
/// the other.
pub(super) fn layers(
    recipe: &Recipe,
    card: &Card,
    piece: &Piece,
    up: Side,
    turned: &Placement<PieceFrame, PieceFrame>,
    marks: &mut Vec<Mark>,
) {
    let on_piece = |layer: &&LaidLayer| {
        let index = card.laid.index_of(layer.face.panel);
        index.is_some_and(|index| piece.panels.contains(&index))
    };
    for layer in card.laid.layers.iter().filter(on_piece) {
        let reading = card
            .readings
            .iter()
            .find(|reading| reading.face == layer.face);
        let Some(reading) = reading else { continue };
        let place = reading.place.back().then(turned);
        let outlines = contours(&place.region(&layer.region()));
        if layer.face.side == up {
            let at = layer.at.low;
            let corner = Affine {
                origin: spot(place.point(at)),
                ..affine(&place)
            };
            let look = look(recipe, card, Part::Layer(layer.id));
            marks.push(Mark::Area {
                outlines,
                fill: look.map_or(Fill::Ground, |look| look.fill(&corner, 0.0)),
                edged: true,
                part: Some(Part::Layer(layer.id)),
            });
        } else {
            let ink = Ink::Hidden;
            let hidden = |corners| Mark::Outline { corners, ink };
            marks.extend(outlines.into_iter().map(hidden));
        }
    }
}

/// Where the wanted joins of other pieces are glued on the side that is up, and the
/// lines they are laid along.
pub(super) fn glued(
    recipe: &Recipe,
    card: &Card,
    piece: &Piece,
    (up, turned): (Side, &Placement<PieceFrame, PieceFrame>),
    wanted: impl Fn((PieceId, usize)) -> bool,
    marks: &mut Vec<Mark>,
) {
    let all = card.folded.iter().flat_map(|folded| &folded.glued);
    let here = all.filter(|it| piece.panels.contains(&it.on) && it.face.side == up);
    for glued in here.filter(|it| wanted(it.join)) {
        let Some(part) = card.laid.panels.get(glued.part) else {
            continue;
        };
        let place = glued.place.then(turned);
        let outline = outline(&place.polygon(&part.facet.outline));
        let next = outline.iter().cycle().skip(1);
        marks.extend(outline.iter().zip(next).map(|(from, to)| Mark::Line {
            from: *from,
            to: *to,
            ink: Ink::Hidden,
            line: None,
        }));
        let (id, number) = glued.join;
        let join = recipe.piece(id).and_then(|piece| piece.joins.get(number));
        let mark = join.and_then(|join| join.at);
        marks.extend(mark.map(|mark| Mark::Line {
            from: spot(turned.point(recipe.corner(mark.from))),
            to: spot(turned.point(recipe.corner(mark.to))),
            ink: Ink::Laid,
            line: None,
        }));
    }
}

/// A facet's outline and holes.
fn outlines(turned: &Placement<PieceFrame, PieceFrame>, facet: &Facet) -> Vec<Vec<Spot>> {
    std::iter::once(&facet.outline)
        .chain(&facet.holes)
        .map(|polygon| outline(&turned.polygon(polygon)))
        .collect()
}

/// The panels' widths above the strip, its length below, its height at its
/// left.
fn dimensions(recipe: &Recipe, base: &Piece, strip: &Strip, marks: &mut Vec<Mark>) {
    let size = [base.size.width, base.size.height].map(millimetres);
    let gap = size[0].max(size[1]) / 16.0;
    let number = |measure: MeasureId, at: Spot, marks: &mut Vec<Mark>| {
        marks.push(Mark::Text {
            at,
            words: recipe.notation.plain(recipe.value(measure)),
            role: Role::Number(measure),
        });
    };
    let ruled = |from: Spot, to: Spot, marks: &mut Vec<Mark>| {
        marks.push(Mark::Line {
            from,
            to,
            ink: Ink::Dimension,
            line: None,
        });
    };
    let mut end = Length::ZERO;
    for panel in &strip.panels {
        let start = end;
        end += recipe.value(panel.width);
        let (left, right) = (millimetres(start), millimetres(end));
        let above = size[1] + gap * 0.5;
        ruled([left, above], [right, above], marks);
        number(
            panel.width,
            [f64::midpoint(left, right), size[1] + gap * 1.3],
            marks,
        );
    }
    ruled([0.0, -gap * 0.5], [size[0], -gap * 0.5], marks);
    number(strip.length, [size[0] / 2.0, -gap * 1.3], marks);
    ruled([-gap * 0.5, 0.0], [-gap * 0.5, size[1]], marks);
    number(strip.height, [-gap * 1.9, size[1] / 2.0], marks);
}

/// The back of a layer with where glue may go, as seen when gluing.
pub fn back_of_layer(recipe: &Recipe, card: &Card, gluing: &Gluing) -> Drawing {
    // Turned over like a page.
    let place = Affine {
        x: [-1.0, 0.0],
        y: [0.0, 1.0],
        origin: [millimetres(gluing.back.width), 0.0],
    };
    let look = look(recipe, card, Part::LayerBack(gluing.layer));
    let mut marks = vec![Mark::Area {
        outlines: contours(&gluing.outline),
        fill: look.map_or(Fill::Ground, |look| look.fill(&place, 0.0)),
        edged: true,
        part: None,
    }];
    let glued = match (gluing.refused, &gluing.wanted) {
        (true, Some(wanted)) => Some((wanted, Fill::Refused)),
        _ => gluing.safe.as_ref().map(|safe| (safe, Fill::Glue)),
    };
    if let Some((region, fill)) = glued {
        marks.push(Mark::Area {
            outlines: contours(region),
            fill,
            edged: false,
            part: None,
        });
        let edges = gluing.edges(region);
        let plain = |length| recipe.notation.plain(length);
        let within = region.bounds().unwrap_or_default();
        let (low, high) = (spot(within.low), spot(within.high));
        let (right, top) = (
            millimetres(gluing.back.width),
            millimetres(gluing.back.height),
        );
        let middle = [0, 1].map(|i| f64::midpoint(low[i], high[i]));
        let gap = right.max(top) / 14.0;
        for (at, length) in [
            ([-gap * 1.4, middle[1]], edges.left),
            ([right + gap * 1.4, middle[1]], edges.right),
            ([middle[0], top + gap], edges.top),
            ([middle[0], -gap], edges.bottom),
        ] {
            marks.push(Mark::Text {
                at,
                words: plain(length),
                role: Role::Length,
            });
        }
    }
    Drawing::framed(marks, 0.06)
}

fn outline<F>(polygon: &Polygon<F>) -> Vec<Spot> {
    polygon.corners.iter().map(|at| spot(*at)).collect()
}

/// All outlines of a region, those of its holes included.
pub(super) fn contours<F>(region: &Region<F>) -> Vec<Vec<Spot>> {
    let contours = region.contours();
    contours
        .map(|contour| contour.into_iter().map(spot).collect())
        .collect()
}

/// A placement as a map of millimetres.
pub(crate) fn affine<A, B>(place: &Placement<A, B>) -> Affine {
    let origin = spot(place.shift);
    let (cos, sin) = place.turn.cos_sin();
    let x: Spot = if place.mirrored {
        [0.0 - cos, 0.0 - sin]
    } else {
        [cos, sin]
    };
    Affine {
        x,
        // Taken from zero, because a negated zero is written with its sign.
        y: [0.0 - sin, cos],
        origin,
    }
}
