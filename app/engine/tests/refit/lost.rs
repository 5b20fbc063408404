//! What a refit loses besides lengths, and the card that keeps it.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{Grain, Print, Stock, StockSide};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Face, Lay, Recipe};
use foldwright_engine::refit::{
    Keep, Loss, Refit, Sheet, Wish, keeping_count, keeping_lay, losses, refit,
};

use crate::held::{holds, starter};
use crate::starting::size;

const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};

fn paper(recipe: &mut Recipe) -> &mut Stock {
    let base = recipe.base.stock;
    let mut stocks = recipe.stocks.iter_mut();
    stocks.find(|stock| stock.id == base).expect("its paper")
}

fn on(recipe: &Recipe, size: Size) -> Wish {
    Wish {
        sheet: Some(Sheet {
            stock: recipe.base.stock,
            size,
            keep: Keep::Card,
        }),
        ..Wish::default()
    }
}

fn lost(before: &Recipe, found: &Refit) -> Vec<Loss> {
    let card = |recipe| work_out(recipe, &Tools::default());
    losses(&card(before), &card(&found.recipe))
}

/// How many strips a sheet gives, counted here.
fn count(recipe: &Recipe) -> i64 {
    let stock = recipe.stock(recipe.base.stock).expect("its paper");
    let strip = [recipe.base.length, recipe.base.height].map(|id| recipe.value(id).units());
    let sheet = [stock.width, stock.height].map(Length::units);
    let of = |a: i64, b: i64| (sheet[0] / a) * (sheet[1] / b);
    of(strip[0], strip[1]).max(of(strip[1], strip[0]))
}

/// A Letter sheet gives two quarter-sheet cards; an 8 × 8 in sheet gives one of
/// that height, and two where the card becomes lower.
#[test]
fn a_second_card_from_a_sheet() {
    let card = starter("book", INCHES);
    assert_eq!(count(&card), 2);
    let wish = on(&card, size("trade-8x8-in"));
    let found = refit(&card, &wish).expect("it fits");
    assert_eq!(count(&found.recipe), 1);
    let lost = lost(&card, &found);
    assert_eq!(lost, [Loss::Yield { from: 2, to: 1 }]);
    let (kept_wish, kept) = keeping_count(&card, &wish).expect("two lower cards");
    assert_eq!(kept_wish.sheet.expect("the sheet").keep, Keep::Count);
    assert_eq!(count(&kept.recipe), 2);
    let relations = kept.recipe.held();
    let mut given_up = kept.given_up.iter();
    let broken = relations.iter().filter(|it| !holds(&kept.recipe, it));
    assert_eq!(broken.count(), given_up.by_ref().count());
}

/// A quarter of Letter is 4 1/4 × 5 1/2 in (common practice): two strips of
/// 8 1/2 × 5 1/2 in come from a sheet, and one where a card is a little higher.
#[test]
fn a_card_that_costs_a_strip_says_so_and_one_that_keeps_it_is_found() {
    let recipe = starter("book", INCHES);
    let before = work_out(&recipe, &Tools::default());
    let wish = Wish {
        notation: Some(Notation {
            step: Step::Millimetre,
            decimal: DecimalMark::Point,
        }),
        finished: Some(Size {
            width: Length::mm(105),
            height: Length::mm(148),
        }),
        ..Wish::default()
    };
    let larger = refit(&recipe, &wish).expect("there is such a card");
    let card = work_out(&larger.recipe, &Tools::default());
    let lost = losses(&before, &card);
    assert_eq!(lost, [Loss::Yield { from: 2, to: 1 }]);
    // Without the wish for that height, two still come from the sheet.
    let loose = Wish {
        finished: None,
        ..wish
    };
    let (_, kept) = keeping_count(&recipe, &loose).expect("there is such a card");
    let card = work_out(&kept.recipe, &Tools::default());
    assert_eq!(losses(&before, &card), []);
}

/// Nothing is lost where nothing changes, and no sheet is so small that it is
/// not said.
#[test]
fn what_loses_nothing() {
    let card = starter("book", INCHES);
    let found = refit(&card, &on(&card, size("na-letter"))).expect("as it is");
    assert_eq!(found.changes, []);
    assert_eq!(lost(&card, &found), []);
    let roomy = refit(&card, &on(&card, size("trade-12x12-in"))).expect("more room");
    assert_eq!(lost(&card, &roomy), []);
}

/// A long narrow sheet with the grain along its length takes the strip only
/// along it; a narrower card keeps its folds along the grain.
#[test]
fn folds_along_the_grain() {
    let mut card = starter("book", INCHES);
    paper(&mut card).grain = Grain::AlongHeight;
    let narrow = Size {
        width: Length::inches(6),
        height: Length::inches(12),
    };
    let wish = on(&card, narrow);
    let found = refit(&card, &wish).expect("it fits along the sheet");
    assert_eq!(found.changes, []);
    let losses = lost(&card, &found);
    assert!(losses.contains(&Loss::Grain), "{losses:?}");
    let now = work_out(&card, &Tools::default());
    let (laid, kept) = keeping_lay(&now, &card, &wish).expect("a narrower card");
    assert!(laid.lay.is_some());
    assert!(kept.recipe.value(card.base.length) <= Length::inches(6));
    assert!(!lost(&card, &kept).contains(&Loss::Grain));
}

/// A print with a head that must be upright keeps the strip lying as it does,
/// so that the card becomes smaller instead.
#[test]
fn print_stays_upright() {
    let mut card = starter("book", INCHES);
    paper(&mut card).face.print = Print::OneWay;
    let faces: Vec<Face> = card.upright.clone();
    assert_eq!(faces.len(), 1);
    let narrow = Size {
        width: Length::inches(6),
        height: Length::inches(12),
    };
    let found = refit(&card, &on(&card, narrow)).expect("a smaller card");
    assert_eq!(found.recipe.value(card.base.length), Length::inches(6));
    let losses = lost(&card, &found);
    assert!(
        !losses
            .iter()
            .any(|it| matches!(it, Loss::Print(_) | Loss::Side))
    );
}

/// What is lost by laying the strip another way is named.
#[test]
fn a_print_that_is_lost_is_named() {
    let mut card = starter("book", INCHES);
    paper(&mut card).face.print = Print::OneWay;
    let now = work_out(&card, &Tools::default());
    let after = |outside, across: bool| {
        let mut lays = Lay::all();
        let lay = lays.find(|lay| lay.outside == outside && lay.runs_across() == across);
        let laid = Recipe {
            lay,
            ..card.clone()
        };
        losses(&now, &work_out(&laid, &Tools::default()))
    };
    let face = Loss::Print(card.upright[0]);
    assert_eq!(after(StockSide::Face, true), []);
    assert!(after(StockSide::Face, false).contains(&face));
    assert!(after(StockSide::Back, true).contains(&Loss::Side));
}
