//! The typeface of sheets: which characters it has, and how its glyphs follow
//! each other.

use std::sync::LazyLock;

use harfrust::{Feature, ShaperData, Tag, UnicodeBuffer};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use skrifa::charmap::Charmap;
use skrifa::{FontRef, MetadataProvider as _};

/// Light or heavy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum Weight {
    Regular,
    Bold,
}

/// The height of capitals, as a share of the size of type.
pub(crate) const CAPITALS: f32 = 2048.0 / 2816.0;

/// What stands for a character that the typeface lacks.
pub(crate) const MISSING: char = '□';

/// A weight of the typeface.
pub(crate) struct Face {
    font: FontRef<'static>,
    shaping: ShaperData,
    units: f32,
    /// As the writer of PDF takes it.
    pub(crate) embedded: Font,
}

/// Glyphs in a row.
#[derive(Debug, Clone, Default)]
pub(crate) struct Shaped {
    pub(crate) glyphs: Vec<KrillaGlyph>,
    /// For a size of type of 1.
    pub(crate) width: f32,
}

static REGULAR: LazyLock<Option<Face>> =
    LazyLock::new(|| Face::of(include_bytes!("../fonts/regular.otf")));
static BOLD: LazyLock<Option<Face>> =
    LazyLock::new(|| Face::of(include_bytes!("../fonts/bold.otf")));

impl Weight {
    #[expect(
        clippy::expect_used,
        reason = "both files are in the program, and a test reads them"
    )]
    pub(crate) fn face(self) -> &'static Face {
        let face = match self {
            Self::Regular => &REGULAR,
            Self::Bold => &BOLD,
        };
        face.as_ref().expect("the typeface can be read")
    }
}

impl Face {
    fn of(file: &'static [u8]) -> Option<Self> {
        let font = FontRef::from_index(file, 0).ok()?;
        let embedded = Font::new(file.into(), 0)?;
        Some(Self {
            shaping: ShaperData::new(&font),
            units: embedded.units_per_em(),
            font,
            embedded,
        })
    }

    /// The glyphs of a text, with figures that are all as wide. Every character of
    /// it is one the typeface has; see [`writable`].
    pub(crate) fn shape(&self, text: &str) -> Shaped {
        #[expect(clippy::cast_precision_loss, reason = "an em has a few thousand units")]
        let share = |units: i32| units as f32 / self.units;
        let shaper = self.shaping.shaper(&self.font).build();
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(text);
        buffer.guess_segment_properties();
        let tabular = Feature::new(Tag::new(b"tnum"), 1, ..);
        let shaped = shaper.shape(buffer, &[tabular]);
        let infos = shaped.glyph_infos();
        let mut out = Shaped::default();
        for (number, (info, at)) in infos.iter().zip(shaped.glyph_positions()).enumerate() {
            let from = info.cluster as usize;
            let after = infos.get(number + 1..).unwrap_or_default();
            let next = after.iter().find(|it| it.cluster != info.cluster);
            let to = next.map_or(text.len(), |next| next.cluster as usize);
            let advance = share(at.x_advance);
            out.width += advance;
            out.glyphs.push(KrillaGlyph::new(
                GlyphId::new(info.glyph_id),
                advance,
                share(at.x_offset),
                share(at.y_offset),
                0.0,
                from..to.max(from),
                None,
            ));
        }
        out
    }
}

/// A text as the typeface can write it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Writable {
    pub(crate) text: String,
    /// Whether some of its characters are [`MISSING`].
    pub(crate) is_short: bool,
}

/// A text with what the typeface has for it: fractions it lacks are written with
/// raised and lowered figures, white space is a space or the end of a line, and
/// what is never seen is left out.
pub(crate) fn writable(text: &str) -> Writable {
    // Both weights have the same characters, which a test ensures.
    let known = Weight::Regular.face().font.charmap();
    let mut out = Writable {
        text: String::with_capacity(text.len()),
        is_short: false,
    };
    for letter in text.chars() {
        match letter {
            '\n' => out.text.push('\n'),
            'ŉ' => out.text.push_str("ʼn"),
            '⅔' => out.text.push_str("²⁄₃"),
            '⅕' => out.text.push_str("¹⁄₅"),
            '⅙' => out.text.push_str("¹⁄₆"),
            letter if is_unseen(letter) => {}
            letter if letter.is_control() => out.text.push(' '),
            letter if has(&known, letter) => out.text.push(letter),
            _ => {
                out.text.push(MISSING);
                out.is_short = true;
            }
        }
    }
    out
}

fn has(known: &Charmap<'_>, letter: char) -> bool {
    known.map(letter).is_some_and(|glyph| glyph.to_u32() != 0)
}

/// Characters that show nothing and only tell how others are to be shown
/// (Unicode 16, `Default_Ignorable_Code_Point`, but for fillers of Hangul).
fn is_unseen(letter: char) -> bool {
    matches!(letter,
        '\u{AD}' | '\u{34F}' | '\u{61C}' | '\u{180B}'..='\u{180F}' | '\u{200B}'..='\u{200F}'
        | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}'
        | '\u{1D173}'..='\u{1D17A}' | '\u{E0000}'..='\u{E0FFF}' | '\r')
}

#[cfg(test)]
mod tests {
    use skrifa::MetadataProvider as _;

    use super::{Weight, writable};

    #[test]
    fn both_weights_write_the_same_characters() {
        let [regular, bold] = [Weight::Regular, Weight::Bold].map(|weight| {
            let known = weight.face().font.charmap();
            known
                .mappings()
                .map(|(letter, _)| letter)
                .collect::<Vec<_>>()
        });
        assert!(regular.len() > 900 && regular == bold);
    }

    /// The blocks of Latin (Unicode 16): Basic Latin to Latin Extended-B, Latin
    /// Extended Additional, and what lengths are written with.
    #[test]
    fn latin_is_there_whole() {
        let latin = ('\u{20}'..='\u{7E}')
            .chain('\u{A1}'..='\u{AC}')
            .chain(('\u{AE}'..='\u{17F}').filter(|letter| *letter != 'ŉ'))
            .chain('\u{1E80}'..='\u{1EF9}')
            .chain("¼½¾⅓⅛⅜⅝⅞⅚⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉⁄×·−–—“”„’…°µ□Șșțț".chars());
        let latin: String = latin.collect();
        let written = writable(&latin);
        let lost = written.text.chars().zip(latin.chars());
        let lost: String = lost
            .filter(|(is, was)| is != was)
            .map(|(_, was)| was)
            .collect();
        assert_eq!(lost, "");
    }

    #[test]
    fn what_cannot_be_written_is_replaced_and_what_is_unseen_left_out() {
        let written = writable("a\u{200B}b\u{FEFF}\tc 本 ⅔ ŉ\r\n");
        assert_eq!(written.text, "ab c □ ²⁄₃ ʼn\n");
        assert!(written.is_short);
        assert!(!writable("Quay wall\n").is_short);
    }

    /// Figures are all as wide, to a thousandth or so of the size of type, so that they
    /// stand below each other.
    #[test]
    fn figures_are_tabular() {
        for weight in [Weight::Regular, Weight::Bold] {
            let widths = ('0'..='9').map(|figure| weight.face().shape(&figure.to_string()).width);
            let widths: Vec<_> = widths.collect();
            assert!(
                widths
                    .iter()
                    .all(|width| (width - widths[0]).abs() < 0.0012)
            );
        }
    }
}
