//! A shelf to start from, before the maker has put their own paper on it.

use super::{Colour, Grade, Grain, Heads, Print, SideLook, Stock, StockId, Weight};
use crate::length::Length;

/// A paper to start from. Their kinds and colours are made up; sizes and weights
/// are common ones, thicknesses follow the printed tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ReadyPaper {
    /// Cream card of 80 lb, Letter.
    Cream,
    /// Cream card of 250 g/m², A4.
    CreamA4,
    /// Brown card of 100 lb, Letter.
    Brown,
    /// Night-blue card of 65 lb, Letter.
    NightBlue,
    /// Printed with a shore and with stripes, head to foot, 12 × 12 in.
    ShoreAndStripes,
    /// Printed with a shore on both sides, head to foot, 12 × 12 in.
    Shore,
    /// Printed with speckles, its back white, 12 × 12 in.
    Speckle,
    /// A pad printed with stripes, its back white, 6 × 6 in.
    Stripes,
    /// Writing paper of 90 g/m², A4.
    Writing,
}

impl ReadyPaper {
    /// All of them, in the order offered.
    pub const ALL: [Self; 9] = [
        Self::Cream,
        Self::CreamA4,
        Self::Brown,
        Self::NightBlue,
        Self::ShoreAndStripes,
        Self::Shore,
        Self::Speckle,
        Self::Stripes,
        Self::Writing,
    ];

    /// The paper, called so. It is numbered by its place among all.
    pub fn stock(self, name: String) -> Stock {
        let letter = (Length::sixty_fourths(8 * 64 + 32), Length::inches(11));
        let a4 = (Length::mm(210), Length::mm(297));
        let foot = (Length::inches(12), Length::inches(12));
        let pad = (Length::inches(6), Length::inches(6));
        let white = look(0x00f7_f4ec, Print::Plain);
        let kraft = look(0x00b8_9269, Print::Plain);
        let ink = look(0x0024_3b53, Print::Plain);
        let shore = look(0x009c_c3c4, Print::OneWay);
        let stripe = look(0x00e8_c27a, Print::TwoWay);
        let speckle = look(0x00d8_7f6b, Print::AllOver);
        let cover = |pounds| Weight::pounds(pounds, Grade::Cover);
        let (id, size, weight, microns, sides) = match self {
            Self::Cream => (1, letter, cover(80), 241, [white, white]),
            Self::CreamA4 => (2, a4, Weight::grams(250), 260, [white, white]),
            Self::Brown => (3, letter, cover(100), 279, [kraft, kraft]),
            Self::NightBlue => (4, letter, cover(65), 203, [ink, ink]),
            Self::ShoreAndStripes => (5, foot, Weight::grams(160), 200, [shore, stripe]),
            Self::Shore => (6, foot, Weight::grams(160), 200, [shore, shore]),
            Self::Speckle => (7, foot, Weight::grams(160), 200, [speckle, white]),
            Self::Stripes => (8, pad, Weight::grams(120), 150, [stripe, white]),
            Self::Writing => (9, a4, Weight::grams(90), 110, [white, white]),
        };
        let [face, back] = sides;
        Stock {
            id: StockId(id),
            name,
            width: size.0,
            height: size.1,
            weight,
            caliper: Length::microns(microns),
            face,
            back,
            heads: match self {
                Self::ShoreAndStripes | Self::Shore => Heads::ToFoot,
                _ => Heads::ToHead,
            },
            grain: Grain::Unknown,
        }
    }
}

fn look(rgb: u32, print: Print) -> SideLook {
    SideLook::new(Colour::rgb(rgb), print)
}
