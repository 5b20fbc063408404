//! Templates: what is drawn of a part from either side.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Fold, Recipe, Runs, Side, starters};
use foldwright_engine::template::{Template, templates};
use strips::strip;

fn of(recipe: &Recipe, seen: Side) -> Vec<Template> {
    templates(recipe, &work_out(recipe, &Tools::default()), seen)
}

fn scores(template: &Template) -> Vec<(Fold, Length)> {
    let mut scores: Vec<_> = template
        .folds
        .iter()
        .map(|(fold, course)| (*fold, course.from.x))
        .collect();
    scores.sort_by_key(|(_, at)| *at);
    scores
}

/// Worked by hand: panels of 40, 60 and 90 mm. From behind, a strip of 190 mm has them
/// from its right, and a valley is a mountain.
#[test]
fn from_behind_all_is_mirrored_and_folds_the_other_way() {
    let widths = [40, 60, 90].map(Length::mm);
    let recipe = strip(&widths, Length::mm(100), "VM", 1, Runs::Across);
    let [front, back] = [Side::A, Side::B].map(|side| of(&recipe, side).remove(0));
    assert_eq!(
        scores(&front),
        [
            (Fold::Valley, Length::mm(40)),
            (Fold::Mountain, Length::mm(100))
        ]
    );
    assert_eq!(
        scores(&back),
        [
            (Fold::Valley, Length::mm(90)),
            (Fold::Mountain, Length::mm(150))
        ]
    );
    let turned = back.turned();
    let size = Size {
        width: Length::mm(100),
        height: Length::mm(190),
    };
    assert_eq!((turned.size, turned.folds.len()), (size, 2));
    let edges = turned.edges[0].bounds().unwrap();
    assert_eq!(edges.size(), size);
    assert_eq!([edges.low.x, edges.low.y], [Length::ZERO; 2]);
}

/// A panel that is glued down touches what carries it by one of its sides, and so from
/// behind by the other; every piece of the starting folds has glue, and lies within its
/// blank with all that is drawn of it.
#[test]
fn every_part_of_the_starting_folds_is_drawn_within_its_blank() {
    for starter in starters() {
        let recipe = &starter.recipe;
        let [front, back] = [Side::A, Side::B].map(|side| of(recipe, side));
        let parts = 1 + recipe.pieces.len() + recipe.layers.len();
        assert_eq!((front.len(), back.len()), (parts, parts), "{}", starter.id);
        for (template, behind) in front.iter().zip(&back) {
            let sides =
                |it: &Template| -> Vec<bool> { it.glue.iter().map(|glue| glue.is_seen).collect() };
            let other: Vec<bool> = sides(behind).iter().map(|seen| !seen).collect();
            assert_eq!(sides(template), other, "{}", starter.id);
            for it in [template, behind] {
                let edges = it.edges.iter().flat_map(|edge| &edge.corners);
                let folds = it.folds.iter();
                let folds = folds.flat_map(|(_, course)| [&course.from, &course.to]);
                for at in edges.chain(folds) {
                    assert!((Length::ZERO..=it.size.width).contains(&at.x), "{at:?}");
                    assert!((Length::ZERO..=it.size.height).contains(&at.y), "{at:?}");
                }
            }
        }
        let glued = front.iter().filter(|it| !it.glue.is_empty()).count();
        assert!(glued >= recipe.pieces.len(), "{}", starter.id);
    }
}
