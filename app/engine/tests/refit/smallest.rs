//! Clashes that paper and envelope may lie round, and what leads out of them,
//! worked by hand.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Holds, Is, MeasureId, Recipe, Relation, StripId, Term};
use foldwright_engine::refit::{Cause, Clash, Free, Keep, Sheet, Way, Wish, refit};

use crate::alone::is_least;
use crate::held::starter;
use crate::plain::Plain;
use crate::random::system;

const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};

/// So many halves of an inch by so many.
fn halves(width: i64, height: i64) -> Size {
    Size {
        width: Length::sixty_fourths(32 * width),
        height: Length::sixty_fourths(32 * height),
    }
}

/// A card of 8 1/2 × 5 1/2 in, folded to 4 1/4 × 5 1/2, with some of it pinned.
fn pinned(pins: impl Fn(&Recipe) -> Vec<MeasureId>) -> Recipe {
    let mut card = starter("book", INCHES);
    for id in pins(&card) {
        card.pin(id, true).expect("it is there");
    }
    card
}

fn on(card: &Recipe, size: Size) -> Wish {
    Wish {
        sheet: Some(Sheet {
            stock: card.base.stock,
            size,
            keep: Keep::Card,
        }),
        ..Wish::default()
    }
}

fn clash(card: &Recipe, wish: &Wish) -> (Vec<Cause>, Vec<Way>) {
    let clash = refit(card, wish).expect_err("there is no such card");
    let ways = clash.ways_out(card, wish);
    let Clash::Between {
        causes, smallest, ..
    } = clash
    else {
        panic!("{clash:?}");
    };
    assert!(smallest);
    (causes, ways)
}

fn frees(ways: &[Way]) -> Vec<&[Free]> {
    ways.iter().map(|way| &way.frees[..]).collect()
}

/// The height alone is no hindrance: the sheet could be turned, if the length
/// were not pinned too.
#[test]
fn a_clash_holds_whichever_way_the_sheet_lies() {
    let card = pinned(|card| vec![card.base.length, card.base.height]);
    let wish = on(&card, halves(17, 8));
    let (causes, ways) = clash(&card, &wish);
    let [length, height] = [card.base.length, card.base.height];
    let mut pins = [Cause::Pinned(length), Cause::Pinned(height)];
    pins.sort_unstable();
    assert_eq!(causes, [vec![Cause::Sheet], pins.to_vec()].concat());
    is_least(&card, &wish, &causes, "a sheet both ways");
    let frees = frees(&ways);
    let stock = card.base.stock;
    for free in [
        Free::Wish(Cause::Sheet),
        Free::Stock(stock, halves(11, 17)),
        Free::Unpin(length),
        Free::Unpin(height),
    ] {
        assert!(frees.contains(&&[free][..]), "{free:?} of {frees:?}");
    }
}

/// With the height pinned at 5 1/2 in, 4 × 5 in cannot be, but 4 × 5 1/2.
#[test]
fn the_nearest_size_that_works_is_named() {
    let card = pinned(|card| vec![card.base.height]);
    let wish = Wish {
        finished: Some(halves(8, 10)),
        ..Wish::default()
    };
    let (causes, ways) = clash(&card, &wish);
    assert_eq!(causes, [Cause::Finished, Cause::Pinned(card.base.height)]);
    let nearest = Way {
        cause: None,
        frees: vec![Free::Size(halves(8, 11))],
        finished: halves(8, 11),
    };
    assert!(ways.contains(&nearest), "{ways:?}");
}

/// Two things are in the way of one wish each, so none of them alone helps.
#[test]
fn what_helps_only_together_is_offered_together() {
    let card = pinned(|card| vec![card.base.height, card.base.length]);
    let wish = Wish {
        finished: Some(halves(8, 10)),
        ..Wish::default()
    };
    let clash = refit(&card, &wish).expect_err("both sides are pinned");
    let ways = clash.ways_out(&card, &wish);
    assert!(!ways.is_empty());
    for way in &ways {
        let (mut freed, mut asked) = (card.clone(), wish.clone());
        for free in &way.frees {
            free.apply(&mut freed, &mut asked);
        }
        assert!(refit(&freed, &asked).is_ok(), "{way:?}");
    }
    let alone = [Free::Unpin(card.base.height)];
    assert!(
        !frees(&ways).contains(&&alone[..]),
        "the width is pinned too"
    );
}

/// Forty measures under random relations come to the nearest card or to the
/// smallest clash: none of them is cut short.
#[test]
fn forty_measures_in_any_relations_are_settled() {
    let (mut cards, mut clashes) = (0, 0);
    for seed in 0..12 {
        let recipe = system(seed, 40).expect("a system");
        match refit(&recipe, &Wish::default()) {
            Ok(found) => {
                assert!(found.nearest, "seed {seed}");
                cards += 1;
            }
            Err(Clash::Between { smallest, .. }) => {
                assert!(smallest, "seed {seed}");
                clashes += 1;
            }
            Err(other) => panic!("seed {seed}: {other:?}"),
        }
    }
    println!("{cards} cards, {clashes} clashes");
    assert!(cards > 0 && clashes > 0);
}

/// Pleats of 40, 20 and 20 mm close to 40 mm by the first alone, and to 45 mm by
/// all three: 40 − 15 + 20 keeps the first panel, which should stay.
#[test]
fn another_run_of_pleats_may_fill_the_size() {
    let mut card = starter(
        "own",
        Notation {
            step: Step::Millimetre,
            decimal: DecimalMark::Point,
        },
    );
    while card.base.panels.len() < 3 {
        let last = card.base.panels.len() - 1;
        card.add_panel(StripId::Base, last, None, &Plain)
            .expect("one more panel");
    }
    card.relations.clear();
    let widths: Vec<_> = card.base.panels.iter().map(|panel| panel.width).collect();
    for measure in &mut card.measures {
        (measure.least, measure.most, measure.pinned) = (None, None, false);
        let mut panels = widths.iter().zip([40, 20, 20]);
        if let Some((_, width)) = panels.find(|(id, _)| **id == measure.id) {
            measure.value = Length::mm(width);
        } else if measure.id == card.base.length {
            measure.value = Length::mm(80);
        } else if measure.id == card.base.height {
            measure.value = Length::mm(100);
        }
    }
    card.relations.push(Relation {
        left: vec![Term {
            times: 1,
            of: widths[0],
        }],
        is: Is::Equal,
        right: Vec::new(),
        plus: Length::mm(40),
        holds: Holds::Should,
    });
    let size = Size {
        width: Length::mm(45),
        height: Length::mm(100),
    };
    let wish = Wish {
        finished: Some(size),
        ..Wish::default()
    };
    let found = refit(&card, &wish).expect("three panels reach 45 mm");
    assert_eq!(found.given_up, []);
    assert_eq!(found.finished, size);
    assert_eq!(found.recipe.value(widths[0]), Length::mm(40));
    assert!(found.nearest);
}
