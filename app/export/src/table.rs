//! What a card is cut from, and what it takes, as one table: CSV (RFC 4180).

use std::collections::BTreeSet;

use foldwright_engine::card::{Card, Supplied};
use foldwright_engine::length::{DecimalMark, Length, Unit};
use foldwright_engine::recipe::Recipe;
use foldwright_words::{Language, Speaker, Tongue};

use crate::svg::name_of;

/// More digits than these are no longer lengths of paper: in inches these tell 1/64 in
/// exactly.
const DIGITS: [(Unit, usize); 2] = [(Unit::Inch, 6), (Unit::Millimetre, 3)];

/// What a card is cut from, part by part for all cards of the recipe; then the sheets
/// that takes, each part on sheets of its own, the envelope that was chosen, and what is
/// not paper: of a ribbon so many lengths, one in the column of widths. With the heads,
/// and the decimal mark, of a language.
pub fn csv(recipe: &Recipe, card: &Card, tongue: &'static dyn Tongue) -> String {
    let language = tongue.language();
    let texts = language.taken();
    let say = Speaker::of(tongue, recipe);
    let unit = recipe.notation.unit();
    let mark = match language {
        Language::English => DecimalMark::Point,
        Language::German => DecimalMark::Comma,
    };
    let size = |width: Length, height: Length| {
        [width, height].map(|side| Cell::Number(decimal(side, unit, mark)))
    };
    let unit_cell = || Cell::Number(unit.words().to_owned());
    let number = |count: i64| Cell::Number(count.to_string());
    let nothing = || Cell::Number(String::new());
    let mut table = Table::default();
    table.row(
        [
            texts.row,
            texts.name,
            texts.width,
            texts.height,
            texts.unit,
            texts.number,
            texts.from_paper,
            texts.weight,
        ]
        .map(|head| Cell::Words(head.to_owned())),
    );
    let copies = i64::from(recipe.copies);
    let mut papers = BTreeSet::new();
    for blank in &card.cut_list.blanks {
        papers.insert(blank.stock);
        let stock = recipe.stock(blank.stock);
        let [width, height] = size(blank.size.width, blank.size.height);
        table.row([
            Cell::Words(texts.part.to_owned()),
            Cell::Words(name_of(&say, blank.part)),
            width,
            height,
            unit_cell(),
            number(blank.pieces(recipe.copies)),
            Cell::Words(stock.map_or_else(String::new, |stock| stock.name.clone())),
            nothing(),
        ]);
    }
    let sheets = card.cut_list.sheets(recipe.copies);
    for stock in recipe.stocks.iter().filter(|it| papers.contains(&it.id)) {
        let [width, height] = size(stock.size().width, stock.size().height);
        let count = sheets.get(&stock.id).copied().flatten();
        table.row([
            Cell::Words(texts.paper.to_owned()),
            Cell::Words(stock.name.clone()),
            width,
            height,
            unit_cell(),
            count.map_or_else(nothing, number),
            nothing(),
            number((stock.weight.milligrams_per_square_metre() + 500) / 1000),
        ]);
    }
    let chosen = recipe.posting.envelope.as_deref();
    let mut envelopes = card.envelopes.iter();
    if let Some(fit) = envelopes.find(|fit| Some(fit.envelope.id) == chosen) {
        let of = fit.envelope.size();
        let [width, height] = size(of.width, of.height);
        table.row([
            Cell::Words(texts.envelope.to_owned()),
            Cell::Words(say.envelope(fit.envelope)),
            width,
            height,
            unit_cell(),
            number(copies),
            nothing(),
            nothing(),
        ]);
    }
    for supply in &recipe.supplies {
        let each = card.supplied(supply.takes);
        let (length, unit, count) = match (each, each.map(|each| each.times(recipe.copies))) {
            (_, Some(Supplied::Count(all))) => (nothing(), nothing(), number(all.into())),
            (Some(Supplied::Length(length)), _) => {
                let length = Cell::Number(decimal(length, unit, mark));
                (length, unit_cell(), number(copies))
            }
            _ => (nothing(), nothing(), nothing()),
        };
        table.row([
            Cell::Words(texts.supply.to_owned()),
            Cell::Words(supply.name.clone()),
            length,
            nothing(),
            unit,
            count,
            nothing(),
            nothing(),
        ]);
    }
    table.0
}

/// A length in a unit, rounded to the digits that paper has, as short as it goes.
fn decimal(length: Length, unit: Unit, mark: DecimalMark) -> String {
    let digits = DIGITS.iter().find(|(of, _)| *of == unit);
    let digits = digits.map_or(0, |(_, digits)| *digits);
    let value = match unit {
        Unit::Inch => length.as_mm_f64() / 25.4,
        Unit::Millimetre => length.as_mm_f64(),
    };
    let written = format!("{value:.digits$}");
    let short = written.trim_end_matches('0').trim_end_matches('.');
    match mark {
        DecimalMark::Point => short.to_owned(),
        DecimalMark::Comma => short.replace('.', ","),
    }
}

/// What stands in a cell.
enum Cell {
    /// What people wrote or read.
    Words(String),
    /// A number that we wrote.
    Number(String),
}

/// Rows, each with its end.
#[derive(Default)]
struct Table(String);

impl Table {
    fn row<const CELLS: usize>(&mut self, cells: [Cell; CELLS]) {
        for (number, cell) in cells.into_iter().enumerate() {
            if number > 0 {
                self.0.push(',');
            }
            let written = match cell {
                Cell::Words(words) => harmless(words),
                Cell::Number(number) => number,
            };
            self.cell(&written);
        }
        self.0.push_str("\r\n");
    }

    /// A cell, quoted where RFC 4180 asks for it (2.5 to 2.7).
    fn cell(&mut self, written: &str) {
        if written.contains([',', '"', '\r', '\n', ';', '\t']) {
            self.0.push('"');
            self.0.push_str(&written.replace('"', "\"\""));
            self.0.push('"');
        } else {
            self.0.push_str(written);
        }
    }
}

/// Words that no spreadsheet takes for a formula: what begins like one gets an
/// apostrophe before it (OWASP, “CSV Injection”).
fn harmless(words: String) -> String {
    let begins = words.trim_start().chars().next();
    let is_formula = begins.is_some_and(|first| "=+-@＝＋－＠".contains(first))
        || words.starts_with(['\t', '\r', '\n']);
    if is_formula {
        format!("'{words}")
    } else {
        words
    }
}
