//! What a clash names, and nothing else of a recipe: a second way to tell
//! whether some of it can hold together.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Cut, Placing, Recipe};
use foldwright_engine::refit::{Cause, Keep, Sheet, Wish, refit};

/// A size nothing is too large for.
const PLENTY: Size = Size {
    width: Length::mm(2000),
    height: Length::mm(2000),
};

/// A recipe and a wish with nothing left to hold but these causes, and what holds
/// of anything made of paper.
fn only(before: &Recipe, wish: &Wish, causes: &[Cause]) -> (Recipe, Wish) {
    let named = |cause: Cause| causes.contains(&cause);
    let mut recipe = before.clone();
    let mut place = 0;
    recipe.relations.retain(|_| {
        place += 1;
        named(Cause::Relation(place - 1))
    });
    for measure in &mut recipe.measures {
        measure.least = measure.least.filter(|_| named(Cause::Least(measure.id)));
        measure.most = measure.most.filter(|_| named(Cause::Most(measure.id)));
        measure.pinned &= named(Cause::Pinned(measure.id));
    }
    for layer in &mut recipe.layers {
        if !named(Cause::Layer(layer.id)) {
            layer.place = Placing::Distances;
        }
    }
    for stock in &mut recipe.stocks {
        if !named(Cause::Paper(stock.id)) {
            (stock.width, stock.height) = (PLENTY.width, PLENTY.height);
        }
    }
    let pieces = recipe.pieces.iter_mut().map(|piece| &mut piece.strip);
    for strip in pieces.chain([&mut recipe.base.strip]) {
        for cutout in &mut strip.cutouts {
            if let Cut::Window(window) = &mut cutout.cut
                && !named(Cause::Window(cutout.id))
            {
                window.place = Placing::Distances;
            }
        }
    }
    let sheet = wish.sheet.map(|sheet| Sheet {
        size: if named(Cause::Sheet) {
            sheet.size
        } else {
            PLENTY
        },
        keep: Keep::Card,
        ..sheet
    });
    let wish = Wish {
        sheet,
        ..wish.clone()
    };
    (recipe, wish)
}

/// Causes of a clash rule each other out, and none of them is too many.
pub(crate) fn is_least(before: &Recipe, wish: &Wish, causes: &[Cause], what: &str) {
    let (recipe, rest) = only(before, wish, causes);
    assert!(refit(&recipe, &rest).is_err(), "{what}: {causes:?}");
    for spare in causes {
        let fewer: Vec<_> = causes.iter().copied().filter(|it| it != spare).collect();
        let (recipe, rest) = only(before, wish, &fewer);
        let freed = refit(&recipe, &rest);
        assert!(
            freed.is_ok(),
            "{what}: {causes:?} without {spare:?}: {freed:?}"
        );
    }
}
