//! How the base may fold where the list leaves it open, folded by hand with
//! strips of paper.

use foldwright_engine::card::{Tools, closed_size, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::plane::Size;
use foldwright_engine::reading::{FoldForm, Read, read_folded};
use foldwright_engine::recipe::{Fold, Recipe, Runs, Seat, Side};

use super::{INCHES, inches, made, metric, panel_name};

use crate::plain::Plain;
use Fold::{Mountain, Valley};

/// A half front, folded back on itself: the widest panel is the back, whose right
/// half shows beside the front (common practice for "Z-fold" cards).
const STEPPED: &str = "base 11 x 5 1/2, score at 2 3/4 and 5 1/2\n\
                       5 1/4 x 5 1/4 large inside right\n2 1/2 x 5 1/4 front";

fn eighths(count: i64) -> Length {
    Length::sixty_fourths(8 * count)
}

fn offered(read: &Read) -> Vec<(FoldForm, Vec<Fold>)> {
    let each = read.foldings.iter();
    each.map(|it| (it.form, it.recipe.base.folds.clone()))
        .collect()
}

fn rests(recipe: &Recipe) -> String {
    panel_name(recipe, recipe.base.rests)
}

#[test]
fn the_large_panel_stays_as_the_back_and_carries_what_the_list_puts_there() {
    let list = inches(STEPPED);
    assert_eq!(
        offered(&list),
        [
            (FoldForm::BackOver, vec![Mountain, Valley]),
            (FoldForm::FrontIn, vec![Valley, Valley]),
        ]
    );
    assert!(list.asks_for_folds());
    let recipe = made(&list);
    assert_eq!(rests(&recipe), "back");
    let widths: Vec<Length> = recipe
        .base
        .panels
        .iter()
        .map(|it| recipe.value(it.width))
        .collect();
    assert_eq!(widths, [22, 22, 44].map(eighths));
    let faces: Vec<(String, Side)> = recipe
        .layers
        .iter()
        .map(|layer| match layer.on {
            Seat::Face(face) => (panel_name(&recipe, face.panel), face.side),
            Seat::Layer(_) => unreachable!("each lies on a panel of its own"),
        })
        .collect();
    assert_eq!(
        faces,
        [("back".to_owned(), Side::A), ("front".to_owned(), Side::A)]
    );
    // 5 1/2 square either way: 11 − 5 1/2.
    for folding in &list.foldings {
        let card = work_out(&folding.recipe, &Tools::default());
        let square = Size {
            width: eighths(44),
            height: eighths(44),
        };
        assert_eq!(card.finished, square, "{:?}", folding.form);
        assert!(card.folded.is_some());
    }
}

#[test]
fn the_folding_that_is_chosen_goes_into_the_recipe_and_outlasts_typing() {
    let list = inches(STEPPED);
    let second = list.foldings.get(1).expect("a second folding");
    let longer = format!("{STEPPED}\nlabel 1 x 2");
    let chosen = read_folded(&longer, INCHES, Some(&second.key), &Plain);
    assert_eq!(chosen.folded, 1);
    let recipe = made(&chosen);
    assert_eq!(recipe.base.folds, [Valley, Valley]);
    assert_eq!(rests(&recipe), "back");
    // The front of this card is the outside of the middle panel.
    let [face] = recipe.upright[..] else {
        unreachable!("one face is upright")
    };
    assert_eq!(
        (panel_name(&recipe, face.panel), face.side),
        ("front".to_owned(), Side::B)
    );
    // Where the list no longer offers it, the likeliest is taken.
    let book = read_folded(
        "base 8 1/2 x 5 1/2, score at 4 1/4",
        INCHES,
        Some(&second.key),
        &Plain,
    );
    assert_eq!((book.foldings.len(), book.folded), (1, 0));
}

#[test]
fn the_same_card_from_the_other_end() {
    let list = inches("base 11 x 5 1/2, score at 5 1/2 and 8 1/4");
    assert_eq!(
        offered(&list),
        [
            (FoldForm::BackOverFirst, vec![Valley, Mountain]),
            (FoldForm::FrontInFirst, vec![Valley, Valley]),
        ]
    );
    assert_eq!(rests(&made(&list)), "back");
    let from_right = inches("base 11 x 5 1/2, score at 2 3/4 and 5 1/2 from the right edge");
    assert_eq!(offered(&from_right), offered(&list));
}

#[test]
fn where_pieces_go_outweighs_what_the_widths_suggest() {
    // Equal thirds: as a Z the last panel turns its inside to the back, where
    // nothing is inside. Rolled up it is inside, and so is the mat.
    let strip = "strip 12 x 4, score at 4 and 8";
    let plain = inches(strip);
    assert_eq!(
        offered(&plain),
        [
            (FoldForm::Zigzag, vec![Valley, Mountain]),
            (FoldForm::LastIn, vec![Valley, Valley]),
        ]
    );
    let mats = inches(&format!(
        "{strip}\nmat 3 3/4 x 3 3/4 inside right\nmat 3 3/4 x 3 3/4 inside middle"
    ));
    let first = mats.foldings.first().expect("a folding");
    assert_eq!(first.form, FoldForm::LastIn);
}

#[test]
fn nothing_is_asked_where_the_list_tells() {
    for (list, folds) in [
        ("base 8 1/2 x 5 1/2, score at 4 1/4", vec![Valley]),
        (
            "base 8 1/2 x 5 1/2, score at 2 1/8 and 6 3/8",
            vec![Valley; 2],
        ),
        (
            "strip 12 x 4, mountain score at 4, valley score at 8",
            vec![Mountain, Valley],
        ),
        (
            "z-fold strip 12 x 4, score at 4 and 8",
            vec![Valley, Mountain],
        ),
        ("letter fold 12 x 4, score at 4 and 8", vec![Valley, Valley]),
        (
            "accordion 11 x 4, score at 2 3/4, 5 1/2, 8 1/4",
            vec![Valley, Mountain, Valley],
        ),
        (
            "double parallel 11 x 4, score at 2 3/4, 5 1/2, 8 1/4",
            vec![Valley, Valley, Mountain],
        ),
        (
            "z fold 11 x 5 1/2, score at 2 3/4 and 5 1/2",
            vec![Mountain, Valley],
        ),
    ] {
        let read = inches(list);
        assert!(!read.asks_for_folds(), "{list}: {:?}", offered(&read));
        assert_eq!(made(&read).base.folds, folds, "{list}");
    }
    // A4 in three and a roll of four by a printers' folding guide.
    for list in [
        "Streifen 297 x 210 mm, falzen bei 100 und 200",
        "Streifen 297 x 100 mm, falzen bei 76, 152 und 225",
        "Leporello 40 x 10 cm, falzen bei 10, 20 und 30",
    ] {
        assert_eq!(metric(list).foldings.len(), 1, "{list}");
    }
}

#[test]
fn a_narrow_panel_closes_over_a_wide_one() {
    let list = inches("base 8 1/2 x 5 1/2, score at 5 1/2");
    let forms: Vec<_> = list.foldings.iter().map(|it| it.form).collect();
    assert_eq!(forms, [FoldForm::Flap, FoldForm::Book]);
    let recipe = made(&list);
    assert_eq!(rests(&recipe), "back");
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(card.finished.width, eighths(44));
}

#[test]
fn every_folding_offered_folds_flat() {
    let mut asked = 0;
    for first in 1..=12 {
        for middle in 1..=12 {
            for last in [1, 2, 5, 6, 8, 12] {
                let (a, b) = (first, first + middle);
                let whole = b + last;
                let list = format!("strip {whole} x 4 cm, score at {a} and {b} cm");
                let notation = Notation {
                    step: Step::Millimetre,
                    decimal: DecimalMark::Point,
                };
                let read = read_folded(&list, notation, None, &Plain);
                assert!((1..=3).contains(&read.foldings.len()), "{list}");
                asked += usize::from(read.asks_for_folds());
                for folding in &read.foldings {
                    let card = work_out(&folding.recipe, &Tools::default());
                    assert!(card.folded.is_some(), "{list}: {:?}", folding.form);
                    assert_eq!(folding.recipe.check(), []);
                }
                let keys: Vec<_> = read.foldings.iter().map(|it| &it.key).collect();
                assert!(
                    (1..keys.len()).all(|at| !keys[..at].contains(&keys[at])),
                    "{list}"
                );
            }
        }
    }
    assert!(asked > 500, "{asked}");
}

#[test]
fn a_card_written_higher_than_wide_and_scored_across_is_a_tent() {
    let list = inches("base 4 1/4 W x 11 H, score at 5 1/2");
    let recipe = made(&list);
    assert_eq!(recipe.base.runs, Runs::Down);
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(
        [card.finished.width, card.finished.height],
        [eighths(34), eighths(44)]
    );
}

#[test]
fn a_card_without_a_fold_lies_as_it_is_written() {
    // The width is written first (common practice). No fold runs across a card
    // that has none, so a word for tents does not turn it.
    for words in ["base", "tent card"] {
        for [width, height] in [[4, 6], [6, 4]] {
            let recipe = made(&inches(&format!("{words} {width} x {height} in")));
            let closed = Size {
                width: eighths(8 * width),
                height: eighths(8 * height),
            };
            assert_eq!(closed_size(&recipe), closed, "{words}");
            assert_eq!(recipe.base.runs, Runs::Across);
        }
    }
}
