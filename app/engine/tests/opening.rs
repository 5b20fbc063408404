//! The folded card, closed and as it is opened.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod strips;

use foldwright_engine::faces::{Part, View, shown};
use foldwright_engine::fold::{State, fold};
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::Length;
use foldwright_engine::plane::{Point, Rect, Region, Size};
use foldwright_engine::recipe::{Face, OnTop, PanelId, Recipe, Runs, Side, Stacked};
use strips::strip;

fn states(recipe: &Recipe) -> Vec<State> {
    fold(recipe, &lay_out(recipe))
        .expect("this strip folds flat")
        .states
}

fn inches(sixteenths: i64) -> Length {
    Length::sixty_fourths(sixteenths * 4)
}

/// Common practice: a 5 1/2 × 12 in strip scored at 1 3/4, 4 3/4 and 7 3/4 in,
/// folded as an accordion, closes to 4 1/4 × 5 1/2 with the narrow panel in
/// front, its outside showing, along the left edge.
#[test]
fn accordion_with_a_narrow_front() {
    let widths = [28, 48, 48, 68].map(inches);
    let card = states(&strip(&widths, inches(88), "VMV", 3, Runs::Across));
    let closed = &card[0];
    assert_eq!(
        closed.size(),
        Size {
            width: inches(68),
            height: inches(88),
        }
    );
    assert_eq!(closed.order, [3, 2, 1, 0]);
    let front = &closed.poses[0];
    assert!(front.place.mirrored, "the front shows its outside");
    assert_eq!(front.covers.low, Point::new(Length::ZERO, Length::ZERO));
    assert_eq!(front.covers.high, Point::new(inches(28), inches(88)));
    // It opens from the front, panel by panel.
    let opened: Vec<_> = card.iter().map(State::score).collect();
    assert_eq!(opened, [None, Some(0), Some(1), Some(2)]);
    assert!(card.iter().all(State::towards_front));
    let flat = card.last().expect("there is always the closed card");
    assert_eq!(flat.size().width, Length::inches(12));
}

/// A letter fold in A4 at the lengths of printers' folding guides: the short
/// panel goes in first and comes out last.
#[test]
fn letter_fold() {
    let widths = [100, 100, 97].map(Length::mm);
    let card = states(&strip(&widths, Length::mm(210), "VV", 1, Runs::Across));
    assert_eq!(
        card[0].size(),
        Size {
            width: Length::mm(100),
            height: Length::mm(210),
        }
    );
    assert_eq!(card.len(), 3);
    assert_eq!(card[2].size().width, Length::mm(297));
}

/// An open gate: two leaves meet in the middle of the panel behind them.
#[test]
fn gate() {
    let widths = [50, 100, 50].map(Length::mm);
    let card = states(&strip(&widths, Length::mm(150), "VV", 1, Runs::Across));
    assert_eq!(card[0].size().width, Length::mm(100));
    assert_eq!(
        card[0].poses[0].covers.high.x,
        card[0].poses[2].covers.low.x
    );
}

/// A tent card hangs from its fold: closed, the front lies on the back, head
/// to head; open, the front is above.
#[test]
fn tent() {
    let widths = [Length::mm(105); 2];
    let card = states(&strip(&widths, Length::mm(148), "V", 1, Runs::Down));
    let size = |height| Size {
        width: Length::mm(148),
        height: Length::mm(height),
    };
    assert_eq!(card[0].size(), size(105));
    assert_eq!(card[1].size(), size(210));
    assert_eq!(card[1].poses[0].covers.low.y, Length::mm(105));
}

/// Every point of every panel can be carried into the card and back, and a
/// fold keeps areas, whatever the strip.
#[test]
fn placements_round_trip() {
    for widths in [[30, 20, 20, 40], [10, 10, 10, 10], [40, 39, 38, 37]] {
        for labels in ["VMV", "VVV", "MVM", "MMV", "VMM"] {
            for runs in [Runs::Across, Runs::Down] {
                let recipe = strip(&widths.map(Length::mm), Length::mm(60), labels, 2, runs);
                let Ok(folded) = fold(&recipe, &lay_out(&recipe)) else {
                    continue;
                };
                let card = folded.states;
                assert_eq!(card.len(), 4, "{widths:?} {labels} opens wholly");
                for state in &card {
                    for (pose, width) in state.poses.iter().zip(widths) {
                        let low = pose.place.back().rect(&pose.covers);
                        assert_eq!(low.size().width, Length::mm(width));
                        assert_eq!(low.size().height, Length::mm(60));
                        assert_eq!(pose.place.rect(&low), pose.covers);
                    }
                }
            }
        }
    }
}

/// A recipe whose folds and panels do not match is not a reason to fall over.
#[test]
fn mismatched_folds() {
    for labels in ["", "V", "VVVVVV"] {
        let recipe = strip(
            &[Length::mm(10); 3],
            Length::mm(10),
            labels,
            9,
            Runs::Across,
        );
        let _ = fold(&recipe, &lay_out(&recipe));
    }
}

/// Where either leaf of a letter fold can be the front, the maker's answer
/// decides, and it opens first.
#[test]
fn the_maker_chooses_the_front() {
    let mut recipe = strip(
        &[Length::mm(100); 3],
        Length::mm(210),
        "VV",
        1,
        Runs::Across,
    );
    for (upper, lower, opens_first) in [(0, 2, 0), (2, 0, 1)] {
        recipe.base.on_top = vec![OnTop {
            upper: Stacked::Panel(PanelId(upper)),
            lower: Stacked::Panel(PanelId(lower)),
        }];
        let card = states(&recipe);
        assert_eq!(card[0].order.last(), Some(&(upper as usize)));
        assert_eq!(card[1].score(), Some(opens_first));
    }
    let back_on_top = OnTop {
        upper: Stacked::Panel(PanelId(1)),
        lower: Stacked::Panel(PanelId(0)),
    };
    recipe.base.on_top = vec![back_on_top];
    let folded = fold(&recipe, &lay_out(&recipe)).expect("the answer is left out");
    assert!(!folded.answers_kept);
    assert_eq!(folded.states.len(), 3);
}

/// The accordion with a narrow front shows, from the left, its front's outside
/// and then the insides of the panels behind it; from the back only its back.
#[test]
fn what_shows_of_an_accordion() {
    let widths = [28, 48, 48, 68].map(inches);
    let card = states(&strip(&widths, inches(88), "VMV", 3, Runs::Across));
    let between = |from, to| {
        Region::from(Rect::spanning(
            Point::new(inches(from), Length::ZERO),
            Point::new(inches(to), inches(88)),
        ))
    };
    let face = |panel, side| {
        Part::Face(Face {
            panel: PanelId(panel),
            side,
        })
    };
    let front: Vec<_> = shown(&card[0], View::Front, &[], &[])
        .into_iter()
        .map(|shown| (shown.part, shown.region))
        .collect();
    assert_eq!(
        front,
        [
            (face(0, Side::B), between(0, 28)),
            (face(1, Side::A), between(28, 48)),
            (face(3, Side::A), between(48, 68)),
        ]
    );
    let back = shown(&card[0], View::Back, &[], &[]);
    assert_eq!(back.len(), 1);
    assert_eq!(back[0].part, face(3, Side::B));
}

/// What shows never overlaps and makes up the whole outline, in every state
/// and from both views.
#[test]
fn what_shows_makes_up_the_outline() {
    for widths in [[30, 20, 20, 40], [10, 10, 10, 10], [40, 39, 38, 37]] {
        for labels in ["VMV", "VVV", "MVM", "MMV", "VMM"] {
            let recipe = strip(
                &widths.map(Length::mm),
                Length::mm(60),
                labels,
                2,
                Runs::Across,
            );
            let Ok(folded) = fold(&recipe, &lay_out(&recipe)) else {
                continue;
            };
            for state in &folded.states {
                let outline = state.poses.iter().fold(Region::default(), |all, pose| {
                    all.and(&Region::from(pose.covers))
                });
                for view in [View::Front, View::Back] {
                    let areas = shown(state, view, &[], &[])
                        .iter()
                        .map(|shown| shown.region.area())
                        .sum();
                    assert_eq!(outline.area(), areas, "{widths:?} {labels} {view:?}");
                }
            }
        }
    }
}
