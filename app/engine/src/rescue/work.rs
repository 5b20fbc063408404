//! What can come out different: what is cut and what is scored, by the lasting
//! names of the steps.

use crate::card::Card;
use crate::laid::LaidLayer;
use crate::length::Length;
use crate::part::Part;
use crate::pattern::LineKind;
use crate::recipe::{
    Cut, Cutout, CutoutId, DrawnLineId, Layer, Line, MeasureId, Outline, Recipe, Strip, StripId,
};
use crate::score::{AtStop, Pass};
use crate::steps::{Label, Point, StepKey, score_label};

/// What a step of cutting or scoring is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// A part is cut to size.
    Cut(Part),
    /// A strip is scored, by the number of the pass.
    Scores(StripId, usize),
    /// A crease or a cut is made besides the scores.
    Line(StripId, DrawnLineId),
    /// Something is cut out of a strip.
    Cutout(StripId, CutoutId),
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
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Planned {
    /// What it is the length of, as it is on the step.
    pub label: Label,
    /// What it was to be.
    pub length: Length,
}

/// A step of cutting or scoring.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Work {
    /// What it is about.
    pub about: About,
    /// What can be measured: the size of what is cut, the distance of each
    /// score from the fence, the ends of a line.
    pub planned: Vec<Planned>,
}

/// What can be measured at a step of cutting or scoring; `None` at other steps, and
/// where the recipe has no such step.
pub fn work(recipe: &Recipe, card: &Card, key: StepKey) -> Option<Work> {
    let work = |about, lengths: Vec<Summed>| {
        let planned = lengths.into_iter();
        let planned = planned.map(|told| Planned {
            label: told.label,
            length: told.value(recipe),
        });
        Some(Work {
            about,
            planned: planned.collect(),
        })
    };
    match key {
        // What was trimmed can come out different as well.
        StepKey::Cut(part) | StepKey::Trim(part) => match part {
            Part::Strip(of) => work(About::Cut(part), strip_sizes(recipe.strip(of)?)),
            Part::Layer(id) => {
                let laid = card.laid.layer(id)?;
                let layer = recipe.layer(id)?;
                if !layer.follows() {
                    return work(About::Cut(part), layer_sizes(layer, laid));
                }
                let size = laid.at.size();
                let sizes = [(Label::Width, size.width), (Label::Height, size.height)];
                let planned = sizes.map(|(label, length)| Planned { label, length });
                Some(Work {
                    about: About::Cut(part),
                    planned: planned.to_vec(),
                })
            }
        },
        StepKey::ScoreLine(_) | StepKey::CutLine(_) => {
            let (of, line) = recipe.strips().find_map(|(of, strip)| {
                let line = strip.lines.iter().find(|line| line_key(line) == key)?;
                Some((of, line))
            })?;
            work(About::Line(of, line.id), line_ends(line))
        }
        StepKey::CutOut(id) => {
            let (of, strip, cutout) = recipe.strips().find_map(|(of, strip)| {
                let cutout = strip.cutouts.iter().find(|cutout| cutout.id == id)?;
                Some((of, strip, cutout))
            })?;
            work(About::Cutout(of, id), cutout_sizes(strip, cutout))
        }
        StepKey::Score(of, number) => {
            let pass = card.chart_of(of)?.passes.get(number)?;
            Some(scores(of, number, pass))
        }
        // What comes off there has steps of its own.
        StepKey::CutAt { .. }
        | StepKey::Gather
        | StepKey::FoldPiece(_)
        | StepKey::Fold(..)
        | StepKey::Decorate(_)
        | StepKey::PutOn(_)
        | StepKey::GlueIn(..)
        | StepKey::Dry
        | StepKey::Envelope
        | StepKey::Own(_) => None,
    }
}

/// The step in which a line is made.
pub(super) const fn line_key(line: &Line) -> StepKey {
    match line.kind {
        LineKind::Crease(_) => StepKey::ScoreLine(line.id),
        LineKind::Cut => StepKey::CutLine(line.id),
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
    label: Label,
    pub(super) of: Vec<MeasureId>,
}

impl Summed {
    fn one(label: Label, of: MeasureId) -> Self {
        let of = vec![of];
        Self { label, of }
    }

    pub(super) fn value(&self, recipe: &Recipe) -> Length {
        self.of.iter().map(|id| recipe.value(*id)).sum()
    }
}

pub(super) fn strip_sizes(strip: &Strip) -> Vec<Summed> {
    vec![
        Summed::one(Label::Length, strip.length),
        Summed::one(Label::Height, strip.height),
    ]
}

/// The size of a layer, and what its outline is drawn by.
pub(super) fn layer_sizes(layer: &Layer, laid: &LaidLayer) -> Vec<Summed> {
    let size = [
        Summed::one(Label::Width, layer.width),
        Summed::one(Label::Height, layer.height),
    ];
    let shaped = laid.shape.as_ref().and(outline_size(&layer.outline));
    size.into_iter().chain(shaped).collect()
}

fn outline_size(outline: &Outline) -> Option<Summed> {
    let label = match outline {
        Outline::Rounded(_) => Label::Radius,
        _ => Label::Rise,
    };
    Some(Summed::one(label, outline.measure()?))
}

/// Where a line runs, by its ends.
pub(super) fn line_ends(line: &Line) -> Vec<Summed> {
    let ends = [(Point::First, line.from), (Point::Second, line.to)];
    let ends = ends.into_iter().flat_map(|(point, corner)| {
        [
            Summed::one(Label::PointFromLeft(point), corner.x),
            Summed::one(Label::PointFromBottom(point), corner.y),
        ]
    });
    ends.collect()
}

/// Where something is cut out of a strip, and how large.
pub(super) fn cutout_sizes(strip: &Strip, cutout: &Cutout) -> Vec<Summed> {
    match &cutout.cut {
        Cut::Window(window) => {
            let index = strip.index_of(cutout.panel).unwrap_or(0);
            let before = strip.panels.iter().take(index).map(|panel| panel.width);
            let left = Summed {
                label: Label::FromLeft,
                of: before.chain([window.left]).collect(),
            };
            let own = [
                left,
                Summed::one(Label::FromBottom, window.bottom),
                Summed::one(Label::Width, window.width),
                Summed::one(Label::Height, window.height),
            ];
            own.into_iter()
                .chain(outline_size(&window.outline))
                .collect()
        }
        Cut::Corners { radius, .. } => vec![Summed::one(Label::Radius, *radius)],
        Cut::Edge { depth, .. } => vec![Summed::one(Label::Depth, *depth)],
    }
}

fn scores(of: StripId, number: usize, pass: &Pass) -> Work {
    let marks = pass.marks.iter().map(|mark| Planned {
        label: score_label(of, mark),
        length: mark.exact,
    });
    Work {
        about: About::Scores(of, number),
        planned: marks.collect(),
    }
}
