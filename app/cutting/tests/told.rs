//! Plans as the steps of cards say them, done on an imagined table: every sheet
//! and strip is there when it is cut, lengths add up, and all pieces come off.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

use std::collections::BTreeMap;
use std::num::NonZeroU32;

use foldwright_cutting::class::{Class, Sheets};
use foldwright_cutting::{Planner, Trimmer};
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::cut_list::CutList;
use foldwright_engine::cut_plan::{CutPlan, Load, Lot, Scraps, Yield};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::StockId;
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Edge, Size};
use foldwright_engine::recipe::{Recipe, StripId, starters};

const LETTER: StockId = StockId(1);

fn starter(id: &str, step: Step) -> Recipe {
    let found = starters().iter().find(|starter| starter.id == id);
    found.expect("it is there").recipe_in(Notation {
        step,
        decimal: DecimalMark::Point,
    })
}

fn told(recipe: &Recipe, cuts: &CutList, cards: u32, work: u64) -> CutPlan {
    told_from(recipe, cuts, cards, work, &[])
}

fn told_from(recipe: &Recipe, cuts: &CutList, cards: u32, work: u64, scraps: &[Scraps]) -> CutPlan {
    let scraps = scraps.iter().copied().map(Sheets::of_scraps);
    let sheets: Vec<Sheets> = recipe
        .stocks
        .iter()
        .map(Sheets::new)
        .chain(scraps)
        .collect();
    let cards = NonZeroU32::new(cards).expect("some");
    let trimmer = Trimmer {
        stack: NonZeroU32::new(3).expect("some"),
        ..Trimmer::PLAIN
    };
    let class = Class::new(cuts, cards, &sheets, trimmer).expect("a job");
    let mut planner = Planner::new(&class.job);
    planner.improve(work, || false);
    class.told(planner.plan()).expect("every piece fits")
}

/// How much there is of each strip: by paper, size, and which way it was cut last.
type Table = BTreeMap<(u32, [i64; 2], bool), u32>;

fn key(stock: StockId, size: Size, across: bool) -> (u32, [i64; 2], bool) {
    let sides = [size.width, size.height].map(Length::units);
    (stock.0, sides, across)
}

/// What one that comes off measures from the fence and along it.
fn sides(load: &Load, size: Size) -> [Length; 2] {
    match load.edge {
        Edge::Left | Edge::Right => [size.width, size.height],
        Edge::Top | Edge::Bottom => [size.height, size.width],
    }
}

/// Does everything, and gives how many pieces came off for which parts.
fn done(recipe: &Recipe, cuts: &CutList, plan: &CutPlan) -> BTreeMap<Vec<Part>, u32> {
    let mut sheets = plan.sheets.clone();
    let mut strips = Table::new();
    let mut scraps = plan.scraps.clone();
    let mut pieces = BTreeMap::new();
    for setting in &plan.settings {
        for load in &setting.loads {
            let across = matches!(load.edge, Edge::Left | Edge::Right);
            let there = if load.is == Lot::Sheet {
                let stock = recipe.stock(load.stock).expect("it has paper");
                let size = Size {
                    width: stock.width,
                    height: stock.height,
                };
                assert_eq!((load.size, load.turned), (size, false));
                sheets.get_mut(&load.stock)
            } else if load.is == Lot::Scrap {
                assert!(!load.turned);
                let mut scraps = scraps.iter_mut();
                let alike = scraps.find(|it| (it.stock, it.size) == (load.stock, load.size));
                alike.map(|scraps| &mut scraps.count)
            } else {
                strips.get_mut(&key(load.stock, load.size, across != load.turned))
            };
            let there = there.expect("it is there when it is cut");
            *there = there.checked_sub(load.count).expect("as many as are cut");
            let from_fence = setting.fence * i64::try_from(load.off.len()).expect("few");
            let behind = load.reach() - from_fence;
            assert_eq!(behind > Length::ZERO, load.rest.is_some());
            for (index, one) in load.yields().enumerate() {
                let reach = if index < load.off.len() {
                    setting.fence
                } else {
                    behind
                };
                let whole = [reach, load.along()];
                match one {
                    Yield::Strip(size) => {
                        assert_eq!(sides(load, *size), whole);
                        *strips.entry(key(load.stock, *size, across)).or_insert(0) += load.count;
                    }
                    Yield::Offcut(size) => assert_eq!(sides(load, *size), whole),
                    Yield::Piece(parts) => {
                        let size = cuts.size_of(parts[0]).expect("it is cut");
                        let mut is = [size.width, size.height];
                        let mut whole = whole;
                        is.sort_unstable();
                        whole.sort_unstable();
                        assert_eq!(is, whole);
                        *pieces.entry(parts.clone()).or_insert(0) += load.count;
                    }
                }
            }
        }
    }
    assert!(strips.values().all(|left| *left == 0), "{strips:?}");
    let whole = |stock: &StockId| {
        let mut parts = plan.whole.iter().filter_map(|part| cuts.of(*part));
        parts.any(|blank| blank.stock == *stock)
    };
    let unused = sheets.iter().filter(|(stock, _)| !whole(stock));
    assert!(unused.into_iter().all(|(_, left)| *left == 0), "{sheets:?}");
    pieces
}

/// For every fold to start from and any number of cards: as many pieces come off as
/// the cards take, and no part takes more sheets than by itself.
#[test]
fn every_plan_can_be_done_and_gives_all_pieces() {
    for starter in starters() {
        for step in [Step::Sixteenth, Step::Millimetre] {
            let recipe = starter.recipe_in(Notation {
                step,
                decimal: DecimalMark::Point,
            });
            let cuts = work_out(&recipe, &Tools::default()).cut_list;
            for cards in [1, 2, 7, 12, 24] {
                let plan = told(&recipe, &cuts, cards, 1_000_000);
                let pieces = done(&recipe, &cuts, &plan);
                for (parts, count) in &pieces {
                    let blanks = parts.iter().filter_map(|part| cuts.of(*part));
                    let wanted: u32 = blanks.map(|blank| blank.per_card * cards).sum();
                    assert_eq!(*count, wanted, "{} × {cards}: {parts:?}", starter.id);
                }
                let off = pieces.keys().flatten().chain(&plan.whole).count();
                assert_eq!(off, cuts.blanks.len(), "{} × {cards}", starter.id);
                let apart = cuts.sheets(cards);
                for (stock, sheets) in plan.sheets_of(&cuts, cards) {
                    assert!(sheets <= apart[&stock], "{} × {cards}", starter.id);
                }
            }
        }
    }
}

/// The base is half a sheet of Letter and the mat of 4 × 5 1/4 in fits the other
/// half: one sheet, where each by itself takes one.
#[test]
fn base_and_mat_of_one_card_come_from_one_sheet() {
    let mut recipe = starter("book", Step::Sixteenth);
    recipe.layers[0].stock = LETTER;
    let cuts = work_out(&recipe, &Tools::default()).cut_list;
    let plan = told(&recipe, &cuts, 1, 1_000_000);
    assert_eq!(plan.sheets, BTreeMap::from([(LETTER, 1)]));
    assert_eq!(cuts.sheets(1)[&LETTER], Some(2));
    let pieces = done(&recipe, &cuts, &plan);
    assert!(pieces.values().all(|count| *count == 1));
    // The base is there first: its half is parted from the other. Then the mat is
    // measured from the fence, and not what is left of that half: 5 1/2, 4, 5 1/4 in.
    let fences: Vec<_> = plan.settings.iter().map(|it| it.fence).collect();
    let by_hand = [22, 16, 21].map(|quarters| Length::sixty_fourths(quarters * 16));
    assert_eq!(fences, by_hand);
    assert_eq!(plan.ready_after(Part::Strip(StripId::Base)), Some(1));
    assert_eq!(plan.ready_after(Part::Layer(recipe.layers[0].id)), Some(3));
}

/// The base is cut from Letter and the mat from another paper: which of the two is
/// cut first is open, and the base is what the mat is made for.
#[test]
fn the_base_is_cut_before_what_goes_on_it() {
    let recipe = starter("book", Step::Sixteenth);
    let cuts = work_out(&recipe, &Tools::default()).cut_list;
    for cards in [1, 12, 24] {
        let plan = told(&recipe, &cuts, cards, 1_000_000);
        let parts = [Part::Strip(StripId::Base), Part::Layer(recipe.layers[0].id)];
        let ready = parts.map(|part| plan.ready_after(part));
        assert_eq!(ready, [Some(1), Some(3)], "{cards} cards");
    }
}

/// 25 cards of these take 19 sheets, where each part by itself takes 20 (the sum is
/// in `class.rs`).
#[test]
fn twenty_five_cards_share_nineteen_sheets() {
    let mut recipe = starter("book", Step::Sixteenth);
    recipe.layers[0].stock = LETTER;
    let cuts = work_out(&recipe, &Tools::default()).cut_list;
    let plan = told(&recipe, &cuts, 25, 1_000_000);
    assert_eq!(plan.sheets, BTreeMap::from([(LETTER, 19)]));
    let pieces = done(&recipe, &cuts, &plan);
    assert!(pieces.values().all(|count| *count == 25));
}

/// A mat of which no sheet is large enough: nothing is planned.
#[test]
fn a_plan_that_lacks_a_piece_is_none() {
    let mut recipe = starter("book", Step::Sixteenth);
    let sheets = [Sheets::new(&recipe.stocks[0])];
    recipe.layers[0].stock = LETTER;
    let cuts = work_out(&recipe, &Tools::default()).cut_list;
    let small = Sheets {
        size: Size {
            width: Length::mm(100),
            height: Length::mm(100),
        },
        ..sheets[0]
    };
    let class = Class::new(&cuts, NonZeroU32::MIN, &[small], Trimmer::PLAIN).expect("a job");
    assert_eq!(class.told(Planner::new(&class.job).plan()), None);
}

/// A scrap of 8 1/2 × 6 in gives a base of 8 1/2 × 5 1/2 in: all ten of them are used
/// before a new sheet is, and the other two bases of twelve come from one sheet
/// (worked by hand).
#[test]
fn scraps_are_used_before_new_sheets() {
    let mut recipe = starter("book", Step::Sixteenth);
    recipe.layers.clear();
    recipe.base.stock = LETTER;
    let card = work_out(&recipe, &Tools::default());
    let larger = Size {
        width: Length::sixty_fourths(64 * 17 / 2),
        height: Length::inches(6),
    };
    let scraps = [Scraps {
        stock: LETTER,
        size: larger,
        count: 10,
    }];
    let plan = told_from(&recipe, &card.cut_list, 12, 10_000, &scraps);
    assert_eq!(plan.scraps, scraps);
    assert_eq!(plan.sheets, BTreeMap::from([(LETTER, 1)]));
    let pieces = done(&recipe, &card.cut_list, &plan);
    assert_eq!(
        pieces,
        BTreeMap::from([(vec![Part::Strip(StripId::Base)], 12)])
    );
}
