//! Drawings of the card on a page: the same that the app shows, written in PDF.

use foldwright_engine::draw::{Affine, Drawing, Line, Motif, Paint, Painted, Photo, Spot, painted};
use foldwright_engine::paper::Colour;
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point, Rect, Size, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Pattern, Stroke, StrokeDash};
use krilla::surface::Surface;
use kurbo::{BezPath, PathEl};

use crate::paper::MM;
use crate::photo::Photos;
use crate::typeface::{CAPITALS, Weight, writable};

/// The largest size of type in a drawing, in points, so that its numbers do not
/// stand out from the text beside it.
const LARGEST: f32 = 7.5;

/// The smallest, below which nothing is read at a table. (Own choice.)
const SMALLEST: f32 = 6.0;

/// On a drawing that is smaller than this on its longer side, in points, lines are
/// thinner, so that they do not run into each other; never thinner than such a share
/// of their width.
const WHOLE_LINES: f32 = 60.0 * MM;
const THINNEST: f32 = 0.5;

/// Letters lie on a white plate, which hides so much of what is under it, from 0 to
/// 1, and reaches so far above and below them, in points.
const PLATE: f64 = 0.75;
const RIM: f32 = 0.8;

/// A millimetre in points (ISO 32000-1, 8.3.2.3).
const POINTS: f64 = 72.0 / 25.4;

/// The size of type that has room between the lines of a drawing, as a share of
/// its longer side.
const ROOM: f32 = 1.0 / 16.0;

/// Where a drawing lies on a page: how many points a millimetre of it takes, and
/// where its upper left corner is.
#[derive(Debug, Clone, Copy)]
struct Lies {
    points: f64,
    /// The left edge and the upper edge of the drawing.
    corner: Spot,
    at: [f32; 2],
    size: [f32; 2],
    /// How wide lines are drawn, as a share of their width in the table of pens.
    line: f32,
}

impl Lies {
    fn of(drawing: &Drawing, at: [f32; 2], size: [f32; 2]) -> Self {
        let [wide, high] = drawing.size();
        let points = (f64::from(size[0]) / wide).min(f64::from(size[1]) / high);
        let taken = [wide, high].map(|side| narrow(side * points));
        Self {
            points,
            corner: [drawing.low[0], drawing.high[1]],
            at: [at[0], at[1] + (size[1] - taken[1]) / 2.0],
            size: taken,
            line: (taken[0].max(taken[1]) / WHOLE_LINES).clamp(THINNEST, 1.0),
        }
    }

    /// True to scale, with lines as wide as the table of pens has them.
    fn true_to_scale(drawing: &Drawing, at: [f32; 2]) -> Self {
        Self {
            points: POINTS,
            corner: [drawing.low[0], drawing.high[1]],
            at,
            size: drawing.size().map(|side| narrow(side * POINTS)),
            line: 1.0,
        }
    }

    fn spot(&self, [x, y]: Spot) -> [f32; 2] {
        [
            self.at[0] + narrow((x - self.corner[0]) * self.points),
            self.at[1] + narrow((self.corner[1] - y) * self.points),
        ]
    }

    /// From a motif, y down, through an upright print to the page.
    fn print(&self, place: &Affine) -> Transform {
        let [right, down] = [place.x, place.y.map(|part| -part)];
        let [left, top] = self.spot(place.origin);
        let along = |way: Spot| [way[0], -way[1]].map(|part| narrow(part * self.points));
        let (right, down) = (along(right), along(down));
        Transform::from_row(right[0], right[1], down[0], down[1], left, top)
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a millionth of a page is seen by nobody"
)]
fn narrow(number: f64) -> f32 {
    number as f32
}

pub(crate) fn ink(colour: Colour) -> rgb::Color {
    rgb::Color::new(colour.red, colour.green, colour.blue)
}

fn share(opacity: f64) -> NormalizedF32 {
    NormalizedF32::new(narrow(opacity.clamp(0.0, 1.0))).unwrap_or(NormalizedF32::ONE)
}

/// Draws a drawing at the left of a rectangle, as large as it has room for.
pub(crate) fn draw(
    surface: &mut Surface<'_>,
    (drawing, photos): (&Drawing, &Photos),
    at: [f32; 2],
    size: [f32; 2],
) {
    put(surface, (drawing, photos), &Lies::of(drawing, at, size));
}

/// Draws what lies within the frame of a drawing with its upper left corner at a
/// place, a millimetre as a millimetre.
pub(crate) fn draw_true_to_scale(
    surface: &mut Surface<'_>,
    (drawing, photos): (&Drawing, &Photos),
    at: [f32; 2],
) {
    let lies = Lies::true_to_scale(drawing, at);
    let [width, height] = lies.size;
    let mut frame = PathBuilder::new();
    if let Some(rect) = Rect::from_xywh(at[0], at[1], width, height) {
        frame.push_rect(rect);
    }
    let Some(frame) = frame.finish() else { return };
    surface.push_clip_path(&frame, &FillRule::NonZero);
    put(surface, (drawing, photos), &lies);
    surface.pop();
}

fn put(surface: &mut Surface<'_>, (drawing, photos): (&Drawing, &Photos), lies: &Lies) {
    for mark in painted(drawing, lies.points / POINTS, &|photo| photos.has(photo)) {
        match mark {
            Painted::Area {
                outlines,
                paint,
                opacity,
                edge,
            } => {
                let Some(path) = path(&outlines, true, lies) else {
                    continue;
                };
                match paint {
                    Paint::Photo { photo, place } => {
                        photographed(surface, &path, (photos, photo, &place), edge, lies);
                    }
                    paint => area(surface, &path, (paint, opacity), edge, lies),
                }
            }
            Painted::Lines {
                chains,
                closed,
                line,
            } => {
                if let Some(path) = path(&chains, closed, lies) {
                    surface.set_fill(None);
                    surface.set_stroke(Some(stroke(&line, lies.line)));
                    surface.draw_path(&path);
                }
            }
            Painted::Words {
                at,
                words,
                size,
                bold,
                colour,
            } => {
                let weight = if bold { Weight::Bold } else { Weight::Regular };
                let [wide, high] = lies.size;
                let room = wide.max(high) * ROOM;
                let size = (narrow(size) * MM).min(room).clamp(SMALLEST, LARGEST);
                write(surface, &words, (weight, size, colour), lies.spot(at), lies);
            }
        }
    }
}

fn area(
    surface: &mut Surface<'_>,
    path: &Path,
    (paint, opacity): (Paint, f64),
    edge: Option<Line>,
    lies: &Lies,
) {
    let (Paint::Plain(ground) | Paint::Printed { ground, .. }) = paint else {
        return;
    };
    surface.set_fill(Some(Fill {
        paint: ink(ground).into(),
        opacity: share(opacity),
        rule: FillRule::NonZero,
    }));
    let edge = edge.as_ref().map(|edge| stroke(edge, lies.line));
    let Paint::Printed {
        motif,
        ink,
        opacity,
        place,
        ..
    } = paint
    else {
        surface.set_stroke(edge);
        surface.draw_path(path);
        return;
    };
    surface.set_stroke(None);
    surface.draw_path(path);
    if let Some(pattern) = pattern(surface, motif, (ink, opacity), lies.print(&place)) {
        surface.set_fill(Some(Fill {
            paint: pattern.into(),
            opacity: NormalizedF32::ONE,
            rule: FillRule::NonZero,
        }));
    }
    surface.set_stroke(edge);
    surface.draw_path(path);
}

/// An area that shows its part of a photograph.
fn photographed(
    surface: &mut Surface<'_>,
    path: &Path,
    (photos, photo, place): (&Photos, Photo, &Affine),
    edge: Option<Line>,
    lies: &Lies,
) {
    let size = photo.size.map(narrow);
    let size = Size::from_wh(size[0], size[1]);
    if let Some((image, size)) = photos.get(photo.id).zip(size) {
        surface.push_clip_path(path, &FillRule::NonZero);
        let top = Affine {
            origin: place.apply([0.0, photo.size[1]]),
            ..*place
        };
        surface.push_transform(&lies.print(&top));
        surface.draw_image(image, size);
        surface.pop();
        surface.pop();
    }
    if let Some(edge) = edge {
        surface.set_fill(None);
        surface.set_stroke(Some(stroke(&edge, lies.line)));
        surface.draw_path(path);
    }
}

fn pattern(
    surface: &mut Surface<'_>,
    motif: Motif,
    (colour, opacity): (Colour, f64),
    transform: Transform,
) -> Option<Pattern> {
    let outlines = BezPath::from_svg(motif.path).ok()?;
    let mut path = PathBuilder::new();
    let of = |at: kurbo::Point| [narrow(at.x), narrow(at.y)];
    for element in outlines.elements() {
        match *element {
            PathEl::MoveTo(to) => {
                let to = of(to);
                path.move_to(to[0], to[1]);
            }
            PathEl::LineTo(to) => {
                let to = of(to);
                path.line_to(to[0], to[1]);
            }
            PathEl::QuadTo(by, to) => {
                let (by, to) = (of(by), of(to));
                path.quad_to(by[0], by[1], to[0], to[1]);
            }
            PathEl::CurveTo(by, then, to) => {
                let (by, then, to) = (of(by), of(then), of(to));
                path.cubic_to(by[0], by[1], then[0], then[1], to[0], to[1]);
            }
            PathEl::ClosePath => path.close(),
        }
    }
    let path = path.finish()?;
    let mut builder = surface.stream_builder();
    let mut inside = builder.surface();
    inside.set_fill(Some(Fill {
        paint: ink(colour).into(),
        opacity: share(opacity),
        rule: FillRule::NonZero,
    }));
    inside.draw_path(&path);
    inside.finish();
    let [width, height] = motif.pitch.map(narrow);
    Some(Pattern {
        stream: builder.finish(),
        transform,
        width,
        height,
    })
}

fn stroke(line: &Line, share: f32) -> Stroke {
    let points = |millimetres: f64| narrow(millimetres) * MM * share;
    let dash = (!line.dashes.is_empty()).then(|| StrokeDash {
        array: line.dashes.iter().map(|dash| points(*dash)).collect(),
        offset: 0.0,
    });
    Stroke {
        paint: ink(line.colour).into(),
        width: points(line.width),
        line_cap: if line.round {
            LineCap::Round
        } else {
            LineCap::Butt
        },
        line_join: if line.round {
            LineJoin::Round
        } else {
            LineJoin::Miter
        },
        dash,
        ..Stroke::default()
    }
}

fn path(chains: &[Vec<Spot>], closed: bool, lies: &Lies) -> Option<Path> {
    let mut path = PathBuilder::new();
    for chain in chains {
        for (number, at) in chain.iter().enumerate() {
            let [x, y] = lies.spot(*at);
            if number == 0 {
                path.move_to(x, y);
            } else {
                path.line_to(x, y);
            }
        }
        if closed {
            path.close();
        }
    }
    path.finish()
}

/// Writes words centred on a place, within the drawing: smaller where they would
/// be wider than all of it, and aside where they would stick out.
fn write(
    surface: &mut Surface<'_>,
    words: &str,
    (weight, size, colour): (Weight, f32, Colour),
    at: [f32; 2],
    lies: &Lies,
) {
    let face = weight.face();
    let words = writable(&words.replace('\n', " ")).text;
    let shaped = face.shape(&words);
    let size = size.min(lies.size[0] / shaped.width.max(f32::MIN_POSITIVE));
    let wide = shaped.width * size;
    let left = (at[0] - wide / 2.0)
        .min(lies.at[0] + lies.size[0] - wide)
        .max(lies.at[0]);
    let half = size * CAPITALS / 2.0;
    let middle = at[1]
        .min(lies.at[1] + lies.size[1] - half)
        .max(lies.at[1] + half);
    let base = middle + half;
    let start = Point::from_xy(left, base);
    // What lies under the letters must not be read as part of them.
    let plate = Rect::from_xywh(left, middle - half - RIM, wide, 2.0 * (half + RIM));
    let mut path = PathBuilder::new();
    if let Some(plate) = plate {
        path.push_rect(plate);
    }
    if let Some(path) = path.finish() {
        surface.set_stroke(None);
        surface.set_fill(Some(Fill {
            paint: rgb::Color::white().into(),
            opacity: share(PLATE),
            rule: FillRule::NonZero,
        }));
        surface.draw_path(&path);
    }
    surface.set_stroke(None);
    surface.set_fill(Some(Fill {
        paint: ink(colour).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }));
    surface.draw_glyphs(
        start,
        &shaped.glyphs,
        face.embedded.clone(),
        &words,
        size,
        false,
    );
}
