//! What is made already, as measures and sums that can't be changed any more.

use std::collections::BTreeMap;

use super::edges::Edges;
use super::work::{About, Summed, cutout_sizes, from_first, layer_sizes, line_ends, line_key};
use super::{Done, Miscut};
use crate::card::Card;
use crate::length::Length;
use crate::part::Part;
use crate::plane::Size;
use crate::recipe::{
    Holds, Is, Layer, MeasureId, Outline, Recipe, Relation, Seat, Strip, StripId, Term,
};
use crate::steps::{StepKey, Trim, Trims};

/// A part that is cut, and all that is done to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Made {
    pub(super) part: Part,
    /// How large it is now.
    pub(super) size: Size,
    /// Where it is scored, by the places of the scores along it, from its
    /// first edge.
    pub(super) scores: BTreeMap<usize, Length>,
    /// Measures that are what they are.
    pub(super) pinned: Vec<(MeasureId, Length)>,
    /// Sums that are what they are, or at most that.
    pub(super) sums: Vec<Relation>,
}

/// What the maker has found to be so on a strip: its size, and where scores
/// are, by their indices along it, from its first edge.
struct Found {
    size: [Length; 2],
    scores: BTreeMap<usize, Length>,
}

/// Which steps are done for so many cards that some of the cards in question
/// have it done.
#[derive(Clone, Copy)]
pub(super) struct Progress<'a> {
    pub(super) done: &'a Done,
    /// What is still to be trimmed.
    pub(super) trims: &'a Trims,
    /// How many cards of the batch can have a step not done before one of the
    /// cards in question has it done.
    pub(super) others: u32,
}

impl Progress<'_> {
    pub(super) fn has(&self, key: StepKey) -> bool {
        self.done.get(&key).copied().unwrap_or(0) > self.others
    }

    /// What of a part is to be trimmed and is not, for any card.
    pub(super) fn untrimmed(&self, part: Part) -> Option<&Trim> {
        let trim = self.trims.get(&part)?;
        (!self.has(StepKey::Trim(part))).then_some(trim)
    }
}

/// A part besides the one in hand, as it is cut; it may be trimmed along these
/// edges.
pub(super) fn other(
    recipe: &Recipe,
    card: &Card,
    progress: &Progress<'_>,
    part: Part,
    edges: Edges,
) -> Option<Made> {
    match part {
        Part::Strip(of) => {
            let strip = recipe.strip(of)?;
            let found = as_planned(recipe, card, progress, of, strip);
            Some(strip_made(recipe, progress, of, strip, found, edges))
        }
        Part::Layer(id) => {
            let layer = recipe.layer(id)?;
            let trim = progress.untrimmed(part);
            let size = trim
                .map(Trim::size)
                .or_else(|| card.cut_list.size_of(part))?;
            // What takes the shape of what carries it is looked at then.
            let sizes = [(layer.width, size.width), (layer.height, size.height)];
            let sizes = sizes.into_iter().filter(|_| !layer.follows());
            Some(layer_made(recipe, progress, layer, size, sizes, edges))
        }
    }
}

/// A layer with these sizes, and where it is put on.
fn layer_made(
    recipe: &Recipe,
    progress: &Progress<'_>,
    layer: &Layer,
    size: Size,
    sizes: impl IntoIterator<Item = (MeasureId, Length)>,
    edges: Edges,
) -> Made {
    let (mut pinned, mut sums) = (Vec::new(), Vec::new());
    for ((id, length), free) in sizes.into_iter().zip([edges.width, edges.height]) {
        if free {
            sums.push(sum([id], Is::AtMost, length));
        } else {
            pinned.push((id, length));
        }
    }
    // What is round stays round when it is cut down.
    if edges.any() && layer.outline == Outline::Round && size.width == size.height {
        sums.push(Relation::same(layer.width, layer.height));
    }
    let mut stay: Vec<_> = layer.outline.measure().into_iter().collect();
    if progress.has(StepKey::PutOn(layer.id)) {
        stay.extend([layer.left, layer.bottom]);
    }
    let stay = stay.into_iter().filter(|_| !layer.follows());
    pinned.extend(stay.map(|id| (id, recipe.value(id))));
    Made {
        part: Part::Layer(layer.id),
        size,
        scores: BTreeMap::new(),
        pinned,
        sums,
    }
}

/// The part in hand as it came out. `None` where what was measured can't be:
/// sizes of nothing, scores in another order or off the strip.
pub(super) fn in_hand(
    recipe: &Recipe,
    card: &Card,
    progress: &Progress<'_>,
    miscut: &Miscut,
    edges: Edges,
) -> Option<Made> {
    let part = miscut.about.part();
    let measured = |number: usize| miscut.measured.get(number).copied().flatten();
    match (miscut.about, part) {
        (_, Part::Layer(id)) => {
            let layer = recipe.layer(id)?;
            let told = layer_sizes(layer, card.laid.layer(id)?);
            let sizes: Option<Vec<_>> = (0..told.len()).map(measured).collect();
            let sizes = sizes.filter(|sizes| sizes.iter().all(|size| *size > Length::ZERO))?;
            let (&[width, height], drawn) = sizes.split_first_chunk()?;
            let of = [(layer.width, width), (layer.height, height)];
            let size = Size { width, height };
            let mut made = layer_made(recipe, progress, layer, size, of, edges);
            // What its outline is drawn by counts as it was measured.
            let drawn = layer.outline.measure().into_iter().zip(drawn);
            for (id, length) in drawn {
                made.pinned.retain(|(pinned, _)| *pinned != id);
                made.pinned.push((id, *length));
            }
            Some(made)
        }
        (about, Part::Strip(of)) => {
            let strip = recipe.strip(of)?;
            let mut found = as_planned(recipe, card, progress, of, strip);
            match about {
                About::Cut(_) => {
                    found.size = [measured(0)?, measured(1)?];
                    // What is scored was measured from the stop.
                    found.scores = scored(card, progress, of, found.size[0]);
                }
                About::Scores(_, number) => {
                    let pass = card.chart_of(of)?.passes.get(number)?;
                    for (index, mark) in pass.marks.iter().enumerate() {
                        match measured(index) {
                            Some(at) => {
                                let at = from_first(pass.at_stop, at, found.size[0]);
                                found.scores.insert(mark.score, at);
                            }
                            None => {
                                found.scores.remove(&mark.score);
                            }
                        }
                    }
                }
                About::Line(..) | About::Cutout(..) => {}
            }
            if !found.can_be() {
                return None;
            }
            let mut made = strip_made(recipe, progress, of, strip, found, edges);
            let told = match about {
                About::Line(_, id) => line_ends(recipe.line(id)?),
                About::Cutout(_, id) => cutout_sizes(strip, recipe.cutout(id)?),
                About::Cut(_) | About::Scores(..) => Vec::new(),
            };
            // What was measured counts, and not what was planned.
            let sizes = [strip.length, strip.height];
            let single = told.iter().filter(|told| told.of.len() == 1);
            let single: Vec<_> = single.flat_map(|told| &told.of).collect();
            made.pinned
                .retain(|(id, _)| !single.contains(&id) || sizes.contains(id));
            made.sums.retain(|held| {
                !told
                    .iter()
                    .any(|told| told.of.len() > 1 && is_of(held, told))
            });
            for (number, told) in told.iter().enumerate() {
                made.hold(told, measured(number)?);
            }
            Some(made)
        }
    }
}

impl Made {
    /// Holds a length of a step.
    fn hold(&mut self, told: &Summed, length: Length) {
        match told.of[..] {
            [id] => self.pinned.push((id, length)),
            _ => self
                .sums
                .push(sum(told.of.iter().copied(), Is::Equal, length)),
        }
    }
}

fn is_of(held: &Relation, told: &Summed) -> bool {
    held.left.iter().map(|term| &term.of).eq(&told.of)
}

impl Found {
    fn can_be(&self) -> bool {
        let ends = std::iter::once(Length::ZERO)
            .chain(self.scores.values().copied())
            .chain([self.size[0]]);
        let ends: Vec<_> = ends.collect();
        self.size[1] > Length::ZERO && ends.is_sorted_by(|a, b| a < b)
    }
}

/// A strip as it was to be, as far as it is scored.
fn as_planned(
    recipe: &Recipe,
    card: &Card,
    progress: &Progress<'_>,
    of: StripId,
    strip: &Strip,
) -> Found {
    let size = [strip.length, strip.height].map(|id| recipe.value(id));
    let mut scores = scored(card, progress, of, size[0]);
    let Some(trim) = progress.untrimmed(Part::Strip(of)) else {
        return Found { size, scores };
    };
    for at in scores.values_mut() {
        *at += trim.first;
    }
    Found {
        size: [trim.width, trim.height],
        scores,
    }
}

/// Where the scores of the passes that are done lie on a strip so long.
fn scored(
    card: &Card,
    progress: &Progress<'_>,
    of: StripId,
    length: Length,
) -> BTreeMap<usize, Length> {
    let passes = card
        .chart_of(of)
        .into_iter()
        .flat_map(|chart| &chart.passes);
    let done = passes
        .enumerate()
        .filter(|(number, _)| progress.has(StepKey::Score(of, *number)));
    done.flat_map(|(_, pass)| {
        let at_stop = pass.at_stop;
        let marks = pass.marks.iter();
        marks.map(move |mark| (mark.score, from_first(at_stop, mark.exact, length)))
    })
    .collect()
}

fn strip_made(
    recipe: &Recipe,
    progress: &Progress<'_>,
    of: StripId,
    strip: &Strip,
    found: Found,
    edges: Edges,
) -> Made {
    let mut pinned = Vec::new();
    let mut sums = Vec::new();
    let lines = strip.lines.iter();
    let lines = lines.filter(|line| progress.has(line_key(line)));
    let cutouts = strip.cutouts.iter();
    let cutouts = cutouts.filter(|cutout| progress.has(StepKey::CutOut(cutout.id)));
    let drawn: Vec<_> = lines
        .flat_map(line_ends)
        .chain(cutouts.flat_map(|cutout| cutout_sizes(strip, cutout)))
        .collect();
    let sizes = [strip.length, strip.height].into_iter().zip(found.size);
    for ((id, size), free) in sizes.zip([edges.width, edges.height]) {
        if free {
            sums.push(sum([id], Is::AtMost, size));
        } else {
            pinned.push((id, size));
        }
    }
    let (mut from, mut at) = (0, Length::ZERO);
    let ends = found.scores.iter().map(|(score, at)| (score + 1, *at));
    for (to, end) in ends.chain([(strip.panels.len(), found.size[0])]) {
        let last = to == strip.panels.len();
        let widths: Vec<_> = strip
            .panels
            .iter()
            .take(to)
            .skip(from)
            .map(|panel| panel.width)
            .collect();
        // What is scored keeps the edge panels' other edges free to be cut; what
        // is drawn is measured from the first edge, which then stays.
        let free = edges.width && (last || (from == 0 && drawn.is_empty()));
        match (free, &widths[..]) {
            (true, _) => sums.push(sum(widths, Is::AtMost, end - at)),
            (false, [width]) => pinned.push((*width, end - at)),
            // The strip itself says so.
            (false, _) if from == 0 && last => {}
            (false, _) => sums.push(sum(widths, Is::Equal, end - at)),
        }
        (from, at) = (to, end);
    }
    let marks = of.piece().and_then(|id| recipe.piece(id)).into_iter();
    let joins = marks.flat_map(|piece| {
        let joins = piece.joins.iter();
        joins.filter(|join| progress.has(StepKey::GlueIn(piece.id, join.panel)))
    });
    for mark in joins.filter_map(|join| join.at) {
        let ends = [mark.from.x, mark.from.y, mark.to.x, mark.to.y];
        pinned.extend(ends.map(|id| (id, recipe.value(id))));
    }
    let [width, height] = found.size;
    let mut made = Made {
        part: Part::Strip(of),
        size: Size { width, height },
        scores: found.scores,
        pinned,
        sums,
    };
    for told in &drawn {
        // An end on an edge is where that edge is.
        if !matches!(told.of[..], [id] if id == strip.length || id == strip.height) {
            made.hold(told, told.value(recipe));
        }
    }
    made
}

fn sum(of: impl IntoIterator<Item = MeasureId>, is: Is, plus: Length) -> Relation {
    Relation {
        left: of.into_iter().map(|of| Term { times: 1, of }).collect(),
        is,
        right: Vec::new(),
        plus,
        holds: Holds::Must,
    }
}

/// What a layer lies on.
pub(super) fn seat_of(recipe: &Recipe, seat: Seat) -> Option<Part> {
    match seat {
        Seat::Face(face) => {
            let (of, ..) = recipe.strip_with(face.panel)?;
            Some(Part::Strip(of))
        }
        Seat::Layer(id) => Some(Part::Layer(id)),
    }
}
