//! A card of forty panels that all move at once: as hard to draw on its way
//! open as cards get.

use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::Point;
use foldwright_engine::recipe::{EditError, Fold, Naming, Recipe, StripId, starters};

/// Steps cut across the fold, of two panels each; the pages are two more.
const STEPS: i64 = 19;
/// From one step's foot to the next, in millimetres.
const RISE: i64 = 10;

/// A ladder of steps up the fold of a square sheet, each of another depth.
pub(crate) fn ladder(naming: &dyn Naming) -> Result<Recipe, EditError> {
    let stairs = starters().iter().find(|starter| starter.id == "stairs");
    let mut recipe = stairs.map(|it| it.recipe.clone()).ok_or(EditError::Full)?;
    let drawn: Vec<_> = recipe.base.lines.iter().map(|line| line.id).collect();
    for line in drawn {
        recipe.remove_line(line)?;
    }
    recipe.relations.clear();
    for measure in &mut recipe.measures {
        (measure.least, measure.most, measure.pinned) = (None, None, false);
    }
    recipe.name = String::from("Ladder of forty panels");
    let (length, height) = (recipe.base.length, recipe.base.height);
    let mm = Length::mm;
    recipe.set(length, mm(200))?;
    recipe.set(height, mm(STEPS * RISE + 6))?;
    let at = |x: i64, y: i64| Point::new(mm(x), mm(y));
    let valley = LineKind::Crease(Fold::Valley);
    let ridge = LineKind::Crease(Fold::Mountain);
    let mut foot = 0;
    for step in 0..STEPS {
        let (low, high) = (step * RISE + 3, step * RISE + 9);
        let (left, right) = (30 + step % 7, 15 + step % 5);
        recipe.add_line(StripId::Base, valley, at(100, foot), at(100, low), naming)?;
        for (kind, x) in [
            (valley, 100 - left),
            (ridge, 100 - left + right),
            (valley, 100 + right),
        ] {
            recipe.add_line(StripId::Base, kind, at(x, low), at(x, high), naming)?;
        }
        for y in [low, high] {
            recipe.add_line(
                StripId::Base,
                LineKind::Cut,
                at(100 - left, y),
                at(100 + right, y),
                naming,
            )?;
        }
        foot = high;
    }
    recipe.add_line(
        StripId::Base,
        valley,
        at(100, foot),
        at(100, STEPS * RISE + 6),
        naming,
    )?;
    Ok(recipe)
}
