//! What can come out different: what is cut and what is scored, by the lasting
//! names of the steps.

use crate::card::Card;
use crate::laid::LaidLayer;
use crate::length::Length;
use crate::part::{Part, parts};
use crate::pattern::{LineId, LineKind};
use crate::recipe::{
    Cut, Cutout, CutoutId, Layer, Line, MeasureId, Outline, PieceId, Recipe, Strip,
};
use crate::score::{AtStop, Chart, Pass};
use crate::words::fold_words;

/// What a step of cutting or scoring is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// A part is cut to size.
    Cut(Part),
    /// A strip is scored, by the number of the pass.
    Scores(Option<PieceId>, usize),
    /// A crease or a cut is made besides the scores.
    Line(Option<PieceId>, LineId),
    /// Something is cut out of a strip.
    Cutout(Option<PieceId>, CutoutId),
}

impl About {
    /// The part in hand.
    pub const fn part(self) -> Part {
        match self {
            Self::Cut(part) => part,
            Self::Scores(of, _) | Self::Line(of, _) | Self::Cutout(of, _) => Part::Strip(of),
        }
    }
}

/// A length of a step that can be measured afterwards.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    /// What it is the length of, as it is on the step.
    pub label: String,
    /// What it was to be.
    pub length: Length,
}

/// A step of cutting or scoring.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Work {
    /// What it is about.
    pub about: About,
    /// What can be measured: the size of what is cut, the distance of each
    /// score from the stop, the ends of a line.
    pub planned: Vec<Planned>,
}

/// The step of cutting or scoring of that lasting name; `None` for other steps.
pub fn work(recipe: &Recipe, card: &Card, key: &str) -> Option<Work> {
    let work = |about, lengths: Vec<Summed>| {
        let planned = lengths.into_iter();
        let planned = planned.map(|told| Planned {
            length: told.value(recipe),
            label: told.label,
        });
        Some(Work {
            about,
            planned: planned.collect(),
        })
    };
    // What was trimmed can come out different as well.
    let is_cut = |part: &Part| part.cut_key() == key || part.trim_key() == key;
    if let Some(part) = parts(recipe).find(is_cut) {
        return match part {
            Part::Strip(of) => work(About::Cut(part), strip_sizes(recipe.strip(of)?)),
            Part::Layer(id) => {
                let laid = card.laid.layer(id)?;
                let layer = recipe.layer(id)?;
                if !layer.follows() {
                    return work(About::Cut(part), layer_sizes(layer, laid));
                }
                let size = laid.at.size();
                let sizes = [("width", size.width), ("height", size.height)];
                let planned = sizes.into_iter().map(|(label, length)| Planned {
                    label: label.to_owned(),
                    length,
                });
                Some(Work {
                    about: About::Cut(part),
                    planned: planned.collect(),
                })
            }
        };
    }
    for (of, strip) in recipe.strips() {
        if let Some(line) = strip.lines.iter().find(|line| line_key(line) == key) {
            return work(About::Line(of, line.id), line_ends(line));
        }
        let mut cutouts = strip.cutouts.iter();
        if let Some(cutout) = cutouts.find(|cutout| cutout_key(cutout) == key) {
            return work(About::Cutout(of, cutout.id), cutout_sizes(strip, cutout));
        }
        let passes = chart(card, of).into_iter().flat_map(|chart| &chart.passes);
        for (number, pass) in passes.enumerate() {
            if score_key(of, number) == key {
                return Some(scores(of, number, pass));
            }
        }
    }
    None
}

pub(super) fn score_key(of: Option<PieceId>, pass: usize) -> String {
    match of {
        None => format!("score-{pass}"),
        Some(id) => format!("score-piece-{}-{pass}", id.0),
    }
}

pub(super) fn line_key(line: &Line) -> String {
    match line.kind {
        LineKind::Crease(_) => format!("score-line-{}", line.id.0),
        LineKind::Cut => format!("cut-line-{}", line.id.0),
    }
}

pub(super) fn cutout_key(cutout: &Cutout) -> String {
    format!("cut-out-{}", cutout.id.0)
}

/// The score chart of a strip.
pub(super) fn chart(card: &Card, of: Option<PieceId>) -> Option<&Chart> {
    match of {
        None => Some(&card.chart),
        Some(id) => {
            let work = card.pieces.iter().find(|work| work.of == id)?;
            Some(&work.chart)
        }
    }
}

/// How far from the first panel's edge a score lies on a strip so long, from
/// how far it lies from the stop.
pub(super) fn from_first(at_stop: AtStop, distance: Length, length: Length) -> Length {
    match at_stop {
        AtStop::First => distance,
        AtStop::Last => length - distance,
    }
}

/// A length of a step as a sum of measures.
pub(super) struct Summed {
    label: String,
    pub(super) of: Vec<MeasureId>,
}

impl Summed {
    fn one(label: &str, of: MeasureId) -> Self {
        Self {
            label: label.to_owned(),
            of: vec![of],
        }
    }

    pub(super) fn value(&self, recipe: &Recipe) -> Length {
        self.of.iter().map(|id| recipe.value(*id)).sum()
    }
}

pub(super) fn strip_sizes(strip: &Strip) -> Vec<Summed> {
    vec![
        Summed::one("length", strip.length),
        Summed::one("height", strip.height),
    ]
}

/// The size of a layer, and what its outline is drawn by.
pub(super) fn layer_sizes(layer: &Layer, laid: &LaidLayer) -> Vec<Summed> {
    let size = [
        Summed::one("width", layer.width),
        Summed::one("height", layer.height),
    ];
    let shaped = laid.shape.as_ref().and(outline_size(&layer.outline));
    size.into_iter().chain(shaped).collect()
}

fn outline_size(outline: &Outline) -> Option<Summed> {
    let word = match outline {
        Outline::Rounded(_) => "radius",
        _ => "rise",
    };
    Some(Summed::one(word, outline.measure()?))
}

/// Where a line runs, by its ends.
pub(super) fn line_ends(line: &Line) -> Vec<Summed> {
    let ends = [("start", line.from), ("end", line.to)];
    let ends = ends.into_iter().flat_map(|(word, corner)| {
        [
            Summed::one(&format!("{word}, from the left"), corner.x),
            Summed::one(&format!("{word}, from below"), corner.y),
        ]
    });
    ends.collect()
}

/// Where something is cut out of a strip, and how large.
pub(super) fn cutout_sizes(strip: &Strip, cutout: &Cutout) -> Vec<Summed> {
    match &cutout.cut {
        Cut::Window(window) => {
            let place = strip.place_of(cutout.panel).unwrap_or(0);
            let before = strip.panels.iter().take(place).map(|panel| panel.width);
            let left = Summed {
                label: "from the left".to_owned(),
                of: before.chain([window.left]).collect(),
            };
            let own = [
                left,
                Summed::one("from below", window.bottom),
                Summed::one("width", window.width),
                Summed::one("height", window.height),
            ];
            own.into_iter()
                .chain(outline_size(&window.outline))
                .collect()
        }
        Cut::Corners { radius, .. } => vec![Summed::one("radius", *radius)],
        Cut::Edge { depth, .. } => vec![Summed::one("depth", *depth)],
    }
}

fn scores(of: Option<PieceId>, number: usize, pass: &Pass) -> Work {
    let marks = pass.marks.iter().map(|mark| Planned {
        label: fold_words(mark).to_owned(),
        length: mark.exact,
    });
    Work {
        about: About::Scores(of, number),
        planned: marks.collect(),
    }
}
