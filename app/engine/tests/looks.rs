//! The card in space from any direction, and by which a fold is told from others.
//!
//! `LOOKS=folder cargo test -p foldwright-engine --test looks` also writes the
//! pictures of the starting folds into a folder.

use std::time::Instant;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{
    Direction, Drawing, Fill, Mark, Moment, Spot, document, opening_from, told_apart,
};
use foldwright_engine::faces::Part;
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::recipe::{Recipe, starters};

const AXES: [[f64; 3]; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

fn worked_out() -> Vec<(String, Recipe, Card)> {
    let inches = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    let all = starters().iter().map(|starter| {
        let recipe = starter.recipe_in(inches);
        let card = work_out(&recipe, &Tools::default());
        (starter.id.clone(), recipe, card)
    });
    all.collect()
}

/// How long each axis is seen, and by how much the first two are turned from the
/// level, in degrees.
fn axes(direction: Direction) -> ([f64; 3], [f64; 2]) {
    let seen = AXES.map(|axis| direction.seen(axis));
    let slope = |[x, y]: Spot| (y / x).atan().abs().to_degrees();
    (
        seen.map(|[x, y]| x.hypot(y)),
        [slope(seen[0]), slope(seen[1])],
    )
}

/// Isometric, where all three axes are as long as each other: 0.816 at 30° (ISO
/// 5456-3:1996, 5.1). Dimetric, one axis seen half as long as the others: 7°10′
/// and 41°25′, the lengths √8/3 and √2/3, which the standard rounds to 7° and 42°
/// (5.2).
#[test]
fn axes_are_foreshortened_as_published() {
    let steep = (1.0_f64 / 3.0).sqrt().asin().to_degrees();
    let (long, slopes) = axes(Direction {
        round: 45.0,
        above: steep,
    });
    for long in long {
        assert!((long - (2.0_f64 / 3.0).sqrt()).abs() < 1e-12, "{long}");
    }
    assert!(slopes.iter().all(|slope| (slope - 30.0).abs() < 1e-9));

    let (long, slopes) = axes(Direction {
        round: (1.0_f64 / 7.0).sqrt().atan().to_degrees(),
        above: (1.0_f64 / 3.0).asin().to_degrees(),
    });
    let third = 2.0_f64.sqrt() / 3.0;
    for (long, wanted) in long.iter().zip([2.0 * third, third, 2.0 * third]) {
        assert!((long - wanted).abs() < 1e-12, "{long} for {wanted}");
    }
    let published = [7.0 + 10.0 / 60.0, 41.0 + 25.0 / 60.0];
    for (slope, published) in slopes.iter().zip(published) {
        assert!((slope - published).abs() < 1.0 / 60.0, "{slope}");
    }
}

/// Of any direction the squares of the three lengths come to 2, and the axes as
/// complex numbers have squares that come to nothing (C. F. Gauss's fundamental
/// theorem of axonometry, Werke II, 309).
#[test]
fn axes_of_any_direction_go_together() {
    for round in 0..72 {
        for above in 0..=18 {
            let direction = Direction {
                round: 5.0 * f64::from(round),
                above: 5.0 * f64::from(above),
            };
            let seen = AXES.map(|axis| direction.seen(axis));
            let real: f64 = seen.iter().map(|[x, y]| x * x - y * y).sum();
            let imaginary: f64 = seen.iter().map(|[x, y]| 2.0 * x * y).sum();
            let squares: f64 = seen.iter().map(|[x, y]| x * x + y * y).sum();
            assert!(real.abs() < 1e-12 && imaginary.abs() < 1e-12);
            assert!((squares - 2.0).abs() < 1e-12);
        }
    }
}

/// A reader who goes round the table comes back, and goes neither over the top
/// nor under it.
#[test]
fn a_direction_is_turned() {
    let from = Direction {
        round: 350.0,
        above: 80.0,
    };
    let to = from.turned(20.0, 20.0);
    assert!((to.round - 10.0).abs() < 1e-9 && (to.above - 90.0).abs() < 1e-9);
    assert!(to.turned(0.0, -200.0).above.abs() < 1e-9);
}

/// The figure stays as large while a card opens and is turned, and holds all of
/// it.
#[test]
fn a_turned_card_stays_in_its_frame() {
    for (id, recipe, card) in worked_out() {
        let mut sizes = Vec::new();
        for (share, round, above) in [
            (0.0, 0.0, 90.0),
            (0.3, 40.0, 20.0),
            (0.7, 250.0, 0.0),
            (1.0, 130.0, 60.0),
        ] {
            let folded = card.folded.as_ref().expect("it folds");
            let moment = Moment::at(share, folded);
            let direction = Direction { round, above };
            sizes.push(opening_from(&recipe, &card, moment, direction).size());
        }
        let same = |size: &Spot| (0..2).all(|i| (size[i] - sizes[0][i]).abs() < 1e-6);
        assert!(sizes.iter().all(same), "{id}: {sizes:?}");
    }
}

/// How many places a picture is looked at in, across and up.
const PLACES: u16 = 48;

/// The colour that is seen in each place of a grid that a drawing fills.
fn seen(drawing: &Drawing) -> Vec<Option<[u8; 3]>> {
    let size = drawing.size();
    let step = size[0].max(size[1]) / f64::from(PLACES);
    let mut all = Vec::new();
    for row in 0..PLACES {
        for column in 0..PLACES {
            let off = [column, row].map(|place| (f64::from(place) + 0.5) * step);
            // Smaller drawings stand in the middle.
            let spare = size.map(|long| (size[0].max(size[1]) - long) / 2.0);
            let at = [0, 1].map(|i| drawing.low[i] + off[i] - spare[i]);
            let mut marks = drawing.marks.iter().rev();
            all.push(marks.find_map(|mark| match mark {
                Mark::Area {
                    outlines,
                    fill: Fill::Paper { colour, shade, .. },
                    ..
                } if is_within(outlines, at) => {
                    let shaded = colour.shaded(*shade);
                    Some(shaded.to_string())
                }
                _ => None,
            }));
        }
    }
    all.into_iter()
        .map(|colour| {
            let colour = colour?;
            let part = |from: usize| u8::from_str_radix(colour.get(from..from + 2)?, 16).ok();
            Some([part(1)?, part(3)?, part(5)?])
        })
        .collect()
}

/// Whether a place lies within outlines, each of them or an odd number.
fn is_within(outlines: &[Vec<Spot>], at: Spot) -> bool {
    let edges = outlines
        .iter()
        .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    let crossed = edges.filter(|(a, b)| {
        let spans = (a[1] > at[1]) != (b[1] > at[1]);
        spans && at[0] < a[0] + (at[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
    });
    crossed.count() % 2 == 1
}

/// How many places of two pictures differ so that it is seen.
fn differing(one: &[Option<[u8; 3]>], other: &[Option<[u8; 3]>]) -> usize {
    let pairs = one.iter().zip(other);
    let differ = pairs.filter(|(one, other)| match (one, other) {
        (Some(one), Some(other)) => one.iter().zip(other).any(|(a, b)| a.abs_diff(*b) > 10),
        (None, None) => false,
        _ => true,
    });
    differ.count()
}

/// No starting fold looks like another one.
#[test]
fn starting_folds_are_told_apart() {
    let all = worked_out();
    let pictures = all.iter().map(|(id, recipe, card)| {
        let started = Instant::now();
        let drawing = told_apart(recipe, card);
        if let Some(folder) = std::env::var_os("LOOKS") {
            println!("{id}: {:?}", started.elapsed());
            let file = std::path::Path::new(&folder).join(format!("{id}.svg"));
            std::fs::write(file, document(&drawing, id, &|_| None)).expect("the folder is there");
        }
        (id, seen(&drawing))
    });
    let pictures: Vec<_> = pictures.collect();
    let least = usize::from(PLACES) * usize::from(PLACES) / 50;
    for (number, (id, picture)) in pictures.iter().enumerate() {
        for (other, like) in &pictures[..number] {
            let differ = differing(picture, like);
            assert!(
                differ >= least,
                "{id} and {other} differ in {differ} places"
            );
        }
    }
}

/// Most panels of every starting fold are seen, from one side or the other.
#[test]
fn panels_of_starting_folds_are_seen() {
    for (id, recipe, card) in worked_out() {
        let drawing = told_apart(&recipe, &card);
        let marks = drawing.marks.iter();
        let mut panels: Vec<_> = marks
            .filter_map(|mark| match mark {
                Mark::Area {
                    outlines,
                    part: Some(Part::Face(face)),
                    ..
                } if !outlines.is_empty() => Some(face.panel),
                _ => None,
            })
            .collect();
        panels.sort_unstable();
        panels.dedup();
        let all = card.laid.panels.len();
        assert!(
            panels.len() * 3 >= all * 2,
            "{id}: {} of {all}",
            panels.len()
        );
    }
}
