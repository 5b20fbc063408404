//! Creases and cuts at any angle, from the recipe to the closed and the opened
//! card. Areas and places are worked out by hand.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{Moment, opening};
use foldwright_engine::faces::{Part, View, shown};
use foldwright_engine::fold::questions;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{LineId, LineKind, Misfit};
use foldwright_engine::plane::{Area, PieceFrame, Point};
use foldwright_engine::problem::{Finding, OpeningFinding, PatternFinding, Place, Weight};
use foldwright_engine::recipe::{
    EditError, End, Fold, OnTop, Recipe, Runs, Stacked, StripId, read, write,
};
use foldwright_engine::steps::{Title, steps};
use plain::Plain;
use proptest::prelude::*;
use strips::strip;

const VALLEY: LineKind = LineKind::Crease(Fold::Valley);
const MOUNTAIN: LineKind = LineKind::Crease(Fold::Mountain);

fn mm(x: i64, y: i64) -> Point<PieceFrame> {
    Point::new(Length::mm(x), Length::mm(y))
}

/// A sheet without scores, with these lines drawn on it.
fn sheet(width: i64, height: i64, lines: &[(LineKind, [i64; 4])]) -> Recipe {
    let mut recipe = strip(
        &[Length::mm(width)],
        Length::mm(height),
        "",
        0,
        Runs::Across,
    );
    for (kind, [x, y, to_x, to_y]) in lines {
        recipe
            .add_line(StripId::Base, *kind, mm(*x, *y), mm(*to_x, *to_y), &Plain)
            .expect("there is room for another line");
    }
    recipe
}

fn card(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

fn stops(card: &Card) -> Vec<Finding> {
    let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
    stops.map(|problem| problem.finding.clone()).collect()
}

/// Square millimetres that show of the closed card.
fn area_shown(card: &Card, view: View) -> Area {
    let folded = card.folded.as_ref().expect("it folds");
    let faces = shown(&folded.states[0], view, &[], &card.readings);
    let unit = Area::from(Length::mm(1).units());
    let faces = faces.iter().filter(|it| matches!(it.part, Part::Face(_)));
    faces.map(|it| it.region.area()).sum::<Area>() / (unit * unit)
}

#[test]
fn a_square_folds_along_its_diagonal() {
    let recipe = sheet(100, 100, &[(VALLEY, [0, 0, 100, 100])]);
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert_eq!(card.laid.panels.len(), 2);
    assert_eq!(card.finished.width, Length::mm(100));
    for view in [View::Front, View::Back] {
        assert_eq!(area_shown(&card, view), 5000);
    }
    let states = &card.folded.as_ref().expect("it folds").states;
    assert_eq!(states.len(), 2);
    assert_eq!(states[1].size().width, Length::mm(100));
    let folds = steps(&recipe, &card);
    let crease = LineId::of_line(recipe.base.lines[0].id);
    let along = Title::Fold {
        line: crease,
        more: 0,
    };
    assert!(
        folds
            .iter()
            .any(|step| step.title == Title::ScoreLine(crease))
    );
    assert!(folds.iter().any(|step| step.title == along));
}

/// The corner of a page folded over at 45° covers a triangle of its own size.
#[test]
fn a_folded_corner_shows_the_other_side() {
    let recipe = sheet(100, 60, &[(VALLEY, [80, 0, 100, 20])]);
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert_eq!(area_shown(&card, View::Front), 6000 - 200);
    assert_eq!(area_shown(&card, View::Back), 6000 - 200);
}

#[test]
fn what_is_cut_off_falls_away() {
    let cut = [(LineKind::Cut, [80, 60, 100, 40])];
    let recipe = sheet(100, 60, &cut);
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert_eq!(card.laid.panels.len(), 1);
    assert_eq!(card.laid.base.fallen.len(), 1);
    assert_eq!(area_shown(&card, View::Front), 6000 - 200);
    let blades = steps(&recipe, &card);
    let line = LineId::of_line(recipe.base.lines[0].id);
    let cut = blades
        .iter()
        .find(|step| step.title == Title::CutLine(line));
    assert!(cut.is_some_and(|cut| !cut.care.is_empty()));
}

/// A step cut from the card's own fold: between two slits the paper folds the
/// other way, `left` from the fold on the left page, `right` on the right one.
fn step(left: i64, right: i64, ridge: i64) -> Recipe {
    let (from, to) = (100 - left, 100 + right);
    sheet(
        200,
        100,
        &[
            (VALLEY, [100, 0, 100, 30]),
            (VALLEY, [100, 70, 100, 100]),
            (LineKind::Cut, [from, 30, to, 30]),
            (LineKind::Cut, [from, 70, to, 70]),
            (VALLEY, [from, 30, from, 70]),
            (MOUNTAIN, [ridge, 30, ridge, 70]),
            (VALLEY, [to, 30, to, 70]),
        ],
    )
}

/// A step closes flat when the two ways round from hinge to hinge, by the fold
/// and by the ridge, are parallelograms: opposite lengths are equal.
#[test]
fn a_step_opens_with_the_card() {
    let recipe = step(30, 20, 90);
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert_eq!(card.laid.panels.len(), 4);
    let whole = card.whole.as_ref().expect("its creases move together");
    // Half open the ridge stands where the parallelogram has its fourth corner:
    // 30 along one page and 20 along the other.
    for share in [0.25, 0.5, 0.75] {
        let pose = whole.pose_at(share);
        assert!(pose.gap < 1e-6, "{}", pose.gap);
        let angle = share * std::f64::consts::PI;
        let ridge = card.laid.panels.iter().zip(&pose.facets);
        let found = ridge.filter_map(|(panel, place)| {
            let corners = &panel.facet.outline.corners;
            // The pages have corners at the slits too.
            let is_page = corners.iter().any(|at| at.y == Length::ZERO);
            let ridge = |at: &&Point<PieceFrame>| **at == mm(90, 30);
            let at = corners.iter().filter(|_| !is_page).find(ridge)?;
            Some(place.point([at.x.as_mm_f64(), at.y.as_mm_f64(), 0.0]))
        });
        let found: Vec<_> = found.collect();
        assert_eq!(found.len(), 2, "the ridge has a panel on each side");
        // The right page, which is larger, rests with the fold at its left
        // edge; the left one has turned by `angle` from lying on it.
        let (x, z) = (20.0 + 30.0 * angle.cos(), 30.0 * angle.sin());
        for at in found {
            assert!((at[0] - x).abs() < 1e-6, "{at:?} at {share}");
            assert!((at[2] - z).abs() < 1e-6, "{at:?} at {share}");
        }
    }
    let states = card.folded.as_ref().expect("it folds").states.len();
    assert_eq!(states, 2, "closed and flat");
    for part in [0.0, 0.3, 0.9] {
        let drawn = opening(&recipe, &card, Moment { state: 0, part });
        assert!(drawn.marks.len() >= 4);
    }
    let titles = steps(&recipe, &card);
    assert!(titles.iter().any(|step| step.title == Title::Close));
}

#[test]
fn a_step_with_unequal_lengths_is_refused() {
    let card = card(&step(30, 20, 85));
    assert!(card.folded.is_none());
    assert!(!stops(&card).is_empty());
}

/// When the card is shut the ridge lies as far from the fold as both hinges
/// together.
#[test]
fn a_step_that_is_too_deep_sticks_out() {
    let sticks_out = |recipe: &Recipe| {
        let card = card(recipe);
        let problems = card.problems.iter();
        problems
            .filter(|problem| {
                let found = &problem.finding;
                matches!(found, Finding::Opening(OpeningFinding::PastThePages { .. }))
            })
            .count()
    };
    assert_eq!(sticks_out(&step(60, 40, 80)), 0);
    assert_eq!(sticks_out(&step(70, 50, 80)), 1);
}

/// Two neighbouring corners folded in to one point overlap nowhere; four folded
/// further lap over each other in a ring, as on an envelope.
#[test]
fn four_corners_lap_in_a_ring() {
    let recipe = sheet(
        100,
        100,
        &[
            (VALLEY, [0, 40, 40, 0]),
            (VALLEY, [60, 0, 100, 40]),
            (VALLEY, [100, 60, 60, 100]),
            (VALLEY, [40, 100, 0, 60]),
        ],
    );
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert_eq!(card.laid.panels.len(), 5);
    let total = 10_000 - 4 * 800;
    assert_eq!(area_shown(&card, View::Front), total);
    assert_eq!(area_shown(&card, View::Back), total);
}

#[test]
fn creases_that_do_not_fold_flat_are_refused_where_they_meet() {
    // Three creases of one kind and one of the other are right for a square
    // vertex (Maekawa); two and two are not.
    let cross = |fourth: LineKind| {
        sheet(
            100,
            100,
            &[
                (VALLEY, [50, 0, 50, 50]),
                (VALLEY, [50, 50, 50, 100]),
                (VALLEY, [0, 50, 50, 50]),
                (fourth, [50, 50, 100, 50]),
            ],
        )
    };
    assert_eq!(stops(&card(&cross(MOUNTAIN))), []);
    let refused = card(&cross(VALLEY));
    assert!(refused.folded.is_none());
    let is = PatternFinding::Misfit(Misfit::Folds {
        at: mm(50, 50),
        mountains: 0,
        valleys: 4,
    });
    assert_eq!(
        stops(&refused),
        [Finding::Pattern {
            of: StripId::Base,
            is
        }]
    );
}

/// Two leaves that lap in front: either may be on top, and once that is said
/// nothing is left to ask.
#[test]
fn only_what_the_creases_leave_open_is_asked() {
    let widths = [70, 100, 60].map(Length::mm);
    let mut recipe = strip(&widths, Length::mm(120), "VV", 1, Runs::Across);
    let asked = |recipe: &Recipe| {
        let card = card(recipe);
        let folded = card.folded.as_ref().expect("it folds");
        questions(recipe, &card.laid, folded)
    };
    let question = asked(&recipe);
    assert_eq!(question.len(), 1);
    let (a, b) = question[0];
    for (upper, lower) in [(a, b), (b, a)] {
        recipe.base.on_top = vec![OnTop { upper, lower }];
        let card = card(&recipe);
        let closed = &card.folded.as_ref().expect("it folds").states[0];
        let place = |sheet| match sheet {
            Stacked::Panel(id) => card.laid.index_of(id).expect("it is a panel"),
            Stacked::Layer { .. } => unreachable!("it has no layers"),
        };
        assert!(closed.is_over(place(upper), place(lower)));
        assert_eq!(asked(&recipe).len(), 1, "the answer can still be changed");
    }
    // An accordion lies only one way.
    let accordion = strip(&widths, Length::mm(120), "VM", 1, Runs::Across);
    assert_eq!(asked(&accordion), []);
}

#[test]
fn a_crease_that_ends_within_a_panel_is_named() {
    let recipe = sheet(100, 60, &[(VALLEY, [0, 30, 50, 30])]);
    let card = card(&recipe);
    let problem = card.problems.first().expect("it is refused");
    assert_eq!(problem.weight, Weight::Stop);
    assert_eq!(problem.place, Place::Line(recipe.base.lines[0].id));
}

#[test]
fn lines_are_moved_turned_renamed_and_removed() {
    let mut recipe = sheet(100, 60, &[(VALLEY, [80, 0, 100, 20])]);
    let before = recipe.clone();
    let id = recipe.base.lines[0].id;
    recipe
        .move_line_end(id, End::From, mm(70, 0), &Plain)
        .expect("it moves");
    let from = recipe.base.lines[0].from;
    assert_eq!(recipe.corner(from), mm(70, 0));
    recipe
        .turn_line_into(id, LineKind::Cut)
        .expect("it is there");
    assert_eq!(recipe.base.lines[0].kind, LineKind::Cut);
    recipe
        .rename_line(id, "dog-ear", &Plain)
        .expect("it is there");
    let name = |it: &Recipe| {
        it.measure(it.base.lines[0].from.x)
            .map(|it| it.name.clone())
    };
    assert_eq!(name(&recipe).as_deref(), Some("dog-ear start along"));
    assert_eq!(
        read(&write(std::slice::from_ref(&recipe))),
        Ok(vec![recipe.clone()])
    );
    assert_eq!(recipe.check(), []);
    recipe.remove_line(id).expect("it is there");
    assert_eq!(recipe.remove_line(id), Err(EditError::NoLine));
    assert_eq!(recipe.base.lines, []);
    assert_eq!(recipe.measures.len() + 4, before.measures.len());
}

/// An end drawn on the strip's edge or on a score stays there.
#[test]
fn ends_follow_what_they_lie_on() {
    let mut recipe = strip(
        &[Length::mm(100), Length::mm(100)],
        Length::mm(150),
        "V",
        0,
        Runs::Across,
    );
    recipe
        .add_line(StripId::Base, VALLEY, mm(100, 100), mm(200, 150), &Plain)
        .expect("there is room");
    let line = recipe.base.lines[0].clone();
    let first = recipe.base.panels[0].width;
    recipe
        .set(first, Length::mm(80))
        .expect("the strip shrinks");
    let score = recipe.value(first);
    assert_eq!(recipe.corner(line.from).x, score);
    assert_eq!(recipe.corner(line.to).x, recipe.value(recipe.base.length));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Whatever is drawn: no panic, and what shows is the paper that is left.
    #[test]
    fn any_lines_are_worked_out(
        lines in prop::collection::vec(
            (0..3_u8, prop::array::uniform4(0_i64..=12)),
            0..5,
        )
    ) {
        let lines: Vec<_> = lines
            .into_iter()
            .map(|(kind, at)| {
                let kind = [VALLEY, MOUNTAIN, LineKind::Cut][usize::from(kind)];
                (kind, at.map(|at| at * 10))
            })
            // A line without length is refused.
            .filter(|(_, [x, y, to_x, to_y])| (x, y) != (to_x, to_y))
            .collect();
        let recipe = sheet(120, 120, &lines);
        let card = card(&recipe);
        prop_assert!(steps(&recipe, &card).len() >= 3);
        if card.folded.is_some() {
            let front = area_shown(&card, View::Front);
            let back = area_shown(&card, View::Back);
            // Slanting corners are rounded to 1/72 µm.
            prop_assert!((front - back).abs() <= 1, "{front} {back}");
            prop_assert!(front <= 120 * 120);
        }
    }
}
