//! What a card takes besides paper: ribbons, costs and masses by hand, what is kept, what is
//! refused.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

mod strips;

use foldwright_engine::card::{Card, Supplied, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length};
use foldwright_engine::paper::{Mass, Money, Pack, ToBuy};
use foldwright_engine::post::posted;
use foldwright_engine::recipe::{
    Bought, EditError, Fault, FileError, InPack, LONGEST_ROLL, MOST_IN_A_PACK, MOST_OF_A_KIND,
    Parts, Recipe, Runs, Takes, Wraps, read, write,
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

fn money(text: &str) -> Money {
    Money::read(text).expect("an amount")
}

fn bought(holds: InPack, price: &str, milligrams: i64) -> Bought {
    Bought {
        holds,
        price: Some(money(price)),
        mass: Some(Mass::from_micrograms(milligrams * 1000)),
    }
}

/// A postcard with three of 100 gems that cost 4.50 and weigh 12.5 g; a ribbon once
/// across from a roll of 10 m that costs 3.00 and weighs 40 g; and a bottle that lasts
/// for 40 cards, three of which cost 5.00.
fn adorned() -> (Recipe, Card) {
    let (mut recipe, _) = postcard();
    for (takes, bought) in [
        (Takes::Count(3), bought(InPack::Count(100), "4.50", 12_500)),
        (
            ribbon(Wraps::Across, Length::ZERO),
            bought(InPack::Length(Length::mm(10_000)), "3", 40_000),
        ),
        (
            Takes::Share(40),
            Bought {
                mass: None,
                ..bought(InPack::Count(3), "5,00", 0)
            },
        ),
    ] {
        let id = recipe.add_supply("it", takes).expect("there is room");
        recipe.buy_supply(id, Some(bought));
    }
    let card = work_out(&recipe, &Tools::default());
    (recipe, card)
}

/// Worked by hand as fractions, ties to even: gems 3/100 × 4.50 = 0.135 a card, 0.14, and
/// for 24 exactly 3.24; ribbon 211.2/10 000 × 3.00 = 0.06336, for 24 cards 1.52064; of the
/// bottles 1/120 × 5.00 = 0.041…, for 24 cards exactly 1.00.
#[test]
fn what_is_not_paper_costs_its_part_of_a_pack() {
    let (recipe, card) = adorned();
    for (supply, one, all) in [
        (0, "0.14", "3.24"),
        (1, "0.06", "1.52"),
        (2, "0.04", "1.00"),
    ] {
        let supply = &recipe.supplies[supply];
        assert_eq!(card.supply_cost(supply, 1), Some(money(one)), "{supply:?}");
        assert_eq!(card.supply_cost(supply, 24), Some(money(all)), "{supply:?}");
    }
}

/// Worked by hand: 33 cards take 99 gems and 34 take 102. A roll of 10 m gives 47 ribbons
/// of 211.2 mm (9926.4 mm), not 48 (10 137.6 mm), though 47.3 go into it. Three bottles
/// last for 120 cards.
#[test]
fn whole_packs_are_bought() {
    let (recipe, card) = adorned();
    for (supply, cards, packs, costs) in [
        (0, 33, 1, "4.50"),
        (0, 34, 2, "9.00"),
        (1, 47, 1, "3.00"),
        (1, 48, 2, "6.00"),
        (2, 1, 1, "5.00"),
        (2, 120, 1, "5.00"),
        (2, 121, 2, "10.00"),
    ] {
        let costs = Some(money(costs));
        let to_buy = card.to_buy(&recipe.supplies[supply], cards, None);
        assert_eq!(to_buy, Some(ToBuy { packs, costs }), "{supply} {cards}");
    }
    // None of a roll that is too short for one, or counted by the piece.
    let mut short = recipe.supplies[1].clone();
    for holds in [InPack::Length(Length::mm(200)), InPack::Count(3)] {
        short.bought = Some(bought(holds, "3", 0));
        assert_eq!(card.to_buy(&short, 1, None), None);
    }
    assert_eq!(card.supply_cost(&short, 1), None);
    // A pack of 25 sheets at 11.50, of which 26 are short.
    let pack = Pack {
        price: money("11.50"),
        sheets: 25.try_into().expect("more than nothing"),
    };
    let costs = Some(money("23"));
    assert_eq!(pack.to_buy(26), ToBuy { packs: 2, costs });
}

/// Worked by hand, for 24 cards: of the 72 gems, 70 on hand leave 2 short, one pack, and
/// 72 none; of the ribbons of 211.2 mm, a length of 2 m on hand gives 9, so that 15 are
/// short, 3168 mm, one roll; one bottle is enough for 24, and two for no more than 80.
#[test]
fn what_is_on_hand_is_not_bought() {
    let (recipe, card) = adorned();
    let count = Supplied::Count;
    let length = |microns| Supplied::Length(Length::microns(microns));
    for (supply, cards, on_hand, short, packs) in [
        (0, 24, count(70), Some(count(2)), 1),
        (0, 24, count(72), Some(count(0)), 0),
        (0, 24, count(900), Some(count(0)), 0),
        (0, 24, length(70), None, 0),
        (1, 24, length(2_000_000), Some(length(3_168_000)), 1),
        (1, 24, length(211_199), Some(length(24 * 211_200)), 1),
        (1, 24, length(24 * 211_200), Some(length(0)), 0),
        (1, 24, count(3), None, 0),
        (2, 24, count(1), Some(count(0)), 0),
        (2, 81, count(2), Some(count(1)), 1),
    ] {
        let supply = &recipe.supplies[supply];
        let found = card.short_of(supply.takes, cards, on_hand);
        assert_eq!(found, short, "{supply:?} {on_hand:?}");
        let to_buy = card.to_buy(supply, cards, Some(on_hand));
        let bought = to_buy.map_or(0, |to_buy| to_buy.packs);
        assert_eq!(bought, packs, "{supply:?} {on_hand:?}");
    }
}

/// Worked by hand: three of 100 gems of 12.5 g are 0.375 g, and 211.2 mm of 10 m of 40 g
/// are 0.8448 g. Both come to the mass of the paper, and so to that of what is posted;
/// the glue, of which nothing is said, does not.
#[test]
fn what_is_not_paper_weighs_with_the_card() {
    let ((bare, paper), (recipe, card)) = (postcard(), adorned());
    let besides = Mass::from_micrograms(375_000 + 844_800);
    assert_eq!(card.supplies_mass(&recipe), besides);
    assert_eq!(card.mass, paper.mass + besides);
    let mass = |recipe, card| posted(recipe, card).expect("an envelope").mail.mass;
    assert_eq!(mass(&recipe, &card), mass(&bare, &paper) + besides);
}

#[test]
fn packs_without_anything_or_without_end_are_refused() {
    let (recipe, _) = adorned();
    let kept = read(&write(std::slice::from_ref(&recipe)));
    assert_eq!(kept.as_ref(), Ok(&vec![recipe.clone()]));
    let too_long = LONGEST_ROLL + Length::from_units(1);
    for holds in [
        InPack::Count(0),
        InPack::Count(MOST_IN_A_PACK + 1),
        InPack::Length(Length::ZERO),
        InPack::Length(too_long),
    ] {
        let wrong = Some(bought(holds, "1", 1));
        let mut faulty = recipe.clone();
        faulty.supplies[0].bought = wrong;
        assert_eq!(faulty.check(), [Fault::Supply], "{holds:?}");
        // Nor does the editor take it.
        let mut edited = recipe.clone();
        edited.buy_supply(edited.supplies[0].id, wrong);
        assert_eq!(edited, recipe);
    }
}

/// Grams as they are typed and written, to a milligram.
#[test]
fn grams_are_read_as_they_are_typed() {
    for (text, micrograms) in [
        ("12", 12_000_000),
        ("12.5", 12_500_000),
        (" 0,125 ", 125_000),
        ("0", 0),
    ] {
        let mass = Mass::read(text).expect(text);
        assert_eq!(mass.micrograms(), micrograms, "{text}");
        let written = mass.grams(DecimalMark::Point);
        assert_eq!(Mass::read(&written), Some(mass), "{written}");
    }
    for text in ["", "12 g", "-1", "1.2345", ".5", "1234567"] {
        assert_eq!(Mass::read(text), None, "{text}");
    }
}
