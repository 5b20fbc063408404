//! A deliberately impossible card of each kind: each gets a message of its own
//! that names the place. Angles and lengths are worked out by hand.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Card, Tools, add_piece, work_out};
use foldwright_engine::draw::{Moment, opening, state};
use foldwright_engine::faces::View;
use foldwright_engine::fold::Folded;
use foldwright_engine::length::{Length, Step};
use foldwright_engine::pattern::{LineId, LineKind, Misfit};
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::problem::{
    Finding, FoldingFinding, OpeningFinding, PatternFinding, Place, Problem, Weight,
};
use foldwright_engine::recipe::{Face, Fold, PanelId, PieceId, Recipe, Runs, Side, StripId};
use foldwright_engine::stage::{Stage, Stop, stage};
use plain::Plain;
use strips::strip;

const VALLEY: LineKind = LineKind::Crease(Fold::Valley);
const MOUNTAIN: LineKind = LineKind::Crease(Fold::Mountain);

fn at(x: i64, y: i64) -> Point<PieceFrame> {
    Point::new(Length::mm(x), Length::mm(y))
}

fn in_millimetres(mut recipe: Recipe) -> Recipe {
    recipe.notation.step = Step::Millimetre;
    recipe
}

/// A sheet without scores, with these lines drawn on it.
fn sheet(width: i64, height: i64, lines: &[(LineKind, [i64; 4])]) -> Recipe {
    let widths = [Length::mm(width)];
    let mut recipe = in_millimetres(strip(&widths, Length::mm(height), "", 0, Runs::Across));
    for (kind, [x, y, to_x, to_y]) in lines {
        recipe
            .add_line(StripId::Base, *kind, at(*x, *y), at(*to_x, *to_y), &Plain)
            .expect("there is room for another line");
    }
    recipe
}

/// A card of two pages of 100 × 140 mm.
fn pages() -> Recipe {
    let pages = [100, 100].map(Length::mm);
    in_millimetres(strip(&pages, Length::mm(140), "V", 1, Runs::Across))
}

fn inside(page: u32) -> Face {
    Face {
        panel: PanelId(page),
        side: Side::A,
    }
}

/// Glues a strip of these widths to a page along a line.
fn piece(recipe: &mut Recipe, widths: &[i64], labels: &str, on: Face, x: i64) -> PieceId {
    let id = add_piece(recipe, on, &Plain).expect("there is room").id;
    let panels = |recipe: &Recipe| recipe.piece(id).expect("it was added").strip.panels.clone();
    while panels(recipe).len() > widths.len() {
        let last = panels(recipe).pop().expect("it has one").id;
        recipe.remove_panel(last).expect("it is not the only one");
    }
    while panels(recipe).len() < widths.len() {
        let last = panels(recipe).len() - 1;
        let added = recipe.add_panel(StripId::Piece(id), last, None, &Plain);
        added.expect("there is room");
    }
    for (panel, width) in panels(recipe).iter().zip(widths) {
        recipe
            .set(panel.width, Length::mm(*width))
            .expect("nothing holds it");
    }
    let height = recipe.piece(id).expect("it was added").strip.height;
    recipe
        .set(height, Length::mm(60))
        .expect("nothing holds it");
    for (score, label) in labels.chars().enumerate() {
        let fold = recipe.piece(id).expect("it was added").strip.folds[score];
        if (label == 'M') != (fold == Fold::Mountain) {
            recipe
                .flip(StripId::Piece(id), score)
                .expect("it has that score");
        }
    }
    recipe
        .lay_join(id, 0, at(x, 40), at(x, 100), &Plain)
        .expect("it has a join");
    id
}

/// Glues the last panel of a piece to the right page.
fn on_the_right(recipe: &mut Recipe, id: PieceId, x: Option<i64>) {
    let strip = &recipe.piece(id).expect("it was added").strip;
    let last = strip.panels.last().expect("it has panels").id;
    recipe
        .add_join(id, last, inside(1))
        .expect("it is one of its panels");
    if let Some(x) = x {
        recipe
            .lay_join(id, 1, at(x, 40), at(x, 100), &Plain)
            .expect("it is there");
    }
}

/// A tent on both pages: its feet 60 mm from the fold, its walls 40 mm.
fn tent() -> (Recipe, PieceId) {
    let mut recipe = pages();
    let id = piece(&mut recipe, &[12, 40, 40, 12], "VMV", inside(0), 40);
    on_the_right(&mut recipe, id, Some(160));
    (recipe, id)
}

fn card(recipe: &Recipe) -> Card {
    assert_eq!(recipe.check(), []);
    work_out(recipe, &Tools::default())
}

/// The one thing that keeps a card from being made.
fn only(card: &Card) -> Problem {
    let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
    let stops: Vec<_> = stops.cloned().collect();
    assert_eq!(stops.len(), 1, "{stops:?}");
    stops.into_iter().next().expect("there is one")
}

/// Four right angles and four valleys: by Maekawa's theorem mountains and
/// valleys differ by two.
#[test]
fn a_vertex() {
    let recipe = sheet(
        100,
        100,
        &[
            (VALLEY, [50, 0, 50, 50]),
            (VALLEY, [50, 50, 50, 100]),
            (VALLEY, [0, 50, 50, 50]),
            (VALLEY, [50, 50, 100, 50]),
        ],
    );
    let said = only(&card(&recipe));
    let is = PatternFinding::Misfit(Misfit::Folds {
        at: at(50, 50),
        mountains: 0,
        valleys: 4,
    });
    assert_eq!(
        said.finding,
        Finding::Pattern {
            of: StripId::Base,
            is
        }
    );
    assert_eq!(said.place, Place::Line(recipe.base.lines[0].id));
}

/// 50, 20, 50 with two valleys: the outer two pass through each other, as a
/// short middle between two longer neighbours never folds (Arkin and others,
/// When can you fold a map?).
#[test]
fn a_stack() {
    let recipe = sheet(
        120,
        60,
        &[(VALLEY, [50, 0, 50, 60]), (VALLEY, [70, 0, 70, 60])],
    );
    let said = only(&card(&recipe));
    let Finding::Folding(FoldingFinding::NoOrder(panels)) = &said.finding else {
        panic!("{said:?}");
    };
    assert_eq!(said.place, Place::Panel(panels[0]));
    assert_eq!(panels[0].strip_panel(), PanelId(0));
}

/// A fold glued 10 mm beside the card's own: two parallel lines between the
/// same two pages hold both (common practice).
#[test]
fn a_glue_lock() {
    let mut recipe = pages();
    let id = piece(&mut recipe, &[40, 40], "V", inside(0), 90);
    on_the_right(&mut recipe, id, None);
    let said = only(&card(&recipe));
    let line = LineId::of_score(0);
    let glued = Some(id);
    let locked = OpeningFinding::Locked { line, glued };
    assert_eq!(said.finding, Finding::Opening(locked));
    assert_eq!(said.place, Place::Score(line));
    // It is shown shut, and not torn open.
    let card = self::card(&recipe);
    assert!(card.whole.is_none());
    let folded = card.folded.as_ref().expect("it folds");
    assert_eq!(folded.states.len(), 1);
    assert_eq!(stage(&card, 0.0), Stage::HeldShut);
}

/// A fold glued beside the fold holds the card shut. A stand on its outside
/// opens all the same; the glue is torn nowhere.
#[test]
fn a_card_glued_shut_opens_as_far_as_it_goes() {
    let mut recipe = pages();
    let id = piece(&mut recipe, &[40, 40], "V", inside(0), 90);
    on_the_right(&mut recipe, id, None);
    let back = Face {
        panel: PanelId(1),
        side: Side::B,
    };
    piece(&mut recipe, &[15, 40], "V", back, 130);
    let card = card(&recipe);
    let shut = card.problems.iter();
    let shut = shut.filter(|problem| {
        let found = &problem.finding;
        matches!(found, Finding::Opening(OpeningFinding::Locked { .. }))
    });
    assert!(shut.count() > 0, "{:?}", card.problems);
    assert!(card.whole.is_none());
    let folded = card.folded.as_ref().expect("it folds");
    assert_eq!(folded.states.len(), 2, "closed, and the stand opened");
    assert!(folded.stops);
    let end = stage(&card, 1.0);
    assert!(matches!(end, Stage::Opened { stops: true, .. }), "{end:?}");
    for state in &folded.states {
        for glued in &folded.glued {
            let [part, on] = [glued.part, glued.on].map(|panel| &state.poses[panel]);
            assert!(!part.stands && !on.stands);
            assert_eq!(part.place, glued.place.then(&on.place), "the glue holds");
        }
    }
    for reading in &card.readings {
        assert!(reading.state < folded.states.len());
    }
}

/// Half the tent is stretched straight where the sine of half the angle between
/// the pages is 40 / 60.
#[test]
fn a_jam() {
    let (recipe, _) = tent();
    let angle = 2.0 * (40.0_f64 / 60.0).asin().to_degrees();
    let said = only(&card(&recipe));
    let Finding::Opening(OpeningFinding::Jam { line, opened }) = said.finding else {
        panic!("{said:?}");
    };
    let off = f64::from(opened.as_thousandths()) / 1000.0 - angle;
    assert!(off.abs() < 0.1, "{off}");
    assert_eq!(line, LineId::of_score(0));
    assert_eq!(said.place, Place::Score(line));
    // It is shown open so far, and said to be.
    let card = self::card(&recipe);
    let whole = card.whole.as_ref().expect("it opens some way");
    let stops = whole.stops_at.expect("it stops");
    assert!((stops - angle).abs() < 0.1, "{stops}");
    let Stage::Stopped(Stop::Degrees(told)) = stage(&card, 1.0) else {
        panic!("it stops on its way");
    };
    assert!((f64::from(told) - angle).abs() <= 0.5, "{told}");
    let at = |state, part| opening(&recipe, &card, Moment { state, part });
    assert_eq!(at(1, 0.0), at(0, 1.0), "the last picture is of that pose");
}

/// A piece glued across the fold keeps the card from closing. It is named, and
/// the card is shown closed without it.
#[test]
fn a_piece_in_the_way() {
    let mut recipe = pages();
    let bare = card(&recipe);
    let id = piece(&mut recipe, &[12, 60], "V", inside(1), 112);
    let card = card(&recipe);
    let said = only(&card);
    assert_eq!(said.place, Place::Piece(id));
    let Finding::Folding(FoldingFinding::LeftOut { pieces, .. }) = &said.finding else {
        panic!("{said:?}");
    };
    assert_eq!(*pieces, [id]);
    assert_eq!(card.left_out, [id]);
    assert_eq!(card.finished, bare.finished);
    assert_eq!(card.envelopes, bare.envelopes);
    let drawn = |card: &Card| state(&recipe, card, 0, View::Front);
    assert_eq!(drawn(&card), drawn(&bare));
    assert!(!drawn(&card).marks.is_empty());
    let closed = card.facts().closed.expect("it folds without it");
    assert_eq!(closed.without, [id]);
    let states = card.folded.expect("it folds without it").states;
    assert_eq!(states.len(), 2, "and opens");
}

/// A panel on the left wall that ends 100 mm from its foot meets the right page
/// where, with p the angle at the ridge and t that between the pages, the sine
/// rule gives sin p = 60 / 40 sin (t / 2) and 60 sin t / sin (p − t / 2) = 100.
#[test]
fn a_collision() {
    let (mut recipe, tent) = tent();
    let wall = recipe.piece(tent).expect("it is there").strip.panels[1].id;
    let front = Face {
        panel: wall,
        side: Side::A,
    };
    let flap = piece(&mut recipe, &[90], "", front, 22);
    let strip = &recipe.piece(flap).expect("it was added").strip;
    let tongue = strip.panels[0].id;
    let reach = |angle: f64| {
        let ridge = (1.5 * (angle / 2.0).sin()).asin();
        60.0 * angle.sin() / (ridge - angle / 2.0).sin()
    };
    let most = 2.0 * (40.0_f64 / 60.0).asin();
    let (mut low, mut high) = (0.01_f64, most);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if reach(middle) > 100.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    let card = card(&recipe);
    let mut problems = card.problems.iter();
    let (said, panels, opened) = problems
        .find_map(|problem| match problem.finding {
            Finding::Opening(OpeningFinding::Collision { panels, opened }) => {
                Some((problem, panels, opened))
            }
            _ => None,
        })
        .expect("they run into each other");
    assert_eq!(panels, [PanelId(1), tongue]);
    // It is found at the first of 36 looks after it happens.
    let late = f64::from(opened.as_thousandths()) / 1000.0 - low.to_degrees();
    assert!((0.0..most.to_degrees() / 36.0).contains(&late), "{late}");
    assert_eq!(said.place, Place::Panel(PanelId(1)));
}

/// A step of 70 and 50 mm: shut, its ridge lies 120 mm from the fold, 20 past
/// the page.
#[test]
fn a_part_that_sticks_out() {
    let recipe = sheet(
        200,
        100,
        &[
            (VALLEY, [100, 0, 100, 30]),
            (VALLEY, [100, 70, 100, 100]),
            (LineKind::Cut, [30, 30, 150, 30]),
            (LineKind::Cut, [30, 70, 150, 70]),
            (VALLEY, [30, 30, 30, 70]),
            (MOUNTAIN, [80, 30, 80, 70]),
            (VALLEY, [150, 30, 150, 70]),
        ],
    );
    let card = card(&recipe);
    let problems = card.problems.iter();
    let out: Vec<_> = problems
        .filter(|problem| problem.weight == Weight::Warning)
        .collect();
    // Both panels at the ridge do; one of them is named.
    assert_eq!(out.len(), 1, "{out:?}");
    let panel = PanelId(0).part(2);
    assert_eq!(out[0].place, Place::Panel(panel));
    let past = OpeningFinding::PastThePages {
        panel,
        by: Length::mm(20),
        finished: card.finished,
    };
    assert_eq!(out[0].finding, Finding::Opening(past));
    assert_eq!(card.finished.height, Length::mm(100));
    assert_eq!(card.finished.width, Length::mm(120));
}

/// Of two steps that stick out to one side, by 5 and by 20 mm, the one that
/// makes the card so wide is named.
#[test]
fn the_part_that_sticks_out_furthest() {
    let step = |low: i64, high: i64, from: i64, ridge: i64, to: i64| {
        [
            (LineKind::Cut, [from, low, to, low]),
            (LineKind::Cut, [from, high, to, high]),
            (VALLEY, [from, low, from, high]),
            (MOUNTAIN, [ridge, low, ridge, high]),
            (VALLEY, [to, low, to, high]),
        ]
    };
    let fold = [
        (VALLEY, [100, 0, 100, 10]),
        (VALLEY, [100, 40, 100, 60]),
        (VALLEY, [100, 90, 100, 100]),
    ];
    let near = step(10, 40, 40, 85, 145);
    let far = step(60, 90, 30, 80, 150);
    let lines: Vec<_> = fold.into_iter().chain(near).chain(far).collect();
    let card = card(&sheet(200, 100, &lines));
    let out = card.problems.iter();
    let out = out.filter_map(|problem| match problem.finding {
        Finding::Opening(OpeningFinding::PastThePages { by, .. }) => Some(by),
        _ => None,
    });
    assert_eq!(out.collect::<Vec<_>>(), [Length::mm(20)]);
    assert_eq!(card.finished.width, Length::mm(120));
}

/// A sheet that is only folded has no pages anything could stick out of: the
/// closed card is all of it.
#[test]
fn a_folded_grid_sticks_out_of_nothing() {
    // A square folded along both middles and both diagonals, closed to a
    // triangle; its creases only move together.
    let recipe = sheet(
        100,
        100,
        &[
            (VALLEY, [0, 0, 50, 50]),
            (VALLEY, [50, 50, 100, 100]),
            (VALLEY, [0, 100, 50, 50]),
            (VALLEY, [50, 50, 100, 0]),
            (MOUNTAIN, [0, 50, 50, 50]),
            (MOUNTAIN, [50, 50, 100, 50]),
        ],
    );
    let card = card(&recipe);
    assert!(card.folded.as_ref().is_some_and(Folded::opens_together));
    let out = card.problems.iter();
    let out = out.filter(|problem| matches!(problem.finding, Finding::Opening(_)));
    assert_eq!(out.count(), 0);
}
