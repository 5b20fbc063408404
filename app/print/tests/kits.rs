//! Kits to print, as programs of others read them: `qpdf`, which checks the file
//! itself, and Poppler's `pdftotext`, which says what stands where.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod class;
mod kept;

use class::planned;
use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::care::Hazard;
use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{MOST_TEXT, Recipe, Takes, Wraps, starters};
use foldwright_engine::steps::Instruction;
use foldwright_print::{Kits, Paper, Photos, Sheet, kits, sheet};
use foldwright_words::{Language, Speaker, starter};
use kept::Kept;

/// The edge of a page that stays white, in millimetres; it is 14.
const EDGE: f64 = 12.0;

fn begun(id: &str, language: Language) -> (Recipe, Card) {
    let found = starters().iter().find(|starter| starter.id == id);
    let found = found.expect("it is there");
    let recipe = starter(language.tongue(), found, found.recipe.notation);
    let card = work_out(&recipe, &Tools::default());
    (recipe, card)
}

fn made(
    (recipe, card): (&Recipe, &Card),
    (language, paper): (Language, Paper),
    [makers, spare]: [u32; 2],
    plan: Option<&CutPlan>,
) -> Kept {
    let made = kits(&Kits {
        of: Sheet {
            recipe,
            card,
            from: "",
            link: "",
            tongue: language.tongue(),
            paper,
            photos: &Photos::default(),
        },
        makers,
        spare,
        plan,
    });
    Kept::of(&made.expect("kits can be made"))
}

/// A text without the breaks of its lines.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Two bases of 8½ × 5½ in come from a sheet of Letter: 24 makers and three to spare
/// take 14 sheets, as it is counted in `tests/browser/class.test.js` too.
#[test]
fn a_class_is_counted_cut_and_labelled() {
    for language in Language::ALL {
        let (recipe, card) = begun("book", language);
        let plan = planned(&recipe, &card, 27, &[]).expect("a plan");
        let (texts, say) = (language.kits(), Speaker::of(language.tongue(), &recipe));
        for paper in Paper::ALL {
            let kept = made((&recipe, &card), (language, paper), [24, 3], Some(&plan));
            kept.is_whole(paper, EDGE);
            let text = kept.text();
            let times = |words: &str| text.matches(&plain(words)).count();
            for number in 1..=24 {
                assert_eq!(times(&texts.kit_of(number, 24)), 1, "{number} in {text}");
            }
            for number in 1..=3 {
                assert_eq!(times(&texts.spare_kit_of(number, 3)), 1, "{number}");
            }
            let sheets = match language {
                Language::English => "14 sheets",
                Language::German => "14 Bogen",
            };
            assert_eq!(times(sheets), 1, "{text}");
            assert_eq!(times(&texts.for_makers(24, 3)), 1);
            assert_eq!(times(texts.also_in_it), 27);
            // As many of each part as a card takes, in a kit and in all.
            let rows = say.cut_rows(&recipe, &card);
            for ([name, size, of], blank) in rows.iter().zip(&card.cut_list.blanks) {
                let all = 27 * blank.per_card;
                let row = format!("{name} {size} {of} {} {all}", blank.per_card);
                assert_eq!(times(&row), 1, "{row} in {text}");
                let row = format!("{name} {size} {}", blank.per_card);
                assert_eq!(times(&row), 27, "{row} in {text}");
            }
            // Each setting of the fence, in the order of the plan.
            let mut rest = &*text;
            for setting in &plan.settings {
                let words = plain(&say.instruction(&Instruction::SetFence(setting.fence)));
                let (_, after) = rest.split_once(&words).expect(&words);
                rest = after;
            }
            // Of what can hurt is told whole once, and then by its name.
            let caution = say.caution(Hazard::Guillotine);
            assert_eq!(times(caution.words), 1);
            assert!(times(caution.title) > plan.settings.len());
        }
    }
}

/// A scrap of 8½ × 6 in gives a base: of three cards one is cut from it, as in
/// `tests/browser/class.test.js`. Without a plan no part shares a sheet.
#[test]
fn scraps_are_on_the_list_where_a_plan_takes_them() {
    let language = Language::English;
    let (recipe, card) = begun("book", language);
    let scraps = [Scraps {
        stock: recipe.base.stock,
        size: Size {
            width: Length::sixty_fourths(64 * 17 / 2),
            height: Length::inches(6),
        },
        count: 2,
    }];
    let plan = planned(&recipe, &card, 3, &scraps).expect("a plan");
    let used: u32 = plan.scraps.iter().map(|scraps| scraps.count).sum();
    assert!(used > 0);
    let said = |plan| {
        let on = (language, Paper::Letter);
        made((&recipe, &card), on, [3, 0], plan).text()
    };
    let row = format!("8½ × 6 in {used}");
    assert!(said(Some(&plan)).contains(&row));
    let alone = said(None);
    assert!(!alone.contains("8½ × 6 in") && alone.contains("2 sheets"));
    assert!(alone.contains("Kit 3 of 3") && !alone.contains("Spare kit"));
}

/// Three gems a card are nine for three makers, which no label counts; a ribbon is as
/// long as the engine's own tests find by hand. The sheet of the recipe has both too.
#[test]
fn what_is_not_paper_is_on_the_list_and_on_every_label() {
    for language in Language::ALL {
        let (mut recipe, card) = begun("book", language);
        let ribbon = Takes::Ribbon {
            wraps: Wraps::BothWays,
            knot: Length::inches(10),
        };
        recipe.copies = 3;
        recipe.add_supply("gems", Takes::Count(3)).expect("room");
        recipe.add_supply("satin", ribbon).expect("room");
        recipe.posting.made_of = Some(recipe.base.stock);
        let say = Speaker::of(language.tongue(), &recipe);
        let rows = say.supply_rows(&recipe, &card, 3);
        let [_, [_, each, all]] = &rows[..] else {
            panic!("two supplies");
        };
        let on = (language, Paper::A4);
        let text = made((&recipe, &card), on, [3, 0], None).text();
        let times = |words: &str| text.matches(&plain(words)).count();
        let paper = &recipe.stock(recipe.base.stock).expect("it is there").name;
        let envelope = language.kits().envelope_made_of(paper);
        for (row, often) in [
            ("gems – 9".to_owned(), 1),
            ("gems 3".to_owned(), 3),
            (format!("satin – {all}"), 1),
            (format!("satin {each}"), 3),
            (envelope, 4),
        ] {
            assert_eq!(times(&row), often, "{row} in {text}");
        }
        let sheet = sheet(&Sheet {
            recipe: &recipe,
            card: &card,
            from: "",
            link: "",
            tongue: language.tongue(),
            paper: Paper::Letter,
            photos: &Photos::default(),
        });
        let text = Kept::of(&sheet.expect("a sheet can be made")).text();
        assert!(
            text.contains(&plain(language.kits().besides_paper)),
            "{text}"
        );
        for row in ["gems 3 9".to_owned(), format!("satin {each} {all}")] {
            assert!(text.contains(&plain(&row)), "{row} in {text}");
        }
    }
}

/// The longest texts there may be (`foldwright_engine::recipe::MOST_TEXT`): each label
/// has all of its words, on as many as it takes, and none of them is cut off.
#[test]
fn no_label_loses_a_word() {
    let language = Language::German;
    let (mut recipe, _) = begun("book", language);
    recipe.name = "Hafenbibliothek ".repeat(MOST_TEXT / 16 - 1) + "Schlussstein";
    recipe.layers[0].name = "M".repeat(MOST_TEXT - 1) + "Q";
    let card = work_out(&recipe, &Tools::default());
    for paper in Paper::ALL {
        let kept = made((&recipe, &card), (language, paper), [3, 1], None);
        assert!(kept.is_whole(paper, EDGE) > 8);
        let text = kept.text();
        // The title and each label, none of them in the foot of a page.
        assert_eq!(text.matches("Schlussstein").count(), 5);
        let endless = text.replace(' ', "");
        assert!(endless.matches("MQ").count() >= 5);
        let again = language.kits().continued(&language.kits().kit_of(2, 3));
        assert!(text.contains(&again), "{text}");
    }
}
