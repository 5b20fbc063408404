//! Letting go of what clashes.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::starters;
use foldwright_engine::refit::{Clash, Keep, Sheet, Wish, refit};

use crate::starting::size;

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
