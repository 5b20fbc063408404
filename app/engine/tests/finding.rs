//! By what the folds to start from are found: how each works and what it does, as the
//! recipes have it.

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::recipe::{Does, FoldGroup, Recipe, Side, Starter, starters};
use foldwright_engine::sight::{Sight, sights};

fn worked_out(starter: &Starter) -> (Recipe, Card) {
    let recipe = starter.recipe_in(Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    });
    let card = work_out(&recipe, &Tools::default());
    (recipe, card)
}

#[test]
fn each_fold_does_what_it_is_found_by() {
    let mut found = Vec::new();
    for starter in starters() {
        let (recipe, card) = worked_out(starter);
        let shown = |side| {
            let mut seen = sights(&card).into_iter();
            seen.any(|seen| seen.face.side == side && seen.sight == Sight::Front)
        };
        let does = [
            (Does::OneSheet, recipe.pieces.is_empty()),
            (Does::ShowsBothSides, shown(Side::A) && shown(Side::B)),
            (Does::Rises, card.whole.is_some()),
        ];
        let does: Vec<_> = does.into_iter().filter(|(_, does)| *does).collect();
        let does: Vec<_> = does.into_iter().map(|(what, _)| what).collect();
        found.push((&starter.id, does));
    }
    let told = starters().iter();
    let told: Vec<_> = told.map(|it| (&it.id, it.does.clone())).collect();
    assert_eq!(told, found);
}

#[test]
fn each_fold_is_in_the_group_it_works_like() {
    for starter in starters() {
        let (recipe, card) = worked_out(starter);
        let is = |group| starter.group == group;
        let id = &starter.id;
        assert_eq!(is(FoldGroup::Glued), !recipe.pieces.is_empty(), "{id}");
        let is_of_one = recipe.pieces.is_empty();
        assert_eq!(
            is(FoldGroup::Rising),
            is_of_one && card.whole.is_some(),
            "{id}"
        );
        let is_plain = recipe.base.lines.is_empty() && recipe.base.cutouts.is_empty();
        assert_eq!(is(FoldGroup::Strip), is_of_one && is_plain, "{id}");
    }
    for group in FoldGroup::ALL {
        assert!(starters().iter().any(|starter| starter.group == group));
    }
    for does in Does::ALL {
        assert!(
            starters()
                .iter()
                .any(|starter| starter.does.contains(&does))
        );
    }
}
