//! What posts take as a letter, by size, thickness and mass, as they publish it.
//!
//! The numbers are those of the posts or their regulators, each read at the date
//! its class gives. Posts change them, and each has rules of its own besides, so a
//! post office has the last word.

use super::{Envelope, Grade, Mass, Weight};
use crate::length::Length;
use crate::plane::Size;

/// A country by its post.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Country {
    /// The Domestic Mail Manual 101 and 201, page of 9 July 2023.
    UnitedStates,
    /// The lettermail guide, effective 11 January 2021, and the post's own page of
    /// sizes.
    Canada,
    /// The regulator's page; the sizes are in force since 21 August 2006.
    UnitedKingdom,
    /// A newspaper's table of 12 February 2025.
    Germany,
    /// The post's own page of domestic letters, which names changes of 1 July 2025.
    Australia,
}

impl Country {
    /// Every country, in the order shown.
    pub const ALL: [Self; 5] = [
        Self::UnitedStates,
        Self::Canada,
        Self::UnitedKingdom,
        Self::Germany,
        Self::Australia,
    ];

    /// What it takes as a letter, the cheapest first.
    pub fn classes(self) -> impl Iterator<Item = &'static PostalClass> {
        CLASSES
            .iter()
            .filter(move |class| class.is.country() == self)
    }

    /// What of a letter costs more there and is not told by numbers.
    pub const fn doubts(self) -> &'static [Doubt] {
        match self {
            Self::UnitedStates => &[Doubt::Stiff, Doubt::Lumps, Doubt::Closures],
            Self::Australia => &[Doubt::Stiff],
            Self::Canada | Self::UnitedKingdom | Self::Germany => &[],
        }
    }

    /// How it takes a piece of mail.
    pub fn takes(self, mail: Mail) -> Taken {
        let mut classes = self.classes();
        let because = classes.next().map(|class| class.refuses(mail));
        Taken {
            class: self.classes().find(|class| class.refuses(mail).is_empty()),
            because: because.unwrap_or_default(),
        }
    }
}

/// A class of letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LetterClass {
    /// United States: a letter that machines sort.
    UsLetter,
    /// United States: a letter that they do not, which costs more.
    UsByHand,
    /// United States: a large envelope.
    UsLarge,
    /// Canada: standard.
    CaStandard,
    /// Canada: other lettermail.
    CaOther,
    /// United Kingdom: a letter.
    UkLetter,
    /// United Kingdom: a large letter.
    UkLarge,
    /// Germany: Standardbrief.
    DeStandard,
    /// Germany: Kompaktbrief.
    DeCompact,
    /// Germany: Großbrief.
    DeLarge,
    /// Australia: a small letter.
    AuSmall,
    /// Australia: a large letter.
    AuLarge,
}

impl LetterClass {
    /// Whose it is.
    pub const fn country(self) -> Country {
        match self {
            Self::UsLetter | Self::UsByHand | Self::UsLarge => Country::UnitedStates,
            Self::CaStandard | Self::CaOther => Country::Canada,
            Self::UkLetter | Self::UkLarge => Country::UnitedKingdom,
            Self::DeStandard | Self::DeCompact | Self::DeLarge => Country::Germany,
            Self::AuSmall | Self::AuLarge => Country::Australia,
        }
    }
}

/// What a class of letters asks for. Least thicknesses and masses are left out:
/// no card in an envelope is so thin or so light.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PostalClass {
    /// Which it is.
    pub is: LetterClass,
    /// The shortest and the lowest, where that is published.
    pub least: Option<(Length, Length)>,
    /// The longest and the highest.
    pub most: (Length, Length),
    /// The thickest.
    pub thickest: Length,
    /// By how much it may vary in thickness; `None` where no bound was read.
    pub most_uneven: Option<Length>,
    /// The heaviest; `None` where no bound was read.
    pub heaviest: Option<Mass>,
    /// How many tenths of its height it is long, at least and at most; `None` where
    /// squares go as well.
    pub tenths: Option<(i64, Option<i64>)>,
}

/// Something of a class that a piece of mail is past.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Past {
    /// Longer than that.
    Long(Length),
    /// Higher than that.
    High(Length),
    /// Shorter than that.
    Short(Length),
    /// Lower than that.
    Low(Length),
    /// Thicker than that.
    Thick(Length),
    /// Varying in thickness by more than that.
    Uneven(Length),
    /// Heavier than that.
    Heavy(Mass),
    /// Nearer to a square than so many tenths of its height.
    Square(i64),
    /// Longer than so many tenths of its height.
    Slim(i64),
}

/// Something of a letter that costs more, as far as posts say so in the places that are
/// named beside [`Country`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Doubt {
    /// It does not bend.
    Stiff,
    /// Something in it makes it uneven, or lies loose.
    Lumps,
    /// Clasps, strings or buttons close it.
    Closures,
}

/// A card in its envelope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Mail {
    /// The longer side.
    pub length: Length,
    /// The shorter side.
    pub height: Length,
    /// The thickest place.
    pub thickness: Length,
    /// By how much its thickness varies away from its edges.
    pub uneven: Length,
    /// All of it.
    pub mass: Mass,
}

/// How a post takes a piece of mail.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// The cheapest class it goes in; `None` where it is no letter any more.
    pub class: Option<&'static PostalClass>,
    /// What keeps it out of the cheapest class there is.
    pub because: Vec<Past>,
}

impl PostalClass {
    /// The class of that kind.
    pub fn of(is: LetterClass) -> Option<&'static Self> {
        CLASSES.iter().find(|class| class.is == is)
    }

    /// What of it a piece of mail is past; nothing where it goes.
    pub fn refuses(&self, mail: Mail) -> Vec<Past> {
        let Mail {
            length,
            height,
            thickness,
            uneven,
            mass,
        } = mail;
        let (longest, highest) = self.most;
        let (shortest, lowest) = self.least.unwrap_or_default();
        let tenths = |tenths: i64| i128::from(height.units()) * i128::from(tenths);
        let long = i128::from(length.units()) * 10;
        let squarest = self.tenths.map(|(least, _)| least);
        let slimmest = self.tenths.and_then(|(_, most)| most);
        [
            (length > longest).then_some(Past::Long(longest)),
            (height > highest).then_some(Past::High(highest)),
            (length < shortest).then_some(Past::Short(shortest)),
            (height < lowest).then_some(Past::Low(lowest)),
            squarest.filter(|it| long < tenths(*it)).map(Past::Square),
            slimmest.filter(|it| long > tenths(*it)).map(Past::Slim),
            (thickness > self.thickest).then_some(Past::Thick(self.thickest)),
            self.most_uneven.filter(|it| uneven > *it).map(Past::Uneven),
            self.heaviest.filter(|it| mass > *it).map(Past::Heavy),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

/// Paper of envelopes that are bought: 24 lb bond, which is 90 g/m² (common
/// practice).
const ENVELOPE_PAPER: Weight = Weight::pounds(24, Grade::Bond);
/// How thick that is printed to be, in a printers' caliper table: 0.0045 in.
const ENVELOPE_CALIPER: Length = Length::from_units(Length::PER_INCH * 45 / 10_000);
/// How many layers of it lie over the card at most: front, back and flap.
const ENVELOPE_LAYERS: i64 = 3;
/// The paper of an envelope in halves of its size: front, back, and what is folded
/// in and over. Our own estimate, a gram or so either way.
const ENVELOPE_HALVES: i128 = 5;

impl Envelope {
    /// A card in it, of which size does not matter.
    pub fn around(&self, card: Mail) -> Mail {
        let Size { width, height } = self.size();
        let area = i128::from(width.units()) * i128::from(height.units()) * ENVELOPE_HALVES / 2;
        Mail {
            length: width,
            height,
            thickness: card.thickness + ENVELOPE_CALIPER * ENVELOPE_LAYERS,
            mass: card.mass + ENVELOPE_PAPER.mass_of_area(area),
            ..card
        }
    }
}

/// 3.5 oz, in micrograms (international avoirdupois ounce, 1959).
const US_LETTER: Mass = Mass::from_micrograms(99_223_330);

/// All classes, the cheapest of each country first.
pub const CLASSES: &[PostalClass] = &[
    us(LetterClass::UsLetter, Some((13, Some(25)))),
    us(LetterClass::UsByHand, None),
    PostalClass {
        is: LetterClass::UsLarge,
        least: None,
        most: (Length::inches(15), Length::inches(12)),
        thickest: Length::sixty_fourths(48),
        most_uneven: Some(Length::sixty_fourths(16)),
        heaviest: None,
        tenths: None,
    },
    metric(LetterClass::CaStandard, Some((140, 90)), (245, 156, 5), 50),
    metric(LetterClass::CaOther, Some((140, 90)), (380, 270, 20), 500),
    metric(LetterClass::UkLetter, None, (240, 165, 5), 100),
    metric(LetterClass::UkLarge, None, (353, 250, 25), 750),
    oblong(metric(
        LetterClass::DeStandard,
        Some((140, 90)),
        (235, 125, 5),
        20,
    )),
    oblong(metric(
        LetterClass::DeCompact,
        Some((100, 70)),
        (235, 125, 10),
        50,
    )),
    metric(LetterClass::DeLarge, Some((100, 70)), (353, 250, 20), 500),
    // Less than 250 g, and not 250.
    PostalClass {
        heaviest: Some(Mass::from_micrograms(249_999_999)),
        ..metric(LetterClass::AuSmall, None, (240, 130, 5), 250)
    },
    metric(LetterClass::AuLarge, None, (360, 260, 20), 500),
];

const fn us(is: LetterClass, tenths: Option<(i64, Option<i64>)>) -> PostalClass {
    PostalClass {
        is,
        least: Some((Length::inches(5), Length::sixty_fourths(64 * 7 / 2))),
        most: (
            Length::sixty_fourths(64 * 23 / 2),
            Length::sixty_fourths(64 * 49 / 8),
        ),
        thickest: Length::sixty_fourths(16),
        most_uneven: None,
        heaviest: Some(US_LETTER),
        tenths,
    }
}

/// In whole millimetres and grams.
const fn metric(
    is: LetterClass,
    least: Option<(i64, i64)>,
    (length, height, thickness): (i64, i64, i64),
    grams: i64,
) -> PostalClass {
    PostalClass {
        is,
        least: match least {
            Some((length, height)) => Some((Length::mm(length), Length::mm(height))),
            None => None,
        },
        most: (Length::mm(length), Length::mm(height)),
        thickest: Length::mm(thickness),
        most_uneven: None,
        heaviest: Some(Mass::from_micrograms(grams * 1_000_000)),
        tenths: None,
    }
}

/// At least 1.4 times as long as high.
const fn oblong(class: PostalClass) -> PostalClass {
    PostalClass {
        tenths: Some((14, None)),
        ..class
    }
}
