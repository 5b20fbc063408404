//! The relations that the numbers of a list suggest.

use super::build::{layer_at, panel_at};
use super::choose::Why;
use super::folding::WIDEST_GAP;
use super::piece::List;
use super::seat::{On, Seated};
use super::shape::{FoldForm, Shape};
use crate::card::closed_size;
use crate::length::{Length, Notation, Unit, nearest};
use crate::paper::{
    CLEARANCE_RULES, Clearance, ClearanceRule, ENVELOPES, Envelope, EnvelopeFamily,
};
use crate::plane::Size;
use crate::recipe::{LayerId, PanelId, Recipe};
use crate::sorted::InOrder as _;

/// Wider borders are seldom meant to be kept: 1/2 in. Our own bound.
const USUAL_MOST: Length = Length::sixty_fourths(32);

/// A relation that the numbers suggest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proposal {
    /// The relation.
    pub is: Suggestion,
    /// The numbers that suggest it.
    pub evidence: Evidence,
    /// Whether it is taken where the maker says nothing: where the numbers are
    /// hardly chance and suggest nothing else.
    pub accepted: bool,
    /// By what it is known again when the list has changed.
    pub key: ProposalKey,
}

/// What a proposal adds to the recipe of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Suggestion {
    /// These panels are equally wide, or high where the card runs down.
    SamePanels(Vec<PanelId>),
    /// A panel that is folded in is shorter than the one it lies on.
    FoldedIn {
        /// The panel that is folded in.
        inner: PanelId,
        /// The one it lies on.
        middle: PanelId,
    },
    /// The two leaves cover the middle but for a gap.
    Leaves {
        /// How wide it is; zero where they meet.
        gap: Length,
    },
    /// A panel is as wide as two others together.
    Sum {
        /// The panel.
        whole: PanelId,
        /// The others.
        parts: [PanelId; 2],
    },
    /// A panel is twice as wide as another.
    Double {
        /// The panel.
        whole: PanelId,
        /// The other.
        half: PanelId,
    },
    /// A panel is square.
    Square(PanelId),
    /// A layer leaves an even border on what it lies on.
    Border {
        /// The layer.
        layer: LayerId,
        /// How wide it is.
        border: Length,
    },
    /// The borders of these layers are equal.
    SameBorders(Vec<LayerId>),
    /// These layers are equally large.
    SameSizes(Vec<LayerId>),
    /// A layer is as large as what it lies on.
    Whole(LayerId),
    /// A layer is as wide, or as high, as the closed card.
    Across {
        /// The layer.
        layer: LayerId,
        /// Whether as high.
        tall: bool,
    },
    /// The closed card goes into an envelope.
    Envelope(&'static Envelope, &'static ClearanceRule),
}

/// The numbers that suggest a relation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Evidence {
    /// So many of a length make another.
    Times {
        /// How many.
        count: usize,
        /// The length.
        each: Length,
        /// The other.
        whole: Length,
    },
    /// Each has this length.
    Each(Length),
    /// A length less another leaves a third.
    Less {
        /// The length.
        whole: Length,
        /// The other.
        part: Length,
        /// The third.
        left: Length,
    },
    /// Two lengths make a third.
    Plus {
        /// The two.
        parts: [Length; 2],
        /// The third.
        whole: Length,
    },
    /// Two leaves make a length, and the middle is another.
    Leaves {
        /// The leaves.
        leaves: [Length; 2],
        /// What they make.
        both: Length,
        /// The middle.
        middle: Length,
    },
    /// Both sides are as long.
    Square(Length),
    /// A layer leaves a border on both sides, each way.
    Border {
        /// What it lies on.
        seat: Size,
        /// The layer.
        layer: Size,
        /// The border.
        border: Length,
    },
    /// Both are so large.
    Both(Size),
    /// Both are so wide.
    BothWide(Length),
    /// Both are so high.
    BothHigh(Length),
    /// Each border is so wide.
    EachBorder(Length),
    /// So many of a size.
    Alike {
        /// How many.
        count: usize,
        /// The size.
        size: Size,
    },
    /// An envelope is larger than the card by a printed rule.
    Envelope {
        /// The envelope.
        envelope: &'static Envelope,
        /// How much longer and higher it is.
        spare: Size,
        /// The closed card, its longer side first.
        card: Size,
        /// Whether all of that falls on marks of the list's notation.
        on_marks: bool,
        /// The rule.
        rule: Clearance,
    },
}

/// By what a proposal is known again when the list has changed: what it does, and
/// the names of what it does that to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ProposalKey {
    does: Does,
    named: Vec<String>,
    length: Length,
}

/// What a proposal does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
enum Does {
    SamePanels,
    FoldedIn,
    Leaves,
    Sum,
    Double,
    Square,
    Border,
    SameBorders,
    SameSizes,
    Whole,
    Wide,
    High,
    Envelope(&'static str),
}

impl ProposalKey {
    fn of(recipe: &Recipe, is: &Suggestion) -> Self {
        let panel = |id: &PanelId| {
            let panel = recipe.panel(*id);
            panel.map_or_else(String::new, |(_, panel)| panel.name.clone())
        };
        let layer = |id: &LayerId| {
            let layer = recipe.layer(*id);
            layer.map_or_else(String::new, |layer| layer.name.clone())
        };
        let panels = |ids: &[PanelId]| ids.iter().map(panel).collect();
        let layers = |ids: &[LayerId]| ids.iter().map(layer).collect();
        let (does, named) = match is {
            Suggestion::SamePanels(ids) => (Does::SamePanels, panels(ids)),
            Suggestion::FoldedIn { .. } => (Does::FoldedIn, Vec::new()),
            Suggestion::Leaves { .. } => (Does::Leaves, Vec::new()),
            Suggestion::Sum { whole, parts } => (Does::Sum, panels(&[*whole, parts[0], parts[1]])),
            Suggestion::Double { whole, half } => (Does::Double, panels(&[*whole, *half])),
            Suggestion::Square(id) => (Does::Square, panels(&[*id])),
            Suggestion::Border { layer, .. } => (Does::Border, layers(&[*layer])),
            Suggestion::SameBorders(ids) => (Does::SameBorders, layers(ids)),
            Suggestion::SameSizes(ids) => (Does::SameSizes, layers(ids)),
            Suggestion::Whole(id) => (Does::Whole, layers(&[*id])),
            Suggestion::Across { layer, tall: false } => (Does::Wide, layers(&[*layer])),
            Suggestion::Across { layer, tall: true } => (Does::High, layers(&[*layer])),
            Suggestion::Envelope(envelope, _) => (Does::Envelope(envelope.id), Vec::new()),
        };
        let length = match is {
            Suggestion::Leaves { gap } => *gap,
            _ => Length::ZERO,
        };
        Self {
            does,
            named,
            length,
        }
    }
}

struct Finder<'a> {
    recipe: &'a Recipe,
    shape: &'a Shape,
    layers: &'a [Seated],
    notation: Notation,
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
        .find(|rule| (rule.is == Clearance::IsoPairs) == (envelope.family == EnvelopeFamily::Iso));
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
    fn push(&mut self, is: Suggestion, evidence: Evidence, accepted: bool) {
        let key = ProposalKey::of(self.recipe, &is);
        self.found.push(Proposal {
            is,
            evidence,
            accepted,
            key,
        });
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
                Evidence::Times {
                    count: group.len(),
                    each: *width,
                    whole: self.shape.length,
                }
            } else {
                Evidence::Each(*width)
            };
            let panels = group.into_iter().map(panel_at).collect();
            self.push(Suggestion::SamePanels(panels), evidence, true);
        }
    }

    fn three_panels(&mut self) {
        let [first, middle, last] = self.shape.widths[..] else {
            return;
        };
        match self.shape.form {
            FoldForm::LastIn | FoldForm::FirstIn => {
                let (inner, width) = match self.shape.form {
                    FoldForm::LastIn => (2, last),
                    _ => (0, first),
                };
                let Some(shorter) = self.shape.shorter() else {
                    return;
                };
                let is = Suggestion::FoldedIn {
                    inner: panel_at(inner),
                    middle: panel_at(1),
                };
                let evidence = Evidence::Less {
                    whole: middle,
                    part: width,
                    left: shorter,
                };
                self.push(is, evidence, true);
            }
            FoldForm::Gate { gap } if gap <= WIDEST_GAP => {
                let (leaves, both) = ([first, last], first + last);
                let evidence = if gap == Length::ZERO {
                    Evidence::Plus {
                        parts: leaves,
                        whole: both,
                    }
                } else {
                    Evidence::Leaves {
                        leaves,
                        both,
                        middle,
                    }
                };
                self.push(Suggestion::Leaves { gap }, evidence, true);
            }
            _ => {}
        }
    }

    /// Panels that are the sum of two others, or twice another; left to the
    /// maker, since small numbers often add up by chance.
    fn sums(&mut self) {
        if matches!(self.shape.form, FoldForm::Gate { .. }) {
            return;
        }
        let mut distinct: Vec<(usize, Length)> = Vec::new();
        for (at, width) in self.shape.widths.iter().enumerate() {
            if !distinct.iter().any(|(_, other)| other == width) {
                distinct.push((at, *width));
            }
        }
        let mut found = Vec::new();
        for (at, width) in &distinct {
            let whole = panel_at(*at);
            for (index, (a, first)) in distinct.iter().enumerate() {
                if *first * 2 == *width {
                    let half = panel_at(*a);
                    let evidence = Evidence::Times {
                        count: 2,
                        each: *first,
                        whole: *width,
                    };
                    found.push((Suggestion::Double { whole, half }, evidence));
                }
                for (b, second) in distinct.iter().skip(index + 1) {
                    if *first + *second == *width {
                        let parts = [panel_at(*a), panel_at(*b)];
                        let evidence = Evidence::Plus {
                            parts: [*first, *second],
                            whole: *width,
                        };
                        found.push((Suggestion::Sum { whole, parts }, evidence));
                    }
                }
            }
        }
        for (is, evidence) in found.into_iter().take(MOST_SUMS) {
            self.push(is, evidence, false);
        }
    }

    fn square(&mut self) {
        let height = self.shape.height;
        let widths = &self.shape.widths;
        if let Some(index) = widths.iter().position(|width| *width == height) {
            let is = Suggestion::Square(panel_at(index));
            self.push(is, Evidence::Square(height), false);
        }
    }

    fn seat_size(&self, on: On) -> Size {
        match on {
            On::Layer(at) => self.layers.get(at).map(|layer| layer.size),
            On::Face(at, _) => self.shape.panel(at),
        }
        .unwrap_or_default()
    }

    fn borders(&mut self) {
        let layers = self.layers;
        for (index, layer) in layers.iter().enumerate() {
            let seat = self.seat_size(layer.on);
            let id = layer_at(index);
            if let Some(border) = layer.border {
                let is = Suggestion::Border { layer: id, border };
                let evidence = Evidence::Border {
                    seat,
                    layer: layer.size,
                    border,
                };
                self.push(is, evidence, !layer.doubtful && border <= USUAL_MOST);
            } else if layer.why == Why::Whole {
                self.push(Suggestion::Whole(id), Evidence::Both(seat), true);
            } else if matches!(layer.why, Why::Width | Why::Height) {
                let tall = layer.why == Why::Height;
                let evidence = if tall {
                    Evidence::BothHigh(layer.size.height)
                } else {
                    Evidence::BothWide(layer.size.width)
                };
                self.push(Suggestion::Across { layer: id, tall }, evidence, true);
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
            let group: Vec<LayerId> = bordered
                .iter()
                .filter(|(_, it)| it == border)
                .map(|(at, _)| layer_at(*at))
                .collect();
            if group.len() > 1 {
                let sure = group.iter().all(|id| {
                    self.found.iter().any(|it| {
                        it.accepted
                            && matches!(it.is, Suggestion::Border { layer, .. } if layer == *id)
                    })
                });
                let evidence = Evidence::EachBorder(*border);
                self.push(Suggestion::SameBorders(group), evidence, sure);
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
            let group: Vec<LayerId> = free.iter().filter(alike).map(|at| layer_at(*at)).collect();
            if group.len() > 1 {
                let evidence = Evidence::Alike {
                    count: group.len(),
                    size,
                };
                self.push(Suggestion::SameSizes(group), evidence, true);
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
            fitting.put_in_order_by_key(|it| (it.length + it.height, it.name));
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
        let on_marks = [envelope.length, envelope.height, spare.width, spare.height]
            .iter()
            .all(|it| nearest(*it, self.notation.step).is_exact());
        let evidence = Evidence::Envelope {
            envelope,
            spare,
            card: Size {
                width: card.width.max(card.height),
                height: card.width.min(card.height),
            },
            on_marks,
            rule: rule.is,
        };
        self.push(Suggestion::Envelope(envelope, rule), evidence, sure);
    }
}

/// Sums of panels that are told at most. Our own bound.
const MOST_SUMS: usize = 3;

/// An envelope so much larger than the card is meant for another. Our own bound.
const NEAR: Length = Length::mm(15);
