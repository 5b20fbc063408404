//! Sheets, as programs of others read them: `qpdf`, which checks the file itself,
//! and Poppler's `pdftotext` and `pdfinfo`, which say what stands where.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod kept;
#[path = "../../engine/tests/strips/mod.rs"]
mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::{Recipe, Runs, starters};
use foldwright_print::{Paper, Photos, Sheet, sheet};
use foldwright_words::{Language, Speaker, starter};
use kept::{Kept, asked};
use strips::strip;

/// The edge of a page that stays white, in millimetres; it is 14.
const EDGE: f64 = 12.0;

fn made(recipe: &Recipe, language: Language, paper: Paper) -> Vec<u8> {
    let card = work_out(recipe, &Tools::default());
    let made = sheet(&Sheet {
        recipe,
        card: &card,
        from: "Harbour library",
        link: "",
        tongue: language.tongue(),
        paper,
        photos: &Photos::default(),
    });
    made.expect("a sheet can be made")
}

/// ISO 32000-1, 14.8 and ISO 14289-1, 7.1: the file is tagged, has its language
/// and its title, and shows the title. ISO 216 and ANSI/ASME Y14.1: its pages.
#[test]
fn every_starting_fold_has_a_whole_sheet_in_each_language_on_each_paper() {
    for language in Language::ALL {
        for it in starters() {
            let recipe = starter(language.tongue(), it, it.recipe.notation);
            for paper in Paper::ALL {
                let kept = Kept::of(&made(&recipe, language, paper));
                let pages = kept.is_whole(paper, EDGE);
                assert!((1..=5).contains(&pages), "{}: {pages} pages", it.id);
                let about = asked("pdfinfo", &[], &kept.file);
                let says = |name: &str, value: &str| {
                    let mut lines = about.lines();
                    lines.any(|line| {
                        let parted = line.split_once(':');
                        parted.is_some_and(|(of, is)| of == name && is.trim() == value)
                    })
                };
                assert!(says("Title", &recipe.name), "{about}");
                assert!(says("Tagged", "yes"), "{about}");
                assert!(says("Pages", &pages.to_string()), "{about}");
                let size = match paper {
                    Paper::A4 => "595.276 x 841.89 pts (A4)",
                    Paper::Letter => "612 x 792 pts (letter)",
                };
                assert!(says("Page size", size), "{about}");
            }
        }
    }
}

/// What the sheet says is what the recipe says, in fractions as they are set.
#[test]
fn numbers_and_words_can_be_read_out_of_the_file() {
    let gate = starters().iter().find(|starter| starter.id == "gate");
    let gate = gate.expect("there is a gate");
    for language in Language::ALL {
        let recipe = starter(language.tongue(), gate, gate.recipe.notation);
        let text = Kept::of(&made(&recipe, language, Paper::A4)).text();
        let shared = &language.tongue().texts().shared;
        for words in [
            recipe.name.as_str(),
            shared.what_to_cut,
            shared.scores,
            shared.envelope,
            shared.step_by_step,
            shared.closed_from_front,
            language.printed().made_with,
        ] {
            assert!(text.contains(words), "{words} in {text}");
        }
        // A gate of 4¼ in: leaves of 2¹⁄₁₆ in, a strip of 8⅜ in.
        for number in ["4¼ × 5½ in", "8⅜ × 5½ in", "2¹⁄₁₆ in", "6⁵⁄₁₆ in"] {
            assert!(text.contains(number), "{number} in {text}");
        }
        let page = match language {
            Language::English => "Page 1 of 2",
            Language::German => "Seite 1 von 2",
        };
        assert!(text.contains(page), "{text}");
        assert!(text.contains("Harbour library"), "{text}");
        assert!(!text.contains(language.printed().letters_missing));
    }
}

/// A step of the maker's own stands where it was put, with its note.
#[test]
fn own_steps_are_printed_where_they_were_put() {
    let gate = starters().iter().find(|starter| starter.id == "gate");
    let gate = gate.expect("there is a gate");
    for language in Language::ALL {
        let mut recipe = starter(language.tongue(), gate, gate.recipe.notation);
        let own = recipe.add_own_step("Ink the edges", false);
        let own = format!("own-{}", own.expect("there is room").0);
        recipe.notes.insert(own.clone(), "Harbour blue".to_owned());
        recipe.order = vec!["gather".to_owned(), own, "cut-strip".to_owned()];
        let text = Kept::of(&made(&recipe, language, Paper::A4)).text();
        let at = |words: &str| {
            text.find(words)
                .unwrap_or_else(|| panic!("{words} in {text}"))
        };
        let steps = at(language.tongue().texts().shared.step_by_step);
        let (own, note) = (at("Ink the edges"), at("Harbour blue"));
        assert!(steps < own && own < note, "{text}");
        let kind = match language {
            Language::English => "Your own step: Ink the edges",
            Language::German => "Eigener Schritt: Ink the edges",
        };
        assert!(text.contains(kind), "{text}");
    }
}

/// Lengths between the marks are told as such, in millimetres with the decimal
/// mark of the maker.
#[test]
fn lengths_follow_the_notation_of_the_recipe() {
    let book = starters().iter().find(|starter| starter.id == "book");
    let book = book.expect("there is a book");
    let notation = Notation {
        step: Step::HalfMillimetre,
        decimal: DecimalMark::Comma,
    };
    let mut recipe = starter(Language::German.tongue(), book, notation);
    let width = recipe.base.panels[0].width;
    let set = recipe.set(
        width,
        Length::mm(100) + Length::mm(1).half_down().half_down(),
    );
    set.expect("the strip has room for it");
    let text = Kept::of(&made(&recipe, Language::German, Paper::A4)).text();
    assert!(text.contains("mm"), "{text}");
    assert!(!text.contains(" in,"), "{text}");
    let ticks = Language::German.tongue().texts().parts.ticks;
    assert!(text.contains(ticks), "{text}");
}

/// The longest texts there may be (`foldwright_engine::recipe::MOST_TEXT`), without
/// a space and with: nothing is cut off.
#[test]
fn the_longest_texts_stand_there_whole() {
    let gate = starters().iter().find(|starter| starter.id == "gate");
    let most = foldwright_engine::recipe::MOST_TEXT;
    for language in Language::ALL {
        let long = "Hafenbibliothek ".repeat(most / 16 - 1) + "Schlussstein";
        let endless = "M".repeat(most - 1) + "Q";
        let mut recipe = starter(
            language.tongue(),
            gate.expect("there is a gate"),
            gate.expect("there is a gate").recipe.notation,
        );
        recipe.name = long.clone();
        recipe.about = endless.clone();
        recipe.stocks[0].name = endless;
        recipe.notes.insert("gather".to_owned(), long.clone());
        for paper in Paper::ALL {
            let kept = Kept::of(&made(&recipe, language, paper));
            assert!(kept.is_whole(paper, EDGE) > 4);
            let text = kept.text();
            let told = text.matches("Hafenbibliothek").count();
            // The title, the note, and as much of the title as a foot has room for.
            assert!(told >= 2 * (most / 16 - 1), "{told}");
            assert_eq!(text.matches("Schlussstein").count(), 2);
            let endless = text.replace(' ', "");
            // About, and the name of the paper in two tables at least.
            assert!(endless.matches("MQ").count() >= 3);
        }
    }
}

/// What the typeface lacks is seen to be missing, and said to be; who copies it
/// still gets what it is (ISO 32000-1, 14.9.4), and all of Latin is there (blocks
/// of the Unicode Standard).
#[test]
fn characters_without_a_glyph_are_replaced_and_told() {
    let gate = starters().iter().find(|starter| starter.id == "gate");
    let gate = gate.expect("there is a gate");
    let language = Language::English;
    let mut recipe = starter(language.tongue(), gate, gate.recipe.notation);
    recipe.name = "Łódź, Đà Nẵng, Þingvellir, Würzburg, ẞ ŵ ș ț ⅔".to_owned();
    let kept = Kept::of(&made(&recipe, language, Paper::A4));
    let missing = language.printed().letters_missing;
    assert!(!kept.text().contains(missing));
    assert!(
        kept.text()
            .contains("Łódź, Đà Nẵng, Þingvellir, Würzburg, ẞ ŵ ș ț ²⁄₃")
    );
    recipe.about = "港の図書館 🎏 \u{0}\u{7}\u{FEFF}\u{200D}end".to_owned();
    let kept = Kept::of(&made(&recipe, language, Paper::A4));
    kept.is_whole(Paper::A4, EDGE);
    let text = kept.text();
    assert!(text.contains(missing), "{text}");
    assert!(text.contains("港の図書館"), "{text}");
    assert!(text.contains("end"), "{text}");
}

/// Two flaps longer than the panel between them, both folded in, cannot lie flat:
/// each would have to end before the other's fold (common practice). The sheet says
/// so, and is whole.
#[test]
fn a_card_that_cannot_be_made_says_so() {
    let widths = [100, 60, 100].map(Length::mm);
    let recipe = strip(&widths, Length::mm(100), "VV", 1, Runs::Across);
    let card = work_out(&recipe, &Tools::default());
    assert!(card.folded.is_none());
    for language in Language::ALL {
        let say = Speaker::of(language.tongue(), &recipe);
        let problem = card.problems.first().expect("something is wrong");
        let kept = Kept::of(&made(&recipe, language, Paper::Letter));
        kept.is_whole(Paper::Letter, EDGE);
        let (text, told) = (kept.text(), say.problem(problem));
        assert!(
            text.contains(&told.what.replace('\u{A0}', " ")),
            "{told:?} in {text}"
        );
    }
}

/// A picture of one red pixel (PNG, ISO/IEC 15948).
const PIXEL: &[u8] = &[
    0x89, b'P', b'N', b'G', 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d, b'I', b'H', b'D', b'R', 0, 0, 0,
    1, 0, 0, 0, 1, 8, 2, 0, 0, 0, 0x90, 0x77, 0x53, 0xde, 0, 0, 0, 0x0c, b'I', b'D', b'A', b'T',
    0x08, 0xd7, 0x63, 0xf8, 0xcf, 0xc0, 0, 0, 0x03, 0x01, 0x01, 0, 0x18, 0xdd, 0x8d, 0xb0, 0, 0, 0,
    0, b'I', b'E', b'N', b'D', 0xae, 0x42, 0x60, 0x82,
];

/// `qpdf` and Poppler's `pdfimages` read the file.
#[test]
fn a_photographed_paper_is_printed_as_it_was_photographed() {
    let photo = PhotoId::of_digest([7; 32]);
    let mut recipe = starters()[0].recipe.clone();
    for stock in &mut recipe.stocks {
        stock.face.photo = Some(photo);
        stock.back.photo = Some(photo);
    }
    let card = work_out(&recipe, &Tools::default());
    let made = |photos: &Photos| {
        let made = sheet(&Sheet {
            recipe: &recipe,
            card: &card,
            from: "",
            link: "",
            tongue: Language::English.tongue(),
            paper: Paper::A4,
            photos,
        });
        Kept::of(&made.expect("a sheet can be made"))
    };
    let images = |kept: &Kept| {
        kept.is_whole(Paper::A4, EDGE);
        let listed = asked("pdfimages", &["-list"], &kept.file);
        listed
            .lines()
            .filter(|line| line.contains(" image "))
            .count()
    };
    let with = Photos::new([(photo, PIXEL.to_vec())]);
    assert!(images(&made(&with)) > 0);
    let broken = Photos::new([(photo, PIXEL[..30].to_vec())]);
    for none in [Photos::default(), broken] {
        assert_eq!(images(&made(&none)), 0);
    }
}
