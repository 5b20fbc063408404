//! Sizes that sheets are sold in.

use super::Source;
use crate::length::Length;

/// What is sold in a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SheetForm {
    /// Sheets of that name.
    Sheet,
    /// Half sheets of that name.
    Half,
    /// A pad of sheets.
    Pad,
}

/// A size sheets are sold in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetSize {
    /// Its lasting name in stored recipes.
    pub id: &'static str,
    /// The name it is sold by, without what its form adds.
    pub name: &'static str,
    /// What is sold in it.
    pub form: SheetForm,
    /// The side printed first in its source, for standards the shorter one.
    pub width: Length,
    /// The other side.
    pub height: Length,
    /// Whether a card maker is likely to have it.
    pub common: bool,
    /// Where the size comes from.
    pub source: Source,
}

impl SheetSize {
    /// The size of that name.
    pub fn by_id(id: &str) -> Option<&'static Self> {
        SHEETS.iter().find(|sheet| sheet.id == id)
    }
}

const ISO: Source = Source::Iso216;
const ISO_C: Source = Source::Iso269;
const ANSI: Source = Source::AnsiY14;
const PWG: Source = Source::Pwg5101;
const PRINTERS: Source = Source::SheetTables;
const TRADE: Source = Source::Practice;

/// The sizes known by name, by family and then largest first.
pub const SHEETS: &[SheetSize] = &[
    rare("iso-a0", "A0", mm(841, 1189), ISO),
    rare("iso-a1", "A1", mm(594, 841), ISO),
    rare("iso-a2", "A2", mm(420, 594), ISO),
    common("iso-a3", "A3", mm(297, 420), ISO),
    common("iso-a4", "A4", mm(210, 297), ISO),
    common("iso-a5", "A5", mm(148, 210), ISO),
    common("iso-a6", "A6", mm(105, 148), ISO),
    rare("iso-a7", "A7", mm(74, 105), ISO),
    rare("iso-a8", "A8", mm(52, 74), ISO),
    rare("iso-a9", "A9", mm(37, 52), ISO),
    rare("iso-a10", "A10", mm(26, 37), ISO),
    rare("iso-b0", "B0", mm(1000, 1414), ISO),
    rare("iso-b1", "B1", mm(707, 1000), ISO),
    rare("iso-b2", "B2", mm(500, 707), ISO),
    rare("iso-b3", "B3", mm(353, 500), ISO),
    rare("iso-b4", "B4", mm(250, 353), ISO),
    rare("iso-b5", "B5", mm(176, 250), ISO),
    rare("iso-b6", "B6", mm(125, 176), ISO),
    rare("iso-b7", "B7", mm(88, 125), ISO),
    rare("iso-b8", "B8", mm(62, 88), ISO),
    rare("iso-b9", "B9", mm(44, 62), ISO),
    rare("iso-b10", "B10", mm(31, 44), ISO),
    rare("iso-c0", "C0", mm(917, 1297), ISO_C),
    rare("iso-c1", "C1", mm(648, 917), ISO_C),
    rare("iso-c2", "C2", mm(458, 648), ISO_C),
    rare("iso-c3", "C3", mm(324, 458), ISO_C),
    rare("iso-c4", "C4", mm(229, 324), ISO_C),
    rare("iso-c5", "C5", mm(162, 229), ISO_C),
    rare("iso-c6", "C6", mm(114, 162), ISO_C),
    rare("iso-c7", "C7", mm(81, 114), ISO_C),
    rare("iso-c8", "C8", mm(57, 81), ISO_C),
    rare("iso-c9", "C9", mm(40, 57), ISO_C),
    rare("iso-c10", "C10", mm(28, 40), ISO_C),
    common("na-letter", "Letter", halves(17, 22), ANSI),
    common("na-legal", "Legal", halves(17, 28), PRINTERS),
    common("na-tabloid", "Tabloid", halves(22, 34), ANSI),
    SheetSize {
        form: SheetForm::Half,
        ..common("na-half-letter", "Letter", halves(11, 17), PWG)
    },
    rare("na-3x5", "3 × 5 in", halves(6, 10), PWG),
    rare("na-4x6", "4 × 6 in", halves(8, 12), PWG),
    rare("na-5x7", "5 × 7 in", halves(10, 14), PWG),
    rare("na-5x8", "5 × 8 in", halves(10, 16), PWG),
    common("trade-12x12-in", "12 × 12 in", halves(24, 24), TRADE),
    pad("trade-8x8-in", "8 × 8 in", halves(16, 16)),
    pad("trade-6x6-in", "6 × 6 in", halves(12, 12)),
    common("trade-300-mm", "300 × 300 mm", mm(300, 300), TRADE),
];

type Size = (Length, Length);

const fn mm(width: i64, height: i64) -> Size {
    (Length::mm(width), Length::mm(height))
}

/// Counted in half inches.
const fn halves(width: i64, height: i64) -> Size {
    (
        Length::sixty_fourths(32 * width),
        Length::sixty_fourths(32 * height),
    )
}

const fn common(id: &'static str, name: &'static str, size: Size, source: Source) -> SheetSize {
    SheetSize {
        common: true,
        ..rare(id, name, size, source)
    }
}

const fn pad(id: &'static str, name: &'static str, size: Size) -> SheetSize {
    SheetSize {
        form: SheetForm::Pad,
        ..common(id, name, size, TRADE)
    }
}

const fn rare(
    id: &'static str,
    name: &'static str,
    (width, height): Size,
    source: Source,
) -> SheetSize {
    SheetSize {
        id,
        name,
        form: SheetForm::Sheet,
        width,
        height,
        common: false,
        source,
    }
}
