//! Letting go of what clashes.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Measure, Recipe, starters};
use foldwright_engine::refit::{Clash, Keep, Sheet, Wish, refit};

use crate::starting::size as on;

/// What of a card is pinned.
const PINS: [fn(&Recipe, &Measure) -> bool; 4] = [
    |_, _| true,
    |_, _| false,
    |recipe, measure| measure.id == recipe.base.height,
    |recipe, measure| {
        recipe
            .base
            .panels
            .iter()
            .any(|panel| panel.width == measure.id)
    },
];

/// Each way out of a clash leads to a card by itself, of the size it says, and
/// there is one out of each.
#[test]
fn every_way_out_of_a_clash_is_one() {
    let (mut clashes, mut ways) = (0, 0);
    // Cards of scores alone, every third: each of them clashes in many ways, and
    // every way out is solved before it is offered.
    let scored = starters()
        .iter()
        .filter(|it| it.recipe.base.lines.is_empty() && it.recipe.pieces.is_empty());
    for starter in scored.step_by(3) {
        for (finished, id) in [((20, 60), "trade-6x6-in"), ((90, 300), "iso-a6")] {
            for pinned in PINS {
                let mut recipe = starter.recipe.clone();
                let pins = recipe.measures.iter().map(|it| pinned(&recipe, it));
                let pins: Vec<_> = pins.collect();
                for (measure, pin) in recipe.measures.iter_mut().zip(pins) {
                    measure.pinned = pin;
                }
                let size = |of: (i64, i64)| Size {
                    width: Length::mm(of.0),
                    height: Length::mm(of.1),
                };
                let sheet = Some(Sheet {
                    stock: recipe.base.stock,
                    size: on(id),
                    keep: Keep::Card,
                });
                let finished = Some(size(finished));
                for (sheet, finished) in [(sheet, finished), (sheet, None), (None, finished)] {
                    let wish = Wish {
                        sheet,
                        finished,
                        ..Wish::default()
                    };
                    if let Err(clash) = refit(&recipe, &wish) {
                        clashes += 1;
                        ways += lead_out(&recipe, &wish, &clash);
                    }
                }
            }
        }
    }
    println!("{clashes} clashes, {ways} ways out");
    assert!(clashes > 60 && ways > 100, "{clashes} clashes, {ways} ways");
}

/// How many ways lead out of a clash; all that are named do.
fn lead_out(recipe: &Recipe, wish: &Wish, clash: &Clash) -> usize {
    let ways = clash.ways_out(recipe, wish);
    assert!(!ways.is_empty(), "{}: {clash:?}", recipe.name);
    for way in &ways {
        let (mut freed, mut asked) = (recipe.clone(), wish.clone());
        for free in &way.frees {
            free.apply(&mut freed, &mut asked);
        }
        let releases = way.frees.iter().map(|free| free.release(recipe, wish));
        assert!(releases.clone().all(|it| it.is_some()), "{way:?}");
        let found = refit(&freed, &asked);
        let found = found.unwrap_or_else(|still| panic!("{way:?}: {still:?}"));
        assert_eq!(found.finished, way.finished, "{way:?}");
    }
    ways.len()
}
