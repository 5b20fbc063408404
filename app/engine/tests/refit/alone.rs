//! What a clash names, and nothing else of a recipe: a second way to tell
//! whether some of it can hold together.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Cut, Measure, MeasureId, Place, Recipe, Strip};
use foldwright_engine::refit::{Cause, Keep, Sheet, Wish, refit};

/// A size nothing is too large for.
const PLENTY: Size = Size {
    width: Length::mm(2000),
    height: Length::mm(2000),
};

/// Measures added to a recipe stand apart from its own.
const FREE: u32 = 10_000;

/// A recipe and a wish with nothing left to hold but these causes.
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
            layer.place = Place::Distances;
        }
    }
    for stock in &mut recipe.stocks {
        if !named(Cause::Paper(stock.id)) {
            (stock.width, stock.height) = (PLENTY.width, PLENTY.height);
        }
    }
    let mut free = Vec::new();
    let mut loosen = |strip: &mut Strip, of| {
        for cutout in &mut strip.cutouts {
            if let Cut::Window(window) = &mut cutout.cut
                && !named(Cause::Window(cutout.id))
            {
                window.place = Place::Distances;
            }
        }
        if !named(Cause::Strip(of)) {
            // One panel of no measure that anything else speaks of.
            let id = MeasureId(FREE + u32::try_from(free.len()).expect("few strips"));
            free.push(Measure::new(id, String::from("free"), Length::mm(100)));
            strip.panels.truncate(1);
            strip.folds.clear();
            strip.panels[0].width = id;
        }
    };
    loosen(&mut recipe.base.strip, None);
    for piece in &mut recipe.pieces {
        loosen(&mut piece.strip, Some(piece.id));
    }
    recipe.measures.extend(free);
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
