//! Letting go of what clashes.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::starters;
use foldwright_engine::refit::{Keep, Sheet, Wish, refit};

use crate::starting::size;

/// Each way out of a clash leads to a card by itself.
#[test]
fn every_way_out_of_a_clash_is_one() {
    let (mut clashes, mut ways) = (0, 0);
    for starter in starters() {
        for (finished, id) in [((20, 60), "trade-6x6-in"), ((90, 300), "iso-a6")] {
            let mut recipe = starter.recipe.clone();
            for measure in &mut recipe.measures {
                measure.pinned = true;
            }
            let wish = Wish {
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
            let Err(clash) = refit(&recipe, &wish) else {
                continue;
            };
            clashes += 1;
            for way in clash.ways_out(&recipe, &wish) {
                ways += 1;
                let (mut freed, mut asked) = (recipe.clone(), wish.clone());
                for free in &way.frees {
                    free.apply(&mut freed, &mut asked);
                }
                let found = refit(&freed, &asked);
                let words = way.words(&recipe, &wish);
                let found = found.unwrap_or_else(|still| panic!("{words}: {still:?}"));
                assert_eq!(found.finished, way.finished, "{}: {words}", starter.id);
            }
        }
    }
    println!("{clashes} clashes, {ways} ways out");
    assert!(clashes > 50 && ways > 100);
}
