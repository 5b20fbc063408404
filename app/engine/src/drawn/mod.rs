//! A recipe of one sheet whose creases, cuts and edges were drawn elsewhere.
//!
//! Creases from edge to edge across the sheet become its scores, the others lines at any
//! angle, and what its outline and its holes leave of the rectangle round it is cut out.
//! Equal distances are one measure, so that what lies in line stays so. Nothing else is
//! made up: the last of the widest panels rests on the table.

mod cuts;
mod measures;

use std::collections::BTreeMap;

use crate::laid::lay_out;
use crate::length::{Length, Notation};
use crate::paper::StockId;
use crate::pattern::{Line, LineKind, Pattern};
use crate::plane::{PieceFrame, Polygon, Rect, Region, SAME_WITHIN};
use crate::recipe::{
    Base, Fault, Fold, Ids, Listed, Naming, New, Owner, Panel, PanelId, Parts, Recipe, Role, Runs,
    Scoring, Strip, shortened, usual_allowance, usual_margin, usual_rules, usual_stocks,
};

use cuts::cut_away;
use measures::{Across, Measures};

/// Why no recipe can hold a pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Undrawn {
    /// Its outline or a hole crosses or touches itself or another, or encloses nothing.
    Outline,
    /// It has more of something than a recipe can have.
    TooMany {
        /// Of what.
        parts: Parts,
        /// How many there are.
        number: usize,
    },
    /// A part of its outline has more corners than one may have, or is so narrow that it
    /// is lost between them.
    TooFine,
}

/// A recipe of a pattern, called so, with what is said about it. The pattern's lower
/// left corner is at the origin. What is wrong with its creases is left for the card to
/// tell.
pub fn recipe_of(
    pattern: &Pattern,
    name: &str,
    about: &str,
    notation: Notation,
    naming: &dyn Naming,
) -> Result<Recipe, Undrawn> {
    let sheet = pattern.outline.bounds().filter(|sheet| !sheet.is_empty());
    let sheet = sheet.ok_or(Undrawn::Outline)?;
    let paper = Region::with_holes(&pattern.outline, &pattern.holes).ok_or(Undrawn::Outline)?;
    let (scores, lines) = scores(pattern, sheet);
    let counts = [
        (Parts::Panels, scores.len() + 1),
        (Parts::Lines, lines.len()),
    ];
    for (parts, number) in counts {
        if number > parts.most() {
            return Err(Undrawn::TooMany { parts, number });
        }
    }
    let recipe = built(
        &scores,
        lines,
        sheet,
        &paper,
        (name, about),
        notation,
        naming,
    )?;
    if let Some(fault) = recipe.check().first() {
        return Err(match fault {
            Fault::TooMany { parts, number } => Undrawn::TooMany {
                parts: *parts,
                number: *number,
            },
            _ => Undrawn::TooFine,
        });
    }
    let laid = lay_out(&recipe).base;
    let made = Region::with_holes(&laid.outline, &laid.holes);
    let is_same = made.is_some_and(|made| is_nearly(&made, &paper));
    is_same.then_some(recipe).ok_or(Undrawn::TooFine)
}

/// Whether two regions differ by no more than a hair along their edges.
fn is_nearly(one: &Region<PieceFrame>, other: &Region<PieceFrame>) -> bool {
    let off = one.minus(other).area() + other.minus(one).area();
    let round: Length = other
        .contours()
        .flat_map(|corners| {
            let polygon = Polygon { corners };
            polygon
                .sides()
                .map(|side| side.length())
                .collect::<Vec<_>>()
        })
        .sum();
    off <= i128::from(round.units()) * i128::from(SAME_WITHIN.units())
}

fn is_across(line: &Line, sheet: Rect<PieceFrame>) -> bool {
    let ends = [line.from.y.min(line.to.y), line.from.y.max(line.to.y)];
    line.from.x == line.to.x
        && ends == [sheet.low.y, sheet.high.y]
        && sheet.low.x < line.from.x
        && line.from.x < sheet.high.x
}

/// The creases from edge to edge across the sheet, from the left, and all other lines.
fn scores(pattern: &Pattern, sheet: Rect<PieceFrame>) -> (BTreeMap<Length, Fold>, Vec<Line>) {
    let mut scores = BTreeMap::new();
    let mut lines = Vec::new();
    for line in &pattern.lines {
        match line.fold().filter(|_| is_across(line, sheet)) {
            Some(fold) if !scores.contains_key(&line.from.x) => {
                scores.insert(line.from.x, fold);
            }
            // A second one at the same place is left for the card to tell.
            _ => lines.push(*line),
        }
    }
    (scores, lines)
}

fn built(
    scores: &BTreeMap<Length, Fold>,
    mut lines: Vec<Line>,
    sheet: Rect<PieceFrame>,
    paper: &Region<PieceFrame>,
    (name, about): (&str, &str),
    notation: Notation,
    naming: &dyn Naming,
) -> Result<Recipe, Undrawn> {
    let size = sheet.size();
    let unit = notation.unit();
    let mut measures = Measures::new(naming);
    let height = measures.listed(Listed::CardHeight, size.height);
    let allowance = measures.listed(Listed::Allowance, usual_allowance(unit));
    let ends: Vec<Length> = scores.keys().copied().chain([size.width]).collect();
    let mut starts = Vec::with_capacity(ends.len());
    let mut panels = Vec::with_capacity(ends.len());
    let mut start = Length::ZERO;
    for (number, end) in (1..).zip(&ends) {
        let id = PanelId(number);
        let name = naming.name(New::Panel(starts.len() + 1));
        let width = measures.of_part(&name, Owner::Panel(id), Role::Width, *end - start);
        panels.push(Panel { id, name, width });
        starts.push(start);
        start = *end;
    }
    let length = measures.listed(Listed::StripLength, size.width);
    let across = Across {
        panels: &panels,
        starts: &starts,
        length: (length, size.width),
        height: (height, size.height),
    };
    let cutouts = cut_away(paper, sheet, &across, &mut measures, &mut lines)?;
    let lines = across.lines(&lines, &mut measures);
    let widths = ends.iter().zip(&starts).map(|(end, start)| *end - *start);
    let widest = (1..)
        .zip(widths)
        .max_by_key(|(number, width)| (*width, *number));
    let rests = PanelId(widest.map_or(1, |(number, _)| number));
    let stocks = usual_stocks(size, None, notation, naming);
    let stock = stocks.first().map_or(StockId(1), |stock| stock.id);
    let (folding_in, posting) = usual_rules(unit, allowance);
    let (measures, relations) = measures.end();
    Ok(Recipe {
        name: shortened(name).to_owned(),
        designed_on: None,
        about: shortened(about).to_owned(),
        notation,
        measures,
        relations,
        stocks,
        base: Base {
            strip: Strip {
                stock,
                length,
                height,
                panels,
                folds: scores.values().copied().collect(),
                lines,
                cutouts,
                keep: None,
                cut_at: None,
            },
            rests,
            runs: Runs::Across,
            on_top: Vec::new(),
        },
        pieces: Vec::new(),
        layers: Vec::new(),
        supplies: Vec::new(),
        upright: Vec::new(),
        lay: None,
        scoring: Scoring::default(),
        glue_margin: usual_margin(unit),
        folding_in,
        posting,
        copies: 1,
        class: None,
        own_steps: Vec::new(),
        order: Vec::new(),
        notes: BTreeMap::new(),
        photos: BTreeMap::new(),
        runs: Vec::new(),
        ids: Ids::default(),
    })
}

/// How many of a kind come before each of some lines, from 1: creases and cuts are
/// counted apart, as drawn ones are.
fn numbered(lines: &[Line]) -> impl Iterator<Item = (usize, &Line)> {
    let mut counts = [0, 0];
    lines.iter().map(move |line| {
        let count = &mut counts[usize::from(line.kind == LineKind::Cut)];
        *count += 1;
        (*count, line)
    })
}
