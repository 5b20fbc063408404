//! The square code of a sheet as a camera reads it: drawn by Poppler's `pdftoppm`,
//! found and read by the crate `rqrr` (ISO/IEC 18004), which shares no code with what
//! writes it.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod drawn;
mod kept;

use drawn::{Drawn, longest_link};
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::recipe::starters;
use foldwright_print::{Paper, Photos, Sheet, sheet};
use foldwright_words::{Language, starter};
use kept::Kept;

fn made(link: &str, language: Language, paper: Paper) -> Kept {
    let gate = starters().iter().find(|starter| starter.id == "gate");
    let gate = gate.expect("there is a gate");
    let recipe = starter(language.tongue(), gate, gate.recipe.notation);
    let card = work_out(&recipe, &Tools::default());
    let made = sheet(&Sheet {
        recipe: &recipe,
        card: &card,
        from: "Harbour library",
        link,
        tongue: language.tongue(),
        paper,
        photos: &Photos::default(),
    });
    Kept::of(&made.expect("a sheet can be made"))
}

#[test]
fn a_camera_finds_the_live_page() {
    let usual = format!("https://cards.example.org/shared/{}", "a1".repeat(32));
    for link in [usual, longest_link()] {
        for language in Language::ALL {
            for paper in Paper::ALL {
                let kept = made(&link, language, paper);
                kept.is_whole(paper, 12.0);
                let codes = Drawn::of(&kept, 1, 400).codes();
                let [(says, wide)] = &codes[..] else {
                    panic!("{codes:?}");
                };
                assert_eq!(*says, link);
                assert!((20.0..34.0).contains(wide), "{wide} mm");
                let text = kept.text().replace(' ', "");
                assert!(text.contains(&link), "{text}");
            }
        }
    }
}

#[test]
fn without_a_link_there_is_no_code() {
    for language in Language::ALL {
        let kept = made("", language, Paper::A4);
        assert!(Drawn::of(&kept, 1, 400).codes().is_empty());
        assert!(!kept.text().contains("http"));
    }
}
