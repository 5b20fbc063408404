//! What cards for a class cost, weigh and need, and how they are posted, also in an
//! envelope made for them.
//!
//! No part of a [`Tongue`](crate::Tongue), since few screens say it.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::envelope::EnvelopeName;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit};
use foldwright_engine::paper::{Country, Doubt, LetterClass, Mail, Past};
use foldwright_engine::plane::Area;
use foldwright_engine::recipe::Recipe;

use crate::names::Names;
use crate::texts::class::{ClassTexts, ENGLISH, GERMAN};
use crate::{English, German, Language};

/// Something that is said of a class of makers, or of post.
#[derive(Debug, Clone, Copy)]
pub enum OfClass<'a> {
    /// How many sheets are on hand, and how many of them lack. A label.
    OnHand {
        /// There are so many.
        sheets: i64,
        /// And so many are needed besides.
        short: i64,
    },
    /// How much of what is not paper is on hand, and how much of it lacks. A label.
    InStock {
        /// There is so much.
        on_hand: &'a str,
        /// And so much is needed besides.
        short: Option<&'a str>,
    },
    /// What the cards took of something that is not paper. A label.
    Used {
        /// What it is called.
        name: &'a str,
        /// So much of it.
        all: &'a str,
        /// And so much is on hand.
        on_hand: &'a str,
    },
    /// Scraps, by the name of their paper and their size. A label.
    Scraps {
        /// How many.
        count: u32,
        /// Of which paper.
        paper: &'a str,
        /// How large each is.
        size: &'a str,
        /// Whether they are used up, and not left over.
        are_used: bool,
    },
    /// So many scraps besides sheets. A label.
    Besides(u32),
    /// One scrap of a size fewer. A label.
    Fewer(&'a str),
    /// One scrap of a size more. A label.
    More(&'a str),
    /// That a number is to be whole and no larger. A sentence.
    OneTo(u32),
    /// That a number is to be more than nothing and no larger. A sentence.
    UpTo(u32),
    /// That a plan uses so many sizes of scraps, the largest, and no others. A
    /// sentence.
    LargestOnly(usize),
    /// What a plan of cuts takes. Sentences.
    Planned {
        /// New sheets.
        sheets: u64,
        /// How often the blade comes down.
        cuts: u64,
        /// How often the fence is set.
        settings: usize,
    },
    /// That no plan takes fewer new sheets than so many. A sentence.
    AtLeast(u64),
    /// How much adhesive covers behind the layers of one card, in square units of
    /// length, and of so many. A sentence.
    Adhesive {
        /// Of one card.
        each: Area,
        /// How many.
        cards: u32,
    },
    /// How long a line of glue is that goes once round the edge of all that is glued
    /// behind the layers of one card, and of so many. Sentences.
    GlueRun {
        /// Of one card.
        each: Length,
        /// How many.
        cards: u32,
    },
    /// How much of something a card takes, and all of them. A label.
    EachAndAll {
        /// Of one card.
        each: &'a str,
        /// Of all.
        all: &'a str,
    },
    /// What paper costs. A label.
    Costs(&'a str),
    /// What all paper costs, and what that is for a card. Sentences.
    AllCosts {
        /// All of it.
        all: &'a str,
        /// Of one card.
        each: &'a str,
        /// Whether what is not paper is in it too.
        with_supplies: bool,
    },
    /// How many packs or rolls of something are to be bought. A label.
    ToBuy {
        /// So many.
        packs: u32,
        /// Whether they are rolls.
        are_rolls: bool,
        /// What they cost, where that is known.
        costs: Option<&'a str>,
    },
    /// What all that is to be bought costs. A sentence.
    BuyAll(&'a str),
    /// What a card weighs in the envelope of that name, and so many. Sentences.
    Weighs {
        /// What its envelope is called; of one made for it, its paper.
        envelope: &'a str,
        /// Whether it is made for it.
        is_made: bool,
        /// Both together.
        mail: Mail,
        /// How many.
        cards: u32,
    },
    /// A country. A label.
    Country(Country),
    /// A class of its letters; `None` where it is none. A label.
    Letter(Option<LetterClass>),
    /// What it is past of the cheapest class. A sentence.
    Past(Country, Past),
    /// What costs more there and is not told by numbers. A sentence.
    Doubt(Country, Doubt),
    /// By how much the closed card varies in thickness. A sentence.
    Varies(Length),
    /// That an envelope is made of a paper. A label.
    MadeOf(&'a str),
    /// Where that was read, and of when it is. Sentences.
    Source(Country),
    /// What of an envelope made for a card is called. Sentences, where it says how
    /// it is made; otherwise a label.
    Envelope(EnvelopeName<'a>),
}

/// A language, as far as it speaks of classes and of post.
pub trait ClassTongue: Send + Sync {
    /// Which language it is.
    fn language(&self) -> Language;

    /// What stands around the sentences.
    fn texts(&self) -> &'static ClassTexts;

    /// Something of a class or of post.
    fn of_class(&self, names: &Names<'_>, of: OfClass<'_>) -> String;
}

impl dyn ClassTongue {
    /// Something of a class or of post, as a recipe writes its numbers.
    pub fn told(&self, recipe: &Recipe, of: OfClass<'_>) -> String {
        self.of_class(&Names::of(self.language(), recipe), of)
    }
}

impl ClassTongue for English {
    fn language(&self) -> Language {
        Language::English
    }

    fn texts(&self) -> &'static ClassTexts {
        &ENGLISH
    }

    fn of_class(&self, names: &Names<'_>, of: OfClass<'_>) -> String {
        en::told(names, of)
    }
}

impl ClassTongue for German {
    fn language(&self) -> Language {
        Language::German
    }

    fn texts(&self) -> &'static ClassTexts {
        &GERMAN
    }

    fn of_class(&self, names: &Names<'_>, of: OfClass<'_>) -> String {
        de::told(names, of)
    }
}

impl Language {
    /// Its sentences about classes and post.
    pub fn class_tongue(self) -> &'static dyn ClassTongue {
        match self {
            Self::English => &English,
            Self::German => &German,
        }
    }
}

/// The limit of a class as its post publishes it: in inches, or in millimetres and
/// whole grams.
fn limit(country: Country, past: Past, decimal: DecimalMark) -> String {
    let step = match country {
        Country::UnitedStates => Step::SixtyFourth,
        Country::Canada | Country::UnitedKingdom | Country::Germany | Country::Australia => {
            Step::Millimetre
        }
    };
    let notation = Notation { step, decimal };
    match past {
        Past::Long(of)
        | Past::High(of)
        | Past::Short(of)
        | Past::Low(of)
        | Past::Thick(of)
        | Past::Uneven(of) => notation.with_unit(of),
        Past::Heavy(mass) => match country {
            Country::UnitedStates => "3½\u{a0}oz".to_owned(),
            _ => format!("{}\u{a0}g", (mass.micrograms() + 500_000) / 1_000_000),
        },
        Past::Square(tenths) | Past::Slim(tenths) => {
            format!("{}{}{}", tenths / 10, decimal.as_str(), tenths % 10)
        }
    }
}

/// An area as tape and glue are reckoned: in whole square centimetres, or in tenths of
/// a square inch.
fn area(names: &Names<'_>, area: Area) -> String {
    let square = |side: Length| Area::from(side.units()).pow(2);
    let rounded = |parts: Area| (area + parts / 2) / parts;
    match names.step().unit() {
        Unit::Millimetre => format!("{}\u{a0}cm²", rounded(square(Length::mm(10)))),
        Unit::Inch => {
            let tenths = rounded(square(Length::inches(1)) / 10);
            let mark = names.decimal().as_str();
            format!("{}{mark}{}\u{a0}in²", tenths / 10, tenths % 10)
        }
    }
}
