//! Square codes, which a camera reads (ISO/IEC 18004).

use krilla::geom::{Path, PathBuilder, Rect};
use qrcode::{Color, EcLevel, QrCode};

/// The white that a camera needs on each side, in modules. (ISO/IEC 18004, quiet
/// zone; from memory.)
const QUIET: u16 = 4;

/// A code as it is drawn: dark squares on white paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Code {
    /// How many modules a side has, without the white round it.
    side: u16,
    /// Row by row from the upper left.
    dark: Vec<bool>,
}

impl Code {
    /// The code of a text; `None` where the text is longer than any code takes.
    pub(crate) fn of(words: &str) -> Option<Self> {
        // A crease or a stain may hide a seventh of it.
        let code = QrCode::with_error_correction_level(words, EcLevel::M).ok()?;
        let side = u16::try_from(code.width()).ok()?;
        let dark = code.into_colors().into_iter();
        let dark = dark.map(|module| module == Color::Dark).collect();
        Some(Self { side, dark })
    }

    /// Its dark squares in a square so wide at a place, in points, with white on all
    /// sides; in one outline, so that no light gets between neighbours.
    pub(crate) fn path(&self, [left, top]: [f32; 2], wide: f32) -> Option<Path> {
        let module = wide / f32::from(self.side + 2 * QUIET);
        let mut path = PathBuilder::new();
        let rows = self.dark.chunks(usize::from(self.side.max(1)));
        for (row, modules) in (QUIET..).zip(rows) {
            let mut column = QUIET;
            for run in modules.chunk_by(|a, b| a == b) {
                let many = u16::try_from(run.len()).unwrap_or_default();
                if run.first() == Some(&true) {
                    let at = [column, row].map(|number| f32::from(number) * module);
                    let [wide, high] = [many, 1].map(|number| f32::from(number) * module);
                    let rect = Rect::from_xywh(left + at[0], top + at[1], wide, high);
                    path.push_rect(rect?);
                }
                column += many;
            }
        }
        path.finish()
    }
}
