//! A shelf to start from, before the maker has put their own paper on it.

use super::{Colour, Grade, Grain, Heads, Print, SideLook, Stock, StockId, Weight};
use crate::length::Length;

/// Stocks to start from. Names and colours are made up; sizes and weights are
/// common ones, thicknesses follow the printed tables.
pub fn ready_stocks() -> Vec<Stock> {
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
    vec![
        stock(
            1,
            "Cream card 80 lb, Letter",
            letter,
            cover(80),
            241,
            [white, white],
        ),
        stock(
            2,
            "Cream card 250 g, A4",
            a4,
            Weight::grams(250),
            260,
            [white, white],
        ),
        stock(
            3,
            "Brown card 100 lb, Letter",
            letter,
            cover(100),
            279,
            [kraft, kraft],
        ),
        stock(
            4,
            "Night-blue card 65 lb, Letter",
            letter,
            cover(65),
            203,
            [ink, ink],
        ),
        Stock {
            heads: Heads::ToFoot,
            ..stock(
                5,
                "Shore and stripes 12 × 12, head to foot",
                foot,
                Weight::grams(160),
                200,
                [shore, stripe],
            )
        },
        Stock {
            heads: Heads::ToFoot,
            ..stock(
                6,
                "Shore both sides 12 × 12, head to foot",
                foot,
                Weight::grams(160),
                200,
                [shore, shore],
            )
        },
        stock(
            7,
            "Speckle 12 × 12, white back",
            foot,
            Weight::grams(160),
            200,
            [speckle, white],
        ),
        stock(
            8,
            "Stripes pad 6 × 6, white back",
            pad,
            Weight::grams(120),
            150,
            [stripe, white],
        ),
        stock(
            9,
            "Writing paper 90 g, A4",
            a4,
            Weight::grams(90),
            110,
            [white, white],
        ),
    ]
}

fn look(rgb: u32, print: Print) -> SideLook {
    SideLook {
        colour: Colour::rgb(rgb),
        print,
    }
}

fn stock(
    id: u32,
    name: &str,
    (width, height): (Length, Length),
    weight: Weight,
    caliper_microns: i64,
    [face, back]: [SideLook; 2],
) -> Stock {
    Stock {
        id: StockId(id),
        name: name.to_owned(),
        width,
        height,
        weight,
        caliper: Length::microns(caliper_microns),
        face,
        back,
        heads: Heads::ToHead,
        grain: Grain::Unknown,
    }
}
