//! In which unit the numbers of a list are that have none, line by line.

use foldwright_engine::length::Written;
use foldwright_engine::reading::{Assumed, Read, Remark, Unlikely};

use super::{inches, known, metric};

fn words(read: &Read) -> Vec<String> {
    let lines = 0..read.lines.len();
    lines.map(|line| known(read, line).join(", ")).collect()
}

/// What is said of units beside a line.
fn remarks(read: &Read, line: usize) -> Vec<Remark> {
    let line = read.lines.get(line).expect("a line");
    let remarks = line.remarks.iter().copied();
    remarks
        .filter(|it| !matches!(it, Remark::Seated { .. }))
        .collect()
}

fn likelier(unit: Written, than: Written, why: Unlikely) -> Remark {
    Remark::Likelier { unit, than, why }
}

#[test]
fn a_unit_carries_to_the_next_lines_until_another_is_stated() {
    let list = metric(
        "Karte 21 x 14,8 cm, falzen bei 10,5\nAufleger 9,9*14.3\nRand 3 mm\nAufleger 9.3x13,7\n\
         Etikett 40 x 60 mm\nEtikett 20 x 30",
    );
    assert_eq!(
        words(&list),
        [
            "piece 210 × 148 mm, score at 105 mm",
            "piece 99 × 143 mm",
            "border 3 mm",
            "piece 93 × 137 mm",
            "piece 40 × 60 mm",
            "piece 20 × 30 mm",
        ]
    );
}

#[test]
fn one_line_in_centimetres_among_lines_in_millimetres() {
    // Most numbers are in millimetres; the line before the bare one is not.
    let list = metric(
        "Grundkarte 210 mm x 148 mm, rillen bei 105 mm\nAufleger 99 mm x 142 mm\n\
         Aufleger 9,6 cm x 13,9 cm\n9,3*13.6",
    );
    assert_eq!(words(&list).last().expect("a line"), "piece 93 × 136 mm");
    assert_eq!(remarks(&list, 3), [Remark::Carried(Written::Centimetre)]);
    assert_eq!(list.assumed, Some(Assumed::Mixed));
}

#[test]
fn a_carried_unit_gives_way_where_it_cannot_be_meant() {
    for (text, wanted, remark) in [
        (
            "Grundkarte 210 x 148 mm, rillen bei 105\nAufleger 9,9*14.3",
            "piece 99 × 143 mm",
            likelier(Written::Centimetre, Written::Millimetre, Unlikely::Small),
        ),
        (
            "Karte 21 x 14,8 cm, falzen bei 10,5\nAufleger 99 x 142",
            "piece 99 × 142 mm",
            likelier(Written::Millimetre, Written::Centimetre, Unlikely::Large),
        ),
        (
            "Streifen 148 x 297 mm\nfalzen bei 7,4",
            "score at 74 mm",
            likelier(Written::Centimetre, Written::Millimetre, Unlikely::Small),
        ),
        (
            "Karte 21 x 14,8 cm\nRand 3",
            "border 3 mm",
            likelier(Written::Millimetre, Written::Centimetre, Unlikely::Large),
        ),
    ] {
        let list = metric(text);
        assert_eq!(words(&list).last().expect("a line"), wanted, "{text}");
        assert_eq!(remarks(&list, 1), [remark], "{text}");
    }
    let list = inches("base 8 1/2 in x 5 1/2 in, score at 4 1/4 in\nmat 99 x 142");
    assert_eq!(
        remarks(&list, 1),
        [likelier(
            Written::Millimetre,
            Written::Inch,
            Unlikely::Large
        )]
    );
}

#[test]
fn a_unit_that_may_be_meant_stays() {
    let list = metric("Karte 210 x 148 mm\nEtikett 20 x 30\nStreifen 10 x 297");
    assert_eq!(
        words(&list)[1..],
        ["piece 20 × 30 mm", "piece 10 × 297 mm"].map(str::to_owned)
    );
    let sheet = metric("Karte 21 x 14,8 cm aus 50 x 70");
    assert_eq!(
        words(&sheet),
        ["piece 210 × 148 mm, cut from a sheet of 500 × 700 mm"]
    );
}

#[test]
fn commas_between_whole_numbers_part_them() {
    let list = inches("strip 12 x 3 in, score at 3,6,9");
    assert_eq!(
        words(&list),
        ["piece 12 × 3 in, score at 3 in, score at 6 in, score at 9 in"]
    );
    let list = metric("Streifen 30 x 7,5 cm, falzen bei 7,5 und 22,5");
    assert_eq!(
        words(&list),
        ["piece 300 × 75 mm, score at 75 mm, score at 225 mm"]
    );
}

#[test]
fn the_last_number_of_a_row_states_the_unit_of_the_row() {
    // 20 + 45.5 + 20 = 85.5 mm; in centimetres they would come to 6.57 m.
    let list = metric("Kartenrohling 8,55 × 3 cm, Felder 20, 45,5, 20 mm");
    assert_eq!(
        words(&list),
        ["piece 85,5 × 30 mm, panel 20 mm, panel 45,5 mm, panel 20 mm"]
    );
    let list = metric("kaart 21 x 14,8 cm, rillen op 52,5 en 105 mm");
    assert_eq!(
        words(&list),
        ["piece 210 × 148 mm, score at 52,5 mm, score at 105 mm"]
    );
}

#[test]
fn the_unit_a_line_states_last_carries_to_the_next_ones() {
    let list = metric("kaart 3 x 4 cm, panelen 20, 20 mm\ncirkel 12");
    assert_eq!(
        words(&list).last().expect("a line"),
        "circle of diameter 12 mm"
    );
}
