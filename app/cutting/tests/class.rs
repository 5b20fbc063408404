//! Classes cut from starting folds, worked by hand.
//!
//! How often a side goes into a side of the sheet is in the comments; sheets are
//! those the starting folds name.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

mod common;

use std::num::NonZeroU32;

use common::verifier::wrong;
use foldwright_cutting::class::{Class, Sheets, lay, length, measure};
use foldwright_cutting::{Lie, Nonsense, Planner, Progress, Trimmer};
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::cut_list::CutList;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::StockId;
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Point, Size};
use foldwright_engine::recipe::{Lay, LayerId, Recipe, StripId, starters};

const BASE: Part = Part::Strip(StripId::Base);
const MAT: Part = Part::Layer(LayerId(1));
/// What the card like a book is cut from.
const LETTER: StockId = StockId(1);
const A4: StockId = StockId(2);
const SHORE: StockId = StockId(3);

fn book(step: Step) -> Recipe {
    let found = starters().iter().find(|starter| starter.id == "book");
    found.expect("it is there").recipe_in(Notation {
        step,
        decimal: DecimalMark::Point,
    })
}

fn cuts(recipe: &Recipe) -> CutList {
    work_out(recipe, &Tools::default()).cut_list
}

fn new_sheets(recipe: &Recipe) -> Vec<Sheets> {
    recipe.stocks.iter().map(Sheets::new).collect()
}

fn inches(width: i64, height: i64) -> Size {
    Size {
        width: Length::sixty_fourths(width * 16),
        height: Length::sixty_fourths(height * 16),
    }
}

/// So many of a card, planned to the end with nothing wrong.
fn planned(cuts: &CutList, cards: u32, sheets: &[Sheets]) -> (Class, Planner) {
    let cards = NonZeroU32::new(cards).expect("some");
    let class = Class::new(cuts, cards, sheets, Trimmer::PLAIN).expect("a job");
    let mut planner = Planner::new(&class.job);
    while planner.improve(1_000_000, || false) != Progress::Done {}
    assert_eq!(wrong(&class.job, planner.plan()), Vec::<String>::new());
    assert!(planner.is_proven());
    assert_eq!(planner.plan().lacks(), 0);
    (class, planner)
}

/// Six cards whose mats show a part of the paper that the maker chose: each comes from
/// a sheet of its own, exactly there, which the verifier of the tests looks after.
#[test]
fn a_part_that_is_cut_at_a_place_takes_it_from_a_sheet_of_its_own() {
    let mut recipe = book(Step::Sixteenth);
    let mat = cuts(&recipe);
    let mat = mat.of(MAT).expect("it has a mat");
    let lay = mat.lies.as_ref().expect("it has paper").lay;
    let place = Point::new(Length::inches(2), Length::inches(3));
    MAT.cut_from(&mut recipe, Some((place, lay)));
    let cuts = cuts(&recipe);
    let blank = cuts.of(MAT).expect("it has a mat");
    assert_eq!(blank.at, Some(place));
    let sheets = new_sheets(&recipe);
    let six = NonZeroU32::new(6).expect("some");
    let class = Class::new(&cuts, six, &sheets, Trimmer::PLAIN).expect("a job");
    let mut planner = Planner::new(&class.job);
    // Where a part comes from one place, more than a first bound is not proven.
    planner.improve(1_000_000, || false);
    assert_eq!(wrong(&class.job, planner.plan()), Vec::<String>::new());
    assert_eq!(planner.plan().lacks(), 0);
    let piece = class.parts.iter().position(|parts| parts.contains(&MAT));
    let piece = &class.job.pieces()[piece.expect("it is planned")];
    for source in &piece.sources {
        let area = source.area.expect("it comes from one place");
        assert_eq!(i64::from(area.x), place.x.units());
        assert_eq!(i64::from(area.y), place.y.units());
    }
    assert_eq!(taken(&planner, &sheets, blank.stock), (6, 0));
    assert_eq!(cuts.sheets(6)[&blank.stock], Some(6));
}

/// How many sheets of a paper a plan takes, new ones and others.
fn taken(planner: &Planner, sheets: &[Sheets], paper: StockId) -> (u32, u32) {
    let (mut new, mut others) = (0, 0);
    for batch in planner.plan().batches() {
        let sheets = sheets[batch.stock];
        if sheets.paper == paper && sheets.supply.is_none() {
            new += batch.sheets.get();
        } else if sheets.paper == paper {
            others += batch.sheets.get();
        }
    }
    (new, others)
}

/// In inches the strip is 8 1/2 × 5 1/2, two from Letter, and the mat 4 × 5 1/4
/// with its print upright, three across 12 in and two up it: 24 / 2 = 12 sheets
/// and 24 / 6 = 4. In millimetres 210 × 148, two from A4, and 99 × 142, three and
/// two of 304.8: the same.
#[test]
fn twenty_four_books_take_twelve_sheets_and_four() {
    for (step, strip_from) in [(Step::Sixteenth, LETTER), (Step::Millimetre, A4)] {
        let recipe = book(step);
        let sheets = new_sheets(&recipe);
        let (class, planner) = planned(&cuts(&recipe), 24, &sheets);
        assert_eq!(class.left_out, Vec::new());
        assert_eq!(class.parts, vec![vec![BASE], vec![MAT]]);
        let counts: Vec<u32> = class.job.pieces().iter().map(|it| it.count.get()).collect();
        assert_eq!(counts, [24, 24]);
        assert_eq!(class.job.pieces()[1].sources[0].lie, Lie::Upright);
        assert_eq!(taken(&planner, &sheets, strip_from), (12, 0));
        assert_eq!(taken(&planner, &sheets, SHORE), (4, 0));
        assert_eq!(planner.plan().cost(), 16);
    }
}

/// Twelve sheets of Letter are all cut at 5 1/2 in, one setting. Off a sheet of
/// 12 in two strips are cut at 5 1/4 in, and two mats off each at 4 in, which leaves
/// the third: six cuts and two settings. Fewer can't be, since 1 1/2 in has to be
/// trimmed and six mats are parted by five cuts: 12 + 4 × 6 = 36, and the mats have
/// two measures.
#[test]
fn twenty_four_books_take_three_settings() {
    let recipe = book(Step::Sixteenth);
    let (_, planner) = planned(&cuts(&recipe), 24, &new_sheets(&recipe));
    let sequence = planner.plan().sequence();
    let mut settings: Vec<(Length, u32)> = sequence
        .settings()
        .iter()
        .map(|it| {
            (
                measure(it.fence),
                it.strokes.iter().map(|it| it.times).sum(),
            )
        })
        .collect();
    settings.sort_unstable();
    let quarters = |count: i64| Length::sixty_fourths(count * 16);
    let expected = [(quarters(16), 16), (quarters(21), 8), (quarters(22), 12)];
    assert_eq!(settings, expected);
    assert_eq!(sequence.cuts(), 36);
}

/// With the mat from Letter too, by itself each kind takes its own sheets: 13 for
/// 25 strips, 7 for 25 mats of which four come from one. Together the half sheet
/// that the strips leave gives two mats, and 23 take six more: 19. Fewer can't
/// be: 25 × (8 1/2 × 5 1/2 + 4 × 5 1/4) = 1693 3/4 square inches are more than 18
/// sheets have, 1683.
#[test]
fn pieces_of_one_paper_share_its_sheets() {
    let mut recipe = book(Step::Sixteenth);
    recipe.layers[0].stock = LETTER;
    let cuts = cuts(&recipe);
    let apart = cuts.sheets(25).get(&LETTER).copied().flatten();
    assert_eq!(apart, Some(20));
    let sheets = new_sheets(&recipe);
    let (_, planner) = planned(&cuts, 25, &sheets);
    assert_eq!(taken(&planner, &sheets, LETTER), (19, 0));
}

/// Three halves of Letter on the shelf give three strips; 21 take eleven sheets.
#[test]
fn what_lies_on_the_shelf_is_cut_first() {
    let recipe = book(Step::Sixteenth);
    let mut sheets = new_sheets(&recipe);
    sheets.push(Sheets {
        size: inches(34, 22),
        supply: Some(3),
        cost: 0,
        ..sheets[0]
    });
    let (_, planner) = planned(&cuts(&recipe), 24, &sheets);
    assert_eq!(taken(&planner, &sheets, LETTER), (11, 3));
    assert_eq!(planner.plan().cost(), 15);
}

/// A second mat like the first is the same piece, twice as often.
#[test]
fn parts_cut_alike_are_one_piece() {
    let mut recipe = book(Step::Sixteenth);
    let mut second = recipe.layers[0].clone();
    second.id = LayerId(2);
    recipe.layers.push(second);
    let cards = NonZeroU32::new(24).expect("some");
    let sheets = new_sheets(&recipe);
    let class = Class::new(&cuts(&recipe), cards, &sheets, Trimmer::PLAIN).expect("a job");
    assert_eq!(class.parts[1], [MAT, Part::Layer(LayerId(2))]);
    assert_eq!(class.job.pieces()[1].count.get(), 48);
}

/// The strip of plain paper may lie any way; the mat's print is upright.
#[test]
fn each_piece_lies_as_its_part_may() {
    let cuts = cuts(&book(Step::Sixteenth));
    let strip = cuts.of(BASE).expect("it is there");
    assert!(lay(strip, false).is_some_and(Lay::runs_across));
    assert!(lay(strip, true).is_some_and(|lay| !lay.runs_across()));
    let mat = cuts.of(MAT).expect("it is there");
    assert!(lay(mat, false).is_some());
    assert_eq!(lay(mat, true), None);
}

#[test]
fn what_is_no_paper_is_told() {
    let mut recipe = book(Step::Sixteenth);
    let sheets = new_sheets(&recipe);
    recipe.stocks.retain(|stock| stock.id != SHORE);
    let one = NonZeroU32::MIN;
    let class = Class::new(&cuts(&recipe), one, &sheets, Trimmer::PLAIN).expect("a job");
    assert_eq!(class.left_out, [MAT]);
    // The recipe has the paper, and there are no sheets of it.
    let (class, planner) = {
        let class = Class::new(
            &cuts(&book(Step::Sixteenth)),
            one,
            &sheets[..1],
            Trimmer::PLAIN,
        );
        let class = class.expect("a job");
        let planner = Planner::new(&class.job);
        (class, planner)
    };
    assert_eq!(class.left_out, Vec::new());
    assert_eq!(planner.plan().missing(), [0, 1]);
    let none = Sheets {
        size: inches(0, 4),
        ..sheets[0]
    };
    let refused = Class::new(&cuts(&recipe), one, &[none], Trimmer::PLAIN);
    assert_eq!(refused, Err(Nonsense::NoSuchSheet { stock: 0 }));
    assert_eq!(length(Length::ZERO), None);
    let many = Class::new(&cuts(&recipe), NonZeroU32::MAX, &sheets, Trimmer::PLAIN);
    assert_eq!(many, Err(Nonsense::TooManyPieces));
}
