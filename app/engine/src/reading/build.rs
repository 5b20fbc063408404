//! The recipe of a list before any relation is taken.

use std::collections::BTreeMap;

use super::choose::Why;
use super::piece::{Cut, List};
use super::seat::{On, Seated};
use super::sense::Kind;
use super::shape::Shape;
use crate::length::{Length, Notation};
use crate::paper::{StockId, StockSide};
use crate::plane::Size;
use crate::recipe::{
    Anchor, Base, Bond, Face, Ids, Layer, LayerId, Listed, Measure, MeasureId, MeasureOf, Naming,
    New, OnTop, Outline, Owner, Panel, PanelId, Placing, Recipe, Role, Runs, Scoring, Seat,
    Stacked, Strip, usual_allowance, usual_margin, usual_rules, usual_stocks,
};

/// Builds measures in order.
struct Measures<'a> {
    all: Vec<Measure>,
    naming: &'a dyn Naming,
}

impl Measures<'_> {
    fn add(&mut self, is: Listed, value: Length) -> MeasureId {
        self.push(self.naming.name(New::Listed(is)), None, value)
    }

    /// A measure of a part of that name.
    fn add_of(&mut self, name: &str, part: Owner, is: Role, value: Length) -> MeasureId {
        let of = Some(MeasureOf { part, is });
        self.push(self.naming.name(New::Measure(name, is)), of, value)
    }

    fn push(&mut self, name: String, of: Option<MeasureOf>, value: Length) -> MeasureId {
        let number = u32::try_from(self.all.len() + 1).unwrap_or(u32::MAX);
        let id = MeasureId(number);
        self.all.push(Measure {
            of,
            ..Measure::new(id, name, value)
        });
        id
    }
}

/// The pieces in their places; nothing else holds between their measures.
pub(super) fn plain(
    list: &List,
    base: &Cut,
    shape: &Shape,
    layers: &[Seated],
    notation: Notation,
    name: Option<&str>,
    naming: &dyn Naming,
) -> Recipe {
    let mut measures = Measures {
        all: Vec::new(),
        naming,
    };
    let (along, across) = if shape.tent {
        (Role::Height, Listed::CardWidth)
    } else {
        (Role::Width, Listed::CardHeight)
    };
    let height = measures.add(across, shape.height);
    let allowance = measures.add(Listed::Allowance, allowance(shape, notation));
    let panels: Vec<Panel> = (1..)
        .zip(shape.names(naming))
        .zip(&shape.widths)
        .map(|((number, name), width)| Panel {
            id: PanelId(number),
            width: measures.add_of(&name, Owner::Panel(PanelId(number)), along, *width),
            name,
        })
        .collect();
    let strip = Size {
        width: shape.length,
        height: shape.height,
    };
    let named = list.sheet.map(|(_, size, sheet)| (size, sheet));
    let stocks = usual_stocks(strip, named, notation, naming);
    let papers: Vec<StockId> = stocks.iter().map(|stock| stock.id).collect();
    let base_stock = papers.first().copied().unwrap_or(StockId(1));
    let indices = 0..layers.len();
    let layers: Vec<Layer> = indices
        .filter_map(|index| put(layers, index, &papers, &mut measures))
        .collect();
    let length = measures.add(Listed::StripLength, shape.length);
    let (folding_in, posting) = usual_rules(notation.unit(), allowance);
    Recipe {
        name: name.map_or_else(|| naming.name(New::Listed(Listed::Recipe)), str::to_owned),
        designed_on: None,
        about: String::new(),
        notation,
        measures: measures.all,
        relations: Vec::new(),
        stocks,
        base: Base {
            strip: Strip {
                stock: base_stock,
                length,
                height,
                panels,
                folds: shape.folds.clone(),
                lines: Vec::new(),
                cutouts: Vec::new(),
                keep: None,
                cut_at: None,
            },
            rests: panel_at(shape.rests),
            runs: if shape.tent { Runs::Down } else { Runs::Across },
            on_top: on_top(shape),
        },
        pieces: Vec::new(),
        layers,
        supplies: Vec::new(),
        upright: Vec::new(),
        lay: None,
        scoring: Scoring::default(),
        glue_margin: usual_margin(notation.unit()),
        folding_in,
        posting,
        copies: base.count.clamp(1, 9999),
        class: None,
        own_steps: Vec::new(),
        order: Vec::new(),
        notes: BTreeMap::new(),
        photos: BTreeMap::new(),
        runs: Vec::new(),
        ids: Ids::default(),
    }
}

/// What the layer at an index is called in the recipe.
pub(super) fn layer_at(index: usize) -> LayerId {
    LayerId(number(index))
}

/// The same of a panel.
pub(super) fn panel_at(index: usize) -> PanelId {
    PanelId(number(index))
}

impl On {
    /// The same in the recipe.
    pub(super) fn seat(self) -> Seat {
        match self {
            Self::Layer(at) => Seat::Layer(layer_at(at)),
            Self::Face(at, side) => Seat::Face(Face {
                panel: panel_at(at),
                side,
            }),
        }
    }
}

/// The layer at an index.
fn put(
    layers: &[Seated],
    index: usize,
    papers: &[StockId],
    measures: &mut Measures<'_>,
) -> Option<Layer> {
    let seated = layers.get(index)?;
    let part = Owner::Layer(layer_at(index));
    let mut measure = |is, value| measures.add_of(&seated.name, part, is, value);
    Some(Layer {
        id: layer_at(index),
        stock: papers
            .get(1 + depth(layers, index) % 2)
            .or(papers.first())
            .copied()?,
        shows: StockSide::Face,
        on: seated.on.seat(),
        width: measure(Role::Width, seated.size.width),
        height: measure(Role::Height, seated.size.height),
        left: measure(Role::Left, seated.at.width),
        bottom: measure(Role::Bottom, seated.at.height),
        place: match seated.why {
            Why::Across => Placing::Distances,
            _ => Placing::At(Anchor::Centre),
        },
        outline: if seated.is_round {
            Outline::Round
        } else {
            Outline::Straight
        },
        bond: match seated.kind {
            Some(Kind::Insert) => Bond::Loose,
            _ => Bond::Safe,
        },
        turn: None,
        cut_at: None,
        focal: seated.kind == Some(Kind::Focal),
        name: seated.name.clone(),
    })
}

/// The name of what stands at an index.
fn number(index: usize) -> u32 {
    u32::try_from(index + 1).unwrap_or(u32::MAX)
}

/// On how many layers a layer lies.
fn depth(layers: &[Seated], index: usize) -> usize {
    let below = |index: &usize| match layers.get(*index)?.on {
        On::Layer(at) => Some(at),
        On::Face(..) => None,
    };
    std::iter::successors(Some(index), below)
        .take(layers.len())
        .count()
        - 1
}

/// What the folded-in panel is shorter by, or the usual.
fn allowance(shape: &Shape, notation: Notation) -> Length {
    shape
        .shorter()
        .unwrap_or_else(|| usual_allowance(notation.unit()))
}

/// Which panel lies on which where the paper leaves it open.
fn on_top(shape: &Shape) -> Vec<OnTop> {
    let panel = |index| Stacked::Panel(panel_at(index));
    let pairs = shape.on_top().iter();
    pairs
        .map(|(upper, lower)| OnTop {
            upper: panel(*upper),
            lower: panel(*lower),
        })
        .collect()
}
