//! What a card is cut from: how many sheets it takes, counted by hand, and which
//! ways each part may lie.
//!
//! Sheets are counted as makers count them at a trimmer: rows of pieces that all
//! lie alike, each kind of piece on sheets of its own, what is left over not
//! used (common practice). The numbers are worked in the comments: how often a
//! side goes into a side of the sheet, without a remainder.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use std::collections::BTreeMap;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::cut_list::Blank;
use foldwright_engine::draw::{Ink, Mark, part_on_sheet};
use foldwright_engine::lay::Ask;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{Grain, Heads, Print, ReadyPaper, Stock, StockId, StockSide};
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Edge, Size, Turn};
use foldwright_engine::problem::{Finding, FitFinding, Place as Where, Weight};
use foldwright_engine::recipe::{
    Face, Lay, LayerId, LayerKind, PanelId, PieceId, Placing, Recipe, Runs, Seat, Side, StripId,
    read, starters, write,
};
use foldwright_engine::steps::{Instruction, Label, SheetLies, StepKey, Value, steps};
use plain::Plain;
use strips::strip;

const BASE: Part = Part::Strip(StripId::Base);
const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};
const MILLIMETRES: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Comma,
};
/// The paper of the things made here by hand.
const PAPER: StockId = StockId(1);

fn eighths(count: i64) -> Length {
    Length::sixty_fourths(8 * count)
}

fn mm(width: i64, height: i64) -> Size {
    Size {
        width: Length::mm(width),
        height: Length::mm(height),
    }
}

fn card_of(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

fn starter(id: &str, notation: Notation) -> Recipe {
    let found = starters().iter().find(|starter| starter.id == id);
    found.expect("it is there").recipe_in(notation)
}

/// A paper of that size, both sides alike.
fn paper(size: Size, print: Print) -> Stock {
    let mut stock = ReadyPaper::Cream.stock("cream".to_owned());
    stock.id = PAPER;
    (stock.width, stock.height) = (size.width, size.height);
    stock.face.print = print;
    stock.back = stock.face;
    stock
}

/// A book of two panels of 105 mm, cut from plain A4, with an insert of another
/// paper on its front, its own size in its middle.
fn with_layer(size: Size, stock: Stock) -> (Recipe, LayerId) {
    let mut recipe = strip(&[Length::mm(105); 2], Length::mm(148), "V", 1, Runs::Across);
    let mut plain = paper(mm(210, 297), Print::Plain);
    plain.id = StockId(2);
    recipe.base.strip.stock = plain.id;
    recipe.notation = MILLIMETRES;
    recipe.stocks = vec![plain, stock];
    let front = Seat::Face(Face {
        panel: PanelId(0),
        side: Side::B,
    });
    let id = recipe
        .add_layer(front, LayerKind::Focal, &Plain)
        .expect("room")
        .id;
    recipe
        .place_layer(id, Placing::Distances)
        .expect("it is there");
    let layer = recipe.layer(id).expect("it was added").clone();
    recipe.set(layer.width, size.width).expect("it is free");
    recipe.set(layer.height, size.height).expect("it is free");
    recipe.layers[0].stock = PAPER;
    (recipe, id)
}

fn one_way(size: Size) -> Stock {
    paper(size, Print::OneWay)
}

fn turned(mut recipe: Recipe, turn: Turn) -> Recipe {
    recipe.layers[0].turn = Some(turn);
    recipe
}

/// A tent of two panels of 4 1/4 in, 5 1/2 in wide, on printed Letter.
fn printed_tent() -> Recipe {
    let mut recipe = strip(&[eighths(34); 2], eighths(44), "V", 1, Runs::Down);
    let letter = Size {
        width: eighths(68),
        height: eighths(88),
    };
    recipe.base.strip.stock = PAPER;
    recipe.stocks = vec![one_way(letter)];
    recipe
}

fn upright(mut recipe: Recipe) -> Recipe {
    let front = recipe.base.panels[0].id;
    recipe.upright = vec![Face {
        panel: front,
        side: Side::B,
    }];
    recipe
}

/// Ten recipes and more, their sheets counted by hand.
#[test]
#[expect(
    clippy::too_many_lines,
    reason = "one list of cases, each in a few lines"
)]
fn sheets_are_counted_as_by_hand() {
    let a4 = mm(210, 297);
    let mat = |print| with_layer(mm(140, 95), paper(a4, print)).0;
    let some = |sheets: &[(u32, i64)]| {
        let sheets = sheets.iter();
        let sheets = sheets.map(|(id, count)| (StockId(*id), Some(*count)));
        sheets.collect::<BTreeMap<_, _>>()
    };
    for (what, recipe, cards, by_hand) in [
        // 8 1/2 × 5 1/2 in from Letter: 8.5 / 8.5 = 1 across, 11 / 5.5 = 2 up,
        // 2 a sheet, 24 / 2 = 12. Its mat, 4 × 5 1/4 in from 12 × 12 in: 12 / 4
        // = 3 across, 12 / 5.25 = 2 up, 6 a sheet, 24 / 6 = 4.
        (
            "a book for a class",
            starter("book", INCHES),
            24,
            some(&[(1, 12), (3, 4)]),
        ),
        // 210 × 148 mm from A4: 1 across, 297 / 148 = 2 up, 2 a sheet, 13 / 2 =
        // 7 begun. 99 × 142 mm from 300 × 300 mm: 3 across, 2 up, 6 a sheet,
        // 13 / 6 = 3 begun.
        (
            "a metric book",
            starter("book", MILLIMETRES),
            13,
            some(&[(2, 7), (3, 3)]),
        ),
        // 11 × 8 1/2 in is the whole of Letter, laid up the sheet: 1 a sheet.
        (
            "a letter fold",
            starter("letter", INCHES),
            5,
            some(&[(1, 5)]),
        ),
        // 8 3/8 × 5 1/2 in: 8.5 / 8.375 = 1 across, 2 up, 2 a sheet, 7 / 2 = 4
        // begun.
        ("a gate", starter("gate", INCHES), 7, some(&[(1, 4)])),
        // The base 4 1/4 × 5 1/2 in: 2 across, 2 up, 4 a sheet, 24 / 4 = 6. The
        // leg 3 3/4 × 2 in: 8.5 / 3.75 = 2 across, 11 / 2 = 5 up, 10 a sheet
        // (turned 4 × 2 = 8), 24 / 10 = 3 begun. Both from the same paper.
        (
            "a card that stands",
            starter("stand", INCHES),
            24,
            some(&[(1, 9)]),
        ),
        // The base 2 a sheet, 20 / 2 = 10. The pocket 3 1/2 × 2 1/2 in from 12 ×
        // 12 in: 3 × 4 = 12 a sheet, 20 / 12 = 2 begun.
        (
            "a patch pocket",
            starter("patch-pocket", INCHES),
            20,
            some(&[(1, 10), (3, 2)]),
        ),
        // The base 2 a sheet, 9 / 2 = 5 begun. The strip inside, 8 × 3 in from 12
        // × 12 in: 1 across, 4 up (turned 4 × 1), 4 a sheet, 9 / 4 = 3 begun.
        (
            "a strip in a strip",
            starter("nested", INCHES),
            9,
            some(&[(1, 5), (3, 3)]),
        ),
        // The base 2 a sheet, 6 / 2 = 3. The mat 3 3/4 × 5 in: 12 / 3.75 = 3
        // across, 12 / 5 = 2 up, 6 a sheet, which is just enough.
        (
            "a window with a mat",
            starter("window", INCHES),
            6,
            some(&[(1, 3), (3, 1)]),
        ),
        // 8 1/2 × 5 1/2 in across Letter, 1 × 2 = 2 a sheet, 3 / 2 = 2 begun.
        ("a tent", printed_tent(), 3, some(&[(1, 2)])),
        // Its front upright, the tent runs up the print: 5 1/2 × 8 1/2 in, 8.5 /
        // 5.5 = 1 across, 11 / 8.5 = 1 up, 1 a sheet.
        (
            "a tent whose print is upright",
            upright(printed_tent()),
            3,
            some(&[(1, 3)]),
        ),
        // 140 × 95 mm from A4, print upright: 1 across, 3 up, 3 a sheet, 10 / 3
        // = 4 begun; stripes run up it as well. Turned, 2 across, 2 up, 4 a
        // sheet, 10 / 4 = 3 begun. The base, 210 × 148 mm, 2 a sheet: 5.
        (
            "a mat of one-way print",
            mat(Print::OneWay),
            10,
            some(&[(1, 4), (2, 5)]),
        ),
        (
            "a mat of stripes",
            mat(Print::TwoWay),
            10,
            some(&[(1, 4), (2, 5)]),
        ),
        (
            "a mat of speckle",
            mat(Print::AllOver),
            10,
            some(&[(1, 3), (2, 5)]),
        ),
        (
            "a plain mat",
            mat(Print::Plain),
            10,
            some(&[(1, 3), (2, 5)]),
        ),
        (
            "stripes the maker lays across it",
            turned(mat(Print::TwoWay), Turn::Left),
            10,
            some(&[(1, 3), (2, 5)]),
        ),
        (
            "a plain mat the maker lays upright",
            turned(mat(Print::Plain), Turn::None),
            10,
            some(&[(1, 4), (2, 5)]),
        ),
        // 280 × 200 mm goes into A4 only turned, and its print may not turn.
        (
            "a mat too large for its print",
            with_layer(mm(280, 200), one_way(a4)).0,
            1,
            BTreeMap::from([(PAPER, None), (StockId(2), Some(1))]),
        ),
    ] {
        let card = card_of(&recipe);
        assert_eq!(card.cut_list.sheets(cards), by_hand, "{what}");
    }
}

/// Whoever reads how many sheets a card takes reads the same: what to take out
/// before the work, and the picture of each sheet.
#[test]
fn steps_and_pictures_count_alike() {
    for starter in starters() {
        let mut recipe = starter.recipe_in(INCHES);
        recipe.copies = 17;
        let card = card_of(&recipe);
        let all = steps(&recipe, &card);
        let gather = all.first().expect("the first step");
        let told = gather
            .figures
            .iter()
            .filter_map(|figure| match (figure.label, figure.value) {
                (Label::Paper(id), Value::Sheets(sheets)) => Some((id, sheets)),
                _ => None,
            });
        let told: BTreeMap<_, _> = told.collect();
        assert_eq!(told, card.cut_list.sheets(17), "{}", starter.id);
        for blank in &card.cut_list.blanks {
            let drawn = part_on_sheet(&recipe, &card, blank.part).expect("it has paper");
            let edges = drawn
                .marks
                .iter()
                .filter(|mark| matches!(mark, Mark::Line { ink: Ink::Edge, .. }));
            let pieces = i64::try_from(edges.count() / 4).expect("a few");
            assert_eq!(pieces, blank.per_sheet(), "{} {:?}", starter.id, blank.part);
        }
    }
}

fn blank(recipe: &Recipe, part: Part) -> Blank {
    let card = card_of(recipe);
    card.cut_list.of(part).expect("it is cut").clone()
}

/// How many lays give the same part, and what asks that it lies in no other.
fn freedom(recipe: &Recipe, part: Part) -> (usize, Vec<Ask>) {
    let lies = blank(recipe, part).lies.expect("it has paper");
    assert!(lies.allowed.contains(&lies.lay), "{lies:?}");
    (lies.allowed.len(), lies.asks)
}

/// Two sides and four turns are eight lays. Counted by turning a sheet over and
/// round: which of them show the same on the strip that is cut.
#[test]
fn a_strip_lies_in_as_many_ways_as_come_out_the_same() {
    let book = |change: &dyn Fn(&mut Stock)| {
        let mut recipe = strip(&[Length::mm(105); 2], Length::mm(148), "V", 1, Runs::Across);
        let mut stock = paper(mm(210, 297), Print::Plain);
        change(&mut stock);
        recipe.base.strip.stock = stock.id;
        recipe.stocks = vec![stock];
        recipe
    };
    let white_back =
        |stock: &mut Stock| stock.back.colour = foldwright_engine::paper::Colour::rgb(0);
    for (what, recipe, lays, asks) in [
        ("plain, both sides alike", book(&|_| ()), 8, vec![]),
        // Either half turn and quarter turn, with that side outside.
        ("two colours", book(&white_back), 4, vec![Ask::Side]),
        (
            "all-over print on one side",
            book(&|stock| stock.face.print = Print::AllOver),
            4,
            vec![Ask::Side],
        ),
        (
            "one-way print on one side",
            book(&|stock| stock.face.print = Print::OneWay),
            1,
            vec![Ask::Side, Ask::Print],
        ),
        // Upside down it reads as well.
        (
            "stripes on one side",
            book(&|stock| stock.face.print = Print::TwoWay),
            2,
            vec![Ask::Side, Ask::Print],
        ),
        // Turned over like a page it shows the same again.
        (
            "the same one-way print on both sides, head to head",
            book(&|stock| *stock = one_way(stock.size())),
            2,
            vec![Ask::Print],
        ),
        // Turned over and end for end it does.
        (
            "the same one-way print on both sides, head to foot",
            book(&|stock| {
                *stock = one_way(stock.size());
                stock.heads = Heads::ToFoot;
            }),
            2,
            vec![Ask::Print],
        ),
        // Across the sheet, the folds run up it: half turns and both sides.
        (
            "grain along the folds",
            book(&|stock| stock.grain = Grain::AlongHeight),
            4,
            vec![Ask::Grain],
        ),
        // Only across the sheet do two go on it: the folds run across the grain,
        // which turning would only better.
        (
            "grain across the folds",
            book(&|stock| stock.grain = Grain::AlongWidth),
            8,
            vec![],
        ),
        (
            "as the maker lays it",
            {
                let mut recipe = book(&|_| ());
                recipe.lay = Some(Lay::AS_DRAWN);
                recipe
            },
            4,
            vec![Ask::Maker],
        ),
    ] {
        assert_eq!(freedom(&recipe, BASE), (lays, asks), "{what}");
    }
}

/// Of a layer one side shows: four lays.
#[test]
fn a_layer_lies_in_as_many_ways_as_come_out_the_same() {
    let small = mm(60, 40);
    let layer = |change: &dyn Fn(&mut Stock)| {
        let mut stock = paper(mm(210, 297), Print::Plain);
        change(&mut stock);
        with_layer(small, stock).0
    };
    let part = Part::Layer(with_layer(small, one_way(mm(210, 297))).1);
    for (what, recipe, lays, asks) in [
        ("plain", layer(&|_| ()), 4, vec![]),
        (
            "all-over print",
            layer(&|stock| stock.face.print = Print::AllOver),
            4,
            vec![],
        ),
        (
            "one-way print",
            layer(&|stock| stock.face.print = Print::OneWay),
            1,
            vec![Ask::Print],
        ),
        (
            "stripes",
            layer(&|stock| stock.face.print = Print::TwoWay),
            2,
            vec![Ask::Print],
        ),
        // The print on its back is glued down.
        (
            "one-way print on the back",
            layer(&|stock| stock.back.print = Print::OneWay),
            4,
            vec![],
        ),
        (
            "as the maker turns it",
            turned(layer(&|_| ()), Turn::Left),
            2,
            vec![Ask::Maker],
        ),
    ] {
        assert_eq!(freedom(&recipe, part), (lays, asks), "{what}");
    }
}

/// Between ways that give as many, a layer lies with its grain along the folds of
/// what carries it, as the base does.
#[test]
fn a_layer_has_its_grain_along_the_folds_where_that_costs_nothing() {
    // 70 × 70 mm from A4 is 3 × 4 = 12 either way.
    let square = |grain, runs| {
        let mut stock = paper(mm(210, 297), Print::Plain);
        stock.grain = grain;
        let (mut recipe, id) = with_layer(mm(70, 70), stock);
        recipe.base.runs = runs;
        let lies = blank(&recipe, Part::Layer(id)).lies.expect("it has paper");
        let used = lies.used().expect("it is one of them");
        assert_eq!((used.per_sheet, used.along_grain), (12, Some(true)));
        assert_eq!(lies.asks, [Ask::Grain]);
        assert_eq!(lies.allowed.len(), 2);
        lies.lay.runs_across()
    };
    // The folds of a book run up the layer as it is read, those of a tent across
    // it.
    assert!(square(Grain::AlongHeight, Runs::Across));
    assert!(!square(Grain::AlongWidth, Runs::Across));
    assert!(!square(Grain::AlongHeight, Runs::Down));
    assert!(square(Grain::AlongWidth, Runs::Down));
    // 140 × 95 mm gives 4 lying turned and 3 upright: more comes first.
    let mut stock = paper(mm(210, 297), Print::Plain);
    stock.grain = Grain::AlongHeight;
    let (recipe, id) = with_layer(mm(140, 95), stock);
    let lies = blank(&recipe, Part::Layer(id)).lies.expect("it has paper");
    let used = lies.used().expect("it is one of them");
    assert_eq!((used.per_sheet, used.along_grain), (4, Some(false)));
    assert_eq!(lies.asks, []);
}

/// The list has every part in the order of the work, as it is cut, with the
/// paper it is cut from.
#[test]
fn the_list_has_every_part_as_it_is_cut() {
    let recipe = starter("stand", INCHES);
    let card = card_of(&recipe);
    let listed = card.cut_list.blanks.iter();
    let listed: Vec<_> = listed
        .map(|it| (it.part, it.stock, it.size, it.per_card))
        .collect();
    let size = |width, height| Size {
        width: eighths(width),
        height: eighths(height),
    };
    let leg = Part::Strip(StripId::Piece(PieceId(1)));
    assert_eq!(
        listed,
        [
            (BASE, StockId(1), size(34, 44), 1),
            (leg, StockId(1), size(30, 16), 1),
        ]
    );
    // A layer whose seat is gone is cut from nothing.
    let (mut recipe, id) = with_layer(mm(60, 40), one_way(mm(210, 297)));
    assert!(card_of(&recipe).cut_list.of(Part::Layer(id)).is_some());
    recipe.layers[0].on = Seat::Layer(LayerId(99));
    assert_eq!(card_of(&recipe).cut_list.of(Part::Layer(id)), None);
    // One whose paper is gone takes none, and fits nowhere.
    recipe.base.strip.stock = StockId(99);
    let base = blank(&recipe, BASE);
    assert_eq!((base.lies.as_ref(), base.sheets(1)), (None, None));
}

/// A layer that goes into its sheet only with its print on its side does not go
/// into it, and the maker hears so.
#[test]
fn a_layer_too_large_as_its_print_lies_is_told() {
    let told = |recipe: &Recipe| {
        let problems = card_of(recipe).problems.into_iter();
        let mut stops = problems.filter(|problem| problem.weight == Weight::Stop);
        stops.find_map(|problem| match problem.finding {
            Finding::Fit(FitFinding::TooLarge { turned_fits, .. }) => {
                Some((problem.place, turned_fits))
            }
            _ => None,
        })
    };
    let a4 = mm(210, 297);
    let (recipe, id) = with_layer(mm(280, 200), one_way(a4));
    assert_eq!(told(&recipe), Some((Where::Layer(id), true)));
    assert_eq!(told(&turned(recipe, Turn::Right)), None);
    let (recipe, _) = with_layer(mm(280, 200), paper(a4, Print::AllOver));
    assert_eq!(told(&recipe), None);
    let (recipe, id) = with_layer(mm(300, 220), paper(a4, Print::AllOver));
    assert_eq!(told(&recipe), Some((Where::Layer(id), false)));
}

/// How a layer is to be laid is said where it matters. Worked by hand: the sheet
/// lies face up, its print upright; the head of a print that is to point to the
/// left of the layer lies at the top of the sheet when the layer is turned a
/// quarter to the right, its own top then at the right.
#[test]
fn a_layer_laid_on_its_side_is_cut_so() {
    let cut = |recipe: &Recipe, id: LayerId| {
        let all = steps(recipe, &card_of(recipe));
        let key = StepKey::Cut(Part::Layer(id));
        let step = all.into_iter().find(|step| step.key == key);
        step.expect("it is cut").does
    };
    let a4 = mm(210, 297);
    let (recipe, id) = with_layer(mm(60, 40), one_way(a4));
    let measure = Instruction::MeasureFromCorner(Part::Layer(id));
    let sheet = |lies| Instruction::LaySheet {
        lies,
        side: Length::mm(210),
    };
    let from = Instruction::CutLayer(id, PAPER);
    assert_eq!(cut(&recipe, id), [measure, from, Instruction::UpPrint(id)]);
    let top = |at| Instruction::TopLies(id, at);
    assert_eq!(
        cut(&turned(recipe.clone(), Turn::Right), id),
        [measure, sheet(SheetLies::Upright), from, top(Edge::Right)]
    );
    // Where the back shows, the layer lies face down, and its left is at the
    // right: turned a quarter to the right its top is at the right again.
    let mut back = turned(recipe, Turn::Right);
    back.layers[0].shows = StockSide::Back;
    assert_eq!(
        cut(&back, id),
        [measure, sheet(SheetLies::Upright), from, top(Edge::Right)]
    );
    // Plain paper without known grain may lie anyhow.
    let (recipe, id) = with_layer(mm(60, 40), paper(a4, Print::Plain));
    assert_eq!(cut(&recipe, id), [measure, from]);
    assert_eq!(
        cut(&turned(recipe, Turn::Left), id),
        [measure, sheet(SheetLies::Either), from, top(Edge::Left)]
    );
}

/// How a layer is laid is kept with the recipe, and one written before there was
/// such a thing lies in the best way.
#[test]
fn how_a_layer_is_laid_is_kept() {
    let (recipe, _) = with_layer(mm(60, 40), one_way(mm(210, 297)));
    let written = write(std::slice::from_ref(&recipe));
    assert!(!written.contains("\"turn\""), "{written}");
    let recipe = turned(recipe, Turn::Half);
    let again = read(&write(std::slice::from_ref(&recipe))).expect("it is sound");
    assert_eq!(again, [recipe]);
}
