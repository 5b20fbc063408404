//! Templates, as programs of others read them; their lengths are measured by
//! `tests/reference/templates.py`.

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
use foldwright_engine::recipe::{Recipe, Runs, Side, starters};
use foldwright_print::{Paper, Photos, Sheet, template};
use foldwright_words::{Language, starter};
use kept::{Kept, asked};
use strips::strip;

/// The edge that stays white, in millimetres; that of what is true to scale is 8.
const EDGE: f64 = 6.5;

fn made(recipe: &Recipe, language: Language, paper: Paper, side: Side) -> Kept {
    let card = work_out(recipe, &Tools::default());
    let of = Sheet {
        recipe,
        card: &card,
        from: "Harbour library",
        link: "",
        tongue: language.tongue(),
        paper,
        photos: &Photos::default(),
    };
    Kept::of(&template(&of, side).expect("templates can be made"))
}

fn fold(id: &str, language: Language) -> Recipe {
    let it = starters().iter().find(|starter| starter.id == id);
    let it = it.expect("there is such a fold");
    starter(language.tongue(), it, it.recipe.notation)
}

/// ISO 32000-1, 14.8 and ISO 14289-1, 7.1: the file is tagged and has its title; every
/// page says to be printed as it is and has its ruler.
#[test]
fn every_page_says_how_it_is_checked() {
    for language in Language::ALL {
        let texts = language.taken();
        for paper in Paper::ALL {
            for (side, seen) in [
                (Side::A, texts.seen_from_front),
                (Side::B, texts.seen_from_back),
            ] {
                let recipe = fold("nested", language);
                let kept = made(&recipe, language, paper, side);
                let pages = kept.is_whole(paper, EDGE);
                let text = kept.text();
                let ruler = texts.ruler("4 in");
                assert_eq!(text.matches(&ruler).count(), pages, "{text}");
                let knife = match language {
                    Language::English => "Sharp blade",
                    Language::German => "Scharfe Klinge",
                };
                for words in [texts.at_full_size, seen, knife, texts.bone_folder_care] {
                    assert!(text.contains(words), "{words} in {text}");
                }
                let about = asked("pdfinfo", &[], &kept.file);
                assert!(about.contains("Tagged:          yes"), "{about}");
            }
        }
    }
}

/// In millimetres the ruler is 100 mm, and a part says its size, how many there are and
/// from which paper.
#[test]
fn parts_say_what_they_are() {
    let language = Language::German;
    let mut recipe = fold("gate", language);
    recipe.notation = Notation {
        step: Step::HalfMillimetre,
        decimal: DecimalMark::Comma,
    };
    recipe.copies = 12;
    let text = made(&recipe, language, Paper::A4, Side::A).text();
    let texts = language.taken();
    let paper = texts.paper_of(&recipe.stocks[0].name);
    for words in [texts.ruler("100 mm"), texts.pieces(12), paper] {
        assert!(text.contains(&words), "{words} in {text}");
    }
}

/// A strip longer than a page is joined from several that say which each is; one that
/// would take more than anybody joins says so.
#[test]
fn long_strips_are_joined() {
    let language = Language::English;
    let texts = language.taken();
    let widths = [110; 5].map(Length::mm);
    let recipe = strip(&widths, Length::mm(100), "VMVM", 2, Runs::Across);
    for paper in Paper::ALL {
        let kept = made(&recipe, language, paper, Side::A);
        kept.is_whole(paper, EDGE);
        let text = kept.text();
        for page in 1..=3 {
            let words = texts.page_of_part(page, 3);
            assert!(text.contains(&words), "{words} in {text}");
        }
        assert!(text.contains(texts.how_to_join), "{text}");
    }
    let widths = [Length::mm(2500); 4];
    let endless = strip(&widths, Length::mm(2000), "VMV", 2, Runs::Across);
    let text = made(&endless, language, Paper::A4, Side::A).text();
    assert!(
        text.contains("Cut it by its measurements instead."),
        "{text}"
    );
}

/// The longest texts there may be (`foldwright_engine::recipe::MOST_TEXT`): nothing is
/// cut off, on one page or on several.
#[test]
fn the_longest_names_stand_there_whole() {
    let most = foldwright_engine::recipe::MOST_TEXT;
    for (id, language) in [
        ("patch-pocket", Language::German),
        ("letter", Language::English),
    ] {
        let mut recipe = fold(id, language);
        recipe.name = "Hafenbibliothek ".repeat(most / 16 - 1) + "Schlussstein";
        recipe.stocks[0].name = "M".repeat(most - 1) + "Q";
        for piece in &mut recipe.pieces {
            piece.name = "Kaimauer ".repeat(most / 9 - 2) + "Ende";
        }
        for paper in Paper::ALL {
            let kept = made(&recipe, language, paper, Side::A);
            kept.is_whole(paper, EDGE);
            let text = kept.text();
            assert_eq!(text.matches("Schlussstein").count(), 1, "{id}");
            assert!(text.replace(' ', "").contains("MQ"), "{id}");
            let pieces = recipe.pieces.len();
            assert!(text.matches("Ende").count() >= pieces, "{id}");
        }
    }
}
