//! Letting go, tying, and what a refit loses.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::Grain;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Holds, Recipe, starters};
use foldwright_engine::refit::{Clash, Keep, Loss, Sheet, Wish, keeping_count, losses, refit};

use crate::starting::size;

fn starter(id: &str) -> Recipe {
    let found = starters().iter().find(|starter| starter.id == id);
    found.expect("it is a starting fold").recipe.clone()
}

/// Whatever clashes, letting go of its causes one after another comes to a card
/// or to paper that must be something.
#[test]
fn letting_go_leads_out_of_every_clash() {
    let mut clashes = 0;
    for starter in starters() {
        for (finished, id) in [((20, 60), "trade-6x6-in"), ((90, 300), "iso-a6")] {
            let mut recipe = starter.recipe.clone();
            for measure in &mut recipe.measures {
                measure.pinned = true;
            }
            let mut wish = Wish {
                sheet: Some(Sheet {
                    stock: recipe.base.stock,
                    size: size(id),
                    keep: Keep::Card,
                }),
                finished: Some(Size {
                    width: Length::mm(finished.0),
                    height: Length::mm(finished.1),
                }),
                ..Wish::default()
            };
            let mut rounds = 0;
            while let Err(clash) = refit(&recipe, &wish) {
                clashes += 1;
                let Clash::Between { .. } = clash else { break };
                let Some(free) = clash.ways_out().last().copied() else {
                    break;
                };
                let (was, asked) = (recipe.clone(), wish.clone());
                free.apply(&mut recipe, &mut wish);
                assert!(recipe != was || wish != asked, "{free:?} did nothing");
                rounds += 1;
                assert!(rounds < 200, "{} never comes free", starter.id);
            }
        }
    }
    assert!(clashes > 50, "only {clashes} clashes were met");
}

#[test]
fn tied_numbers_move_together_until_they_are_untied() {
    let mut recipe = starter("own");
    let [one, two] = [0, 1].map(|panel| recipe.base.panels[panel].width);
    let apart = recipe.value(two) - recipe.value(one);
    recipe.tie_apart(two, one).expect("nothing is in the way");
    recipe
        .set(one, Length::inches(4))
        .expect("nothing is in the way");
    assert_eq!(recipe.value(two), Length::inches(4) + apart);
    recipe
        .untie(recipe.relations.len() - 1)
        .expect("it is there");
    recipe.tie_equal(two, one).expect("nothing is in the way");
    assert_eq!(recipe.value(two), Length::inches(4));
    recipe
        .let_hold(recipe.relations.len() - 1, Holds::Should)
        .expect("it is there");
    assert!(recipe.untie(99).is_err() && recipe.prefer(0).is_err());
    assert!(
        recipe
            .limit(one, Some(Length::inches(5)), Some(Length::inches(4)))
            .is_err()
    );
    assert!(recipe.tie_equal(one, one).is_err());
}

/// A quarter of Letter is 4 1/4 × 5 1/2 in (common practice): two strips of
/// 8 1/2 × 5 1/2 in come from a sheet, and one where a card is a little higher.
#[test]
fn a_card_that_costs_a_strip_says_so_and_one_that_keeps_it_is_found() {
    let recipe = starter("book");
    let before = work_out(&recipe, &Tools::default());
    let wish = Wish {
        notation: Some(Notation {
            step: Step::Millimetre,
            decimal: DecimalMark::Point,
        }),
        finished: Some(Size {
            width: Length::mm(105),
            height: Length::mm(148),
        }),
        ..Wish::default()
    };
    let larger = refit(&recipe, &wish).expect("there is such a card");
    let card = work_out(&larger.recipe, &Tools::default());
    let lost = losses(&before, &card);
    assert_eq!(lost, [Loss::Yield { from: 2, to: 1 }]);
    assert_eq!(
        lost[0].words(&recipe),
        "A sheet gives 1 card where it gave 2 cards."
    );
    // Without the wish for that height, two still come from the sheet.
    let loose = Wish {
        finished: None,
        ..wish
    };
    let (_, kept) = keeping_count(&recipe, &loose).expect("there is such a card");
    let card = work_out(&kept.recipe, &Tools::default());
    assert_eq!(losses(&before, &card), []);
}

#[test]
fn folds_that_come_to_run_across_the_grain_are_told() {
    let mut recipe = starter("book");
    for stock in &mut recipe.stocks {
        stock.grain = Grain::AlongHeight;
    }
    let before = work_out(&recipe, &Tools::default());
    let mut turned = recipe.clone();
    for stock in &mut turned.stocks {
        stock.grain = Grain::AlongWidth;
    }
    let after = work_out(&turned, &Tools::default());
    let along = |card: &foldwright_engine::card::Card| {
        let print = card.print.as_ref().expect("it has paper");
        let report = print.lays.iter().find(|report| report.lay == print.lay);
        report.and_then(|report| report.along_grain)
    };
    let told = losses(&before, &after).contains(&Loss::Grain);
    assert_eq!(
        told,
        along(&before) != Some(false) && along(&after) == Some(false)
    );
    let told_back = losses(&after, &before).contains(&Loss::Grain);
    assert!(told != told_back, "one way or the other they run across it");
}
