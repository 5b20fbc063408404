//! A kind of sheet and what its two sides look like.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::{PhotoId, PrintedPaper, Weight};
use crate::length::{Length, Step, Unit, nearest};
use crate::plane::{Placement, Point, PrintFrame, SheetFrame, Size, Turn};

/// Names a stock within a recipe or a shelf for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct StockId(pub u32);

/// A kind of sheet.
///
/// The sheet is described held so that the print of its face is upright: width
/// runs across, height up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Stock {
    /// Its lasting name.
    pub id: StockId,
    /// What the maker calls it.
    pub name: String,
    /// Across the sheet.
    pub width: Length,
    /// Up the sheet.
    pub height: Length,
    /// How heavy it is.
    pub weight: Weight,
    /// How thick one sheet is.
    pub caliper: Length,
    /// The face.
    pub face: SideLook,
    /// The back.
    pub back: SideLook,
    /// Where the print on the back has its head.
    #[serde(default)]
    pub heads: Heads,
    /// Which way the fibres run.
    #[serde(default)]
    pub grain: Grain,
}

impl Stock {
    /// What a side looks like.
    pub fn side(&self, side: StockSide) -> SideLook {
        match side {
            StockSide::Face => self.face,
            StockSide::Back => self.back,
        }
    }

    /// Where the print of a side lies on the sheet, which lies face up.
    pub fn print_on_sheet(&self, side: StockSide) -> Placement<PrintFrame, SheetFrame> {
        match (side, self.heads) {
            (StockSide::Face, _) => Placement::unmoved(),
            (StockSide::Back, Heads::ToHead) => {
                Placement::new(true, Turn::None, Point::new(self.width, Length::ZERO))
            }
            (StockSide::Back, Heads::ToFoot) => {
                Placement::new(true, Turn::Half, Point::new(Length::ZERO, self.height))
            }
        }
    }

    /// Whether it shows which way round a sheet lies.
    pub(crate) fn has_direction(&self) -> bool {
        let looks = [self.face, self.back];
        let points = |look: SideLook| matches!(look.print, Print::OneWay | Print::TwoWay);
        looks.into_iter().any(points)
    }

    /// Whether it shows which side of a sheet is up, or which way round it lies.
    pub(crate) fn sides_matter(&self) -> bool {
        self.face != self.back || self.has_direction()
    }

    /// The white side of paper that is printed or coloured on its other side alone.
    pub fn white_back(&self) -> Option<StockSide> {
        let is_white =
            |look: SideLook| look.print == Print::Plain && look.colour.lightness() >= WHITE;
        match [self.face, self.back].map(is_white) {
            [true, false] => Some(StockSide::Face),
            [false, true] => Some(StockSide::Back),
            [true, true] | [false, false] => None,
        }
    }

    /// Whether its sheets are sold by that unit: whole millimetres, or eighths of
    /// an inch. A size may be both.
    pub fn is_round_in(&self, unit: Unit) -> bool {
        let step = match unit {
            Unit::Inch => Step::Eighth,
            Unit::Millimetre => Step::Millimetre,
        };
        [self.width, self.height]
            .into_iter()
            .all(|side| nearest(side, step).is_exact())
    }

    /// How many pieces of a size lie beside each other on a sheet, and how many
    /// above each other, when all lie alike, in rows.
    pub fn rows(&self, piece: Size) -> [i64; 2] {
        let times = |sheet: Length, part: Length| {
            let whole = sheet.div_rem(part.units());
            whole.map_or(0, |(count, _)| count.units().max(0))
        };
        [
            times(self.width, piece.width),
            times(self.height, piece.height),
        ]
    }

    /// How many that are.
    pub fn per_sheet(&self, piece: Size) -> i64 {
        let [across, up] = self.rows(piece);
        across.saturating_mul(up)
    }

    /// The size of a sheet.
    pub const fn size(&self) -> Size {
        Size {
            width: self.width,
            height: self.height,
        }
    }
}

/// How light paper is at least that is called white, from 0 to 255: creams are, kraft
/// and pastels are not. (Own choice.)
const WHITE: u8 = 230;

/// A side of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StockSide {
    /// The side the sheet is described by.
    Face,
    /// The other one.
    Back,
}

impl StockSide {
    /// The side under this one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Face => Self::Back,
            Self::Back => Self::Face,
        }
    }
}

/// What one side of a sheet looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct SideLook {
    /// Its colour, or the main colour of its print.
    pub colour: Colour,
    /// Its print.
    pub print: Print,
    /// Which paper of the workshop it is, whose motif is then drawn in place of one
    /// that only shows how the print runs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub printed: Option<PrintedPaper>,
    /// The photograph of the whole side, which is then shown in place of colour
    /// and print.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<PhotoId>,
}

impl SideLook {
    /// One that nobody has photographed.
    pub const fn new(colour: Colour, print: Print) -> Self {
        Self {
            colour,
            print,
            printed: None,
            photo: None,
        }
    }
}

/// Whether a side is printed, and whether the print has an up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Print {
    /// No print.
    #[default]
    Plain,
    /// A print that looks the same whichever way it is turned.
    AllOver,
    /// A print with one up.
    OneWay,
    /// A print that also reads when turned upside down, such as stripes.
    TwoWay,
}

/// How the prints of the two sides stand to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Heads {
    /// Head to head: turned like the page of a book, about its upright axis,
    /// the sheet shows its back upright.
    #[default]
    ToHead,
    /// Head to foot: turned like a page, the back is upside down.
    ToFoot,
}

/// Which way the fibres of a sheet run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grain {
    /// Nobody has looked yet.
    #[default]
    Unknown,
    /// Up the sheet.
    AlongHeight,
    /// Across the sheet.
    AlongWidth,
}

/// A colour for drawing: red, green and blue of sRGB. Stored as `#rrggbb`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Colour {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Colour {
    /// From a number written `0xrrggbb`.
    pub const fn rgb(rgb: u32) -> Self {
        let [_, red, green, blue] = rgb.to_be_bytes();
        Self { red, green, blue }
    }

    /// How light it looks, from 0 to 255 (the weights of ITU-R BT.601).
    pub fn lightness(self) -> u8 {
        let weighed =
            299 * u32::from(self.red) + 587 * u32::from(self.green) + 114 * u32::from(self.blue);
        u8::try_from(weighed / 1000).unwrap_or(u8::MAX)
    }

    /// It under black of that opacity, from 0 to 1.
    #[must_use]
    pub fn shaded(self, opacity: f64) -> Self {
        let left = 1.0 - opacity.clamp(0.0, 1.0);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of a byte is a byte"
        )]
        let shaded = |channel: u8| (f64::from(channel) * left).round() as u8;
        Self {
            red: shaded(self.red),
            green: shaded(self.green),
            blue: shaded(self.blue),
        }
    }
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

/// A text that is not a colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColourError(String);

impl fmt::Display for ColourError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "colour {:?}", self.0)
    }
}

impl std::error::Error for ColourError {}

impl FromStr for Colour {
    type Err = ColourError;

    fn from_str(text: &str) -> Result<Self, ColourError> {
        text.strip_prefix('#')
            .filter(|hex| hex.len() == 6 && hex.bytes().all(|byte| byte.is_ascii_hexdigit()))
            .and_then(|hex| u32::from_str_radix(hex, 16).ok())
            .map(Self::rgb)
            .ok_or_else(|| ColourError(text.to_owned()))
    }
}

impl TryFrom<String> for Colour {
    type Error = ColourError;

    fn try_from(text: String) -> Result<Self, ColourError> {
        text.parse()
    }
}

impl From<Colour> for String {
    fn from(colour: Colour) -> Self {
        colour.to_string()
    }
}
