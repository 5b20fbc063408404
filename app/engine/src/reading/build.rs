//! The recipe of a list before any relation is taken.

use std::collections::BTreeMap;

use super::choose::Why;
use super::piece::{Cut, List};
use super::seat::{On, Seated};
use super::sense::Kind;
use super::shape::Shape;
use crate::length::{Length, Notation, Unit};
use crate::paper::{SHEETS, SheetSize, Stock, StockId, StockSide, ready_stocks};
use crate::plane::Size;
use crate::recipe::{
    Anchor, Base, Bond, Face, FoldingIn, Ids, Layer, LayerId, Measure, MeasureId, OnTop, Outline,
    Panel, PanelId, Place, Posting, Recipe, Runs, Seat, Stacked, Strip,
};
use crate::score::Scoring;

/// Whether one size can be cut from another, either way round.
pub(super) fn fits(size: Size, from: Size) -> bool {
    let within = |size: Size| size.width <= from.width && size.height <= from.height;
    within(size) || within(size.turned())
}

/// Builds measures in order.
struct Measures {
    all: Vec<Measure>,
}

impl Measures {
    fn add(&mut self, name: String, value: Length) -> MeasureId {
        let number = u32::try_from(self.all.len() + 1).unwrap_or(u32::MAX);
        let id = MeasureId(number);
        self.all.push(Measure::new(id, name, value));
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
) -> Recipe {
    let mut measures = Measures { all: Vec::new() };
    let [along, across] = if shape.tent {
        ["height", "width"]
    } else {
        ["width", "height"]
    };
    let height = measures.add(format!("card {across}"), shape.height);
    let allowance = measures.add("fold-in allowance".to_owned(), allowance(shape, notation));
    let panels: Vec<Panel> = (1..)
        .zip(shape.names())
        .zip(&shape.widths)
        .map(|((number, name), width)| Panel {
            id: PanelId(number),
            width: measures.add(format!("{name} {along}"), *width),
            name,
        })
        .collect();
    let stocks = stocks(list, shape, notation);
    let papers: Vec<StockId> = stocks.iter().map(|stock| stock.id).collect();
    let base_stock = papers.first().copied().unwrap_or(StockId(1));
    let places = 0..layers.len();
    let layers: Vec<Layer> = places
        .filter_map(|place| put(layers, place, &papers, &mut measures))
        .collect();
    let length = measures.add("strip length".to_owned(), shape.length);
    let (folding_in, posting) = match notation.unit() {
        Unit::Inch => ("sixteenth", "eighth-round"),
        Unit::Millimetre => ("three-mm", "iso-pairs"),
    };
    Recipe {
        name: name.unwrap_or("Card from a list").to_owned(),
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
            },
            rests: PanelId(number(shape.rests)),
            runs: if shape.tent { Runs::Down } else { Runs::Across },
            on_top: on_top(shape),
        },
        pieces: Vec::new(),
        layers,
        upright: Vec::new(),
        lay: None,
        scoring: Scoring::default(),
        glue_margin: Length::mm(3),
        folding_in: FoldingIn {
            rule: folding_in.to_owned(),
            allowance,
        },
        posting: Posting {
            rule: posting.to_owned(),
            envelope: None,
        },
        copies: base.count.clamp(1, 9999),
        notes: BTreeMap::new(),
        ids: Ids::default(),
    }
}

/// The layer at a place.
fn put(
    layers: &[Seated],
    place: usize,
    papers: &[StockId],
    measures: &mut Measures,
) -> Option<Layer> {
    let seated = layers.get(place)?;
    let name = &seated.name;
    Some(Layer {
        id: LayerId(number(place)),
        stock: papers
            .get(1 + depth(layers, place) % 2)
            .or(papers.first())
            .copied()?,
        shows: StockSide::Face,
        on: match seated.on {
            On::Layer(at) => Seat::Layer(LayerId(number(at))),
            On::Face(at, side) => Seat::Face(Face {
                panel: PanelId(number(at)),
                side,
            }),
        },
        width: measures.add(format!("{name} width"), seated.size.width),
        height: measures.add(format!("{name} height"), seated.size.height),
        left: measures.add(format!("{name} from the left"), seated.at.width),
        bottom: measures.add(format!("{name} from the bottom"), seated.at.height),
        place: match seated.why {
            Why::Across => Place::Distances,
            _ => Place::At(Anchor::Centre),
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
        focal: seated.kind == Some(Kind::Focal),
        name: name.clone(),
    })
}

/// The name of what stands at a place.
fn number(place: usize) -> u32 {
    u32::try_from(place + 1).unwrap_or(u32::MAX)
}

/// On how many layers a layer lies.
fn depth(layers: &[Seated], place: usize) -> usize {
    let below = |place: &usize| match layers.get(*place)?.on {
        On::Layer(at) => Some(at),
        On::Face(..) => None,
    };
    std::iter::successors(Some(place), below)
        .take(layers.len())
        .count()
        - 1
}

/// What the folded-in panel is shorter by, or the usual.
fn allowance(shape: &Shape, notation: Notation) -> Length {
    shape.shorter().unwrap_or(match notation.unit() {
        Unit::Inch => Length::sixty_fourths(4),
        Unit::Millimetre => Length::mm(3),
    })
}

/// Which panel lies on which where the paper leaves it open.
fn on_top(shape: &Shape) -> Vec<OnTop> {
    let panel = |place| Stacked::Panel(PanelId(number(place)));
    let pairs = shape.on_top().iter();
    pairs
        .map(|(upper, lower)| OnTop {
            upper: panel(*upper),
            lower: panel(*lower),
        })
        .collect()
}

/// The paper of the base, then two for layers: the sheet the list names, else
/// the smallest usual one that the base can be cut from.
fn stocks(list: &List, shape: &Shape, notation: Notation) -> Vec<Stock> {
    let strip = Size {
        width: shape.length,
        height: shape.height,
    };
    let size_of = |sheet: &SheetSize| Size {
        width: sheet.width,
        height: sheet.height,
    };
    let named = list.sheet.filter(|(_, size, _)| fits(strip, *size));
    let usual = match notation.unit() {
        Unit::Inch => ["na-letter", "trade-12x12-in"],
        Unit::Millimetre => ["iso-a4", "trade-300-mm"],
    };
    let usual = usual.iter().filter_map(|id| SheetSize::by_id(id));
    let others = SHEETS.iter().rev();
    let sheet = usual
        .chain(others)
        .find(|sheet| fits(strip, size_of(sheet)));
    let (size, called) = match (named, sheet) {
        (Some((_, size, "")), _) => (size, notation.size(size.width, size.height)),
        (Some((_, size, called)), _) => (size, called.to_owned()),
        (None, Some(sheet)) => (size_of(sheet), sheet.name.to_owned()),
        (None, None) => (strip, notation.size(strip.width, strip.height)),
    };
    let ready = ready_stocks();
    let wanted = match notation.unit() {
        Unit::Inch => [1, 4, 3],
        Unit::Millimetre => [2, 4, 3],
    };
    (1..)
        .zip(wanted)
        .filter_map(|(id, wanted)| {
            let stock = ready.iter().find(|stock| stock.id == StockId(wanted))?;
            let kind = stock.name.split(',').next().unwrap_or_default();
            Some(Stock {
                id: StockId(id),
                name: format!("{kind}, {called}"),
                width: size.width,
                height: size.height,
                ..stock.clone()
            })
        })
        .collect()
}
