//! Every text of every area in every language: whole, short, and its own.

use super::{ENGLISH, GERMAN, LeftOut, Texts, grouped};
use crate::Language;

/// About what a phone of 360 CSS px shows in three lines of 16 px: 37 characters
/// of half an em, as wide as letters are on average, in 300 px. An estimate.
const MOST_CHARACTERS: usize = 112;

/// All texts of an area.
pub(super) trait Every {
    /// Each label with the name of its field.
    fn labels(&self) -> Vec<(&'static str, &'static str)>;

    /// Each sentence, with samples in its holes.
    fn sentences(&self) -> Vec<(&'static str, Vec<String>)>;
}

/// A sentence with each sample in its holes.
macro_rules! samples {
    ($area:ident.$says:ident($($hole:ident: $kind:ty),+)) => {{
        use crate::texts::tests::Hole as _;
        let all = [$(<$kind>::samples(stringify!($hole)).len()),+];
        let longest = all.into_iter().max().unwrap_or_default();
        let told = (0..longest).map(|number| {
            $area.$says($(<$kind>::sample(stringify!($hole), number)),+)
        });
        told.collect()
    }};
}

pub(super) use samples;

/// What may stand in a hole: samples in which the languages change their words,
/// the last one as long as there is.
pub(super) trait Hole: Copy {
    fn samples(hole: &str) -> Vec<Self>;

    /// One of them; the last where there are not so many.
    fn sample(hole: &str, number: usize) -> Self {
        let samples = Self::samples(hole);
        samples[number.min(samples.len() - 1)]
    }
}

impl Hole for usize {
    fn samples(_: &str) -> Vec<Self> {
        vec![0, 1, 2, 10_000]
    }
}

impl Hole for u32 {
    fn samples(_: &str) -> Vec<Self> {
        vec![0, 1, 2, 9999]
    }
}

impl Hole for u64 {
    fn samples(_: &str) -> Vec<Self> {
        vec![0, 1, 2, 99]
    }
}

impl Hole for i64 {
    fn samples(_: &str) -> Vec<Self> {
        vec![0, 1, 2, 999]
    }
}

impl Hole for bool {
    fn samples(_: &str) -> Vec<Self> {
        vec![false, true]
    }
}

/// The longest name of a part in the starting folds.
const LONG: &str = "upper step upper slit";

impl Hole for &str {
    fn samples(hole: &str) -> Vec<Self> {
        match hole {
            "size" => vec!["3 × 4 mm", "12¹³⁄₁₆⁺ × 12¹³⁄₁₆ in"],
            "left" | "bottom" | "by" | "length" | "least" | "most" | "from" | "to" => {
                vec!["3 mm", "12¹³⁄₁₆⁺ in"]
            }
            _ => vec!["mat", LONG],
        }
    }
}

impl Hole for Option<&str> {
    fn samples(_: &str) -> Vec<Self> {
        vec![None, Some(LONG)]
    }
}

impl Hole for LeftOut {
    fn samples(_: &str) -> Vec<Self> {
        let lists = [
            "on_top",
            "upright",
            "relations",
            "flat",
            "joins",
            "cutouts",
            "lines",
            "layers",
            "",
        ];
        lists.map(Self::of).to_vec()
    }
}

fn areas(texts: &'static Texts, language: Language) -> Vec<(&'static str, &'static dyn Every)> {
    let Texts {
        list,
        settings,
        bench,
        rescue,
        parts,
        desk,
        shape,
        paper,
        resize,
        devices,
        import,
        share,
        shared,
        begin,
        keep,
        merging,
    } = texts;
    vec![
        ("first", language.first() as _),
        ("no_app", language.no_app() as _),
        ("trust", language.trust() as _),
        ("printed", language.printed() as _),
        ("taken", language.taken() as _),
        ("exchange", language.exchange() as _),
        ("class", language.class_tongue().texts() as _),
        ("kits", language.kits() as _),
        ("samples", language.samples() as _),
        ("album", language.album() as _),
        ("sights", language.sights() as _),
        ("outlines", language.outlines() as _),
        ("patterns", language.patterns() as _),
        ("choosing", language.choosing() as _),
        ("unfolding", language.unfolding() as _),
        ("beside", language.beside() as _),
        ("hearing", language.hearing() as _),
        ("ordering", language.ordering() as _),
        ("pace", language.pace() as _),
        ("motifs", language.motifs() as _),
        ("photos", language.photos() as _),
        ("pictures", language.pictures() as _),
        ("list", list as _),
        ("settings", settings as _),
        ("bench", bench as _),
        ("rescue", rescue as _),
        ("parts", parts as _),
        ("desk", desk as _),
        ("shape", shape as _),
        ("paper", paper as _),
        ("resize", resize as _),
        ("devices", devices as _),
        ("import", import as _),
        ("share", share as _),
        ("shared", shared as _),
        ("begin", begin as _),
        ("keep", keep as _),
        ("merging", merging as _),
    ]
}

/// The name of each text with how it is told in English and in German.
fn told() -> Vec<(String, [String; 2], bool)> {
    let english = areas(ENGLISH.texts(), Language::English);
    let german = areas(GERMAN.texts(), Language::German);
    let mut all = Vec::new();
    for ((area, english), (_, german)) in english.into_iter().zip(german) {
        for ((name, english), (_, german)) in english.labels().into_iter().zip(german.labels()) {
            let told = [english, german].map(str::to_owned);
            all.push((format!("{area}.{name}"), told, true));
        }
        let sentences = english.sentences().into_iter().zip(german.sentences());
        for ((name, english), (_, german)) in sentences {
            assert!(!english.is_empty(), "{area}.{name} has no sample");
            for told in english.into_iter().zip(german) {
                all.push((format!("{area}.{name}"), <[String; 2]>::from(told), false));
            }
        }
    }
    all
}

/// CLDR 45: `en` parts groups of three by a comma, `de` by a point, and both do
/// so from four digits on.
#[test]
fn large_numbers_are_grouped() {
    let numbers = [0, 999, 1000, 1204, 1_000_000];
    assert_eq!(
        numbers.map(|number| grouped(number, ',')),
        ["0", "999", "1,000", "1,204", "1,000,000"]
    );
    assert_eq!(grouped(1204, '.'), "1.204");
}

#[test]
fn every_text_is_whole_and_short() {
    let mut wrong = Vec::new();
    for (name, told, is_label) in told() {
        for text in told {
            let mut holes = ["  ", " .", " ,", "{", "}", "\n", "“”", "„“"].into_iter();
            let has_hole = holes.any(|hole| text.contains(hole)) && name != LINES;
            if text.trim().is_empty() || has_hole {
                wrong.push(format!("{name}: {text}"));
            }
            if is_label && text.ends_with(' ') {
                wrong.push(format!("{name}: {text}"));
            }
            for sentence in text.split_inclusive(". ") {
                let long = sentence.trim().chars().count();
                if long > MOST_CHARACTERS {
                    wrong.push(format!("{name} {long}: {sentence}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Words that English and German share.
const SHARED: &[&str] = &[
    "list.name",
    "settings.version",
    "shape.name",
    "shape.radius",
    "paper.name",
    "devices.code",
    "devices.tablet",
    "devices.laptop",
    "taken.name",
    "beside.of_step",
];

/// The one text of several lines: a list as it is typed.
const LINES: &str = "begin.list_example";

#[test]
fn no_text_was_forgotten_in_german() {
    for (name, [english, german], _) in told() {
        if !SHARED.contains(&name.as_str()) {
            assert_ne!(english, german, "{name}");
        }
    }
}

/// German quotation marks and numbers (CLDR 45, `de`: „…“, groups parted by a
/// point).
#[test]
fn german_is_written_as_german_is() {
    let mut wrong = Vec::new();
    for (name, [english, german], _) in told() {
        let [opened, closed] = ['„', '“'].map(|mark| german.matches(mark).count());
        let quoted = english.matches('“').count();
        if opened != quoted || closed != quoted || german.contains('”') {
            wrong.push(format!("{name}: {german}"));
        }
        if german.contains("10,000") || english.contains("10.000") {
            wrong.push(format!("{name}: {german}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
