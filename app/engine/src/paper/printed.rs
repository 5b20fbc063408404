//! Papers that a workshop printed: their motifs, invented for it, as exact shapes that
//! are repeated from the lower left corner of the sheet.

use serde::{Deserialize, Serialize};

use super::{Colour, Print, ReadyPaper, SideLook, Stock};
use crate::length::Length;

/// A printed paper of the workshop of a harbour town's library.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PrintedPaper {
    /// Lighthouses with their light to both sides.
    Lighthouses,
    /// Boats under two sails.
    Boats,
    /// Gulls on the wing.
    Gulls,
    /// Anchors.
    Anchors,
    /// Fish in a row.
    Fish,
    /// The stripes of sails.
    SailStripes,
    /// The strands of ropes.
    Ropes,
    /// Waves.
    Waves,
    /// The planks of a landing stage.
    Planks,
    /// The mesh of a net.
    Nets,
    /// Frames for the names in books.
    Bookplates,
    /// Stars that show the winds.
    WindStars,
}

/// What is printed: which way it runs, on which colour, how far the next one is to the
/// right and down, in millimetres, and its outlines.
type Row = (Print, u32, [u8; 2], &'static str);

impl PrintedPaper {
    /// All of them, in the order offered.
    pub const ALL: [Self; 12] = [
        Self::Lighthouses,
        Self::Boats,
        Self::Gulls,
        Self::Anchors,
        Self::Fish,
        Self::SailStripes,
        Self::Ropes,
        Self::Waves,
        Self::Planks,
        Self::Nets,
        Self::Bookplates,
        Self::WindStars,
    ];

    const fn row(self) -> Row {
        use Print::{AllOver, OneWay, TwoWay};
        match self {
            Self::Lighthouses => (
                OneWay,
                0x00f3_d9b1,
                [24, 36],
                "M9 30l2-18h2l2 18zM10 11v-4l2-2 2 2v4zM7 31h10v1h-10zM8 8l-4-2v4zM16 8l4-2v4z",
            ),
            Self::Boats => (
                OneWay,
                0x009c_c3c4,
                [32, 30],
                "M6 20h20l-4 5h-12zM15 4v14h-9zM17 7v11h7z",
            ),
            Self::Gulls => (
                OneWay,
                0x00c9_dce6,
                [12, 9],
                "M2 4l2-1 2 2 2-2 2 1h-2l-2 2-2-2z",
            ),
            Self::Anchors => (
                OneWay,
                0x0024_3b53,
                [16, 20],
                "M7 3h2v3h3v1h-3v7l3-2v3l-4 2-4-2v-3l3 2v-7h-3v-1h3z",
            ),
            Self::Fish => (OneWay, 0x00e8_a58c, [14, 8], "M2 4l3-2 4 1 3-1v4l-3-1-4 1z"),
            Self::SailStripes => (
                TwoWay,
                0x00f1_e6d2,
                [30, 10],
                "M5 0h3v10h-3zM11 0h8v10h-8zM22 0h3v10h-3z",
            ),
            Self::Ropes => (TwoWay, 0x00d9_bf8c, [8, 6], "M2 0l4 2v4l-4-2z"),
            Self::Waves => (
                TwoWay,
                0x007f_b3bd,
                [16, 10],
                "M0 4l4-2 8 4 4-2v2l-4 2-8-4-4 2z",
            ),
            Self::Planks => (
                TwoWay,
                0x00b8_9269,
                [40, 20],
                "M1 6h38v8h-38zM0 0h19v4h-19zM21 0h19v4h-19zM0 16h19v4h-19zM21 16h19v4h-19z",
            ),
            Self::Nets => (
                AllOver,
                0x002f_6f73,
                [12, 12],
                "M6 0l6 6-6 6-6-6zM6 1l-5 5 5 5 5-5z",
            ),
            Self::Bookplates => (
                AllOver,
                0x00e9_d7df,
                [36, 36],
                "M4 4h28v28h-28zM6 6v24h24v-24zM18 10l8 8-8 8-8-8z",
            ),
            Self::WindStars => (
                AllOver,
                0x00e8_c27a,
                [40, 40],
                "M20 4l3 13 13 3-13 3-3 13-3-13-13-3 13-3z",
            ),
        }
    }

    /// A side of a sheet printed with it, whose print runs as the motif does.
    pub const fn look(self) -> SideLook {
        let (print, ground, ..) = self.row();
        SideLook {
            printed: Some(self),
            ..SideLook::new(Colour::rgb(ground), print)
        }
    }

    /// A sheet of 12 × 12 in that is printed with it, its back white, called so.
    pub fn stock(self, name: String) -> Stock {
        Stock {
            face: self.look(),
            ..ReadyPaper::Speckle.stock(name)
        }
    }

    /// How far the next one is, to the right and up the sheet held upright.
    pub fn repeat(self) -> [Length; 2] {
        let (_, _, repeat, _) = self.row();
        repeat.map(|side| Length::mm(side.into()))
    }

    /// Its outlines within one repeat, in millimetres from the upper left corner of
    /// that, y down, as the `d` of a path in SVG; an outline that winds the other way
    /// round in another is a hole.
    pub const fn outlines(self) -> &'static str {
        self.row().3
    }
}
