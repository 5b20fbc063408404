//! Envelopes that can be bought.

use super::Source;
use crate::length::{DecimalMark, Length, Notation, Step};
use crate::plane::Size;

/// The family an envelope belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EnvelopeFamily {
    /// ISO 269, sold where paper is A4.
    Iso,
    /// North American envelopes for cards.
    Announcement,
    /// North American envelopes for letters.
    Commercial,
    /// North American envelopes for booklets.
    Booklet,
    /// Squares in whole and half inches.
    Square,
}

/// An envelope by its outside size. Makers allow themselves up to 1/16 in
/// either way (an envelope converter's guidelines), so try one before making
/// many cards.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Envelope {
    /// Its lasting name in stored recipes.
    pub id: &'static str,
    /// The name it is sold by, without what its family adds.
    pub name: &'static str,
    /// The shorter side.
    pub height: Length,
    /// The longer side.
    pub length: Length,
    /// The family it belongs to.
    pub family: EnvelopeFamily,
    /// Where the size comes from.
    pub source: Source,
}

impl Envelope {
    /// The envelope of that name.
    pub fn by_id(id: &str) -> Option<&'static Self> {
        ENVELOPES.iter().find(|envelope| envelope.id == id)
    }

    /// Its size, longer side across.
    pub const fn size(&self) -> Size {
        Size {
            width: self.length,
            height: self.height,
        }
    }

    /// Its size as it is sold, longer side first: ISO envelopes in millimetres,
    /// the others in inches, whatever the recipe is written in.
    pub fn size_words(&self, decimal: DecimalMark) -> String {
        let step = match self.family {
            EnvelopeFamily::Iso => Step::Millimetre,
            EnvelopeFamily::Announcement
            | EnvelopeFamily::Commercial
            | EnvelopeFamily::Booklet
            | EnvelopeFamily::Square => Step::SixtyFourth,
        };
        Notation { step, decimal }.size(self.length, self.height)
    }
}

const CHART: Source = Source::EnvelopeCharts;
const PWG: Source = Source::Pwg5101;
const OVERVIEW: Source = Source::SquareEnvelopes;
const MEMORY: Source = Source::Memory;

/// The envelopes known by name, by family.
pub const ENVELOPES: &[Envelope] = &[
    iso("iso-dl", "DL", 110, 220),
    iso("iso-c7-c6", "C7/C6", 81, 162),
    iso("iso-c6", "C6", 114, 162),
    iso("iso-c6-c5", "C6/C5", 114, 229),
    iso("iso-c5", "C5", 162, 229),
    iso("iso-c4", "C4", 229, 324),
    iso("iso-c3", "C3", 324, 458),
    iso("iso-b6", "B6", 125, 176),
    iso("iso-b5", "B5", 176, 250),
    iso("iso-b4", "B4", 250, 353),
    iso("iso-e4", "E4", 280, 400),
    announcement("na-a1", "A1", 29, 41),
    announcement("na-a2", "A2", 35, 46),
    announcement("na-a6", "A6", 38, 52),
    announcement("na-a7", "A7", 42, 58),
    announcement("na-a8", "A8", 44, 65),
    announcement("na-a9", "A9", 46, 70),
    announcement("na-a10", "A10", 48, 76),
    announcement("na-a-long", "A-Long", 31, 71),
    commercial("na-no-6-1-4", "No. 6 1/4", 28, 48),
    commercial("na-no-6-3-4", "No. 6 3/4", 29, 52),
    commercial("na-no-7", "No. 7", 30, 54),
    commercial("na-no-7-3-4", "No. 7 3/4 (Monarch)", 31, 60),
    commercial("na-no-8-5-8", "No. 8 5/8", 29, 69),
    commercial("na-no-9", "No. 9", 31, 71),
    commercial("na-no-10", "No. 10", 33, 76),
    commercial("na-no-11", "No. 11", 36, 83),
    commercial("na-no-12", "No. 12", 38, 88),
    commercial("na-no-14", "No. 14", 40, 92),
    booklet("na-6x9", "6 × 9 in", 48, 72),
    booklet("na-7x9", "7 × 9 in", 56, 72),
    square("na-square-5", "5 in", 40, OVERVIEW),
    square("na-square-5-1-2", "5 1/2 in", 44, MEMORY),
    square("na-square-6", "6 in", 48, OVERVIEW),
    square("na-square-6-1-2", "6 1/2 in", 52, OVERVIEW),
    square("na-square-7", "7 in", 56, MEMORY),
    square("na-square-7-1-2", "7 1/2 in", 60, MEMORY),
    square("na-square-8", "8 in", 64, MEMORY),
];

const fn iso(id: &'static str, name: &'static str, height: i64, length: i64) -> Envelope {
    Envelope {
        id,
        name,
        height: Length::mm(height),
        length: Length::mm(length),
        family: EnvelopeFamily::Iso,
        source: Source::Iso269,
    }
}

/// Sides counted in eighths of an inch, as are those below.
const fn announcement(id: &'static str, name: &'static str, height: i64, length: i64) -> Envelope {
    Envelope {
        family: EnvelopeFamily::Announcement,
        ..commercial(id, name, height, length)
    }
}

const fn commercial(id: &'static str, name: &'static str, height: i64, length: i64) -> Envelope {
    commercial_from(id, name, height, length, CHART)
}

const fn commercial_from(
    id: &'static str,
    name: &'static str,
    height: i64,
    length: i64,
    source: Source,
) -> Envelope {
    Envelope {
        id,
        name,
        height: Length::sixty_fourths(8 * height),
        length: Length::sixty_fourths(8 * length),
        family: EnvelopeFamily::Commercial,
        source,
    }
}

const fn booklet(id: &'static str, name: &'static str, height: i64, length: i64) -> Envelope {
    Envelope {
        family: EnvelopeFamily::Booklet,
        ..commercial_from(id, name, height, length, PWG)
    }
}

const fn square(id: &'static str, name: &'static str, side: i64, source: Source) -> Envelope {
    Envelope {
        family: EnvelopeFamily::Square,
        ..commercial_from(id, name, side, side, source)
    }
}
