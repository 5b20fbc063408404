//! The relations that the numbers of a list suggest.

use super::choose::Why;
use super::folding::WIDEST_GAP;
use super::piece::List;
use super::seat::{On, Seated};
use super::shape::{Form, Shape};
use crate::card::closed_size;
use crate::length::{Length, Notation, Unit, nearest};
use crate::paper::{CLEARANCE_RULES, ClearanceRule, ENVELOPES, Envelope, EnvelopeFamily};
use crate::plane::Size;
use crate::recipe::Recipe;

/// Wider borders are seldom meant to be kept: 1/2 in. Our own bound.
const USUAL_MOST: Length = Length::sixty_fourths(32);

/// A relation that the numbers suggest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proposal {
    /// The relation, in a few words.
    pub relation: String,
    /// The numbers that suggest it.
    pub evidence: String,
    /// Whether it is taken where the maker says nothing: where the numbers are
    /// hardly chance and suggest nothing else.
    pub accepted: bool,
    pub(super) makes: Makes,
}

/// What a proposal adds to the recipe; panels and layers by their places.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Makes {
    SamePanels(Vec<usize>),
    FoldedIn { inner: usize, middle: usize },
    Leaves { gap: Length },
    Sum { whole: usize, parts: [usize; 2] },
    Double { whole: usize, half: usize },
    Square(usize),
    Border { layer: usize, border: Length },
    SameBorders(Vec<usize>),
    SameSizes(Vec<usize>),
    Whole(usize),
    Across { layer: usize, tall: bool },
    Envelope(&'static str, &'static str),
}

struct Finder<'a> {
    recipe: &'a Recipe,
    shape: &'a Shape,
    layers: &'a [Seated],
    notation: Notation,
    names: Vec<String>,
    found: Vec<Proposal>,
}

/// Everything the numbers suggest.
pub(super) fn proposals(
    recipe: &Recipe,
    list: &List,
    shape: &Shape,
    layers: &[Seated],
) -> Vec<Proposal> {
    let mut finder = Finder {
        recipe,
        shape,
        layers,
        notation: recipe.notation,
        names: shape.names(),
        found: Vec::new(),
    };
    finder.same_panels();
    finder.three_panels();
    finder.sums();
    finder.square();
    finder.borders();
    finder.same_borders();
    finder.same_sizes();
    finder.envelope(list);
    finder.found
}

/// The rule by which a closed card has room in an envelope, closest fit first,
/// and how much longer and higher the envelope is.
pub(super) fn room(envelope: &Envelope, card: Size) -> Option<(&'static ClearanceRule, Size)> {
    let spare = spare(envelope, card);
    let exact = CLEARANCE_RULES
        .iter()
        .find(|rule| (rule.length, rule.height) == (spare.width, spare.height));
    let wide = CLEARANCE_RULES
        .iter()
        .filter(|rule| spare.width >= rule.length && spare.height >= rule.height);
    // A metric envelope goes by the metric rule where that has room.
    let own = wide
        .clone()
        .find(|rule| (rule.id == "iso-pairs") == (envelope.family == EnvelopeFamily::Iso));
    exact
        .or(own)
        .or_else(|| wide.clone().next())
        .map(|rule| (rule, spare))
}

fn spare(envelope: &Envelope, card: Size) -> Size {
    Size {
        width: envelope.length - card.width.max(card.height),
        height: envelope.height - card.width.min(card.height),
    }
}

impl Finder<'_> {
    fn push(&mut self, relation: String, evidence: String, accepted: bool, makes: Makes) {
        self.found.push(Proposal {
            relation,
            evidence,
            accepted,
            makes,
        });
    }

    fn plain(&self, length: Length) -> String {
        self.notation.plain(length)
    }

    fn full(&self, length: Length) -> String {
        self.notation.with_unit(length)
    }

    fn name(&self, place: usize) -> &str {
        self.names.get(place).map_or("panel", String::as_str)
    }

    fn list(&self, places: &[usize]) -> String {
        join(
            places
                .iter()
                .map(|place| self.name(*place).to_owned())
                .collect(),
        )
    }

    fn measure_word(&self) -> &'static str {
        if self.shape.tent { "high" } else { "wide" }
    }

    fn same_panels(&mut self) {
        let widths = &self.shape.widths;
        let mut seen: Vec<Length> = Vec::new();
        for width in widths {
            if seen.contains(width) {
                continue;
            }
            seen.push(*width);
            let group: Vec<usize> = (0..widths.len())
                .filter(|at| widths.get(*at) == Some(width))
                .collect();
            if group.len() < 2 {
                continue;
            }
            let evidence = if group.len() == widths.len() {
                format!(
                    "{} × {} = {}",
                    group.len(),
                    self.plain(*width),
                    self.full(self.shape.length)
                )
            } else {
                format!("each of them is {}", self.full(*width))
            };
            let relation = if group.len() == widths.len() && group.len() > 3 {
                format!(
                    "All {} panels are equally {}",
                    group.len(),
                    self.measure_word()
                )
            } else {
                format!(
                    "{} are equally {}",
                    capital(&self.list(&group)),
                    self.measure_word()
                )
            };
            self.push(relation, evidence, true, Makes::SamePanels(group));
        }
    }

    fn three_panels(&mut self) {
        let [first, middle, last] = self.shape.widths[..] else {
            return;
        };
        match self.shape.form {
            Form::LastIn | Form::FirstIn => {
                let (inner, width) = match self.shape.form {
                    Form::LastIn => (2, last),
                    _ => (0, first),
                };
                let Some(shorter) = self.shape.shorter() else {
                    return;
                };
                self.push(
                    "The folded-in panel is a little shorter, so that it lies flat".to_owned(),
                    format!(
                        "{} − {} = {}",
                        self.plain(middle),
                        self.plain(width),
                        self.full(shorter)
                    ),
                    true,
                    Makes::FoldedIn { inner, middle: 1 },
                );
            }
            Form::Gate { gap } if gap <= WIDEST_GAP => {
                let both = format!(
                    "{} + {} = {}",
                    self.plain(first),
                    self.plain(last),
                    self.full(first + last)
                );
                let (relation, evidence) = if gap == Length::ZERO {
                    ("The leaves meet over the middle".to_owned(), both)
                } else {
                    (
                        format!("The leaves leave a gap of {}", self.full(gap)),
                        format!("{both}, and the middle is {}", self.full(middle)),
                    )
                };
                self.push(relation, evidence, true, Makes::Leaves { gap });
            }
            _ => {}
        }
    }

    /// Panels that are the sum of two others, or twice another; left to the
    /// maker, since small numbers often add up by chance.
    fn sums(&mut self) {
        if matches!(self.shape.form, Form::Gate { .. }) {
            return;
        }
        let mut distinct: Vec<(usize, Length)> = Vec::new();
        for (at, width) in self.shape.widths.iter().enumerate() {
            if !distinct.iter().any(|(_, other)| other == width) {
                distinct.push((at, *width));
            }
        }
        let mut found = Vec::new();
        for (whole, width) in &distinct {
            for (place, (a, first)) in distinct.iter().enumerate() {
                if *first * 2 == *width {
                    found.push((
                        format!("{} is twice {}", capital(self.name(*whole)), self.name(*a)),
                        format!("2 × {} = {}", self.plain(*first), self.full(*width)),
                        Makes::Double {
                            whole: *whole,
                            half: *a,
                        },
                    ));
                }
                for (b, second) in distinct.iter().skip(place + 1) {
                    if *first + *second == *width {
                        found.push((
                            format!(
                                "{} is as wide as {} and {} together",
                                capital(self.name(*whole)),
                                self.name(*a),
                                self.name(*b)
                            ),
                            format!(
                                "{} + {} = {}",
                                self.plain(*first),
                                self.plain(*second),
                                self.full(*width)
                            ),
                            Makes::Sum {
                                whole: *whole,
                                parts: [*a, *b],
                            },
                        ));
                    }
                }
            }
        }
        for (relation, evidence, makes) in found.into_iter().take(MOST_SUMS) {
            self.push(relation, evidence, false, makes);
        }
    }

    fn square(&mut self) {
        let widths = &self.shape.widths;
        let place = widths.iter().position(|width| *width == self.shape.height);
        if let Some(place) = place {
            let evidence = format!(
                "{} × {}",
                self.plain(self.shape.height),
                self.full(self.shape.height)
            );
            let relation = format!("{} is square", capital(self.name(place)));
            self.push(relation, evidence, false, Makes::Square(place));
        }
    }

    fn seat_words(&self, on: On) -> (String, Size) {
        match on {
            On::Layer(at) => self
                .layers
                .get(at)
                .map(|layer| (layer.name.clone(), layer.size))
                .unwrap_or_default(),
            On::Face(at, _) => {
                let size = self.shape.panel(at).unwrap_or_default();
                (self.name(at).to_owned(), size)
            }
        }
    }

    fn borders(&mut self) {
        let layers = self.layers;
        for (place, layer) in layers.iter().enumerate() {
            let (seat, size) = self.seat_words(layer.on);
            if let Some(border) = layer.border {
                let less = |whole: Length, part: Length| {
                    format!(
                        "{} − 2 × {} = {}",
                        self.plain(whole),
                        self.plain(border),
                        self.plain(part)
                    )
                };
                let evidence = format!(
                    "{}, and {}: an even border of {}",
                    less(size.width, layer.size.width),
                    less(size.height, layer.size.height),
                    self.full(border)
                );
                let relation = format!("{} leaves an even border on {seat}", capital(&layer.name));
                let sure = !layer.doubtful && border <= USUAL_MOST;
                self.push(
                    relation,
                    evidence,
                    sure,
                    Makes::Border {
                        layer: place,
                        border,
                    },
                );
            } else if layer.why == Why::Whole {
                let relation = format!("{} is as large as {seat}", capital(&layer.name));
                let evidence = format!("both are {}", self.notation.size(size.width, size.height));
                self.push(relation, evidence, true, Makes::Whole(place));
            } else if matches!(layer.why, Why::Width | Why::Height) {
                let tall = layer.why == Why::Height;
                let (word, length) = if tall {
                    ("high", layer.size.height)
                } else {
                    ("wide", layer.size.width)
                };
                let relation = format!("{} is as {word} as the closed card", capital(&layer.name));
                let evidence = format!("both are {} {word}", self.full(length));
                let makes = Makes::Across { layer: place, tall };
                self.push(relation, evidence, true, makes);
            }
        }
    }

    fn same_borders(&mut self) {
        let bordered: Vec<(usize, Length)> = self
            .layers
            .iter()
            .enumerate()
            .filter_map(|(at, layer)| Some((at, layer.border?)))
            .collect();
        let mut seen: Vec<Length> = Vec::new();
        for (_, border) in &bordered {
            if seen.contains(border) {
                continue;
            }
            seen.push(*border);
            let group: Vec<usize> = bordered
                .iter()
                .filter(|(_, it)| it == border)
                .map(|(at, _)| *at)
                .collect();
            if group.len() > 1 {
                let names = group.iter().filter_map(|at| self.layers.get(*at));
                let names = join(names.map(|layer| layer.name.clone()).collect());
                let sure = group.iter().all(|at| {
                    self.found.iter().any(|it| {
                        it.accepted
                            && matches!(it.makes, Makes::Border { layer, .. } if layer == *at)
                    })
                });
                let relation = format!("{} keep one border", capital(&names));
                let evidence = format!("each border is {}", self.full(*border));
                self.push(relation, evidence, sure, Makes::SameBorders(group));
            }
        }
    }

    fn same_sizes(&mut self) {
        let free: Vec<usize> = (0..self.layers.len())
            .filter(|at| {
                self.layers
                    .get(*at)
                    .is_some_and(|it| it.border.is_none() && it.why == Why::Fits)
            })
            .collect();
        let mut seen: Vec<Size> = Vec::new();
        for at in &free {
            let Some(size) = self.layers.get(*at).map(|layer| layer.size) else {
                continue;
            };
            if seen.contains(&size) {
                continue;
            }
            seen.push(size);
            let alike = |at: &&usize| self.layers.get(**at).is_some_and(|it| it.size == size);
            let group: Vec<usize> = free.iter().filter(alike).copied().collect();
            if group.len() > 1 {
                let names = group.iter().filter_map(|at| self.layers.get(*at));
                let names = join(names.map(|layer| layer.name.clone()).collect());
                let relation = format!("{} stay alike", capital(&names));
                let evidence = format!(
                    "{} of {}",
                    group.len(),
                    self.notation.size(size.width, size.height)
                );
                self.push(relation, evidence, true, Makes::SameSizes(group));
            }
        }
    }

    fn envelope(&mut self, list: &List) {
        let card = closed_size(self.recipe);
        let named = list.envelope.map(|(_, envelope)| envelope);
        let exact = || {
            let mut exact = ENVELOPES.iter().filter(|envelope| {
                let spare = spare(envelope, card);
                CLEARANCE_RULES
                    .iter()
                    .any(|rule| (rule.length, rule.height) == (spare.width, spare.height))
            });
            let first = exact.next()?;
            Some((first, exact.next().is_none()))
        };
        let near = || {
            let mut fitting: Vec<&'static Envelope> = ENVELOPES
                .iter()
                .filter(|envelope| {
                    (envelope.family == EnvelopeFamily::Iso)
                        == (self.notation.unit() == Unit::Millimetre)
                })
                .filter(|envelope| room(envelope, card).is_some())
                .collect();
            fitting.sort_by_key(|it| (it.length + it.height, it.name));
            let first = fitting.first()?;
            let spare = spare(first, card);
            (spare.width <= NEAR && spare.height <= NEAR).then_some((*first, false))
        };
        let found = named
            .map(|envelope| (envelope, true))
            .or_else(exact)
            .or_else(near);
        let Some((envelope, sure)) = found else {
            return;
        };
        let Some((rule, spare)) = room(envelope, card) else {
            return;
        };
        let (long, short) = (card.width.max(card.height), card.width.min(card.height));
        let side = |envelope: Length, spare: Length, card: Length| {
            format!(
                "{} − {} = {}",
                self.plain(envelope),
                self.plain(spare),
                self.full(card)
            )
        };
        let on_marks = [envelope.length, envelope.height, spare.width, spare.height]
            .iter()
            .all(|it| nearest(*it, self.notation.step).is_exact());
        let sides = if on_marks {
            format!(
                "{}, and {}",
                side(envelope.height, spare.height, short),
                side(envelope.length, spare.width, long)
            )
        } else {
            format!(
                "it measures {}, the card {}",
                envelope.size_words(self.notation.decimal),
                self.notation.size(long, short)
            )
        };
        let evidence = format!("{sides}: room by the rule “{}”", rule.name);
        let relation = format!("The closed card goes into envelope {}", envelope.name);
        self.push(
            relation,
            evidence,
            sure,
            Makes::Envelope(envelope.id, rule.id),
        );
    }
}

/// Sums of panels that are told at most. Our own bound.
const MOST_SUMS: usize = 3;

/// An envelope so much larger than the card is meant for another. Our own bound.
const NEAR: Length = Length::mm(15);

fn join(mut names: Vec<String>) -> String {
    match names.pop() {
        None => String::new(),
        Some(last) if names.is_empty() => last,
        Some(last) => format!("{} and {last}", names.join(", ")),
    }
}

fn capital(words: &str) -> String {
    crate::problem::sentence(words.to_owned())
}
