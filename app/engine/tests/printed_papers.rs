//! The printed papers of the workshop: each meets itself across the edges of its
//! repeat, and looks turned as its print is said to run.
//!
//! Outlines are read by the grammar of path data in SVG 2, section 9.3
//! (<https://www.w3.org/TR/SVG2/paths.html>), of which `M`, `l`, `h`, `v` and `z` stand
//! there.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of a test fails the test, and says what was missing"
)]

use std::collections::BTreeSet;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{Fill, Mark, flat, svg};
use foldwright_engine::length::Length;
use foldwright_engine::paper::{Print, PrintedPaper, SideLook};
use foldwright_engine::recipe::{Side, StripId, starters};

/// In millimetres.
type Corner = [i64; 2];
type Edges = BTreeSet<(Corner, Corner)>;

/// The edges of all outlines, each from its corner to the next.
fn edges(path: &str) -> Vec<(Corner, Corner)> {
    let mut all = Vec::new();
    let outlines = path.split_terminator('z');
    for outline in outlines {
        let mut corners: Vec<Corner> = Vec::new();
        let commands = outline.match_indices(|letter: char| letter.is_ascii_alphabetic());
        let starts: Vec<usize> = commands.map(|(at, _)| at).collect();
        for (number, start) in starts.iter().enumerate() {
            let end = starts.get(number + 1).copied().unwrap_or(outline.len());
            let numbers = outline[start + 1..end].replace('-', " -");
            let numbers: Vec<i64> = numbers
                .split_whitespace()
                .map(|number| number.parse().expect("whole millimetres"))
                .collect();
            let last = corners.last().copied().unwrap_or_default();
            let mut step = |by: Corner| {
                let from = corners.last().copied().unwrap_or_default();
                corners.push([from[0] + by[0], from[1] + by[1]]);
            };
            match (&outline[*start..=*start], &numbers[..]) {
                ("M", [x, y]) => step([x - last[0], y - last[1]]),
                ("l", pairs) => pairs.chunks(2).for_each(|by| step([by[0], by[1]])),
                ("h", [x]) => step([*x, 0]),
                ("v", [y]) => step([0, *y]),
                other => panic!("{other:?} is no command of these paths"),
            }
        }
        let next = corners.iter().cycle().skip(1);
        let closed = corners.iter().zip(next).filter(|(from, to)| from != to);
        all.extend(closed.map(|(from, to)| (*from, *to)));
    }
    all
}

fn repeat(paper: PrintedPaper) -> Corner {
    let millimetre = Length::mm(1).units();
    paper.repeat().map(|side| {
        assert_eq!(side.units() % millimetre, 0, "{paper:?} has a whole repeat");
        side.units() / millimetre
    })
}

/// The edges within the repeat: those on its border only part what goes on.
fn inner(paper: PrintedPaper) -> Edges {
    let size = repeat(paper);
    let on_border = |(from, to): &(Corner, Corner)| {
        (0..2).any(|i| from[i] == to[i] && (from[i] == 0 || from[i] == size[i]))
    };
    let all = edges(paper.outlines()).into_iter();
    all.filter(|edge| !on_border(edge)).collect()
}

/// The same edges after a turn, which leaves the way round an outline as it is.
fn turned(edges: &Edges, turn: impl Fn(Corner) -> Corner) -> Edges {
    edges
        .iter()
        .map(|(from, to)| (turn(*from), turn(*to)))
        .collect()
}

/// The same edges moved, each by whole repeats until it begins within the first.
fn wrapped(edges: &Edges, by: Corner, size: Corner) -> Edges {
    let moved = edges.iter().map(|(from, to)| {
        let begins = [0, 1].map(|i| (from[i] + by[i]).rem_euclid(size[i]));
        (begins, [0, 1].map(|i| begins[i] + to[i] - from[i]))
    });
    moved.collect()
}

/// Whether a motif is the same after a turn, wherever its repeat then begins.
fn is_same(edges: &Edges, turned: &Edges, size: Corner) -> bool {
    let first = wrapped(edges, [0, 0], size);
    let mut places = (0..size[0]).flat_map(|x| (0..size[1]).map(move |y| [x, y]));
    places.any(|by| wrapped(turned, by, size) == first)
}

#[test]
fn what_leaves_a_repeat_at_one_edge_enters_at_the_opposite_one() {
    for paper in PrintedPaper::ALL {
        let size = repeat(paper);
        let all = edges(paper.outlines());
        for (from, to) in &all {
            for i in [0, 1] {
                assert!((0..=size[i]).contains(&from[i]), "{paper:?} stays within");
                assert!((0..=size[i]).contains(&to[i]), "{paper:?} stays within");
            }
        }
        for i in [0, 1] {
            let along = |border: i64| -> BTreeSet<[i64; 2]> {
                let on = all
                    .iter()
                    .filter(|(from, to)| from[i] == border && to[i] == border);
                on.map(|(from, to)| [from[1 - i].min(to[1 - i]), from[1 - i].max(to[1 - i])])
                    .collect()
            };
            assert_eq!(along(0), along(size[i]), "{paper:?} meets itself");
        }
    }
}

#[test]
fn a_print_looks_turned_as_it_is_said_to_run() {
    for paper in PrintedPaper::ALL {
        let [wide, high] = repeat(paper);
        let drawn = inner(paper);
        let half = turned(&drawn, |[x, y]| [wide - x, high - y]);
        let quarter = turned(&drawn, |[x, y]| [high - y, x]);
        let reads_down = is_same(&drawn, &half, [wide, high]);
        let reads_aside = wide == high && is_same(&drawn, &quarter, [wide, high]);
        let runs = match (reads_down, reads_aside) {
            (false, _) => Print::OneWay,
            (true, false) => Print::TwoWay,
            (true, true) => Print::AllOver,
        };
        assert_eq!(paper.look().print, runs, "{paper:?}");
    }
}

#[test]
fn there_are_small_and_large_motifs_of_every_kind_of_print() {
    let papers = PrintedPaper::ALL;
    assert_eq!(BTreeSet::from(papers.map(PrintedPaper::outlines)).len(), 12);
    for print in [Print::OneWay, Print::TwoWay, Print::AllOver] {
        let of_print = papers
            .into_iter()
            .filter(|paper| paper.look().print == print);
        let wide: Vec<_> = of_print.map(|paper| paper.repeat()[0]).collect();
        assert!(wide.iter().any(|wide| *wide <= Length::mm(12)), "{print:?}");
        assert!(wide.iter().any(|wide| *wide >= Length::mm(24)), "{print:?}");
    }
}

#[test]
fn a_side_is_read_with_and_without_its_paper() {
    let before = r##"{"colour":"#9cc3c4","print":"one-way"}"##;
    let look: SideLook = serde_json::from_str(before).expect("a side of an earlier release");
    assert_eq!(look.printed, None);
    assert_eq!(serde_json::to_string(&look).expect("text"), before);
    for paper in PrintedPaper::ALL {
        let text = serde_json::to_string(&paper.look()).expect("text");
        let read: SideLook = serde_json::from_str(&text).expect("what was written");
        assert_eq!(read, paper.look());
    }
}

#[test]
fn a_part_shows_the_motif_from_the_corner_of_its_sheet() {
    for paper in PrintedPaper::ALL {
        let mut recipe = starters()[0].recipe.clone();
        for stock in &mut recipe.stocks {
            (stock.face, stock.back) = (paper.look(), paper.look());
        }
        let card = work_out(&recipe, &Tools::default());
        let drawing = flat(&recipe, &card, StripId::Base, Side::B);
        let places: Vec<_> = drawing
            .marks
            .iter()
            .filter_map(|mark| match mark {
                Mark::Area {
                    fill: Fill::Paper { printed, place, .. },
                    ..
                } => Some((*printed, *place)),
                _ => None,
            })
            .collect();
        assert!(!places.is_empty());
        assert!(places.iter().all(|(printed, _)| *printed == Some(paper)));
        let written = svg(&drawing, "x", &|_| None).inside();
        assert!(written.contains(paper.outlines()), "{paper:?} is drawn");
        let [wide, high] = repeat(paper);
        let tile = format!(r#"width="{wide}" height="{high}" patternUnits="userSpaceOnUse""#);
        assert!(written.contains(&tile), "{paper:?} is repeated exactly");
    }
}
