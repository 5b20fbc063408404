//! Any list written out from a card's measures, in any mix of the notations
//! people use, is read back to the same pieces.

use crate::plain::Plain;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Outline, Recipe, starters};
use proptest::prelude::*;

use super::{INCHES, METRIC};
use foldwright_engine::reading::read;

/// Numbers that only decide how something is written, from a seed.
struct Style(u64);

impl Style {
    /// A number below another one (xorshift, as Marsaglia gives it).
    fn below(&mut self, count: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 33).expect("31 bits") % count
    }

    fn of<'a>(&mut self, options: &[&'a str]) -> &'a str {
        options[self.below(options.len())]
    }
}

/// The outline of a flat piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Form {
    Straight,
    Round,
}

/// A flat piece, its shorter side first.
type Flat = (Form, [Length; 2]);

/// What a list is written from, and read back to.
#[derive(Debug, Clone, PartialEq)]
struct Pieces {
    height: Length,
    widths: Vec<Length>,
    flat: Vec<Flat>,
}

fn flat(form: Form, a: Length, b: Length) -> Flat {
    (form, [a.min(b), a.max(b)])
}

impl Pieces {
    fn of(recipe: &Recipe) -> Self {
        let panels = recipe.base.panels.iter();
        let layers = recipe.layers.iter().map(|layer| {
            let form = match layer.outline {
                Outline::Round => Form::Round,
                _ => Form::Straight,
            };
            flat(form, recipe.value(layer.width), recipe.value(layer.height))
        });
        let mut pieces = Self {
            height: recipe.value(recipe.base.height),
            widths: panels.map(|panel| recipe.value(panel.width)).collect(),
            flat: layers.collect(),
        };
        pieces.flat.sort_unstable();
        pieces
    }

    fn length(&self) -> Length {
        self.widths.iter().copied().sum()
    }
}

/// The words of a language: base, panels, score at, mat, circle, square, cut.
type Words = [&'static [&'static str]; 7];

const ENGLISH: Words = [
    &["base", "card base", "Base:"],
    &["panels", "panels:"],
    &["score at", "score @", "scored at", "fold at"],
    &["mat", "layer", "- mat", "• mat:"],
    &["circle", "round label", "dia"],
    &["square", "sq"],
    &["cut", "qty"],
];
const GERMAN: Words = [
    &["Grundkarte", "Kartenrohling"],
    &["Felder"],
    &["falzen bei", "rillen bei"],
    &["Aufleger", "Lage"],
    &["Kreis", "Kreis:"],
    &["Quadrat"],
    &["je"],
];
const FRENCH: Words = [
    &["carte", "socle"],
    &["panneaux", "volets"],
    &["plier à", "rainer à"],
    &["couche", "passe-partout"],
    &["cercle", "rond"],
    &["carré"],
    &["couper"],
];
const DUTCH: Words = [
    &["basiskaart", "kaart"],
    &["panelen", "vlakken"],
    &["rillen op", "vouwen op"],
    &["laag"],
    &["cirkel"],
    &["vierkant"],
    &["snij"],
];
const SPANISH: Words = [
    &["tarjeta", "cuerpo"],
    &["paneles"],
    &["doblar:", "marcar:"],
    &["capa"],
    &["círculo"],
    &["cuadrado"],
    &["cortar"],
];

/// A unit a number may be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unit {
    Inch,
    Millimetre,
    Centimetre,
}

impl Unit {
    fn word(self, style: &mut Style) -> &'static str {
        match self {
            Self::Inch => style.of(&[" in", "\"", "″", "”", "''", " inches", "in", " in."]),
            Self::Millimetre => style.of(&[" mm", "mm"]),
            Self::Centimetre => style.of(&[" cm", "cm"]),
        }
    }

    /// A length in it, without the unit: inches in sixteenths, millimetres in
    /// tenths.
    fn number(self, length: Length, style: &mut Style) -> String {
        let per = match self {
            Self::Inch => return inches(length, style),
            Self::Millimetre => 1,
            Self::Centimetre => 10,
        };
        let hundredths = length.units() * 100 / (Length::PER_MM * per);
        let (whole, part) = (hundredths / 100, hundredths % 100);
        let mark = style.of(&[",", "."]);
        match (part, part % 10) {
            (0, _) => whole.to_string(),
            (_, 0) => format!("{whole}{mark}{}", part / 10),
            _ => format!("{whole}{mark}{part:02}"),
        }
    }
}

fn inches(length: Length, style: &mut Style) -> String {
    let count = length.units() * 16 / Length::PER_INCH;
    let (whole, mut over, mut under) = (count / 16, count % 16, 16);
    if over == 0 {
        return whole.to_string();
    }
    while over % 2 == 0 {
        over /= 2;
        under /= 2;
    }
    let one = match (over, under) {
        (1, 2) => "½",
        (1, 4) => "¼",
        (3, 4) => "¾",
        (1, 8) => "⅛",
        (3, 8) => "⅜",
        (5, 8) => "⅝",
        (7, 8) => "⅞",
        _ => "",
    };
    match style.below(4) {
        0 if !one.is_empty() => format!("{whole}{one}"),
        1 => format!("{whole}-{over}/{under}"),
        2 => {
            let part = format!("{:04}", over * 10_000 / under);
            format!("{whole}.{}", part.trim_end_matches('0'))
        }
        _ => format!("{whole} {over}/{under}"),
    }
}

/// Writes lists.
struct Writer {
    style: Style,
    words: Words,
    is_metric: bool,
    /// The unit stated last.
    stated: Option<Unit>,
}

impl Writer {
    /// Some lengths, and the unit they are in where the line states one.
    fn numbers(&mut self, lengths: &[Length], between: &[&str]) -> String {
        let unit = match self.stated {
            Some(unit) if self.style.below(3) == 0 => unit,
            _ if !self.is_metric => Unit::Inch,
            _ if self.style.below(2) == 0 => Unit::Millimetre,
            _ => Unit::Centimetre,
        };
        // A bare number is in the unit stated last.
        let bare = self.stated == Some(unit) && self.style.below(2) == 0;
        let each = self.style.below(2) == 0;
        self.stated = Some(unit);
        let count = lengths.len();
        let mut text = String::new();
        for (place, length) in lengths.iter().enumerate() {
            text.push_str(&unit.number(*length, &mut self.style));
            if !bare && (each || place + 1 == count) {
                text.push_str(unit.word(&mut self.style));
            }
            if place + 1 < count {
                text.push_str(self.style.of(between));
            }
        }
        text
    }

    fn word(&mut self, place: usize) -> &'static str {
        self.style.of(self.words[place])
    }

    fn size(&mut self, [a, b]: [Length; 2]) -> String {
        let turned = self.style.below(2) == 0;
        self.pair(if turned { [b, a] } else { [a, b] })
    }

    fn pair(&mut self, pair: [Length; 2]) -> String {
        self.numbers(&pair, &[" x ", " × ", "×", " * ", "*", " X ", "x "])
    }

    fn base(&mut self, pieces: &Pieces) -> String {
        let word = self.word(0);
        let size = [pieces.length(), pieces.height];
        let last = pieces.widths.len() - 1;
        if last == 0 {
            // Nothing but the order of the numbers says how a card without a fold
            // lies: its width comes first (common practice).
            return format!("{word} {}", self.pair(size));
        }
        let size = self.size(size);
        let sums = pieces.widths.iter().scan(Length::ZERO, |at, width| {
            *at += *width;
            Some(*at)
        });
        let marks: Vec<Length> = sums.take(last).collect();
        // Scores that lie within both sides do not say which they run along.
        let told = marks.iter().any(|at| *at >= pieces.height);
        let (verb, lengths) = if told && self.style.below(2) == 0 {
            (self.word(2), marks)
        } else {
            (self.word(1), pieces.widths.clone())
        };
        let break_at = self.style.of(&[", ", "; ", " | ", "\n"]);
        let numbers = self.numbers(&lengths, &[", ", "; ", " + ", " / "]);
        // A semicolon ends a sentence; commas part numbers of one.
        let numbers = numbers
            .replace("; ", ", ")
            .replace(" + ", ", ")
            .replace(" / ", ", ");
        format!("{word} {size}{break_at}{verb} {numbers}")
    }

    fn flat(&mut self, (form, size): Flat, count: usize) -> String {
        let even = size[0] == size[1] && self.style.below(2) == 0;
        let text = match form {
            Form::Round => {
                let word = self.word(4);
                format!("{word} {}", self.numbers(&size[..1], &[""]))
            }
            Form::Straight if even => {
                let word = self.word(5);
                format!("{word} {}", self.numbers(&size[..1], &[""]))
            }
            Form::Straight => {
                let word = self.word(3);
                format!("{word} {}", self.size(size))
            }
        };
        match (count, self.style.below(4)) {
            (1, _) => text,
            (_, 0) => format!("{text} (x{count})"),
            (_, 1) => format!("{text}, {count}x"),
            (_, 2) => format!("{text} ({count})"),
            _ => format!("{text}, {} {count}", self.word(6)),
        }
    }

    /// A list of the pieces, alike ones in one line or in several.
    fn list(&mut self, pieces: &Pieces) -> String {
        let mut lines = vec![self.base(pieces)];
        let mut rest = &pieces.flat[..];
        while let [first, ..] = rest {
            let alike = rest.iter().take_while(|it| *it == first).count();
            let count = 1 + self.style.below(alike);
            lines.push(self.flat(*first, count));
            rest = &rest[count..];
        }
        lines.join("\n")
    }
}

/// Whether all of it is on sixteenths of an inch, else tenths of a millimetre.
fn on(pieces: &Pieces, step: i64) -> bool {
    let flat = pieces.flat.iter().flat_map(|(_, size)| size);
    let mut all = flat.chain(&pieces.widths).chain([&pieces.height]);
    all.all(|it| it.units() % step == 0)
}

fn read_back(pieces: &Pieces, is_metric: bool, seed: u64) -> (String, Option<Pieces>) {
    let mut style = Style(seed | 1);
    let words = if is_metric {
        [ENGLISH, GERMAN, FRENCH, DUTCH, SPANISH][style.below(5)]
    } else {
        ENGLISH
    };
    let mut writer = Writer {
        style,
        words,
        is_metric,
        stated: (!is_metric).then_some(Unit::Inch),
    };
    let text = writer.list(pieces);
    let read = read(&text, if is_metric { METRIC } else { INCHES }, &Plain);
    let recipe = read.into_recipe(&read.usual(), &Plain);
    (text, recipe.map(|recipe| Pieces::of(&recipe)))
}

/// A card of up to four panels with pieces that fit its narrowest.
fn pieces() -> impl Strategy<Value = (bool, Pieces)> {
    let sizes = (
        any::<bool>(),
        prop::collection::vec(20..=80_i64, 1..=4),
        30..=120_i64,
        prop::collection::vec((12..=18_i64, 12..=28_i64, 0..4_u8, 1..=3_usize), 0..4),
    );
    sizes.prop_map(|(is_metric, widths, height, flats)| {
        // Inches in sixteenths, so that panels are 1 1/4 to 5 in wide.
        let unit = |count: i64| {
            if is_metric {
                Length::mm(count) + Length::hundredths_mm(50 * (count % 2))
            } else {
                Length::sixty_fourths(4 * count)
            }
        };
        let widths: Vec<Length> = widths.into_iter().map(unit).collect();
        let mut flats: Vec<Flat> = flats
            .into_iter()
            .flat_map(|(a, b, form, count)| {
                let one = match form {
                    0 => flat(Form::Round, unit(a), unit(a)),
                    1 => flat(Form::Straight, unit(a), unit(a)),
                    _ => flat(Form::Straight, unit(a), unit(b)),
                };
                std::iter::repeat_n(one, count)
            })
            .collect();
        flats.sort_unstable();
        let pieces = Pieces {
            height: unit(height),
            widths,
            flat: flats,
        };
        (is_metric, pieces)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn what_is_written_is_read_back((is_metric, pieces) in pieces(), seed in any::<u64>()) {
        let (text, back) = read_back(&pieces, is_metric, seed);
        prop_assert_eq!(back, Some(pieces), "{}", text);
    }
}

#[test]
fn the_measures_of_starting_folds_are_read_back() {
    let mut count = 0;
    for starter in starters() {
        let recipe = &starter.recipe;
        let plain = recipe.pieces.is_empty()
            && recipe.base.lines.is_empty()
            && recipe.base.cutouts.is_empty()
            && recipe
                .layers
                .iter()
                .all(|it| matches!(it.outline, Outline::Straight | Outline::Round));
        let pieces = Pieces::of(recipe);
        if !plain || !on(&pieces, Length::PER_INCH / 16) {
            continue;
        }
        count += 1;
        for seed in 1..40 {
            let (text, back) = read_back(&pieces, false, seed * 0x9E37_79B9);
            assert_eq!(back.as_ref(), Some(&pieces), "{}: {text}", recipe.name);
        }
    }
    assert!(count >= 8, "{count}");
}
