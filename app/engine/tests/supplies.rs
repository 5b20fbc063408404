//! What a card takes besides paper: ribbons by hand, what is kept, what is refused.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

mod strips;

use foldwright_engine::card::{Card, Supplied, Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    EditError, Fault, FileError, MOST_OF_A_KIND, Parts, Recipe, Runs, Takes, Wraps, read, write,
};
use strips::strip;

/// A card of 105 × 148 mm of paper as thick as 0.3 mm, so that it is 0.6 mm thick shut.
fn postcard() -> (Recipe, Card) {
    let mut recipe = strip(&[Length::mm(105); 2], Length::mm(148), "V", 0, Runs::Across);
    recipe.stocks[0].caliper = Length::microns(300);
    let card = work_out(&recipe, &Tools::default());
    (recipe, card)
}

const fn ribbon(wraps: Wraps, knot: Length) -> Takes {
    Takes::Ribbon { wraps, knot }
}

/// Worked by hand: once across is twice 105 and twice 0.6 mm, 211.2 mm; once up and down
/// twice 148 and twice 0.6 mm, 297.2 mm; a bow of 250 mm comes on top.
#[test]
fn a_ribbon_goes_round_the_closed_card() {
    let (_, card) = postcard();
    let bow = Length::mm(250);
    for (wraps, knot, microns) in [
        (Wraps::Across, Length::ZERO, 211_200),
        (Wraps::Upright, Length::ZERO, 297_200),
        (Wraps::BothWays, Length::ZERO, 508_400),
        (Wraps::BothWays, bow, 758_400),
    ] {
        let each = Supplied::Length(Length::microns(microns));
        assert_eq!(card.supplied(ribbon(wraps, knot)), Some(each), "{wraps:?}");
        let all = Supplied::Length(Length::microns(microns * 24));
        assert_eq!(each.times(24), all);
    }
    let gems = card.supplied(Takes::Count(3)).expect("so many");
    assert_eq!(gems.times(24), Supplied::Count(72));
}

/// Two flaps longer than the panel between them cannot both lie flat: there is nothing
/// to tie a ribbon round.
#[test]
fn a_card_that_does_not_close_takes_no_ribbon() {
    let widths = [100, 60, 100].map(Length::mm);
    let recipe = strip(&widths, Length::mm(100), "VV", 1, Runs::Across);
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(card.supplied(ribbon(Wraps::Across, Length::ZERO)), None);
    assert_eq!(card.supplied(Takes::Count(2)), Some(Supplied::Count(2)));
}

#[test]
fn supplies_are_kept_and_a_recipe_without_any_is_as_it_was() {
    let (mut recipe, _) = postcard();
    let without = write(&[recipe.clone()]);
    assert!(!without.contains("supplies"));
    let gems = recipe.add_supply("pearl gems", Takes::Count(3));
    let gems = gems.expect("there is room");
    let satin = recipe.add_supply("satin ribbon", ribbon(Wraps::BothWays, Length::mm(250)));
    let satin = satin.expect("there is room");
    assert_ne!(gems, satin);
    assert_eq!(read(&write(&[recipe.clone()])), Ok(vec![recipe.clone()]));
    recipe.rename_supply(gems, "glass gems");
    recipe.take_of_supply(gems, Takes::Count(5));
    recipe.take_of_supply(gems, Takes::Count(0));
    let changed = recipe.supply(gems).expect("it is there");
    assert_eq!(
        (&*changed.name, changed.takes),
        ("glass gems", Takes::Count(5))
    );
    for id in [gems, satin] {
        recipe.remove_supply(id);
    }
    assert_eq!(write(&[recipe]), without);
}

/// Nothing from outside makes a recipe that takes none of something, or without end.
#[test]
fn what_no_card_can_take_is_refused() {
    let (mut recipe, _) = postcard();
    let id = recipe.add_supply("gems", Takes::Count(1)).expect("room");
    let too_long = Length::LIMIT + Length::from_units(1);
    for takes in [
        Takes::Count(0),
        Takes::Count(MOST_OF_A_KIND + 1),
        ribbon(Wraps::Across, too_long),
        ribbon(Wraps::Across, Length::ZERO - Length::mm(1)),
    ] {
        let mut faulty = recipe.clone();
        faulty.supplies[0].takes = takes;
        assert_eq!(faulty.check(), [Fault::Supply], "{takes:?}");
        let read = read(&write(&[faulty]));
        assert!(matches!(read, Err(FileError::Faulty { .. })), "{takes:?}");
    }
    let mut twice = recipe.clone();
    twice
        .supplies
        .push(recipe.supply(id).expect("it is there").clone());
    assert_eq!(twice.check(), [Fault::Twice(Parts::Supplies)]);
    for _ in 1..Parts::Supplies.most() {
        recipe.add_supply("gems", Takes::Count(1)).expect("room");
    }
    let refused = recipe.add_supply("gems", Takes::Count(1));
    assert_eq!(refused, Err(EditError::TooMany(Parts::Supplies)));
}
