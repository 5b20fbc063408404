//! The closed size has one meaning: the bounds of the folded card with all that
//! overhangs.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, nearest};
use foldwright_engine::paper::{ClearanceRule, Envelope};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_engine::refit::{Clash, Wish, refit};

use crate::held::starter;

const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};
const METRIC: Notation = Notation {
    step: Step::HalfMillimetre,
    decimal: DecimalMark::Point,
};

fn closed(recipe: &Recipe) -> Size {
    work_out(recipe, &Tools::default()).finished
}

/// The card with paper enough for any of these sizes.
fn on_large_paper(mut recipe: Recipe) -> Recipe {
    for stock in &mut recipe.stocks {
        (stock.width, stock.height) = (Length::mm(900), Length::mm(900));
    }
    recipe
}

fn into(size: Size) -> Wish {
    Wish {
        finished: Some(size),
        ..Wish::default()
    }
}

fn eighths(width: i64, height: i64) -> Size {
    Size {
        width: Length::sixty_fourths(8 * width),
        height: Length::sixty_fourths(8 * height),
    }
}

/// What opens from the fold of a whole sheet closes to half of that: worked by
/// hand from each starter's measures in inches.
const BY_HAND: [(&str, (i64, i64)); 8] = [
    ("step", (34, 44)),
    ("box", (34, 44)),
    ("stairs", (34, 44)),
    ("beak", (34, 44)),
    // 7 in less the 1 3/4 in that are turned up into the pocket.
    ("pocket", (34, 42)),
    ("quarter", (34, 44)),
    ("star", (28, 28)),
    ("steps", (28, 44)),
];

#[test]
fn what_rises_from_a_fold_closes_to_half_of_its_sheet() {
    for (id, (width, height)) in BY_HAND {
        let card = on_large_paper(starter(id, INCHES));
        let size = eighths(width, height);
        assert_eq!(closed(&card), size, "{id}");
        let found = refit(&card, &into(size)).expect("it is that large");
        assert_eq!(found.changes, [], "{id}");
        assert_eq!(found.finished, size, "{id}");
        assert!(found.nearest, "{id}");
        // An eighth larger and smaller each way.
        for by in [-1, 1] {
            let size = eighths(width + by, height + by);
            let found = refit(&card, &into(size)).expect("an eighth is little");
            assert_eq!(found.finished, size, "{id}");
            assert_eq!(closed(&found.recipe), size, "{id}");
        }
    }
}

/// A2 is 4 3/8 × 5 3/4 in, which takes 4 1/4 × 5 1/2 with an eighth round it
/// (common practice).
#[test]
fn an_envelope_that_holds_it_already_changes_nothing() {
    let envelope = Envelope::by_id("na-a2").expect("known");
    let rule = ClearanceRule::by_id("eighth-round").expect("known");
    for id in ["step", "box", "stairs", "beak", "pocket", "quarter"] {
        let card = starter(id, INCHES);
        let wish = Wish {
            envelope: Some((envelope, rule)),
            ..Wish::default()
        };
        let found = refit(&card, &wish).expect("it goes in");
        let fits = work_out(&card, &Tools::default());
        println!("{id}: {:?} {:?}", fits.finished, found.changes);
        assert_eq!(found.changes, [], "{id}");
    }
}

/// On marks, a tenth more or less.
fn tenths(length: Length, tenths: i64, step: Step) -> Length {
    nearest(Length::from_units(length.units() * tenths / 10), step).at
}

#[test]
fn every_starter_keeps_its_size_and_reaches_another_or_says_why_not() {
    let (mut reached, mut refused) = (0, 0);
    for starter in starters() {
        for notation in [INCHES, METRIC] {
            let card = on_large_paper(starter.recipe_in(notation));
            let size = closed(&card);
            let what = format!("{} on marks of {:?}", starter.id, notation.step);
            let found = refit(&card, &into(size)).expect("it is that large");
            assert_eq!(found.changes, [], "{what}");
            for share in [9, 11] {
                let size = Size {
                    width: tenths(size.width, share, notation.step),
                    height: tenths(size.height, share, notation.step),
                };
                match refit(&card, &into(size)) {
                    Ok(found) => {
                        reached += 1;
                        assert_eq!(found.finished, size, "{what}, {share} tenths");
                        assert_eq!(closed(&found.recipe), size, "{what}, {share} tenths");
                        println!(
                            "{what}, {share} tenths: {} moved, nearest: {}",
                            found.changes.len(),
                            found.nearest
                        );
                    }
                    Err(clash) => {
                        refused += 1;
                        println!("{what}, {share} tenths: {clash:?}");
                        assert!(matches!(clash, Clash::Between { .. }), "{what}: {clash:?}");
                    }
                }
            }
        }
    }
    println!("{reached} reached, {refused} refused");
    assert!(reached > 80);
}
