//! Pieces folded from other sheets and glued in: pop-ups, pockets, stands,
//! nested strips.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Card, Tools, add_piece, work_out};
use foldwright_engine::faces::reading_of;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::motion::{Rigid, Vector};
use foldwright_engine::paper::{Grain, StockSide};
use foldwright_engine::pattern::{LineId, LineKind};
use foldwright_engine::plane::{PieceFrame, Point, Turn};
use foldwright_engine::problem::{Finding, FitFinding, JoinFinding, OpeningFinding, Place, Weight};
use foldwright_engine::recipe::{
    End, Face, Fold, Lay, MeasureId, PanelId, PieceId, Recipe, Runs, Side, StripId, read, starters,
    write,
};
use plain::Plain;
use strips::strip;

fn mm(length: i64) -> Length {
    Length::mm(length)
}

fn at(x: i64, y: i64) -> Point<PieceFrame> {
    Point::new(mm(x), mm(y))
}

fn face(panel: u32, side: Side) -> Face {
    Face {
        panel: PanelId(panel),
        side,
    }
}

/// A card of two pages of 100 × 140 mm, the fold between them at 100 mm.
fn pages() -> Recipe {
    let mut recipe = strip(&[mm(100), mm(100)], mm(140), "V", 1, Runs::Across);
    recipe.notation.step = Step::Millimetre;
    recipe
}

fn set(recipe: &mut Recipe, measure: MeasureId, value: Length) {
    recipe.set(measure, value).expect("nothing holds it");
}

/// Adds a strip of these widths, folded as the labels say, its first panel
/// glued to a face along a line.
fn piece(
    recipe: &mut Recipe,
    widths: &[i64],
    height: i64,
    labels: &str,
    on: Face,
    line: [Point<PieceFrame>; 2],
) -> PieceId {
    let id = add_piece(recipe, on, &Plain).expect("there is room").id;
    while recipe.piece(id).expect("it was added").strip.panels.len() < widths.len() {
        let last = recipe.piece(id).expect("it was added").strip.panels.len() - 1;
        recipe
            .add_panel(StripId::Piece(id), last, None, &Plain)
            .expect("there is room");
    }
    let strip = recipe.piece(id).expect("it was added").strip.clone();
    for (panel, width) in strip.panels.iter().zip(widths) {
        set(recipe, panel.width, mm(*width));
    }
    set(recipe, strip.height, mm(height));
    for (score, label) in labels.chars().enumerate() {
        let fold = recipe.piece(id).expect("it was added").strip.folds[score];
        if (label == 'M') != (fold == Fold::Mountain) {
            recipe
                .flip(StripId::Piece(id), score)
                .expect("it has that score");
        }
    }
    recipe
        .lay_join(id, 0, line[0], line[1], &Plain)
        .expect("it has a join");
    id
}

/// The panel of a piece at a place along it.
fn panel(recipe: &Recipe, id: PieceId, place: usize) -> PanelId {
    recipe.piece(id).expect("it was added").strip.panels[place].id
}

fn worked_out(recipe: &Recipe) -> Card {
    assert_eq!(recipe.check(), [], "{}", recipe.name);
    let text = write(std::slice::from_ref(recipe));
    assert_eq!(read(&text).as_deref(), Ok(std::slice::from_ref(recipe)));
    work_out(recipe, &Tools::default())
}

/// What keeps the card from being made.
fn stops(card: &Card) -> Vec<Finding> {
    let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
    stops.map(|problem| problem.finding.clone()).collect()
}

fn pose(card: &Card, share: f64, panel: PanelId) -> Rigid {
    let place = card.laid.index_of(panel).expect("it is a panel");
    let whole = card.whole.as_ref().expect("it opens as a whole");
    whole.pose_at(share).facets[place]
}

fn dot(a: Vector, b: Vector) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The angle between the two pages, 0 shut and π flat.
fn page_angle(card: &Card, share: f64) -> f64 {
    let [left, right] = [0, 1].map(|page| pose(card, share, PanelId(page)));
    let normal = |page: &Rigid| page.direction([0.0, 0.0, 1.0]);
    let cos = dot(normal(&left), normal(&right));
    std::f64::consts::PI - cos.clamp(-1.0, 1.0).acos()
}

/// A V-fold on both pages: its wings stand on lines that run 40 mm out and 25 mm
/// down from a point of the fold; along these lines it rises by so much towards
/// its middle crease.
fn v_fold(rise: i64) -> (Recipe, PieceId) {
    let mut recipe = pages();
    let left = face(0, Side::A);
    let apex = at(100, 90);
    let id = piece(
        &mut recipe,
        &[40, 40],
        45 + rise,
        "V",
        left,
        [apex, at(60, 65)],
    );
    let crease = LineKind::Crease(Fold::Mountain);
    let line = |recipe: &mut Recipe, kind, from, to| {
        recipe
            .add_line(StripId::Piece(id), kind, from, to, &Plain)
            .expect("there is room");
    };
    line(&mut recipe, crease, at(40, 10), at(0, 10 + rise));
    line(&mut recipe, crease, at(40, 10), at(80, 10 + rise));
    for (inner, outer) in [(30, 0), (50, 80)] {
        line(&mut recipe, LineKind::Cut, at(40, 10), at(inner, 2));
        line(
            &mut recipe,
            LineKind::Cut,
            at(inner, 2),
            at(outer, 2 + rise),
        );
    }
    let [left_tab, right_tab] = [0, 1].map(|wing| panel(&recipe, id, wing).part(1));
    recipe
        .change_join(id, 0, left_tab, left)
        .expect("it is a part of it");
    recipe.turn_join(id, 0).expect("it is laid along a line");
    recipe
        .add_join(id, right_tab, face(1, Side::A))
        .expect("it is a part of it");
    (recipe, id)
}

/// A symmetric V-fold obeys the cosine rule of spherical trigonometry (any
/// textbook): with the wings at `a` to the middle crease and the lines on the
/// pages at `b` to the fold, cos a = cos b cos t + sin b sin t cos (p / 2),
/// where p is the angle between the pages and t that between the fold and the
/// middle crease.
#[test]
fn a_v_fold_glued_in_opens_by_the_cosine_rule() {
    let (recipe, id) = v_fold(0);
    let card = worked_out(&recipe);
    assert_eq!(stops(&card), []);
    let b = (40_f64).atan2(25.0);
    let wing = panel(&recipe, id, 0);
    for tenth in 0..=10 {
        let share = f64::from(tenth) / 10.0;
        let half = page_angle(&card, share) / 2.0;
        let middle = pose(&card, share, wing).direction([0.0, 1.0, 0.0]);
        // The fold runs down from the point of the V.
        let down = pose(&card, share, PanelId(1)).direction([0.0, -1.0, 0.0]);
        let t = dot(middle, down).clamp(-1.0, 1.0).acos();
        let rule = b.cos() * t.cos() + b.sin() * t.sin() * half.cos();
        assert!(rule.abs() < 1e-6, "at {share}: {rule}");
    }
    let open = card.folded.as_ref().expect("it folds");
    let last = open.states.last().expect("it has states");
    assert_eq!(open.states.len(), 2);
    assert!((page_angle(&card, 1.0) - std::f64::consts::PI).abs() < 1e-9);
    let stands = last.poses.iter().filter(|pose| pose.stands);
    let stands: Vec<_> = stands.map(|pose| pose.panel).collect();
    assert_eq!(stands, [0, 1].map(|wing| panel(&recipe, id, wing)));
}

/// A box on both pages is a parallelogram: its walls keep parallel to the
/// pages (elementary geometry).
#[test]
fn a_box_glued_in_keeps_its_walls_parallel_to_the_pages() {
    let mut recipe = pages();
    let left = face(0, Side::A);
    let id = piece(
        &mut recipe,
        &[12, 30, 40, 12],
        60,
        "VMV",
        left,
        [at(60, 40), at(60, 100)],
    );
    let last = panel(&recipe, id, 3);
    recipe
        .add_join(id, last, face(1, Side::A))
        .expect("it is one of its panels");
    let card = worked_out(&recipe);
    assert_eq!(stops(&card), []);
    let glued = &card.folded.as_ref().expect("it folds").glued[1];
    // It lands as far from the fold as the other wall is wide: 30 mm.
    assert_eq!(glued.place.point(at(82, 0)), at(130, 40));
    let normal = |share, panel| pose(&card, share, panel).direction([0.0, 0.0, 1.0]);
    for tenth in 0..=10 {
        let share = f64::from(tenth) / 10.0;
        for (wall, page) in [(1, 1), (2, 0)] {
            let cos = dot(
                normal(share, panel(&recipe, id, wall)),
                normal(share, PanelId(page)),
            );
            assert!(
                (cos.abs() - 1.0).abs() < 1e-9,
                "wall {wall} at {share}: {cos}"
            );
        }
    }
}

#[test]
fn a_pocket_stays_shut_and_moves_with_its_page() {
    let mut recipe = pages();
    let left = face(0, Side::A);
    let id = piece(
        &mut recipe,
        &[10, 60, 10],
        50,
        "MM",
        left,
        [at(20, 30), at(20, 80)],
    );
    let line = |recipe: &mut Recipe, kind, from, to| {
        recipe
            .add_line(StripId::Piece(id), kind, from, to, &Plain)
            .expect("there is room");
    };
    line(
        &mut recipe,
        LineKind::Crease(Fold::Mountain),
        at(10, 10),
        at(70, 10),
    );
    line(&mut recipe, LineKind::Cut, at(0, 10), at(10, 10));
    line(&mut recipe, LineKind::Cut, at(10, 10), at(12, 0));
    line(&mut recipe, LineKind::Cut, at(80, 10), at(70, 10));
    line(&mut recipe, LineKind::Cut, at(70, 10), at(68, 0));
    // The tab lies under the body: its crease at the left, its outside up.
    recipe.turn_join(id, 0).expect("it is laid along a line");
    let below = panel(&recipe, id, 1).part(1);
    let right = panel(&recipe, id, 2);
    for tab in [below, right] {
        recipe.add_join(id, tab, left).expect("it is a part of it");
    }
    let card = worked_out(&recipe);
    assert_eq!(stops(&card), []);
    let folded = card.folded.as_ref().expect("it folds");
    assert!(card.whole.is_none(), "the pages open by themselves");
    assert_eq!(folded.states.len(), 2);
    assert_eq!(folded.held.len(), 3);
    let open = folded.states.last().expect("it opens");
    let body = card
        .laid
        .index_of(panel(&recipe, id, 1))
        .expect("it is there");
    let page = card.laid.index_of(PanelId(0)).expect("it is there");
    assert!(open.is_over(body, page), "the pocket lies on its page");
    assert!(!open.stands());
}

#[test]
fn a_stand_opens_by_itself_and_a_nested_strip_fold_by_fold() {
    let mut recipe = pages();
    let outside = face(1, Side::B);
    let stand = piece(
        &mut recipe,
        &[15, 50],
        80,
        "V",
        outside,
        [at(170, 20), at(170, 100)],
    );
    let card = worked_out(&recipe);
    assert_eq!(stops(&card), []);
    let folded = card.folded.as_ref().expect("it folds");
    assert_eq!(folded.states.len(), 3, "the stand and the pages");
    let moved = folded
        .states
        .iter()
        .filter_map(|state| state.opened.as_ref());
    let moved: Vec<_> = moved.map(|opened| opened.line).collect();
    assert!(moved.contains(&LineId::of_piece_score(panel(&recipe, stand, 0))));

    let inside = face(1, Side::A);
    let nested = piece(
        &mut recipe,
        &[50, 50, 50, 50],
        80,
        "VMV",
        inside,
        [at(180, 20), at(180, 100)],
    );
    let card = worked_out(&recipe);
    assert_eq!(stops(&card), []);
    assert_eq!(card.folded.as_ref().expect("it folds").states.len(), 6);
    recipe.remove_piece(nested).expect("it is there");
    recipe.remove_piece(stand).expect("it is there");
    assert_eq!(recipe, pages(), "taken away, nothing of it is left");
}

/// Two lines between the same two stiff parts that are not one line hold both
/// (common practice: a fold glued beside the fold).
#[test]
fn glue_that_locks_the_card_is_named() {
    let mut recipe = pages();
    let id = piece(
        &mut recipe,
        &[40, 40],
        60,
        "V",
        face(0, Side::A),
        [at(90, 40), at(90, 100)],
    );
    let right = panel(&recipe, id, 1);
    recipe
        .add_join(id, right, face(1, Side::A))
        .expect("it is one of its panels");
    let card = worked_out(&recipe);
    let locked = OpeningFinding::Locked {
        line: LineId::of_score(0),
        glued: Some(id),
    };
    assert_eq!(stops(&card), [Finding::Opening(locked)]);
}

#[test]
fn a_v_fold_with_wings_too_narrow_jams() {
    // The lines leave the fold at 58°, and the wings measure 45° there.
    let (recipe, _) = v_fold(40);
    let card = worked_out(&recipe);
    let stops = stops(&card);
    let jams = |it: &Finding| matches!(it, Finding::Opening(OpeningFinding::Jam { .. }));
    assert!(stops.iter().any(jams), "{stops:?}");
}

#[test]
fn a_join_that_misses_its_line_says_by_how_much() {
    let mut recipe = pages();
    let left = face(0, Side::A);
    let id = piece(
        &mut recipe,
        &[12, 30, 40, 12],
        60,
        "VMV",
        left,
        [at(60, 40), at(60, 100)],
    );
    let last = panel(&recipe, id, 3);
    recipe
        .add_join(id, last, face(1, Side::A))
        .expect("it is one of its panels");
    recipe
        .lay_join(id, 1, at(135, 40), at(135, 100), &Plain)
        .expect("it is there");
    let card = worked_out(&recipe);
    let misses = Finding::Join {
        piece: id,
        part: last,
        on: face(1, Side::A),
        is: JoinFinding::Misses(Length::mm(5)),
    };
    assert_eq!(stops(&card), [misses]);
}

/// Folds belong along the grain in every piece (printers' guides on grain).
#[test]
fn a_piece_folded_across_the_grain_is_told_of() {
    let mut recipe = pages();
    let line = [at(60, 40), at(60, 100)];
    let left = face(0, Side::A);
    let id = piece(&mut recipe, &[12, 30, 40, 12], 60, "VMV", left, line);
    let stock = recipe.piece(id).expect("it was added").strip.stock;
    for (grain, is_told) in [(Grain::AlongHeight, true), (Grain::AlongWidth, false)] {
        for paper in recipe.stocks.iter_mut().filter(|paper| paper.id == stock) {
            paper.grain = grain;
        }
        let piece = recipe.pieces.iter_mut().find(|piece| piece.id == id);
        piece.expect("it was added").lay = Some(Lay {
            outside: StockSide::Face,
            turn: Turn::Left,
        });
        let card = worked_out(&recipe);
        let told = card.problems.iter().any(|problem| {
            let across = Finding::Fit(FitFinding::AcrossGrain(StripId::Piece(id)));
            problem.place == Place::Piece(id) && problem.finding == across
        });
        assert_eq!(told, is_told, "{grain:?}");
    }
}

/// A new piece can be made as it is offered, on every face of the base of every
/// fold to start from, in either unit; where a tab of a piece has no room for
/// it, that is said.
#[test]
fn a_new_piece_can_be_made_where_it_is_offered() {
    let millimetres = Notation {
        step: Step::Millimetre,
        decimal: DecimalMark::Comma,
    };
    let inches = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    for starter in starters() {
        for notation in [inches, millimetres] {
            let recipe = starter.recipe_in(notation);
            let bare = work_out(&recipe, &Tools::default());
            for laid in &bare.laid.panels {
                for side in [Side::A, Side::B] {
                    let mut with = recipe.clone();
                    let on = Face {
                        panel: laid.id,
                        side,
                    };
                    let told = format!("{} on {on:?}", starter.id);
                    let id = add_piece(&mut with, on, &Plain).expect("there is room").id;
                    assert_eq!(with.check(), [], "{told}");
                    let card = work_out(&with, &Tools::default());
                    assert!(with.piece(id).is_some(), "{told}");
                    // On a tab of another piece there may be no room to close.
                    if recipe.strip_with(laid.id).is_some_and(|it| !it.0.is_base())
                        && !card.left_out.is_empty()
                    {
                        assert_eq!(card.left_out, [id], "{told}");
                        assert_ne!(stops(&card), stops(&bare), "{told}: it is said");
                        continue;
                    }
                    assert_eq!(card.left_out, [], "{told}");
                    assert_eq!(stops(&card), stops(&bare), "{told}");
                }
            }
        }
    }
}

/// Worked by hand: panel 2 runs from 100 to 200 mm, so that a point at 130 lies
/// 30 mm from its left edge seen from the inside, and 70 mm seen from the
/// outside.
#[test]
fn a_line_is_measured_on_the_face_it_is_glued_to() {
    for (side, from_left) in [(Side::A, 30), (Side::B, 70)] {
        let mut recipe = strip(&[mm(100); 2], mm(150), "V", 1, Runs::Across);
        let on = Face {
            panel: PanelId(1),
            side,
        };
        let id = add_piece(&mut recipe, on, &Plain)
            .expect("there is room")
            .id;
        let at = Point::new(mm(130), mm(20));
        recipe.move_mark(id, 0, End::From, at).expect("it moves");
        let mark = recipe.piece(id).and_then(|it| it.joins.first()?.at);
        let from = recipe.corner(mark.expect("it is laid along a line").from);
        assert_eq!(from, at);
        let card = work_out(&recipe, &Tools::default());
        let reading = reading_of(&card.laid, &card.readings, on).expect("it is read");
        let seen = reading.place.point(from);
        assert_eq!([seen.x, seen.y], [mm(from_left), mm(20)]);
        // The panels stay where they are.
        assert_eq!(recipe.value(strips::panel(0)), mm(100));
        assert_eq!(recipe.value(strips::panel(1)), mm(100));
    }
}
