//! The pictures of the steps of all starting folds: nothing shows before its time, the
//! lines of a step alone are in their own ink, with their letters and numbers, and folds
//! fill their frame. What is wanted is common practice of printed instructions; shares of
//! frames are our own.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod naming;

use std::collections::BTreeSet;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{Drawing, Ink, Mark, Role, Spot, letter};
use foldwright_engine::faces::Part;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{LayerId, LayerKind, PieceId, Recipe, Seat, StripId, starters};
use foldwright_engine::sight::{Sight, sights};
use foldwright_engine::steps::{Kind, Step, StepKey, Value, steps};
use naming::Plain;

/// Every starting fold with a mat on each of its first three sides that are seen, and one
/// on the first of these.
fn decorated() -> Vec<(String, Recipe, Card)> {
    let all = starters().iter().map(|starting| {
        let mut recipe = starting.recipe.clone();
        let card = work_out(&recipe, &Tools::default());
        let seen = sights(&card).into_iter();
        let seen: Vec<_> = seen.filter(|seen| seen.sight != Sight::Never).collect();
        let mut on = Vec::new();
        for seen in seen.iter().take(3) {
            // Some are too small for a border.
            let added = recipe.add_layer(Seat::Face(seen.face), LayerKind::Mat, &Plain);
            on.extend(added.map(|added| added.id));
        }
        if let Some(first) = on.first() {
            let added = recipe.add_layer(Seat::Layer(*first), LayerKind::Focal, &Plain);
            added.expect("a mat has room");
        }
        let card = work_out(&recipe, &Tools::default());
        assert!(!card.laid.layers.is_empty(), "{}", starting.id);
        (starting.id.clone(), recipe, card)
    });
    all.collect()
}

fn drawn(step: &Step, recipe: &Recipe, card: &Card) -> Vec<Drawing> {
    let pictures = step.pictures.iter();
    pictures.map(|it| it.drawing(recipe, card)).collect()
}

fn layers(drawing: &Drawing) -> BTreeSet<LayerId> {
    let marks = drawing.marks.iter();
    let layers = marks.filter_map(|mark| match mark {
        Mark::Area {
            part: Some(Part::Layer(id) | Part::LayerBack(id)),
            ..
        } => Some(*id),
        _ => None,
    });
    layers.collect()
}

/// The strips whose panels a drawing shows.
fn strips(recipe: &Recipe, drawing: &Drawing) -> BTreeSet<Option<PieceId>> {
    let marks = drawing.marks.iter();
    let strips = marks.filter_map(|mark| match mark {
        Mark::Area {
            part: Some(Part::Face(face)),
            ..
        } => {
            let (of, ..) = recipe.strip_with(face.panel)?;
            Some(of.piece())
        }
        _ => None,
    });
    strips.collect()
}

#[test]
fn no_layer_shows_before_it_is_put_on() {
    for (name, recipe, card) in decorated() {
        let mut on = BTreeSet::new();
        let mut put = 0;
        for step in steps(&recipe, &card) {
            if let StepKey::PutOn(layer) = step.key {
                on.insert(layer);
                put += 1;
            }
            for drawing in drawn(&step, &recipe, &card) {
                let shown = layers(&drawing);
                assert!(shown.is_subset(&on), "{name}, {}: {shown:?}", step.key);
            }
        }
        assert_eq!(put, card.laid.layers.len(), "{name}");
    }
}

#[test]
fn a_layer_shows_as_it_is_put_on() {
    for (name, recipe, card) in decorated() {
        for step in steps(&recipe, &card) {
            let StepKey::PutOn(layer) = step.key else {
                continue;
            };
            let last = drawn(&step, &recipe, &card).pop();
            let last = last.expect("it is shown in its place");
            assert!(layers(&last).contains(&layer), "{name}, {}", step.key);
        }
    }
}

#[test]
fn no_piece_shows_before_it_is_glued_in() {
    for (name, recipe, card) in decorated() {
        let mut glued = BTreeSet::from([None]);
        for step in steps(&recipe, &card) {
            if let StepKey::GlueIn(piece, _) = step.key {
                glued.insert(Some(piece));
            }
            for drawing in drawn(&step, &recipe, &card) {
                let shown = strips(&recipe, &drawing);
                // A piece that is worked on by itself is all that is shown.
                let alone = shown.len() == 1;
                assert!(alone || shown.is_subset(&glued), "{name}, {}", step.key);
            }
        }
    }
}

const OWN: [Ink; 3] = [Ink::Mountain, Ink::Valley, Ink::Cut];

fn lines(drawing: &Drawing, inks: &[Ink]) -> Vec<[Spot; 2]> {
    let marks = drawing.marks.iter();
    let lines = marks.filter_map(|mark| match mark {
        Mark::Line { from, to, ink, .. } if inks.contains(ink) => Some([*from, *to]),
        _ => None,
    });
    lines.collect()
}

fn words(drawing: &Drawing, role: Role) -> Vec<&str> {
    let marks = drawing.marks.iter();
    let words = marks.filter_map(|mark| match mark {
        Mark::Text {
            words, role: it, ..
        } if *it == role => Some(&**words),
        _ => None,
    });
    words.collect()
}

/// In millimetres: far less than anybody sees.
fn is_near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6
}

#[test]
fn scores_are_told_from_the_fence_alone() {
    let mut passes = 0;
    for (name, recipe, card) in decorated() {
        for step in steps(&recipe, &card) {
            let StepKey::Score(of, number) = step.key else {
                continue;
            };
            passes += 1;
            let chart = card.chart_of(of).expect("it has scores");
            let marks = &chart.passes[number].marks;
            let all = drawn(&step, &recipe, &card);
            let [drawing] = &all[..] else {
                panic!("{name}, {}: one picture", step.key);
            };
            // The fence is where lengths begin.
            let fence = lines(drawing, &[Ink::Section]);
            assert!(
                fence.iter().flatten().all(|[x, _]| is_near(*x, 0.0)) && fence.len() == 1,
                "{name}, {}",
                step.key
            );
            let own = lines(drawing, &OWN);
            for [from, to] in &own {
                assert!(is_near(from[0], to[0]), "{name}, {}", step.key);
            }
            for mark in marks {
                let at = mark.exact.as_mm_f64();
                let is_drawn = own.iter().any(|[from, _]| is_near(from[0], at));
                assert!(is_drawn, "{name}, {}: {at}", step.key);
            }
            let is_marked = |[from, _]: &[Spot; 2]| {
                let mut marks = marks.iter();
                marks.any(|mark| is_near(mark.exact.as_mm_f64(), from[0]))
            };
            assert!(own.iter().all(is_marked), "{name}, {}", step.key);
            let plain = |length: Length| recipe.notation.plain(length);
            let lengths: Vec<_> = marks.iter().map(|mark| plain(mark.exact)).collect();
            assert_eq!(
                words(drawing, Role::Length),
                lengths,
                "{name}, {}",
                step.key
            );
            let letters: Vec<_> = (0..marks.len()).map(letter).collect();
            assert_eq!(words(drawing, Role::Label), letters, "{name}, {}", step.key);
            let told: Vec<_> = step.figures.iter().map(|it| it.letter).collect();
            let numbers: Vec<_> = (0..marks.len()).map(Some).collect();
            assert_eq!(told, numbers, "{name}, {}", step.key);
        }
    }
    assert!(passes > starters().len() / 2, "{passes}");
}

#[test]
fn of_lines_at_any_angle_the_one_of_the_step_is_in_its_own_ink() {
    let mut found = 0;
    for (name, recipe, card) in decorated() {
        for step in steps(&recipe, &card) {
            let (StepKey::ScoreLine(id) | StepKey::CutLine(id)) = step.key else {
                continue;
            };
            found += 1;
            let (_, line) = recipe.line_on(id).expect("it is on a strip");
            let ends = [line.from, line.to].map(|corner| {
                let at = recipe.corner(corner);
                [at.x, at.y].map(Length::as_mm_f64)
            });
            let all = drawn(&step, &recipe, &card);
            let own: Vec<_> = all.iter().flat_map(|it| lines(it, &OWN)).collect();
            let [[from, to]] = own[..] else {
                panic!("{name}, {}: {own:?}", step.key);
            };
            for (end, at) in ends.iter().zip([from, to]) {
                assert!(is_near(end[0], at[0]) && is_near(end[1], at[1]), "{name}");
            }
            // Each number of the step stands in the picture, after the letter of its end.
            let beside: Vec<_> = all.iter().flat_map(|it| words(it, Role::Length)).collect();
            for figure in &step.figures {
                let Value::Length(length) = figure.value else {
                    panic!("{name}: {figure:?}");
                };
                let letter = letter(figure.letter.expect("an end has a letter"));
                let is_told = |words: &&str| {
                    let told = words.rsplit_once(' ');
                    told.is_some_and(|(letters, number)| {
                        letters.split(", ").any(|it| it == letter)
                            && number == recipe.notation.plain(length)
                    })
                };
                assert!(beside.iter().any(is_told), "{name}: {letter} {beside:?}");
            }
        }
    }
    assert!(found > 20, "{found}");
}

#[test]
fn folds_fill_their_frame() {
    let mut found = 0;
    for (name, recipe, card) in decorated() {
        let all = steps(&recipe, &card);
        let folds = all.iter();
        let folds = folds.filter(|step| matches!(step.key, StepKey::Fold(..)));
        for step in folds {
            assert_eq!(step.kind, Kind::Fold);
            for drawing in drawn(step, &recipe, &card) {
                found += 1;
                let outlines = drawing.marks.iter().filter_map(|mark| match mark {
                    Mark::Area { outlines, .. } => Some(outlines),
                    _ => None,
                });
                let spots: Vec<_> = outlines.flatten().flatten().collect();
                let size = drawing.size();
                let longest = size[0].max(size[1]);
                for i in [0, 1] {
                    let low = spots.iter().map(|at| at[i]).fold(f64::INFINITY, f64::min);
                    let high = spots
                        .iter()
                        .map(|at| at[i])
                        .fold(f64::NEG_INFINITY, f64::max);
                    let free = size[i] - (high - low);
                    assert!(free < longest / 12.0, "{name}, {}: {free}", step.key);
                }
            }
        }
    }
    assert!(found > 2 * starters().len(), "{found}");
}

#[test]
fn a_piece_is_shown_flat_by_itself() {
    for (name, recipe, card) in decorated() {
        for step in steps(&recipe, &card) {
            let StepKey::FoldPiece(piece) = step.key else {
                continue;
            };
            for drawing in drawn(&step, &recipe, &card) {
                let alone = BTreeSet::from([Some(piece)]);
                assert_eq!(strips(&recipe, &drawing), alone, "{name}");
                let strip = recipe.strip(StripId::Piece(piece)).expect("it is there");
                let every = strip.folds.len() + strip.lines.len();
                assert_eq!(lines(&drawing, &OWN).len(), every, "{name}");
                assert!(lines(&drawing, &[Ink::Faint]).is_empty(), "{name}");
            }
        }
    }
}
