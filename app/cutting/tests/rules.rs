//! What a plan has to keep to, in cases worked by hand.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

mod common;

use std::num::NonZeroU32;

use common::verifier::wrong;
use foldwright_cutting::{
    Becomes, Bound, Edge, Job, Length, Lie, Nonsense, Piece, Plan, Planner, Progress, Rect, Size,
    Source, Stock, Trimmer, Turn,
};

fn size(width: u32, height: u32) -> Size {
    Size::new(width, height).expect("a size")
}

fn stock(width: u32, height: u32) -> Stock {
    Stock {
        size: size(width, height),
        supply: None,
        cost: 1,
        margin: 0,
    }
}

fn piece(width: u32, height: u32, count: u32, lie: Lie) -> Piece {
    Piece {
        size: size(width, height),
        count: NonZeroU32::new(count).expect("some"),
        sources: vec![Source {
            stock: 0,
            lie,
            area: None,
        }],
    }
}

fn from_all(mut piece: Piece, stocks: usize) -> Piece {
    let source = piece.sources[0];
    piece.sources = (0..stocks)
        .map(|stock| Source { stock, ..source })
        .collect();
    piece
}

/// Worked on to the end, with nothing wrong in it.
fn planned(stocks: Vec<Stock>, pieces: Vec<Piece>, trimmer: Trimmer) -> (Plan, Bound) {
    let job = Job::new(stocks, pieces, trimmer).expect("a job");
    let mut planner = Planner::new(&job);
    while planner.improve(10_000_000, || false) != Progress::Done {}
    assert_eq!(wrong(&job, planner.plan()), Vec::<String>::new());
    (planner.plan().clone(), planner.bound())
}

fn kerf(kerf: u32) -> Trimmer {
    Trimmer {
        kerf,
        ..Trimmer::PLAIN
    }
}

#[test]
fn the_blade_takes_its_share_between_pieces_and_not_at_the_edge() {
    let sheets = |width, count, taken| {
        let pieces = vec![piece(width, 10, count, Lie::Upright)];
        planned(vec![stock(100, 10)], pieces, kerf(taken)).0.cost()
    };
    // 4 x 24 + 3 x 1 = 99; 4 x 24 + 3 x 2 = 102.
    assert_eq!(sheets(24, 4, 1), 1);
    assert_eq!(sheets(24, 4, 2), 2);
    // 2 x 49 + 2 = 100 leaves nothing, and 4 x 25 only without a kerf.
    assert_eq!(sheets(49, 2, 2), 1);
    assert_eq!(sheets(25, 4, 0), 1);
    assert_eq!(sheets(25, 4, 1), 2);
    // What is left of 100 - 99 is less than the blade takes.
    assert_eq!(sheets(99, 1, 5), 1);
}

#[test]
fn margins_are_trimmed_first() {
    let worn = Stock {
        margin: 5,
        ..stock(100, 100)
    };
    let (plan, bound) = planned(vec![worn], vec![piece(90, 90, 1, Lie::Upright)], kerf(0));
    assert_eq!((plan.cost(), plan.lacks(), bound.cost), (1, 0, 1));
    let layout = &plan.batches()[0].layout;
    assert_eq!(layout.cuts(), 4);
    let (_, _, place) = layout.pieces().next().expect("the piece");
    assert_eq!((place.x, place.y), (5, 5));
    let (plan, bound) = planned(vec![worn], vec![piece(91, 90, 1, Lie::Upright)], kerf(0));
    assert_eq!((plan.missing(), bound.missing), (&[1][..], 1));
}

#[test]
fn pieces_turn_only_where_they_may() {
    let lacks = |lie| {
        planned(vec![stock(10, 4)], vec![piece(4, 10, 1, lie)], kerf(0))
            .0
            .lacks()
    };
    assert_eq!(lacks(Lie::Upright), 1);
    assert_eq!(lacks(Lie::Turned), 0);
    assert_eq!(lacks(Lie::Either), 0);
    // Two 6 x 4 and 4 x 6 side by side need one of them to turn.
    let pieces = |lie| vec![piece(6, 4, 1, lie), piece(4, 6, 1, lie)];
    assert_eq!(
        planned(vec![stock(8, 6)], pieces(Lie::Either), kerf(0))
            .0
            .cost(),
        1
    );
    assert_eq!(
        planned(vec![stock(8, 6)], pieces(Lie::Upright), kerf(0))
            .0
            .cost(),
        2
    );
}

#[test]
fn pieces_come_from_the_chosen_part_of_the_sheet() {
    let right = Rect {
        x: 10,
        y: 0,
        size: size(10, 10),
    };
    let of_right = |count| {
        let mut piece = piece(4, 4, count, Lie::Either);
        piece.sources[0].area = Some(right);
        piece
    };
    // Four fit the right half, and the left is free for others.
    let others = piece(10, 10, 1, Lie::Upright);
    let (plan, _) = planned(vec![stock(20, 10)], vec![of_right(4), others], kerf(0));
    assert_eq!(plan.cost(), 1);
    let (plan, _) = planned(vec![stock(20, 10)], vec![of_right(5)], kerf(0));
    assert_eq!(plan.cost(), 2);
    // One motif in the middle of the sheet.
    let mut motif = piece(6, 6, 2, Lie::Upright);
    motif.sources[0].area = Some(Rect {
        x: 7,
        y: 2,
        size: size(6, 6),
    });
    let (plan, _) = planned(vec![stock(20, 10)], vec![motif], kerf(0));
    assert_eq!((plan.cost(), plan.lacks()), (2, 0));
}

#[test]
fn scraps_come_before_new_sheets_and_cheap_ones_before_dear_ones() {
    let scrap = Stock {
        supply: Some(1),
        cost: 0,
        ..stock(50, 50)
    };
    let pieces = vec![from_all(piece(50, 50, 2, Lie::Either), 2)];
    let (plan, bound) = planned(vec![stock(50, 50), scrap], pieces, kerf(0));
    assert_eq!((plan.cost(), bound.cost, plan.sheets()), (1, 1, 2));
    // Two halves from one large sheet for 3 rather than two small ones for 4.
    let small = Stock {
        cost: 2,
        ..stock(50, 50)
    };
    let large = Stock {
        cost: 3,
        ..stock(100, 50)
    };
    let pieces = |count| vec![from_all(piece(50, 50, count, Lie::Either), 2)];
    let (plan, bound) = planned(vec![small, large], pieces(2), kerf(0));
    assert_eq!((plan.cost(), bound.cost), (3, 3));
    let (plan, bound) = planned(vec![small, large], pieces(3), kerf(0));
    assert_eq!((plan.cost(), bound.cost), (5, 5));
}

#[test]
fn what_is_missing_is_told_and_proven() {
    let one = Stock {
        supply: Some(1),
        ..stock(10, 10)
    };
    let (plan, bound) = planned(vec![one], vec![piece(10, 10, 3, Lie::Either)], kerf(0));
    assert_eq!((plan.missing(), plan.cost()), (&[2][..], 1));
    assert_eq!(
        bound,
        Bound {
            missing: 2,
            cost: 1
        }
    );
    let (plan, bound) = planned(Vec::new(), Vec::new(), kerf(0));
    assert_eq!((plan.cost(), plan.lacks(), bound), (0, 0, Bound::default()));
}

#[test]
fn only_strips_that_the_trimmer_holds_are_cut() {
    let between = |least, most| Trimmer {
        narrowest: Length::new(least),
        widest: Length::new(most),
        ..Trimmer::PLAIN
    };
    let one = |trimmer| {
        planned(
            vec![stock(100, 10)],
            vec![piece(80, 10, 1, Lie::Upright)],
            trimmer,
        )
        .0
    };
    // 80 is too wide to lie against the fence, but the 20 beside it can.
    let plan = one(between(1, 60));
    assert_eq!(plan.lacks(), 0);
    let setting = &plan.sequence().settings()[0];
    assert_eq!(setting.fence.get(), 20);
    assert_eq!(setting.strokes[0].parts[0].edge, Edge::Right);
    assert_eq!(setting.strokes[0].parts[0].turn, Turn::Half);
    // With at least 25 neither can.
    assert_eq!(one(between(25, 60)).lacks(), 1);
}

/// 40 of 100 where the trimmer holds 30 at most: 30 and 30 come off, and neither
/// strip is wider than that.
#[test]
fn what_is_too_wide_for_the_trimmer_is_cut_strip_after_strip() {
    let trimmer = |most| Trimmer {
        widest: Length::new(most),
        ..Trimmer::PLAIN
    };
    let one = |most| {
        let pieces = vec![piece(40, 10, 1, Lie::Upright)];
        planned(vec![stock(100, 10)], pieces, trimmer(most)).0
    };
    let plan = one(30);
    assert_eq!(plan.lacks(), 0);
    let settings = plan.sequence().settings();
    let fences: Vec<u32> = settings.iter().map(|it| it.fence.get()).collect();
    assert_eq!((fences, plan.sequence().cuts()), (vec![30], 2));
    // A sheet of strips that are hardly anything is left alone.
    assert_eq!(one(1).lacks(), 1);
}

#[test]
fn three_sheets_in_quarters_take_one_setting_and_three_cuts() {
    let trimmer = Trimmer {
        stack: NonZeroU32::new(3).expect("three"),
        ..Trimmer::PLAIN
    };
    let (plan, _) = planned(
        vec![stock(10, 10)],
        vec![piece(5, 5, 12, Lie::Either)],
        trimmer,
    );
    assert_eq!(plan.cost(), 3);
    let sequence = plan.sequence();
    assert_eq!((sequence.settings().len(), sequence.cuts()), (1, 3));
    let strokes = &sequence.settings()[0].strokes;
    assert_eq!(strokes[0].copies(), 3);
    assert_eq!(strokes[1].copies(), 6);
    let turn = strokes[1].parts[0].turn;
    assert!(
        matches!(turn, Turn::Quarter | Turn::BackQuarter),
        "{turn:?}"
    );
}

#[test]
fn what_is_left_stays_in_one_piece() {
    let (plan, _) = planned(
        vec![stock(100, 80)],
        vec![piece(30, 80, 2, Lie::Upright)],
        kerf(0),
    );
    let (_, offcut) = plan.best_offcut().expect("an offcut");
    assert_eq!(offcut.size, size(40, 80));
    assert_eq!(
        (plan.sequence().settings().len(), plan.sequence().cuts()),
        (1, 2)
    );
    let becomes = plan.batches()[0].layout.parts().iter();
    assert_eq!(
        becomes
            .filter(|part| part.becomes == Becomes::Offcut)
            .count(),
        1
    );
}

#[test]
fn nonsense_is_refused() {
    let refused =
        |stocks, pieces, trimmer| Job::new(stocks, pieces, trimmer).expect_err("nonsense");
    let good = || piece(5, 5, 1, Lie::Either);
    let with = |change: fn(&mut Source)| {
        let mut piece = good();
        change(&mut piece.sources[0]);
        vec![piece]
    };
    let sheet = || vec![stock(10, 10)];
    assert_eq!(
        refused(sheet(), with(|source| source.stock = 1), kerf(0)),
        Nonsense::NoSuchStock { piece: 0 }
    );
    let outside = |source: &mut Source| {
        source.area = Some(Rect {
            x: 6,
            y: 0,
            size: size(5, 5),
        });
    };
    assert_eq!(
        refused(sheet(), with(outside), kerf(0)),
        Nonsense::AreaOutside { piece: 0 }
    );
    let twice = from_all(good(), 1);
    let twice = Piece {
        sources: [twice.sources.clone(), twice.sources.clone()].concat(),
        ..twice
    };
    assert_eq!(
        refused(sheet(), vec![twice], kerf(0)),
        Nonsense::StockTwice { piece: 0 }
    );
    let dear = Stock {
        cost: 1_000_001,
        ..stock(10, 10)
    };
    assert_eq!(
        refused(vec![dear], vec![good()], kerf(0)),
        Nonsense::CostTooHigh { stock: 0 }
    );
    assert_eq!(
        refused(sheet(), vec![piece(5, 5, 100_001, Lie::Either)], kerf(0)),
        Nonsense::TooManyPieces
    );
    assert_eq!(
        refused(sheet(), vec![good()], kerf(u32::MAX)),
        Nonsense::KerfTooWide
    );
    let none = Trimmer {
        narrowest: Length::new(9),
        widest: Length::new(8),
        ..Trimmer::PLAIN
    };
    assert_eq!(refused(sheet(), vec![good()], none), Nonsense::NoStripFits);
}

#[test]
fn a_search_stops_when_told_and_goes_on_the_same_way() {
    let pieces = || {
        (3..20)
            .map(|at| piece(at * 5, 100 - at * 4, 3, Lie::Either))
            .collect()
    };
    let job = Job::new(vec![stock(100, 100)], pieces(), kerf(1)).expect("a job");
    let mut planner = Planner::new(&job);
    assert_eq!(wrong(&job, planner.plan()), Vec::<String>::new());
    assert_eq!(planner.plan().lacks(), 0);
    let first = planner.plan().clone();
    assert_eq!(planner.improve(u64::MAX, || true), Progress::Same);
    assert_eq!(planner.plan(), &first);
    let mut asked = 0;
    planner.improve(u64::MAX, || {
        asked += 1;
        asked > 5
    });
    assert_eq!(asked, 6);
    // Equal budgets lead to equal plans.
    let mut others = [Planner::new(&job), Planner::new(&job)];
    for planner in &mut others {
        for _ in 0..20 {
            planner.improve(500_000, || false);
        }
    }
    assert_eq!(others[0].plan(), others[1].plan());
    assert_eq!(others[0].bound(), others[1].bound());
}
