//! Circles, squares and ovals, how many of a piece, and the notations people
//! write sizes in, each with what a practised reader makes of it.

use crate::plain::Plain;
use foldwright_engine::length::Length;
use foldwright_engine::problem::{Finding, Trouble};
use foldwright_engine::recipe::Outline;

use super::written::{Line, check};
use super::{inches, known, made, metric};

/// Shapes in inches.
const SHAPES: &[Line] = &[
    ("circle 70mm", &["circle of diameter 70 mm"], &[]),
    ("3⅜ sq", &["square 3 3/8 × 3 3/8 in"], &[]),
    ("3 3/8\" square", &["square 3 3/8 × 3 3/8 in"], &[]),
    ("square 3 3/8", &["square 3 3/8 × 3 3/8 in"], &[]),
    ("2 1/2 in dia", &["circle of diameter 2 1/2 in"], &[]),
    ("2 1/2\" dia. circle", &["circle of diameter 2 1/2 in"], &[]),
    ("dia 2 1/2", &["circle of diameter 2 1/2 in"], &[]),
    ("Ø 2 1/2", &["circle of diameter 2 1/2 in"], &[]),
    ("Ø2 1/2 in", &["circle of diameter 2 1/2 in"], &[]),
    ("⌀ 2 1/2", &["circle of diameter 2 1/2 in"], &[]),
    ("round label, 2 in", &["circle of diameter 2 in"], &[]),
    (
        "2 1/4 in in diameter",
        &["circle of diameter 2 1/4 in"],
        &[],
    ),
    ("circle 2 x 2 in", &["round piece 2 × 2 in"], &[]),
    ("oval 2 x 3 in", &["oval 2 × 3 in"], &[]),
    ("2 x 3 in oval", &["oval 2 × 3 in"], &[]),
    ("12 x 12 square", &["square 12 × 12 in"], &[]),
    ("4 x 5 in with round corners", &["piece 4 × 5 in"], &[]),
    ("a 1/8 inch border all round", &["border 1/8 in"], &[]),
    ("3in² of kraft", &[], &["3in²"]),
    ("3 sq in of kraft", &[], &["3"]),
    ("oval 3 in", &[], &["3 in"]),
];

/// Shapes in four other languages.
const ABROAD: &[Line] = &[
    ("Kreis 7 cm", &["circle of diameter 70 mm"], &[]),
    ("7 cm Kreis", &["circle of diameter 70 mm"], &[]),
    (
        "Kreis, Durchmesser 70 mm",
        &["circle of diameter 70 mm"],
        &[],
    ),
    (
        "rund, 7 cm im Durchmesser",
        &["circle of diameter 70 mm"],
        &[],
    ),
    ("Quadrat 9 cm", &["square 90 × 90 mm"], &[]),
    ("9 cm quadratisch", &["square 90 × 90 mm"], &[]),
    ("cercle 7 cm", &["circle of diameter 70 mm"], &[]),
    ("rond 70 mm", &["circle of diameter 70 mm"], &[]),
    (
        "cercle de 7 cm de diamètre",
        &["circle of diameter 70 mm"],
        &[],
    ),
    ("carré 9 cm", &["square 90 × 90 mm"], &[]),
    ("cirkel 70 mm", &["circle of diameter 70 mm"], &[]),
    ("cirkel, doorsnede 7 cm", &["circle of diameter 70 mm"], &[]),
    ("vierkant 9 cm", &["square 90 × 90 mm"], &[]),
    ("círculo 7 cm", &["circle of diameter 70 mm"], &[]),
    (
        "círculo de 7 cm de diámetro",
        &["circle of diameter 70 mm"],
        &[],
    ),
    ("cuadrado 9 cm", &["square 90 × 90 mm"], &[]),
    ("óvalo 6 x 8 cm", &["oval 60 × 80 mm"], &[]),
];

/// How many, in inches.
const COUNTS: &[Line] = &[
    (
        "mat 4 x 5 1/4 (cut 2)",
        &["piece 4 × 5 1/4 in", "2 pieces"],
        &[],
    ),
    (
        "mat 4 x 5 1/4, cut 4",
        &["piece 4 × 5 1/4 in", "4 pieces"],
        &[],
    ),
    (
        "cut 2 mats 4 x 5 1/4",
        &["2 pieces", "piece 4 × 5 1/4 in"],
        &[],
    ),
    ("cut 4 x 6 in", &["piece 4 × 6 in"], &[]),
    ("mat 4 x 5 1/4 x2", &["piece 4 × 5 1/4 in", "2 pieces"], &[]),
    (
        "mat 4 x 5 1/4 (x2)",
        &["piece 4 × 5 1/4 in", "2 pieces"],
        &[],
    ),
    ("mat 4 x 5 x2", &["piece 4 × 5 in", "2 pieces"], &[]),
    ("2x 4 x 5", &["2 pieces", "piece 4 × 5 in"], &[]),
    (
        "mat 4 x 5 1/4, 2x",
        &["piece 4 × 5 1/4 in", "2 pieces"],
        &[],
    ),
    (
        "mat ×2: 4 × 5 1/4",
        &["2 pieces", "piece 4 × 5 1/4 in"],
        &[],
    ),
    (
        "mat 4 x 5 1/4, 2 pcs",
        &["piece 4 × 5 1/4 in", "2 pieces"],
        &[],
    ),
    (
        "mat 4 x 5 1/4, qty 3",
        &["piece 4 × 5 1/4 in", "3 pieces"],
        &[],
    ),
    (
        "qty: 3 mat 4 x 5 1/4",
        &["3 pieces", "piece 4 × 5 1/4 in"],
        &[],
    ),
    (
        "circle 2 in (cut 2)",
        &["circle of diameter 2 in", "2 pieces"],
        &[],
    ),
    (
        "2 circles 1 1/2 in",
        &["2 pieces", "circle of diameter 1 1/2 in"],
        &[],
    ),
    ("3⅜ sq x2", &["square 3 3/8 × 3 3/8 in", "2 pieces"], &[]),
    (
        "2 round labels 1 1/2 in",
        &["2 pieces", "circle of diameter 1 1/2 in"],
        &[],
    ),
    ("4 x 5 x 6", &[], &["4 x 5 x 6"]),
];

/// How many, in four other languages.
const COUNTS_ABROAD: &[Line] = &[
    (
        "Aufleger 9 x 14 cm, je 2",
        &["piece 90 × 140 mm", "2 pieces"],
        &[],
    ),
    ("2 Stück 9 x 14 cm", &["2 pieces", "piece 90 × 140 mm"], &[]),
    (
        "Aufleger 9 x 14 cm (2 Stk.)",
        &["piece 90 × 140 mm", "2 pieces"],
        &[],
    ),
    (
        "Kreis 7 cm, 2 Stück",
        &["circle of diameter 70 mm", "2 pieces"],
        &[],
    ),
    (
        "couche 9 x 14 cm, couper 2",
        &["piece 90 × 140 mm", "2 pieces"],
        &[],
    ),
    (
        "couper 2 cercles 7 cm",
        &["2 pieces", "circle of diameter 70 mm"],
        &[],
    ),
    (
        "laag 9 x 14 cm, 2 st.",
        &["piece 90 × 140 mm", "2 pieces"],
        &[],
    ),
    ("2 stuks 9 x 14 cm", &["2 pieces", "piece 90 × 140 mm"], &[]),
    (
        "capa 9 x 14 cm, cortar 2",
        &["piece 90 × 140 mm", "2 pieces"],
        &[],
    ),
    (
        "capa 9 x 14 cm (2 uds)",
        &["piece 90 × 140 mm", "2 pieces"],
        &[],
    ),
];

/// One size, 4 1/4 × 5 1/2 in, in the ways people write it.
const NOTATIONS: &[&str] = &[
    "4 1/4 x 5 1/2",
    "4-1/4 x 5-1/2",
    "4¼ x 5½",
    "4 ¼ × 5 ½",
    "4.25 x 5.5",
    "4.25\" x 5.5\"",
    "4 1/4\" × 5 1/2\"",
    "4 1/4″ by 5 1/2″",
    "4 1/4'' * 5 1/2''",
    "4 1/4in X 5 1/2in",
    "4 1/4 in. x 5 1/2 in.",
    "4 1/4 inches by 5 1/2 inches",
    "4¼”x5½”",
    "4 1/4\" W x 5 1/2\" H",
    "4 1/4W x 5 1/2H",
    "5 1/2\"H x 4 1/4\"W",
    "W 4 1/4 x H 5 1/2",
    "4 1/4 wide by 5 1/2 tall",
    "4 1/4 in wide, 5 1/2 in high",
    "width 4 1/4, height 5 1/2",
    "4 17⁄68 x 5 1/2",
    "4 1/4 ✕ 5 1/2",
    "4 1/4inx5 1/2in",
];

#[test]
fn shapes() {
    check(SHAPES, inches);
    check(ABROAD, metric);
}

#[test]
fn how_many() {
    check(COUNTS, inches);
    check(COUNTS_ABROAD, metric);
}

#[test]
fn one_size_in_many_notations() {
    for text in NOTATIONS {
        let list = inches(&format!("card {text}"));
        let line = list.lines.first().expect("a line");
        let words = known(&list, 0);
        assert_eq!(words, ["piece 4 1/4 × 5 1/2 in"], "{text}");
        assert_eq!(line.unread, [], "{text}");
    }
}

#[test]
fn every_fraction_of_one_character() {
    // Unicode's vulgar fractions; a length is whole units of 1/72 µm, so sevenths
    // and ninths of an inch are rounded.
    for (letter, over, under) in [
        ('½', 1, 2),
        ('⅓', 1, 3),
        ('⅔', 2, 3),
        ('¼', 1, 4),
        ('¾', 3, 4),
        ('⅕', 1, 5),
        ('⅖', 2, 5),
        ('⅗', 3, 5),
        ('⅘', 4, 5),
        ('⅙', 1, 6),
        ('⅚', 5, 6),
        ('⅐', 1, 7),
        ('⅛', 1, 8),
        ('⅜', 3, 8),
        ('⅝', 5, 8),
        ('⅞', 7, 8),
        ('⅑', 1, 9),
        ('⅒', 1, 10),
    ] {
        let list = inches(&format!("base 12 x 6, score at 6\n3{letter} sq"));
        let recipe = list.into_recipe(&[], &Plain).expect("a card");
        let mat = recipe.layers.first().expect("the square");
        let wanted = (Length::PER_INCH * (3 * under + over) * 2 + under) / (2 * under);
        let side = recipe.value(mat.width).units();
        assert!((side - wanted).abs() <= 1, "{letter}");
        assert_eq!(recipe.value(mat.height).units(), side);
    }
}

#[test]
fn round_pieces_are_round_in_the_recipe() {
    let list =
        metric("Karte 300 x 150 mm, falzen bei 150\nKreis 7 cm\n2 Kreise 3 cm\nOval 4 x 6 cm");
    let recipe = made(&list);
    let layers: Vec<(&str, &Outline, [Length; 2])> = recipe
        .layers
        .iter()
        .map(|it| {
            let size = [it.width, it.height].map(|it| recipe.value(it));
            (it.name.as_str(), &it.outline, size)
        })
        .collect();
    assert_eq!(
        layers,
        [
            ("circle", &Outline::Round, [70, 70].map(Length::mm)),
            ("circle 2", &Outline::Round, [30, 30].map(Length::mm)),
            ("circle 3", &Outline::Round, [30, 30].map(Length::mm)),
            ("oval", &Outline::Round, [40, 60].map(Length::mm)),
        ]
    );
}

#[test]
fn a_round_piece_alone_has_nothing_to_lie_on() {
    let list = metric("Kreis 7 cm");
    assert!(!list.has_card());
    let line = list.lines.first().expect("a line");
    let problems: Vec<_> = line.problems.iter().map(|it| &it.finding).collect();
    assert_eq!(problems, [&Finding::List(Trouble::NoBase)]);
}
