//! A drawing as it is put on paper: every mark with its colours, its lines in
//! millimetres, and its letters, for whatever writes pages.
//!
//! Widths, dashes and letters are those of the table of pens; they stay as wide
//! on paper however large the drawing is put there, as they do on the screen.

use super::document::type_size;
use super::pen::{Filling, Pen, Stroke, Theme, Tone};
use super::{Affine, Drawing, Fill, Mark, Photo, Role, Spot, millimetres};
use crate::paper::{Colour, PhotoId, Print, PrintedPaper, SideLook};

/// Something put on paper, in the order it is put there. Places are those of the
/// drawing.
#[derive(Debug, Clone, PartialEq)]
pub enum Painted {
    /// An area with any number of outlines, which wind round what they hold.
    Area {
        /// The outlines.
        outlines: Vec<Vec<Spot>>,
        /// With what it is filled.
        paint: Paint,
        /// How much of what lies below it hides, from 0 to 1.
        opacity: f64,
        /// How its edge is drawn, where it is.
        edge: Option<Line>,
    },
    /// Chains of straight lines.
    Lines {
        /// Their corners.
        chains: Vec<Vec<Spot>>,
        /// Whether the last corner of each is joined to its first.
        closed: bool,
        /// How they are drawn.
        line: Line,
    },
    /// Words centred on a place.
    Words {
        /// Their centre.
        at: Spot,
        /// What they say.
        words: String,
        /// Their size of type on paper, in millimetres.
        size: f64,
        /// Whether they are bold.
        bold: bool,
        /// Their colour.
        colour: Colour,
    },
}

/// With what an area is filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Paint {
    /// A colour.
    Plain(Colour),
    /// A print that is repeated, on a colour.
    Printed {
        /// The colour under it.
        ground: Colour,
        /// What is printed.
        motif: Motif,
        /// Its colour.
        ink: Colour,
        /// How much of its ground it hides, from 0 to 1.
        opacity: f64,
        /// From an upright print to the drawing.
        place: Affine,
    },
    /// A photograph.
    Photo {
        /// Which.
        photo: Photo,
        /// From the side of the sheet it shows, its lower left corner at the origin,
        /// to the drawing.
        place: Affine,
    },
}

/// What is printed on paper again and again, in millimetres, y down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motif {
    /// Its outlines, as the `d` of a path in SVG.
    pub path: &'static str,
    /// How far the next one is, to the right and down.
    pub pitch: Spot,
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Its colour.
    pub colour: Colour,
    /// Its width on paper, in millimetres.
    pub width: f64,
    /// Dashes and gaps by turns, in millimetres on paper; none where it goes
    /// through.
    pub dashes: &'static [f64],
    /// Whether its ends and corners are round.
    pub round: bool,
}

impl Motif {
    /// That of a printed paper, or else of how a print runs: boats stand upright or
    /// upside down, oars read both ways, and rings whichever way they are turned.
    pub(super) fn of(print: Print, printed: Option<PrintedPaper>) -> Option<Self> {
        if let Some(paper) = printed.filter(|_| print != Print::Plain) {
            return Some(Self {
                path: paper.outlines(),
                pitch: paper.repeat().map(millimetres),
            });
        }
        let (path, down) = match print {
            Print::Plain => return None,
            Print::OneWay => ("M2 9h6l-1.5 2.4h-3zM5 2v6h-3zM5.6 3.4v4.6h2.2z", 13.0),
            Print::TwoWay => ("M5 1.5v9M3.6 1.5h2.8v2.2h-2.8zM3.6 8.3h2.8v2.2h-2.8z", 12.0),
            Print::AllOver => ("M5 3.4a2.6 2.6 0 1 0 .01 0z", 12.0),
        };
        let pitch = [10.0, down];
        Some(Self { path, pitch })
    }

    /// That of a side of a sheet, with the class it is drawn by on a page.
    pub fn of_side(side: SideLook) -> Option<(Self, &'static str)> {
        let motif = Self::of(side.print, side.printed)?;
        Some((motif, Self::pen_on(side.colour).class()))
    }

    /// What it is printed with on paper of that colour.
    pub(super) fn pen_on(ground: Colour) -> Pen {
        if ground.lightness() > 140 {
            Pen::DarkPrint
        } else {
            Pen::LightPrint
        }
    }
}

/// An arrow as two chains: its shaft, and an open head of a third of its length.
pub(super) fn arrow(from: Spot, to: Spot) -> [Vec<Spot>; 2] {
    let way = [0, 1].map(|i| (to[i] - from[i]) / 3.0);
    let barb = |side: f64| {
        let back = [way[0] - side * way[1], way[1] + side * way[0]];
        [0, 1].map(|i| to[i] - back[i])
    };
    [vec![from, to], vec![barb(0.7), to, barb(-0.7)]]
}

/// A drawing as it is put on paper, where a millimetre of it takes `scale`
/// millimetres. A photograph that is not at hand is shown as colour and print.
pub fn painted(
    drawing: &Drawing,
    scale: f64,
    is_at_hand: &dyn Fn(PhotoId) -> bool,
) -> Vec<Painted> {
    let size = drawing.size().map(|side| side * scale);
    let mut out = Vec::with_capacity(drawing.marks.len());
    for mark in &drawing.marks {
        match mark {
            Mark::Area {
                outlines,
                fill,
                edged,
                ..
            } => area(outlines, fill, *edged, is_at_hand, &mut out),
            Mark::Fallen { outlines, .. } => {
                area(outlines, &Fill::Waste, false, is_at_hand, &mut out);
            }
            Mark::Line { from, to, ink, .. } => {
                let chains = || vec![vec![*from, *to]];
                out.extend(Pen::rim_of(*ink).and_then(|rim| lines(chains(), false, rim)));
                out.extend(lines(chains(), false, Pen::Line(*ink)));
            }
            Mark::Lines { lines: all, ink } => {
                let chains = all.iter().map(|ends| ends.to_vec()).collect();
                out.extend(lines(chains, false, Pen::Line(*ink)));
            }
            Mark::Outline { corners, ink } => {
                out.extend(lines(vec![corners.clone()], true, Pen::Line(*ink)));
            }
            Mark::Arrow { from, to } => {
                let chains = || arrow(*from, *to).into();
                out.extend(lines(chains(), false, Pen::ArrowRim));
                out.extend(lines(chains(), false, Pen::Arrow));
            }
            Mark::Grip { .. } => {}
            Mark::Text { at, words, role } => out.extend(written(*at, words, *role, size)),
        }
    }
    out
}

fn area(
    outlines: &[Vec<Spot>],
    fill: &Fill,
    edged: bool,
    is_at_hand: &dyn Fn(PhotoId) -> bool,
    out: &mut Vec<Painted>,
) {
    let pen = match fill {
        Fill::Paper { .. } if edged => Pen::EdgedPaper,
        Fill::Paper { .. } => Pen::Paper,
        Fill::Glue => Pen::Glue,
        Fill::Refused => Pen::Refused,
        Fill::Waste => Pen::Waste,
        Fill::Shadow => Pen::Shadow,
        Fill::Ground if edged => Pen::EdgedGround,
        Fill::Ground => Pen::Ground,
    };
    let edge = pen.style().stroke.map(|stroke| line(&stroke));
    let fills = |paint, opacity, edge| Painted::Area {
        outlines: outlines.to_vec(),
        paint,
        opacity,
        edge,
    };
    let Fill::Paper {
        colour,
        print,
        printed,
        photo,
        place,
        shade,
    } = fill
    else {
        out.extend(tone(pen).map(|(tone, opacity)| fills(Paint::Plain(tone), opacity, edge)));
        return;
    };
    let darker = |out: &mut Vec<Painted>| {
        if *shade > 0.0 {
            let shadow = Tone::Shade.colour(Theme::Light);
            out.push(fills(Paint::Plain(shadow), *shade, None));
        }
    };
    if let Some(photo) = photo.filter(|photo| is_at_hand(photo.id)) {
        let place = *place;
        out.push(fills(Paint::Photo { photo, place }, 1.0, edge));
        darker(out);
        return;
    }
    let Some(motif) = Motif::of(*print, *printed) else {
        let paint = Paint::Plain(colour.shaded(*shade));
        out.push(fills(paint, 1.0, edge));
        return;
    };
    let (ink, opacity) = tone(Motif::pen_on(*colour)).unwrap_or((*colour, 0.0));
    let paint = Paint::Printed {
        ground: *colour,
        motif,
        ink,
        opacity,
        place: *place,
    };
    out.push(fills(paint, 1.0, edge));
    darker(out);
}

/// With what a pen fills, and how much that hides; `None` where it fills with
/// nothing of its own.
fn tone(pen: Pen) -> Option<(Colour, f64)> {
    match pen.style().filling {
        Filling::None | Filling::Own => None,
        Filling::Of(tone) => Some((tone.colour(Theme::Light), 1.0)),
        Filling::Thin(tone, opacity) => Some((tone.colour(Theme::Light), opacity)),
    }
}

fn lines(chains: Vec<Vec<Spot>>, closed: bool, pen: Pen) -> Option<Painted> {
    let stroke = pen.style().stroke?;
    Some(Painted::Lines {
        chains,
        closed,
        line: line(&stroke),
    })
}

fn line(stroke: &Stroke) -> Line {
    Line {
        colour: stroke.tone.colour(Theme::Light),
        width: stroke.width,
        dashes: stroke.dashes,
        round: stroke.round,
    }
}

/// Words on a drawing that takes so much paper.
fn written(at: Spot, words: &str, role: Role, size: Spot) -> Option<Painted> {
    let pen = Pen::from(role);
    let letters = pen.style().letters?;
    let (colour, _) = tone(pen)?;
    Some(Painted::Words {
        at,
        words: words.to_owned(),
        size: type_size(letters, size),
        bold: letters.bold,
        colour,
    })
}
