//! The paper that sheets are printed on.

/// A millimetre in points, of which an inch has 72 (ISO 32000-1, 8.3.2.3).
pub(crate) const MM: f32 = 72.0 / 25.4;

/// Millimetres in points.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a millionth of a page is seen by nobody"
)]
pub(crate) fn points(millimetres: f64) -> f32 {
    (millimetres * 72.0 / 25.4) as f32
}

/// The size of paper a sheet is laid out for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 8½ × 11 in (ANSI/ASME Y14.1).
    Letter,
}

impl Paper {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name in addresses and in names of files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// The paper of that name.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|paper| paper.name() == name)
    }

    /// Width and height upright, in points.
    pub const fn size(self) -> [f32; 2] {
        match self {
            Self::A4 => [210.0 * MM, 297.0 * MM],
            Self::Letter => [612.0, 792.0],
        }
    }
}
