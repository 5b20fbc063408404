//! Every starting fold at several sizes and on several papers.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

use foldwright_engine::card::{Card, Tools, closed_size, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::plane::SAME_WITHIN;
use foldwright_engine::problem::{Finding, FitFinding, Place, Weight};
use foldwright_engine::recipe::{MeasureId, Recipe, Starter, starters};

const MILLIMETRES: Notation = Notation {
    step: Step::HalfMillimetre,
    decimal: DecimalMark::Point,
};

/// A starting fold with all its own measures in proportion. The allowance for
/// panels folded in is that of the paper, whatever the size.
fn scaled(starter: &Starter, percent: i64) -> Recipe {
    let mut recipe = starter.recipe_in(MILLIMETRES);
    let allowance = recipe.folding_in.allowance;
    let values: Vec<(MeasureId, Length)> = starter
        .metric
        .measures
        .iter()
        .map(|(id, value)| {
            let scaled = Length::from_units(value.units() * percent / 100);
            (*id, if *id == allowance { *value } else { scaled })
        })
        .collect();
    recipe
        .settle(&values, &[], &[])
        .expect("a fold in proportion holds together");
    recipe
}

/// What keeps a card from being made, apart from too little paper.
fn in_the_way(card: &Card) -> Vec<Finding> {
    let problems = card.problems.iter();
    problems
        .filter(|problem| problem.weight == Weight::Stop && problem.place != Place::Paper)
        .map(|problem| problem.finding.clone())
        .filter(|found| !matches!(found, Finding::Fit(FitFinding::TooLarge { .. })))
        .collect()
}

#[test]
fn every_starting_fold_works_at_four_sizes() {
    for starter in starters() {
        for percent in [70, 100, 130, 160] {
            let recipe = scaled(starter, percent);
            let what = format!("{} at {percent} %", starter.id);
            assert_eq!(recipe.broken(), [], "{what}");
            let card = work_out(&recipe, &Tools::default());
            assert_eq!(in_the_way(&card), [], "{what}");
            // Nothing glued in sticks out of the closed card.
            if !recipe.pieces.is_empty() {
                let mut base = recipe.clone();
                base.pieces.clear();
                let bare = closed_size(&base);
                let past = |all: Length, own: Length| (all - own).abs() > SAME_WITHIN;
                assert!(!past(card.finished.width, bare.width), "{what}");
                assert!(!past(card.finished.height, bare.height), "{what}");
            }
            let folded = card.folded.expect("it folds flat");
            let last = folded.states.last().expect("it opens");
            let flat = last.size();
            let strip = card.laid.base.size;
            let sides = [(flat.width, flat.height), (flat.height, flat.width)];
            // Opened to the end it lies flat, less what was cut away; what is
            // glued in may reach past it then.
            assert!(
                !recipe.pieces.is_empty()
                    || sides
                        .iter()
                        .any(|(a, b)| *a <= strip.width && *b <= strip.height),
                "{what}"
            );
        }
    }
}

/// On Letter (8 1/2 × 11 in, ANSI/ASME Y14.1 size A), A4 (ISO 216) and 12 × 12 in
/// (common practice) each starting fold is cut from the sheet, or it is said
/// that the sheet is too small.
#[test]
fn every_starting_fold_fits_its_sheet_or_says_why_not() {
    let sheets = [
        (Length::sixty_fourths(544), Length::inches(11)),
        (Length::mm(210), Length::mm(297)),
        (Length::inches(12), Length::inches(12)),
    ];
    for starter in starters() {
        for percent in [70, 100, 160] {
            for (width, height) in sheets {
                let mut recipe = scaled(starter, percent);
                let base = recipe.base.stock;
                for stock in &mut recipe.stocks {
                    // What is glued on has paper enough.
                    let plenty = (Length::mm(1000), Length::mm(1000));
                    let size = if stock.id == base {
                        (width, height)
                    } else {
                        plenty
                    };
                    (stock.width, stock.height) = size;
                }
                let card = work_out(&recipe, &Tools::default());
                let strip = card.laid.base.size;
                let fits = (strip.width <= width && strip.height <= height)
                    || (strip.height <= width && strip.width <= height);
                let refused = card
                    .problems
                    .iter()
                    .any(|problem| problem.weight == Weight::Stop && problem.place == Place::Paper);
                assert_eq!(fits, !refused, "{} at {percent} %", starter.id);
                assert_eq!(in_the_way(&card), [], "{}", starter.id);
            }
        }
    }
}
