//! What a card is cut from: one list of all its parts, each as it is cut, with
//! the ways it may lie on its sheet.
//!
//! Everything that cuts, counts or draws sheets reads this list and works out
//! none of it by itself.

use std::collections::BTreeMap;

use crate::faces::{Reading, reading_of};
use crate::laid::{LaidLayer, LaidOut, Piece};
use crate::lay::{LayAdvice, Marked, ToLay};
use crate::length::Length;
use crate::paper::{Stock, StockId, StockSide};
use crate::part::{Part, parts};
use crate::plane::{FaceFrame, PieceFrame, Placement, Point, Rect, SheetFrame, Size, Turn};
use crate::recipe::{Face, Lay, Layer, Recipe, Side};

/// A part as it is cut from its sheet: a rectangle, before anything is cut out
/// of it, scored or folded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Blank {
    /// What becomes of it.
    pub part: Part,
    /// The paper.
    pub stock: StockId,
    /// Width and height as it is drawn: the length of a strip and its height;
    /// of a layer, as its reader sees it.
    pub size: Size,
    /// How many one card takes.
    pub per_card: u32,
    /// How it lies on its sheet; `None` where the recipe has no such paper.
    pub lies: Option<LayAdvice>,
    /// Where on its sheet it is cut, where that is not anywhere: the lower left corner
    /// of the rectangle it takes there. It lies within the sheet, as near as that goes
    /// to where the maker wants it.
    pub at: Option<Point<SheetFrame>>,
}

impl Blank {
    /// How many a sheet gives, all laid alike in rows, or one from its place; none
    /// where it does not fit as it has to lie, or has no paper.
    pub fn per_sheet(&self) -> i64 {
        let in_rows = self.lies.as_ref().map_or(0, LayAdvice::per_sheet);
        if self.at.is_some() {
            in_rows.min(1)
        } else {
            in_rows
        }
    }

    /// Where the first of it lies on its sheet: at its place, or in the upper left
    /// corner. `None` where it has no paper.
    pub(crate) fn on_sheet(&self, stock: &Stock) -> Option<Placement<PieceFrame, SheetFrame>> {
        let lay = self.lies.as_ref()?.lay;
        Some(match self.at {
            Some(at) => lay.placed(self.size, at),
            None => lay.first_on(stock, self.size),
        })
    }

    /// How many so many cards take.
    pub fn pieces(&self, cards: u32) -> i64 {
        i64::from(self.per_card) * i64::from(cards)
    }

    /// How many sheets so many pieces take that are laid alike in rows; `None`
    /// where not one fits its sheet.
    pub fn sheets(&self, pieces: i64) -> Option<i64> {
        let per_sheet = self.per_sheet();
        (per_sheet > 0).then(|| (pieces + per_sheet - 1) / per_sheet)
    }

    /// What the first of it takes of its sheet; `None` where it has no paper.
    pub fn takes(&self, stock: &Stock) -> Option<Rect<SheetFrame>> {
        let ground = Rect::at(Point::new(Length::ZERO, Length::ZERO), self.size);
        Some(self.on_sheet(stock)?.rect(&ground))
    }

    /// The size it takes on its sheet as it lies there, across the sheet and up
    /// it.
    pub fn size_on_sheet(&self) -> Size {
        let lies = self.lies.as_ref();
        lies.map_or(self.size, |lies| lies.lay.size(self.size))
    }
}

/// Everything a card is cut from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutList {
    /// In the order of the work. What has no place in the card is left out.
    pub blanks: Vec<Blank>,
}

impl CutList {
    /// What a part is cut from.
    pub fn of(&self, part: Part) -> Option<&Blank> {
        self.blanks.iter().find(|blank| blank.part == part)
    }

    /// Width and height of a part as it is cut, as in [`Blank::size`].
    pub fn size_of(&self, part: Part) -> Option<Size> {
        self.of(part).map(|blank| blank.size)
    }

    /// How many sheets of each paper so many cards take, each part on sheets of
    /// its own; `None` where one does not fit its sheet.
    pub fn sheets(&self, cards: u32) -> BTreeMap<StockId, Option<i64>> {
        let mut needed = BTreeMap::new();
        for blank in &self.blanks {
            let sheets = blank.sheets(blank.pieces(cards));
            let sum = needed.entry(blank.stock).or_insert(Some(0));
            *sum = sum.zip(sheets).map(|(sum, more): (i64, i64)| sum + more);
        }
        needed
    }
}

/// Lists what the parts of a card are cut from; `readings` are how its faces are
/// read.
pub(crate) fn cut_list(recipe: &Recipe, laid: &LaidOut, readings: &[Reading]) -> CutList {
    let blanks = parts(recipe).filter_map(|part| match part {
        Part::Strip(of) => Some(of_strip(recipe, laid, laid.piece(of)?, readings)),
        Part::Layer(id) => Some(of_layer(recipe, laid, laid.layer(id)?, readings)),
    });
    CutList {
        blanks: blanks.collect(),
    }
}

fn of_strip(recipe: &Recipe, laid: &LaidOut, piece: &Piece, readings: &[Reading]) -> Blank {
    let of_piece = |face: &&Face| {
        let place = laid.index_of(face.panel);
        place.is_some_and(|place| piece.panels.contains(&place))
    };
    let marked = recipe.upright.iter().filter(of_piece).map(|face| {
        let reading = readings.iter().find(|reading| reading.face == *face);
        Marked {
            face: *face,
            side: face.side,
            place: reading.map(|reading| reading.place),
        }
    });
    let part = Part::Strip(piece.of);
    let to_lay = |stock| ToLay {
        stock,
        size: piece.size,
        lays: Lay::all().collect(),
        chosen: part.lay(recipe),
        seen: &[Side::A, Side::B],
        marked: marked.collect(),
        // Scores run across the strip.
        folds: (!piece.creases.is_empty()).then_some(Turn::None),
    };
    blank(recipe, part, (piece.stock, piece.size), to_lay)
}

fn of_layer(recipe: &Recipe, laid: &LaidOut, layer: &LaidLayer, readings: &[Reading]) -> Blank {
    let part = Part::Layer(layer.id);
    let size = layer.at.size();
    let to_lay = |stock| ToLay {
        stock,
        size,
        lays: lays_showing(layer.shows).collect(),
        chosen: part.lay(recipe),
        seen: &[Side::A],
        marked: vec![Marked {
            face: layer.face,
            side: Side::A,
            place: Some(Placement::unmoved()),
        }],
        folds: folds_under(laid, layer, readings),
    };
    blank(recipe, part, (layer.stock, size), to_lay)
}

/// How a layer may lie of which that side of its paper shows: its side A is the
/// one that shows.
fn lays_showing(shows: StockSide) -> impl Iterator<Item = Lay> {
    Lay::all().filter(move |lay| lay.stock_side(Side::A) == shows)
}

/// Whether a layer may run across its sheet or up it, whatever its size: as the
/// maker chose, or else as its print is upright. Both of these, one or the other.
pub(crate) fn layer_runs(layer: &Layer, stock: &Stock) -> Vec<bool> {
    let reader = Placement::<PieceFrame, FaceFrame>::unmoved();
    let may = |across: &bool| match layer.lay() {
        Some(lay) => lay.runs_across() == *across,
        None => lays_showing(layer.shows)
            .any(|lay| lay.runs_across() == *across && lay.is_upright(stock, Side::A, &reader)),
    };
    [true, false].into_iter().filter(may).collect()
}

/// How the scores of the piece run that carries a layer, as its reader sees
/// them; `None` where it has none or they run at a slant.
fn folds_under(laid: &LaidOut, layer: &LaidLayer, readings: &[Reading]) -> Option<Turn> {
    let carrier = laid.piece_with(laid.index_of(layer.face.panel)?)?;
    let reading = reading_of(laid, readings, layer.face)?;
    let folds = reading.place.direction(Turn::None).quarter();
    folds.filter(|_| !carrier.creases.is_empty())
}

fn blank<'a>(
    recipe: &'a Recipe,
    part: Part,
    (stock, size): (StockId, Size),
    to_lay: impl FnOnce(&'a Stock) -> ToLay<'a>,
) -> Blank {
    let paper = recipe.stock(stock);
    let mut lies = paper.map(|stock| to_lay(stock).advise());
    let place = paper.zip(lies.as_mut()).zip(part.cut_at(recipe));
    let at = place.map(|((paper, lies), wanted)| {
        lies.lies_only_so();
        let lies = lies.lay.size(size);
        let within = |at: Length, room: Length| at.min(room).max(Length::ZERO);
        Point::new(
            within(wanted.x, paper.width - lies.width),
            within(wanted.y, paper.height - lies.height),
        )
    });
    Blank {
        part,
        stock,
        size,
        per_card: 1,
        lies,
        at,
    }
}
