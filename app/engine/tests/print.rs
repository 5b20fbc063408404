//! Which way printed paper lies.

use foldwright_engine::length::Length;
use foldwright_engine::paper::{Heads, Print, Stock, StockSide, ready_stocks};
use foldwright_engine::plane::{CardFrame, PieceFrame, Placement, Point, Turn};
use foldwright_engine::print::Lay;
use foldwright_engine::recipe::Side;

fn printed(heads: Heads, print: Print) -> Stock {
    let mut stock = ready_stocks().remove(0);
    stock.heads = heads;
    stock.face.print = print;
    stock.back.print = print;
    stock
}

/// The panel at the front of a folded card, its outside to the reader.
fn turned_over_sideways() -> Placement<PieceFrame, CardFrame> {
    Placement::over_upright(Length::inches(3))
}

/// Common practice: head-to-foot paper whose outside reads upright on the
/// front panel of an accordion, scored inside up with the first panel at the
/// stop, lies with its inside print upside down on the board, and is cut with
/// the strip's length across the print.
#[test]
fn head_to_foot_accordion() {
    let stock = printed(Heads::ToFoot, Print::OneWay);
    let upright: Vec<Lay> = Lay::all()
        .filter(|lay| lay.is_upright(&stock, Side::B, &turned_over_sideways()))
        .collect();
    // Either side of the paper can be the outside, each in one way.
    assert_eq!(upright.len(), 2, "{upright:?}");
    assert_ne!(upright[0].outside, upright[1].outside);
    for lay in upright {
        assert_eq!(
            lay.head_on_board(&stock, Side::A),
            Some(Turn::Half),
            "{lay:?}"
        );
        assert!(lay.runs_across(), "{lay:?}");
    }
}

/// On head-to-head paper the inside of that card reads upright with it; on
/// head-to-foot paper the two cannot both.
#[test]
fn inside_and_outside_together() {
    let inside = Placement::<PieceFrame, CardFrame>::unmoved();
    for (heads, lays) in [(Heads::ToHead, 2), (Heads::ToFoot, 0)] {
        let stock = printed(heads, Print::OneWay);
        let both = Lay::all()
            .filter(|lay| {
                lay.is_upright(&stock, Side::A, &inside)
                    && lay.is_upright(&stock, Side::B, &turned_over_sideways())
            })
            .count();
        assert_eq!(both, lays, "{heads:?}");
    }
}

/// A print without direction is upright in every lay, one that reads both ways
/// in twice as many as one that does not.
#[test]
fn other_prints() {
    for (print, lays) in [
        (Print::Plain, 8),
        (Print::AllOver, 8),
        (Print::TwoWay, 4),
        (Print::OneWay, 2),
    ] {
        let stock = printed(Heads::ToHead, print);
        let upright = Lay::all()
            .filter(|lay| lay.is_upright(&stock, Side::B, &turned_over_sideways()))
            .count();
        assert_eq!(upright, lays, "{print:?}");
    }
}

/// The answers form a group: turning the strip four times brings back the
/// first, once turns the head by a quarter, twice by a half.
#[test]
fn four_turns_restore() {
    let quarter = |lay: Lay| Lay {
        turn: lay.turn.then(Turn::Left),
        ..lay
    };
    for heads in [Heads::ToHead, Heads::ToFoot] {
        let stock = printed(heads, Print::OneWay);
        for lay in Lay::all() {
            let four = quarter(quarter(quarter(quarter(lay))));
            assert_eq!(four, lay);
            for side in [Side::A, Side::B] {
                let head = lay
                    .head_on(&stock, side)
                    .expect("a one-way print has a head");
                let turned = quarter(lay).head_on(&stock, side);
                assert!(
                    turned == Some(head.then(Turn::Left)) || turned == Some(head.then(Turn::Right)),
                    "{lay:?}"
                );
                let twice = quarter(quarter(lay)).head_on(&stock, side);
                assert_eq!(twice, Some(head.then(Turn::Half)), "{lay:?}");
            }
        }
    }
}

/// Placements carry points, and what follows another is the same as both.
#[test]
fn placements_are_a_group() {
    let at = Point::<PieceFrame>::new(Length::mm(7), Length::mm(-3));
    for mirrored in [false, true] {
        for turn in Turn::ALL {
            let shift = Point::new(Length::mm(40), Length::mm(11));
            let there: Placement<PieceFrame, CardFrame> = Placement::new(mirrored, turn, shift);
            assert_eq!(there.back().point(there.point(at)), at, "{there:?}");
            let round = there.then(&there.back());
            assert_eq!(round, Placement::unmoved(), "{there:?}");
            for next_mirrored in [false, true] {
                for next_turn in Turn::ALL {
                    let next: Placement<CardFrame, PieceFrame> = Placement::new(
                        next_mirrored,
                        next_turn,
                        Point::new(Length::mm(5), Length::mm(-9)),
                    );
                    assert_eq!(there.then(&next).point(at), next.point(there.point(at)));
                    assert_eq!(
                        there.then(&next).direction(Turn::Left),
                        next.direction(there.direction(Turn::Left))
                    );
                }
            }
        }
    }
}

#[test]
fn sides_of_the_stock_become_sides_of_the_strip() {
    for lay in Lay::all() {
        assert_eq!(lay.stock_side(Side::B), lay.outside);
        assert_eq!(lay.stock_side(Side::A), lay.outside.other());
    }
    assert_eq!(StockSide::Face.other(), StockSide::Back);
}
