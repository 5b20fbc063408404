//! Creases and cuts at any angle, as makers draw, move and keep them.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{PieceFrame, Point, Segment};
use foldwright_engine::recipe::{
    Corner, DrawnLineId, EditError, End, Fold, PanelId, Parts, Recipe, Relation, Runs, StripId,
    read, write,
};
use plain::Plain;
use proptest::prelude::*;
use strips::{HEIGHT, LENGTH, panel, strip};

const VALLEY: LineKind = LineKind::Crease(Fold::Valley);

type At = Point<PieceFrame>;

fn at(x: i64, y: i64) -> At {
    Point::new(Length::mm(x), Length::mm(y))
}

/// 150 × 100 mm with scores at 40 and 90 mm.
fn three() -> Recipe {
    strip(
        &[40, 50, 60].map(Length::mm),
        Length::mm(100),
        "VM",
        2,
        Runs::Across,
    )
}

fn draw(recipe: &mut Recipe, kind: LineKind, from: At, to: At) -> DrawnLineId {
    recipe
        .add_line(StripId::Base, kind, from, to, &Plain)
        .expect("it is on paper")
        .id
}

fn ends(recipe: &Recipe, id: DrawnLineId) -> [At; 2] {
    let line = recipe.line(id).expect("it was drawn");
    [line.from, line.to].map(|corner| recipe.corner(corner))
}

fn course([from, to]: [At; 2]) -> Segment<PieceFrame> {
    Segment::new(from, to)
}

/// The ends of lines that lie exactly in one place.
fn ends_at(recipe: &Recipe, place: At) -> Vec<(DrawnLineId, End)> {
    let lines = recipe.base.lines.iter();
    lines
        .flat_map(|line| [(line, End::From), (line, End::To)])
        .filter(|(line, end)| recipe.corner(line.corner(*end)) == place)
        .map(|(line, end)| (line.id, end))
        .collect()
}

fn start(recipe: &Recipe, id: DrawnLineId) -> Corner {
    recipe.line(id).expect("it was drawn").from
}

#[test]
fn a_line_comes_and_goes() {
    let mut recipe = three();
    recipe
        .add_panel(StripId::Base, 0, None, &Plain)
        .expect("the strip grows");
    let before = recipe.clone();
    let added = recipe
        .add_line(
            StripId::Base,
            LineKind::Cut,
            at(40, 0),
            at(150, 100),
            &Plain,
        )
        .expect("it is on paper");
    assert_eq!(added.changes, []);
    assert_eq!(recipe.check(), []);
    assert_eq!(recipe.broken(), []);
    let names: Vec<_> = recipe.measures.iter().map(|it| it.name.as_str()).collect();
    assert_eq!(
        names.get(before.measures.len()..),
        Some(
            &[
                "cut 1 start along",
                "cut 1 start across",
                "cut 1 end along",
                "cut 1 end across"
            ][..]
        )
    );
    assert_eq!(recipe.settle(&[], &[], &[]), Ok(vec![]));
    recipe
        .turn_line_into(added.id, VALLEY)
        .expect("it is there");
    let kind = recipe.line(added.id).map(|line| line.kind);
    assert_eq!(kind, Some(VALLEY));
    recipe
        .rename_line(added.id, "gusset", &Plain)
        .expect("it is there");
    let name = recipe.measure(start(&recipe, added.id).y);
    assert_eq!(name.map(|it| it.name.as_str()), Some("gusset start across"));
    recipe.remove_line(added.id).expect("it is there");
    assert_eq!(recipe, before);
}

#[test]
fn what_cannot_be_drawn_leaves_the_recipe_as_it_was() {
    let mut recipe = three();
    let id = draw(&mut recipe, VALLEY, at(10, 0), at(20, 50));
    let before = recipe.clone();
    let gone = DrawnLineId(99);
    let refused = [
        recipe
            .add_line(StripId::Base, VALLEY, at(10, 10), at(10, 10), &Plain)
            .err(),
        recipe
            .add_line(StripId::Base, VALLEY, at(-1, 0), at(10, 10), &Plain)
            .err(),
        recipe
            .add_line(StripId::Base, VALLEY, at(0, 0), at(151, 10), &Plain)
            .err(),
        recipe.move_line_end(id, End::To, at(10, 0), &Plain).err(),
        recipe
            .move_line(id, course([at(10, 0), at(10, 101)]), &Plain)
            .err(),
    ];
    let expected = [
        EditError::NoLength,
        EditError::OffPaper,
        EditError::OffPaper,
        EditError::NoLength,
        EditError::OffPaper,
    ];
    assert_eq!(refused, expected.map(Some));
    let missing = [
        recipe
            .move_line_end(gone, End::From, at(0, 0), &Plain)
            .err(),
        recipe
            .move_line(gone, course([at(0, 0), at(1, 1)]), &Plain)
            .err(),
        recipe.turn_line_into(gone, LineKind::Cut).err(),
        recipe.rename_line(gone, "x", &Plain).err(),
        recipe.remove_line(gone).err(),
    ];
    assert_eq!(missing, [const { Some(EditError::NoLine) }; 5]);
    assert_eq!(recipe, before);
}

#[test]
fn ends_on_scores_and_edges_follow_the_panels() {
    let mut recipe = three();
    let id = draw(&mut recipe, VALLEY, at(40, 0), at(90, 100));
    let far = draw(&mut recipe, VALLEY, at(90, 30), at(150, 100));
    let inner = draw(&mut recipe, LineKind::Cut, at(50, 20), at(60, 20));
    recipe.set(panel(0), Length::mm(44)).expect("it is wider");
    assert_eq!(ends(&recipe, id), [at(44, 0), at(94, 100)]);
    recipe
        .move_score(StripId::Base, 1, Length::mm(80))
        .expect("it moves");
    recipe.set(HEIGHT, Length::mm(110)).expect("it is higher");
    recipe.set(LENGTH, Length::mm(160)).expect("it is longer");
    assert_eq!(ends(&recipe, id), [at(44, 0), at(80, 110)]);
    assert_eq!(ends(&recipe, far), [at(80, 30), at(160, 110)]);
    assert_eq!(ends(&recipe, inner), [at(54, 20), at(64, 20)]);
    assert_eq!(recipe.broken(), []);

    // Moved off the score it stays where it is put; moved back it follows.
    recipe
        .move_line_end(id, End::From, at(20, 0), &Plain)
        .expect("ok");
    recipe
        .set(panel(0), Length::mm(30))
        .expect("it is narrower");
    assert_eq!(ends(&recipe, id)[0], at(20, 0));
    recipe
        .move_line_end(id, End::From, at(30, 0), &Plain)
        .expect("ok");
    recipe.set(panel(0), Length::mm(35)).expect("it is wider");
    assert_eq!(ends(&recipe, id)[0], at(35, 0));
    assert_eq!(recipe.check(), []);
}

#[test]
fn lines_keep_to_their_panels_when_panels_come_and_go() {
    let mut recipe = three();
    let score = draw(&mut recipe, VALLEY, at(40, 0), at(90, 100));
    let inner = draw(&mut recipe, LineKind::Cut, at(100, 20), at(150, 20));
    let first = draw(&mut recipe, LineKind::Cut, at(10, 20), at(10, 80));
    recipe
        .move_line_end(inner, End::To, at(140, 20), &Plain)
        .expect("ok");
    let added = recipe
        .add_panel(StripId::Base, 0, Some(Length::mm(25)), &Plain)
        .expect("the strip grows")
        .id;
    let width = recipe.panel(added).expect("just added").1.width;
    assert_eq!(ends(&recipe, score), [at(40, 0), at(115, 100)]);
    assert_eq!(ends(&recipe, inner), [at(125, 20), at(165, 20)]);
    assert_eq!(ends(&recipe, first), [at(10, 20), at(10, 80)]);
    recipe.set(width, Length::mm(30)).expect("wider");
    assert_eq!(ends(&recipe, score)[1], at(120, 100));
    recipe.set(width, Length::mm(25)).expect("as it was");
    recipe.remove_panel(added).expect("it is there");
    assert_eq!(ends(&recipe, score), [at(40, 0), at(90, 100)]);
    assert_eq!(ends(&recipe, inner), [at(100, 20), at(140, 20)]);
    // The first panel takes the lines within it along.
    recipe.remove_panel(PanelId(0)).expect("it is there");
    assert_eq!(recipe.line(first), None);
    assert_eq!(ends(&recipe, score), [at(0, 0), at(50, 100)]);
    assert_eq!(ends(&recipe, inner), [at(60, 20), at(100, 20)]);
    // The last panel: what ended at its start now ends at the strip's end.
    recipe.remove_panel(PanelId(2)).expect("it is there");
    assert_eq!(recipe.line(inner), None);
    recipe.set(LENGTH, Length::mm(70)).expect("it is longer");
    assert_eq!(ends(&recipe, score), [at(0, 0), at(70, 100)]);
    // A panel behind it does not draw the line out.
    recipe
        .add_panel(StripId::Base, 0, None, &Plain)
        .expect("the strip grows");
    assert_eq!(ends(&recipe, score), [at(0, 0), at(70, 100)]);
    assert_eq!((recipe.check(), recipe.broken()), (vec![], vec![]));
}

#[test]
fn lines_hang_together() {
    let mut recipe = three();
    let first = draw(&mut recipe, VALLEY, at(100, 50), at(90, 0));
    let second = draw(&mut recipe, VALLEY, at(100, 50), at(150, 100));
    let third = draw(&mut recipe, VALLEY, at(120, 100), at(100, 50));
    assert_eq!(ends_at(&recipe, at(100, 50)).len(), 3);
    recipe
        .move_line_end(first, End::From, at(105, 60), &Plain)
        .expect("the others follow");
    assert_eq!(ends_at(&recipe, at(105, 60)).len(), 3);
    // One of those drawn on it goes its own way, and comes back.
    recipe
        .move_line_end(second, End::From, at(110, 40), &Plain)
        .expect("it is free");
    assert_eq!(ends_at(&recipe, at(105, 60)).len(), 2);
    recipe
        .move_line_end(second, End::From, at(105, 60), &Plain)
        .expect("it is free");
    // Without the first the other two still meet, whichever is moved.
    recipe.remove_line(first).expect("it is there");
    let meet = ends_at(&recipe, at(105, 60));
    assert_eq!(meet, [(second, End::From), (third, End::To)]);
    recipe
        .move_line_end(third, End::To, at(100, 70), &Plain)
        .expect("the other follows");
    assert_eq!(ends_at(&recipe, at(100, 70)), meet);
    assert_eq!((recipe.check(), recipe.broken()), (vec![], vec![]));
}

/// A stepped cut: two slits across and a crease between them.
#[test]
fn a_crease_between_slits_follows_them() {
    let mut recipe = three();
    let slit = draw(&mut recipe, LineKind::Cut, at(100, 20), at(100, 80));
    let other = draw(&mut recipe, LineKind::Cut, at(130, 20), at(130, 80));
    let crease = draw(&mut recipe, VALLEY, at(100, 50), at(130, 50));
    recipe
        .move_line(slit, course([at(105, 25), at(105, 85)]), &Plain)
        .expect("it moves whole");
    assert_eq!(ends(&recipe, crease), [at(105, 50), at(130, 50)]);
    assert_eq!(ends(&recipe, other), [at(130, 20), at(130, 80)]);
}

/// Measures may serve several parts; moving one end leaves the others alone.
#[test]
fn an_end_with_a_shared_measure_gets_its_own() {
    let mut recipe = three();
    let id = draw(&mut recipe, LineKind::Cut, at(0, 50), at(40, 50));
    let line = recipe.base.lines.first_mut().expect("just drawn");
    line.to.x = panel(0);
    line.to.y = line.from.y;
    let widths = |recipe: &Recipe| [0, 1, 2].map(|place| recipe.value(panel(place)));
    let before = widths(&recipe);
    recipe
        .move_line(id, course([at(10, 60), at(30, 60)]), &Plain)
        .expect("moves");
    assert_eq!(ends(&recipe, id), [at(10, 60), at(30, 60)]);
    let line = recipe.line(id).expect("it is there");
    assert_eq!(line.from.y, line.to.y);
    recipe
        .move_line_end(id, End::To, at(30, 70), &Plain)
        .expect("moves alone");
    assert_eq!(ends(&recipe, id), [at(10, 60), at(30, 70)]);
    assert_eq!(widths(&recipe), before);
    assert_eq!(recipe.check(), []);
}

#[test]
fn ends_take_part_in_relations() {
    let mut recipe = three();
    let id = draw(&mut recipe, VALLEY, at(10, 10), at(20, 20));
    let line = recipe.line(id).expect("it is there").clone();
    // As far from the score as the other end is from the start.
    recipe
        .relations
        .push(Relation::sum(panel(0), [line.from.x, line.to.x]));
    recipe.settle(&[], &[], &[]).expect("it can be");
    assert_eq!(ends(&recipe, id), [at(10, 10), at(30, 20)]);
    recipe.pin(line.from.x, true).expect("it is there");
    recipe.set(panel(0), Length::mm(48)).expect("it is wider");
    assert_eq!(ends(&recipe, id), [at(10, 10), at(38, 20)]);
    // A distance may be nothing, which a size may not.
    recipe.set(line.from.x, Length::ZERO).expect("at the edge");
    assert_eq!(ends(&recipe, id)[1], at(48, 20));
    assert_eq!(recipe.check(), []);
}

#[test]
fn a_recipe_can_be_full_but_still_holds_together() {
    let mut recipe = three();
    let mut lines = 0;
    let error = loop {
        match recipe.add_line(StripId::Base, VALLEY, at(40, 0), at(90, 100), &Plain) {
            Ok(_) => lines += 1,
            Err(error) => break error,
        }
    };
    assert_eq!(error, EditError::TooMany(Parts::Lines));
    assert_eq!(recipe.base.lines.len(), lines);
    assert_eq!(lines, Parts::Lines.most());
    assert_eq!(recipe.check(), []);
    assert_eq!(read(&write(&[recipe.clone()])), Ok(vec![recipe]));
}

fn on_paper() -> impl Strategy<Value = At> {
    // Coarse, so that ends often meet scores, edges and each other.
    (0_i64..=15, 0_i64..=10).prop_map(|(x, y)| at(x * 10, y * 10))
}

/// Something a maker does to the lines.
#[derive(Debug, Clone)]
enum Doing {
    Add(At, At),
    MoveEnd(u32, bool, At),
    Move(u32, At, At),
    Turn(u32),
    Remove(u32),
    Set(u32, i64),
    Score(usize, i64),
    AddPanel(usize),
    RemovePanel(u32),
}

fn doing() -> impl Strategy<Value = Doing> {
    let id = 1_u32..6;
    prop_oneof![
        4 => (on_paper(), on_paper()).prop_map(|(from, to)| Doing::Add(from, to)),
        3 => (id.clone(), any::<bool>(), on_paper()).prop_map(|(id, end, to)| Doing::MoveEnd(id, end, to)),
        2 => (id.clone(), on_paper(), on_paper()).prop_map(|(id, from, to)| Doing::Move(id, from, to)),
        1 => id.clone().prop_map(Doing::Turn),
        1 => id.prop_map(Doing::Remove),
        1 => (0_u32..3, 1_i64..80).prop_map(|(place, width)| Doing::Set(place, width)),
        1 => (0_usize..3, 1_i64..150).prop_map(|(score, to)| Doing::Score(score, to)),
        1 => (0_usize..3).prop_map(Doing::AddPanel),
        1 => (0_u32..5).prop_map(Doing::RemovePanel),
    ]
}

fn done(recipe: &mut Recipe, what: &Doing) -> Result<(), EditError> {
    let end = |from: bool| if from { End::From } else { End::To };
    match *what {
        Doing::Add(from, to) => recipe
            .add_line(StripId::Base, VALLEY, from, to, &Plain)
            .map(drop),
        Doing::MoveEnd(id, from, to) => recipe
            .move_line_end(DrawnLineId(id), end(from), to, &Plain)
            .map(drop),
        Doing::Move(id, from, to) => recipe
            .move_line(DrawnLineId(id), course([from, to]), &Plain)
            .map(drop),
        Doing::Turn(id) => recipe
            .turn_line_into(DrawnLineId(id), LineKind::Cut)
            .map(drop),
        Doing::Remove(id) => recipe.remove_line(DrawnLineId(id)).map(drop),
        Doing::Set(place, width) => recipe.set(panel(place), Length::mm(width)).map(drop),
        Doing::Score(score, to) => recipe
            .move_score(StripId::Base, score, Length::mm(to))
            .map(drop),
        Doing::AddPanel(after) => recipe
            .add_panel(StripId::Base, after, None, &Plain)
            .map(drop),
        Doing::RemovePanel(id) => recipe.remove_panel(PanelId(id)).map(drop),
    }
}

proptest! {
    #[test]
    fn lines_hold_together_whatever_is_done(
        doings in prop::collection::vec(doing(), 1..25),
    ) {
        let mut recipe = three();
        for what in &doings {
            let before = recipe.clone();
            match done(&mut recipe, what) {
                Err(_) => {
                    prop_assert_eq!(&recipe, &before);
                }
                Ok(()) => match *what {
                    Doing::MoveEnd(id, from, to) => {
                        let [first, last] = ends(&recipe, DrawnLineId(id));
                        prop_assert_eq!(if from { first } else { last }, to);
                    }
                    Doing::Move(id, from, to) => {
                        prop_assert_eq!(ends(&recipe, DrawnLineId(id)), [from, to]);
                    }
                    Doing::Add(..) => {
                        let mut without = recipe.clone();
                        let added = recipe.base.lines.last().expect("just drawn").id;
                        without.remove_line(added).expect("just drawn");
                        prop_assert_eq!(without, before);
                    }
                    _ => {}
                },
            }
            prop_assert_eq!(recipe.check(), []);
            prop_assert_eq!(recipe.broken(), []);
            let text = write(std::slice::from_ref(&recipe));
            prop_assert_eq!(read(&text), Ok(vec![recipe.clone()]));
        }
        // Nothing is left behind when all lines are gone.
        let all: Vec<_> = recipe.base.lines.iter().map(|line| line.id).collect();
        for id in all {
            recipe.remove_line(id).expect("it is there");
        }
        prop_assert_eq!(&recipe.relations, &[]);
        prop_assert_eq!(recipe.measures.len(), 3 + recipe.base.panels.len());
    }
}
