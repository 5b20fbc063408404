//! What can be made from a scrap.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_engine::refit::from_scrap;

fn all() -> Vec<Recipe> {
    let notation = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    let starters = starters().iter();
    starters
        .map(|starter| starter.recipe_in(notation))
        .collect()
}

#[test]
fn a_whole_sheet_changes_nothing() {
    let recipes = all();
    let sheet = Size {
        width: Length::inches(12),
        height: Length::inches(12),
    };
    let fits = from_scrap(&recipes, sheet, None);
    assert_eq!(fits.len(), recipes.len());
    assert!(fits.iter().all(|fit| fit.lost == 0));
}

#[test]
fn smaller_scraps_cost_more_and_the_least_comes_first() {
    let recipes = all();
    let mut before = recipes.len();
    for inches in [8, 6, 4, 2, 1] {
        let scrap = Size {
            width: Length::inches(inches),
            height: Length::inches(3),
        };
        let fits = from_scrap(&recipes, scrap, None);
        assert!(fits.len() <= before, "{inches}");
        before = fits.len();
        for fit in &fits {
            let recipe = &fit.refit.recipe;
            let [length, height] =
                [recipe.base.length, recipe.base.height].map(|id| recipe.value(id));
            let (long, short) = (length.max(height), length.min(height));
            assert!(long <= scrap.width.max(scrap.height));
            assert!(short <= scrap.width.min(scrap.height));
        }
        assert!(fits.is_sorted_by_key(|fit| (fit.refit.given_up.len(), fit.lost)));
    }
    assert!(before < recipes.len());
}
