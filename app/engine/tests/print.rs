//! Which way printed paper lies.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Tools, add_piece, work_out};
use foldwright_engine::draw::{Mark, state};
use foldwright_engine::faces::{Part as Shown, View};
use foldwright_engine::length::Length;
use foldwright_engine::paper::{Heads, Print, ReadyPaper, Stock, StockSide};
use foldwright_engine::part;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{Bearing, CardFrame, PieceFrame, Placement, Point, Turn};
use foldwright_engine::problem::{Finding, FitFinding, Place};
use foldwright_engine::recipe::{Face, Fold, Lay, PanelId, Recipe, Runs, Side, StripId};
use plain::Plain;
use strips::strip;

fn printed(heads: Heads, print: Print) -> Stock {
    let mut stock = ReadyPaper::Cream.stock("cream".to_owned());
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

/// Folded along a crease that leans 15° from upright, a corner shows its back;
/// its print, upright before, is mirrored in the crease and runs twice 15° to
/// the right. No quarter turn of the sheet comes nearer than that.
#[test]
fn a_print_on_a_slanting_panel_says_how_far_it_leans() {
    let mut recipe = strip(&[Length::mm(100)], Length::mm(100), "", 0, Runs::Across);
    let stock = printed(Heads::ToHead, Print::OneWay);
    recipe.base.strip.stock = stock.id;
    recipe.stocks = vec![stock];
    // 100 mm times the tangent of 15°.
    let to = Point::new(Length::mm(60) + Length::microns(26_795), Length::mm(100));
    let from = Point::new(Length::mm(60), Length::ZERO);
    recipe
        .add_line(
            StripId::Base,
            LineKind::Crease(Fold::Valley),
            from,
            to,
            &Plain,
        )
        .expect("it is on the paper");
    let corner = Face {
        panel: PanelId(0).part(1),
        side: Side::B,
    };
    recipe.upright = vec![corner];
    let card = work_out(&recipe, &Tools::default());
    let said = card
        .problems
        .iter()
        .find(|problem| problem.place == Place::Face(corner))
        .expect("it leans");
    let Finding::Fit(FitFinding::Slanted {
        face,
        turned,
        is_nearest: true,
    }) = said.finding
    else {
        panic!("{said:?}");
    };
    assert_eq!(face, corner);
    assert!((degrees(turned) + 30.0).abs() < 0.01, "to the right");
    let print = card
        .lies(part::Part::Strip(StripId::Base))
        .expect("it has paper");
    assert_eq!(
        (&print.slants[..], &print.conflicts[..]),
        (&[corner][..], &[][..])
    );
    // Two lays come nearest, one with either side of the paper outside.
    let nearest = print.lays.iter().filter(|lay| lay.nearest == [corner]);
    assert_eq!(nearest.count(), 2);
    assert!(print.lays[0].nearest == [corner] && print.lay == print.lays[0].lay);

    // The arrow on it, in the drawing of the closed card, leans as far.
    let drawing = state(&recipe, &card, 0, View::Front).with_heads();
    let arrows = drawing.marks.windows(2).filter_map(|two| match two {
        [
            Mark::Area {
                part: Some(Shown::Face(face)),
                ..
            },
            Mark::Arrow { from, to },
        ] if *face == corner => Some((to[0] - from[0]).atan2(to[1] - from[1])),
        _ => None,
    });
    let arrows: Vec<f64> = arrows.map(f64::to_degrees).collect();
    assert_eq!(arrows.len(), 1);
    assert!((arrows[0] - 30.0).abs() < 0.01, "{arrows:?}");
}

/// A strip glued along a line that rises 30° lies turned by as much, and so does
/// the print on its flap. A flap that is lifted like the page of a calendar
/// shows its other side head to foot, and on head-to-head paper only one of
/// them is upright.
#[test]
fn a_print_on_a_piece_glued_at_a_slant_says_how_far_it_leans() {
    let mut recipe = strip(&[Length::mm(140)], Length::mm(140), "", 0, Runs::Across);
    let stock = printed(Heads::ToHead, Print::OneWay);
    recipe.base.strip.stock = stock.id;
    recipe.stocks = vec![stock];
    let inside = Face {
        panel: recipe.base.panels[0].id,
        side: Side::A,
    };
    let piece = add_piece(&mut recipe, inside, &Plain)
        .expect("there is room")
        .id;
    let strip = recipe.piece(piece).expect("it was added").strip.clone();
    for (measure, size) in [(strip.panels[1].width, 40), (strip.height, 40)] {
        recipe.set(measure, Length::mm(size)).expect("it is free");
    }
    // The tab is glued down; the flap shows.
    let panel = strip.panels[1].id;
    // 60 mm along the line.
    let level = (Length::mm(60), Length::ZERO);
    let risen = (Length::microns(51_962), Length::mm(30));
    let lay = |recipe: &mut Recipe, (x, y): (Length, Length)| {
        let from = Point::new(Length::mm(50), Length::mm(40));
        let to = Point::new(from.x + x, from.y + y);
        recipe
            .lay_join(piece, 0, from, to, &Plain)
            .expect("it has a join");
    };
    let faces = [Side::A, Side::B].map(|side| Face { panel, side });
    let said = |recipe: &Recipe| {
        let problems = work_out(recipe, &Tools::default()).problems.into_iter();
        let of_faces =
            problems.filter(|it| faces.iter().any(|face| it.place == Place::Face(*face)));
        of_faces.map(|problem| problem.finding).collect::<Vec<_>>()
    };
    recipe.upright = vec![faces[0]];
    lay(&mut recipe, level);
    assert_eq!(said(&recipe), []);
    lay(&mut recipe, risen);
    let all = said(&recipe);
    assert_eq!(all.len(), 1, "{all:?}");
    let Finding::Fit(FitFinding::Slanted { turned, .. }) = all[0] else {
        panic!("{all:?}");
    };
    assert!((degrees(turned) - 30.0).abs() < 0.01, "to the left");

    lay(&mut recipe, level);
    recipe.upright = faces.to_vec();
    let all = said(&recipe);
    assert_eq!(all.len(), 1, "{all:?}");
    assert_eq!(all, [Finding::Fit(FitFinding::NotBothUpright(faces))]);
}

/// How far a turn goes to the left, in degrees.
fn degrees(turned: Bearing) -> f64 {
    let (cos, sin) = turned.cos_sin();
    sin.atan2(cos).to_degrees()
}
