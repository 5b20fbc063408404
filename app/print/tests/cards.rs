//! Recipe cards as programs of others read and draw them: `qpdf`, Poppler's `pdftotext`
//! and `pdftoppm`, and the crate `rqrr`. Cut apart, each card is whole.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod drawn;
mod kept;
#[path = "../../engine/tests/strips/mod.rs"]
mod strips;

use std::collections::{BTreeMap, BTreeSet};

use drawn::{Drawn, longest_link};
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{MOST_TEXT, Recipe, Runs, Takes, starters};
use foldwright_engine::steps::steps;
use foldwright_print::{Paper, Photos, Sheet, cards};
use foldwright_words::{Language, Speaker, starter};
use kept::{Kept, asked};
use strips::strip;

/// The white inside the edges of a card, in millimetres; it is 8.
const EDGE: f64 = 7.5;

fn made(recipe: &Recipe, link: &str, language: Language, paper: Paper) -> Kept {
    let card = work_out(recipe, &Tools::default());
    let made = cards(&Sheet {
        recipe,
        card: &card,
        from: "Harbour library",
        link,
        tongue: language.tongue(),
        paper,
        photos: &Photos::default(),
    });
    Kept::of(&made.expect("cards can be made"))
}

/// Fails where a word of a card is missing on another, or not within its edges; where
/// something is drawn between them but the lines to cut along; where there are more
/// pages than two. How many there are.
fn can_be_cut_apart(kept: &Kept, paper: Paper) -> u8 {
    let pages = kept.is_whole(paper, EDGE);
    assert!((1..=2).contains(&pages), "{pages} pages");
    let [width, tall] = paper.size().map(|side| f64::from(side) / 2.0);
    let boxes = asked("pdftotext", &["-bbox"], &kept.file);
    let number = |line: &str, name: &str| -> f64 {
        let (_, rest) = line.split_once(&format!("{name}=\"")).expect("a number");
        let (number, _) = rest.split_once('"').expect("its end");
        number.parse().expect("a number")
    };
    let mut seen: BTreeMap<(String, i64, i64), usize> = BTreeMap::new();
    let edge = EDGE / 25.4 * 72.0;
    for page in boxes.split("<page ").skip(1) {
        seen.clear();
        for line in page.lines().filter(|line| line.contains("<word ")) {
            let [left, right] = ["xMin", "xMax"].map(|name| number(line, name));
            let [top, bottom] = ["yMin", "yMax"].map(|name| number(line, name));
            let card = [(left / width).floor(), (top / tall).floor()];
            let [from, down] = [left - card[0] * width, top - card[1] * tall];
            assert!(
                from >= edge && from + right - left <= width - edge,
                "{line}"
            );
            // Poppler counts the room of a line to its words, not their letters alone.
            assert!(
                down >= edge - 6.0 && down + bottom - top <= tall - edge + 6.0,
                "{line}"
            );
            let word = line.split_once('>').map_or("", |(_, word)| word);
            #[expect(clippy::cast_possible_truncation, reason = "points on a page")]
            let at = [from, down].map(|it| (it * 4.0).round() as i64 / 2);
            *seen.entry((word.to_owned(), at[0], at[1])).or_default() += 1;
        }
        let all: usize = seen.values().sum();
        assert_eq!(all % 4, 0, "{seen:?}");
    }
    let pages = u8::try_from(pages).expect("a few");
    for page in 1..=pages {
        white_between(&Drawn::of(kept, page, 100));
    }
    pages
}

/// Fails where something is drawn between a millimetre and seven from where cards are
/// cut apart, or at the edge of the page.
fn white_between(drawn: &Drawn) {
    let dots = |millimetres: f64| {
        #[expect(clippy::cast_possible_truncation, reason = "a few dots")]
        let dots = (millimetres / 25.4 * f64::from(drawn.dots)).round() as i32;
        dots
    };
    let [wide, high] = [drawn.width, drawn.height].map(|side| i32::try_from(side).expect("few"));
    let is_line = |at: i32, whole: i32| (at - whole / 2).abs() < dots(1.0);
    let is_white = |at: i32, whole: i32| {
        let from_line = (at - whole / 2).abs().min(at).min(whole - at);
        from_line < dots(7.0)
    };
    for x in 0..wide {
        for y in 0..high {
            let on_line = is_line(x, wide) || is_line(y, high);
            if !on_line && (is_white(x, wide) || is_white(y, high)) {
                assert!(drawn.shade(x, y) > 250, "{x}, {y} of {wide} × {high}");
            }
        }
    }
}

/// The four cards of a page: left before right, upper before lower.
fn apart(drawn: &Drawn) -> [Drawn; 4] {
    let (width, height) = (drawn.width / 2, drawn.height / 2);
    [[0, 0], [width, 0], [0, height], [width, height]].map(|[left, top]| {
        let rows = (top..top + height).map(|y| y * drawn.width + left);
        let shades = rows.flat_map(|from| &drawn.shades[from..from + width]);
        Drawn {
            width,
            height,
            dots: drawn.dots,
            shades: shades.copied().collect(),
        }
    })
}

/// The codes of the cards of a page, one card at a time as they are cut apart; nearer
/// where a camera does not find one at once.
fn codes(kept: &Kept, page: u8) -> Vec<(String, f64)> {
    let mut found = vec![Vec::new(); 4];
    for dots in [400, 600, 250] {
        if found.iter().all(|codes| !codes.is_empty()) {
            break;
        }
        let cards = apart(&Drawn::of(kept, page, dots));
        for (codes, card) in found.iter_mut().zip(cards) {
            if codes.is_empty() {
                *codes = card.codes();
            }
        }
    }
    found.concat()
}

/// The text of the first card, front and back.
fn text(kept: &Kept, paper: Paper) -> String {
    let [width, tall] = paper.size().map(|side| (side / 2.0).floor().to_string());
    let area = [
        "-raw", "-r", "72", "-x", "0", "-y", "0", "-W", &width, "-H", &tall,
    ];
    let text = asked("pdftotext", &area, &kept.file);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn of_starter(id: &str, language: Language) -> Recipe {
    let it = starters().iter().find(|starter| starter.id == id);
    let it = it.expect("there is one");
    starter(language.tongue(), it, it.recipe.notation)
}

/// ISO 216 and ANSI/ASME Y14.1: a quarter of A4 is 105 × 148.5 mm, of Letter 4¼ × 5½ in.
#[test]
fn every_starting_fold_has_cards_in_each_language_on_each_paper() {
    let mut more = 0;
    for language in Language::ALL {
        for it in starters() {
            let recipe = starter(language.tongue(), it, it.recipe.notation);
            for paper in Paper::ALL {
                let kept = made(&recipe, "", language, paper);
                can_be_cut_apart(&kept, paper);
                // All of its steps and its note are there, or it says that there is more.
                let card = work_out(&recipe, &Tools::default());
                let steps = steps(&recipe, &card);
                let say = Speaker::of(language.tongue(), &recipe);
                let last = steps.last().map(|step| say.step(step)).expect("steps");
                let last = format!("{} {}: {}", steps.len(), last.kind, last.title);
                let text = text(&kept, paper);
                // Lines end after hyphens too.
                let unbroken = |words: &str| words.split_whitespace().collect::<String>();
                let has = |words: &str| unbroken(&text).contains(&unbroken(words));
                let is_whole = has(&last) && has(&recipe.about);
                let tells = text.contains(language.printed().more_on_sheet);
                assert_ne!(is_whole, tells, "{}: {text}", it.id);
                more += usize::from(tells);
                let about = asked("pdfinfo", &[], &kept.file);
                let title = language.printed().card_of(&recipe.name);
                assert!(about.contains(&title), "{about}");
            }
        }
    }
    // Hardly any is too large for a card.
    assert!(more <= 12, "{more} say so");
}

/// What a card says, in the order in which it is read.
#[test]
fn a_card_is_read_from_its_name_to_its_steps() {
    for language in Language::ALL {
        let recipe = of_starter("gate", language);
        let kept = made(&recipe, "", language, Paper::A4);
        let shared = &language.tongue().texts().shared;
        let card = work_out(&recipe, &Tools::default());
        let say = Speaker::of(language.tongue(), &recipe);
        let steps = steps(&recipe, &card);
        let step = steps.first().map(|step| say.step(step)).expect("steps");
        let text = text(&kept, Paper::A4);
        let mut rest = text.as_str();
        let first = format!("1 {}: {}", step.kind, step.title).replace('\u{a0}', " ");
        for words in [
            recipe.name.as_str(),
            "Harbour library",
            shared.what_to_cut,
            "8⅜ × 5½ in",
            shared.scores,
            "6⁵⁄₁₆ in",
            shared.step_by_step,
            &first,
        ] {
            let Some((_, after)) = rest.split_once(words) else {
                panic!("{words} in {text}");
            };
            rest = after;
        }
        let whole = kept.text();
        let cut = language.printed().cut_apart;
        assert_eq!(whole.matches(cut).count(), 4, "{cut} in {whole}");
        // Customary care beside what is to be cut (art teachers' guidance on cutting
        // tools, see the engine's `care`).
        let care = say.cautions(
            &[foldwright_engine::care::Hazard::Knife],
            &mut BTreeSet::default(),
        );
        let care = care[0].1.clone().expect("words");
        assert_eq!(whole.matches(&care).count(), 4, "{care} in {whole}");
    }
}

/// Each card leads to the live page.
#[test]
fn a_camera_finds_the_live_page_on_each_card() {
    for paper in Paper::ALL {
        for link in ["https://cards.example.org/shared/a1b2", &longest_link()] {
            let kept = made(
                &of_starter("book", Language::English),
                link,
                Language::English,
                paper,
            );
            let pages = can_be_cut_apart(&kept, paper);
            let codes = (1..=pages).flat_map(|page| codes(&kept, page));
            let codes: Vec<_> = codes.collect();
            assert_eq!(codes.len(), 4, "{codes:?}");
            assert!(
                codes
                    .iter()
                    .all(|(says, wide)| says == link && *wide >= 20.0)
            );
        }
    }
}

/// The longest texts there may be (`foldwright_engine::recipe::MOST_TEXT`), without a
/// space and with: what a card has no room for is said to be on the sheet.
#[test]
fn what_has_no_room_is_told() {
    for language in Language::ALL {
        for endless in ["M".repeat(MOST_TEXT), "Hafen ".repeat(MOST_TEXT / 6)] {
            let mut recipe = of_starter("gate", language);
            recipe.name.clone_from(&endless);
            recipe.about.clone_from(&endless);
            recipe.stocks[0].name = endless;
            for paper in Paper::ALL {
                let kept = made(&recipe, &longest_link(), language, paper);
                can_be_cut_apart(&kept, paper);
                let more = language.printed().more_on_sheet;
                assert_eq!(kept.text().matches(more).count(), 4, "{}", kept.text());
            }
        }
    }
}

/// As many panels as a recipe may have (README, “Limits”): a card says the first of
/// them, and that there are more.
#[test]
fn a_card_of_120_panels_is_told_as_far_as_there_is_room() {
    let widths = vec![Length::mm(30); 120];
    let folds = "VM".repeat(60);
    let recipe = strip(&widths, Length::mm(100), &folds[..119], 1, Runs::Across);
    for language in Language::ALL {
        let kept = made(&recipe, "", language, Paper::Letter);
        assert_eq!(can_be_cut_apart(&kept, Paper::Letter), 2);
        let text = kept.text();
        assert_eq!(text.matches(language.printed().more_on_sheet).count(), 4);
        assert_eq!(text.matches(language.printed().print_both_sides).count(), 4);
    }
}

/// What it takes besides paper is on each of the four cards.
#[test]
fn what_is_not_paper_stands_on_each_card() {
    let mut recipe = strip(&[Length::mm(105); 2], Length::mm(148), "V", 0, Runs::Across);
    for (name, takes) in [("gems", Takes::Count(3)), ("glue", Takes::Share(40))] {
        recipe.add_supply(name, takes).expect("there is room");
    }
    let text = made(&recipe, "", Language::English, Paper::A4).text();
    for row in ["gems: 3", "glue: 1/40"] {
        assert_eq!(text.matches(row).count(), 4, "{row} in {text}");
    }
}
