//! What can come out different: what is cut and what is scored, by the lasting
//! names of the steps.

use crate::card::Card;
use crate::length::Length;
use crate::pattern::{LineId, LineKind};
use crate::recipe::{CutoutId, Layer, LayerId, Line, MeasureId, PieceId, Recipe, Strip};
use crate::score::{AtStop, Chart, Pass};
use crate::words::{fold_words, piece_name};

/// Something cut from a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// The base, or a piece glued in.
    Strip(Option<PieceId>),
    /// A layer.
    Layer(LayerId),
}

impl Part {
    /// What the maker calls it.
    pub fn name(self, recipe: &Recipe) -> String {
        match self {
            Self::Strip(of) => piece_name(recipe, of).to_owned(),
            Self::Layer(id) => {
                let layer = recipe.layer(id);
                layer
                    .map_or("a missing layer", |layer| &layer.name)
                    .to_owned()
            }
        }
    }

    /// The lasting name of the step it is cut in.
    pub(super) fn cut_key(self) -> String {
        match self {
            Self::Strip(None) => "cut-strip".to_owned(),
            Self::Strip(Some(id)) => format!("cut-piece-{}", id.0),
            Self::Layer(id) => format!("cut-layer-{}", id.0),
        }
    }
}

/// What a step of cutting or scoring is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// A part is cut to size.
    Cut(Part),
    /// A strip is scored, by the number of the pass.
    Scores(Option<PieceId>, usize),
    /// A crease or a cut is made besides the scores.
    Line(Option<PieceId>, LineId),
}

impl About {
    /// The part in hand.
    pub const fn part(self) -> Part {
        match self {
            Self::Cut(part) => part,
            Self::Scores(of, _) | Self::Line(of, _) => Part::Strip(of),
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

/// The step of cutting or scoring of that lasting name; `None` for other steps,
/// for windows and edges, and for a layer that takes the shape of what carries
/// it and has no size of its own.
pub fn work(recipe: &Recipe, card: &Card, key: &str) -> Option<Work> {
    if let Some(part) = parts(recipe).find(|part| part.cut_key() == key) {
        let follows = match part {
            Part::Layer(id) => recipe.layer(id).is_some_and(Layer::follows),
            Part::Strip(_) => false,
        };
        return (!follows).then(|| cut(recipe, part));
    }
    for (of, strip) in recipe.strips() {
        let found = strip.lines.iter().find(|line| line_key(line) == key);
        if let Some(found) = found {
            return Some(line(recipe, of, found));
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

/// Everything cut from a sheet, in the order of the work.
pub(super) fn parts(recipe: &Recipe) -> impl Iterator<Item = Part> + '_ {
    let strips = recipe.strips().map(|(of, _)| Part::Strip(of));
    strips.chain(recipe.layers.iter().map(|layer| Part::Layer(layer.id)))
}

pub(super) fn score_key(of: Option<PieceId>, pass: usize) -> String {
    match of {
        None => format!("score-{pass}"),
        Some(id) => format!("score-piece-{}-{pass}", id.0),
    }
}

/// The step that cuts a window, corners or an edge.
pub(super) fn cut_out_key(id: CutoutId) -> String {
    format!("cut-out-{}", id.0)
}

pub(super) fn line_key(line: &Line) -> String {
    match line.kind {
        LineKind::Crease(_) => format!("score-line-{}", line.id.0),
        LineKind::Cut => format!("cut-line-{}", line.id.0),
    }
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

fn cut(recipe: &Recipe, part: Part) -> Work {
    let sizes = match part {
        Part::Strip(of) => recipe.strip(of).map(strip_sizes),
        Part::Layer(id) => recipe.layer(id).map(layer_sizes),
    };
    let sizes = sizes.into_iter().flatten();
    Work {
        about: About::Cut(part),
        planned: sizes
            .map(|(label, id)| Planned {
                label: label.to_owned(),
                length: recipe.value(id),
            })
            .collect(),
    }
}

fn strip_sizes(strip: &Strip) -> [(&'static str, MeasureId); 2] {
    [("length", strip.length), ("height", strip.height)]
}

fn layer_sizes(layer: &Layer) -> [(&'static str, MeasureId); 2] {
    [("width", layer.width), ("height", layer.height)]
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

fn line(recipe: &Recipe, of: Option<PieceId>, line: &Line) -> Work {
    let ends = [("start", line.from), ("end", line.to)];
    let planned = ends.into_iter().flat_map(|(word, corner)| {
        let at = recipe.corner(corner);
        let planned = |way: &str, length| Planned {
            label: format!("{word}, from {way}"),
            length,
        };
        [planned("the left", at.x), planned("below", at.y)]
    });
    Work {
        about: About::Line(of, line.id),
        planned: planned.collect(),
    }
}
