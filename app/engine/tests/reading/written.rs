//! Lines as they stand in binders, in five styles, with what a practised reader
//! makes of each, written down by hand.

use foldwright_engine::reading::Read;

use super::{inches, known as said, metric};

/// A line, what is read of it, and the numbers that are left beside it.
pub(super) type Line = (
    &'static str,
    &'static [&'static str],
    &'static [&'static str],
);

/// Short lines in inches.
const TERSE: &[Line] = &[
    (
        "base 5 1/2 x 8 1/2, score at 4 1/4",
        &["piece 5 1/2 × 8 1/2 in", "score at 4 1/4 in"],
        &[],
    ),
    ("mat 4 x 5 1/4", &["piece 4 × 5 1/4 in"], &[]),
    ("mat 3-3/4 x 5", &["piece 3 3/4 × 5 in"], &[]),
    (
        "base 4¼ × 11, score 5½",
        &["piece 4 1/4 × 11 in", "score at 5 1/2 in"],
        &[],
    ),
    (
        "strip 12\" x 3\", score every 3\"",
        &["piece 12 × 3 in", "a score every 3 in"],
        &[],
    ),
    (
        "base 8.5 by 5.5 in, fold in half",
        &["piece 8 1/2 × 5 1/2 in", "a score in the middle"],
        &[],
    ),
    (
        "card 5x10, score @ 2 1/2, 7 1/2",
        &["piece 5 × 10 in", "score at 2 1/2 in", "score at 7 1/2 in"],
        &[],
    ),
    ("border 1/8", &["border 1/8 in"], &[]),
    (
        "finished size 4 1/4 x 5 1/2",
        &["closed card 4 1/4 × 5 1/2 in"],
        &[],
    ),
    ("envelope A2", &["envelope A2"], &[]),
    (
        "envelope 4 3/8 x 5 3/4",
        &["envelope 4 3/8 × 5 3/4 in"],
        &[],
    ),
    (
        "base 12 x 6 in; panels 3, 6, 3",
        &["piece 12 × 6 in", "panel 3 in", "panel 6 in", "panel 3 in"],
        &[],
    ),
    (
        "6 x 6 in panel, $4.95 a pad",
        &["piece 6 × 6 in"],
        &["4.95"],
    ),
    ("step 4", &[], &["4"]),
    ("see page 12", &[], &["12"]),
];

/// Metric German.
const GERMAN: &[Line] = &[
    (
        "Streifen 14,8 x 29,7 cm, falzen bei 7,4 und 14,8",
        &["piece 148 × 297 mm", "score at 74 mm", "score at 148 mm"],
        &[],
    ),
    (
        "Grundkarte 210 x 148 mm, rillen bei 105",
        &["piece 210 × 148 mm", "score at 105 mm"],
        &[],
    ),
    ("Aufleger 99 x 142 mm", &["piece 99 × 142 mm"], &[]),
    (
        "2 Aufleger 9,3 x 13,6 cm",
        &["2 pieces", "piece 93 × 136 mm"],
        &[],
    ),
    (
        "Einlage 20,4 x 14,2 cm, mittig falten",
        &["piece 204 × 142 mm", "a score in the middle"],
        &[],
    ),
    (
        "Grundkarte 297 mm x 100 mm aus A4",
        &["piece 297 × 100 mm", "cut from A4"],
        &[],
    ),
    ("Rand 3 mm", &["border 3 mm"], &[]),
    ("Endformat 105 x 148 mm", &["closed card 105 × 148 mm"], &[]),
    ("Umschlag C6", &["envelope C6"], &[]),
    (
        "Bergfalte bei 50 mm, Talfalte bei 100 mm, Streifen 150 x 100 mm",
        &[
            "mountain score at 50 mm",
            "valley score at 100 mm",
            "piece 150 × 100 mm",
        ],
        &[],
    ),
    ("Papier 250 g, Preis 2,50 €", &[], &["250", "2,50"]),
    ("Schritt 3: kleben", &[], &["3"]),
    ("für 24 Karten, Seite 7", &[], &["24", "7"]),
];

/// French, Dutch and Spanish with decimal commas.
const COMMA: &[Line] = &[
    (
        "bande 10,5 x 29,7 cm, plier à 10 et 20 cm",
        &["piece 105 × 297 mm", "score at 100 mm", "score at 200 mm"],
        &[],
    ),
    (
        "carte 21 x 14,8 cm, plier en deux",
        &["piece 210 × 148 mm", "a score in the middle"],
        &[],
    ),
    ("passe-partout 9,9 x 14,2 cm", &["piece 99 × 142 mm"], &[]),
    ("enveloppe C6", &["envelope C6"], &[]),
    ("bordure 3 mm", &["border 3 mm"], &[]),
    (
        "format fini 105 sur 148 mm",
        &["closed card 105 × 148 mm"],
        &[],
    ),
    ("étape 2, page 14", &[], &["2", "14"]),
    (
        "kaart 210 x 148 mm, vouwen op 105",
        &["piece 210 × 148 mm", "score at 105 mm"],
        &[],
    ),
    ("laag 99 bij 142 mm", &["piece 99 × 142 mm"], &[]),
    (
        "strook 5,5 x 30 cm, rillen op 10 en 20 cm",
        &["piece 55 × 300 mm", "score at 100 mm", "score at 200 mm"],
        &[],
    ),
    ("prijs 3,95", &[], &["3,95"]),
    (
        "tarjeta 21 x 14,8 cm, doblar por la mitad",
        &["piece 210 × 148 mm", "a score in the middle"],
        &[],
    ),
    ("capa 9,9 por 14,2 cm", &["piece 99 × 142 mm"], &[]),
    ("sobre C6", &["envelope C6"], &[]),
];

/// Sentences.
const PROSE: &[Line] = &[
    (
        "Cut one piece of kraft card at 6 x 12 inches and score at 3 and 9.",
        &["piece 6 × 12 in", "score at 3 in", "score at 9 in"],
        &[],
    ),
    (
        "Cut a mat at 2 3/4 by 5 3/4 for the front.",
        &["piece 2 3/4 × 5 3/4 in"],
        &[],
    ),
    (
        "Score the 5 1/2 x 8 1/2 base at 4 1/4 and fold.",
        &["piece 5 1/2 × 8 1/2 in", "score at 4 1/4 in"],
        &[],
    ),
    (
        "Take a strip of 3 x 12 inches; score it at 4 inches and again at 8 inches.",
        &["piece 3 × 12 in", "score at 4 in", "score at 8 in"],
        &[],
    ),
    (
        "Leave a 1/8 inch border all round.",
        &["border 1/8 in"],
        &[],
    ),
    (
        "The folded card goes into an A2 envelope.",
        &["envelope A2"],
        &[],
    ),
    (
        "Cut a 4 x 5 1/4 mat from a 12 x 12 sheet.",
        &["piece 4 × 5 1/4 in", "cut from a sheet of 12 × 12 in"],
        &[],
    ),
    ("Makes 24 cards at $3.50 each.", &[], &["24", "3.50"]),
    (
        "Workshop on 14/11/2026 at 9:30.",
        &[],
        &["14/11/2026", "9", "30"],
    ),
    (
        "Let it dry for 20 minutes, then press 2 hours.",
        &[],
        &["20", "2"],
    ),
    ("Ring 555 1234 if late.", &[], &["555", "1234"]),
    ("Use 80 lb paper, 30% recycled.", &[], &["80", "30"]),
    ("First shown in 2019 at the library.", &[], &["2019"]),
];

/// Tables and bullets with how many.
const TABLES: &[Line] = &[
    ("2 @ 3 3/4 x 5", &["2 pieces", "piece 3 3/4 × 5 in"], &[]),
    ("A: 105 × 148 mm", &["piece 105 × 148 mm"], &[]),
    (
        "- base | 5 1/2 × 8 1/2 | score 4 1/4",
        &["piece 5 1/2 × 8 1/2 in", "score at 4 1/4 in"],
        &[],
    ),
    (
        "• 3 pcs 99 x 142 mm",
        &["3 pieces", "piece 99 × 142 mm"],
        &[],
    ),
    (
        "1. base 148 x 210 mm, score 105",
        &["piece 148 × 210 mm", "score at 105 mm"],
        &["1"],
    ),
    ("2) mat: 99 x 142 mm", &["piece 99 × 142 mm"], &["2"]),
    ("(2) 4 x 5 1/4", &["piece 4 × 5 1/4 in"], &["2"]),
    ("2 x 105 x 148 mm", &["2 pieces", "piece 105 × 148 mm"], &[]),
    (
        "mats (2): 2 3/4\" x 5 3/4\"",
        &["2 pieces", "piece 2 3/4 × 5 3/4 in"],
        &[],
    ),
    ("B: 2 1/2 × 3 1/2 in", &["piece 2 1/2 × 3 1/2 in"], &[]),
    ("No. 7", &[], &["7"]),
    ("#3", &[], &["3"]),
    ("4 x 5 x 6", &[], &["4 x 5 x 6"]),
    ("total: 12", &[], &["12"]),
    ("4 x 6 people", &[], &["4", "6"]),
    ("1/8-inch border", &["border 1/8 in"], &[]),
    ("strip 1' 6\" x 5 in", &["piece 18 × 5 in"], &[]),
    (
        "5 1/2in. x 8 1/2in., score: 4 1/4in.",
        &["piece 5 1/2 × 8 1/2 in", "score at 4 1/4 in"],
        &[],
    ),
];

pub(super) fn check(lines: &[Line], read: fn(&str) -> Read) {
    let mut wrong = Vec::new();
    for (text, known, left) in lines {
        let read = read(text);
        let line = read.lines.first().expect("a line");
        let words = said(&read, 0);
        let unread = line.unread.iter().filter(|it| it.is_number);
        let numbers: Vec<&str> = unread.filter_map(|it| text.get(it.at.clone())).collect();
        if words != *known || numbers != *left {
            wrong.push(format!("{text}\n  read {words:?}\n  left {numbers:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn terse_lines_in_inches() {
    check(TERSE, inches);
}

#[test]
fn german_lines() {
    check(GERMAN, metric);
}

#[test]
fn lines_with_decimal_commas() {
    check(COMMA, metric);
}

#[test]
fn sentences() {
    check(PROSE, inches);
}

#[test]
fn tables() {
    check(TABLES, inches);
}

#[test]
fn there_are_lines_enough() {
    let all = [TERSE, GERMAN, COMMA, PROSE, TABLES];
    assert!(all.iter().map(|lines| lines.len()).sum::<usize>() >= 60);
    let none = all.iter().flat_map(|lines| lines.iter());
    assert!(none.filter(|(_, known, _)| known.is_empty()).count() >= 15);
}

#[test]
fn every_number_is_told_of() {
    // No number goes unsaid: it is a measure, how many, or left beside the line.
    for (text, ..) in [TERSE, GERMAN, COMMA, PROSE, TABLES].into_iter().flatten() {
        let read = inches(text);
        let line = read.lines.first().expect("a line");
        let known = line.understood.iter().map(|it| it.at.clone());
        let unread = line.unread.iter().map(|it| it.at.clone());
        let told: Vec<_> = known.chain(unread).collect();
        let missed: String = text
            .char_indices()
            .filter(|(_, c)| c.is_numeric())
            .filter(|(at, _)| !told.iter().any(|told| told.contains(at)))
            .map(|(_, c)| c)
            .collect();
        assert_eq!(missed, "", "{text}");
    }
}
