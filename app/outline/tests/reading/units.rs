//! How large outlines are: units by the ratios of CSS Values and Units 3, §6.2, viewports
//! and transforms by SVG 2, §8, worked by hand.

use crate::common::{drawing, mm, svg, whole};
use foldwright_engine::length::Length;
use foldwright_outline::{LeftOut, Refusal, Unfit, read};

/// Each outline's size in millimetres, the largest first.
fn sizes(text: &str) -> Vec<[f64; 2]> {
    let outlines = drawing(text).outlines.into_iter();
    outlines
        .map(|found| mm(found.size().expect("it is told")))
        .collect()
}

fn near(found: [f64; 2], due: [f64; 2]) -> bool {
    // A length is a whole number of 1/72 µm.
    found.iter().zip(due).all(|(a, b)| (a - b).abs() < 0.000_02)
}

#[track_caller]
fn is(text: &str, due: &[[f64; 2]]) {
    let found = sizes(text);
    assert_eq!(found.len(), due.len(), "{text}: {found:?}");
    for (found, due) in found.iter().zip(due) {
        assert!(near(*found, *due), "{text}: {found:?}, not {due:?}");
    }
}

/// 1 in = 96 px = 72 pt = 6 pc = 2.54 cm = 25.4 mm.
#[test]
fn an_inch_is_an_inch_in_every_unit() {
    for inch in ["96", "96px", "1in", "72pt", "6pc", "2.54cm", "25.4mm"] {
        let rect = format!("<rect width='{inch}' height='{inch}'/>");
        is(&svg("width='200' height='200'", &rect), &[[25.4, 25.4]]);
        // A user unit of such a drawing is a tenth of it.
        let scaled = format!("width='{inch}' height='{inch}' viewBox='0 0 10 10'");
        is(
            &svg(&scaled, "<rect width='5' height='2'/>"),
            &[[12.7, 5.08]],
        );
    }
}

#[test]
fn a_view_box_fits_as_it_says() {
    let rect = "<rect x='10' y='10' width='10' height='10'/>";
    let due = [
        // 20 mm for 10 units across, 10 mm for 10 units up.
        ("", [10.0, 10.0]),
        ("preserveAspectRatio='xMinYMax meet'", [10.0, 10.0]),
        ("preserveAspectRatio='xMidYMid slice'", [20.0, 20.0]),
        ("preserveAspectRatio='none'", [20.0, 10.0]),
    ];
    for (aspect, due) in due {
        let head = format!("width='20mm' height='10mm' viewBox='10 10 10 10' {aspect}");
        is(&svg(&head, rect), &[due]);
    }
    // One side is told, and the other follows.
    for side in [
        "width='40mm'",
        "height='20mm'",
        "width='40mm' height='100%'",
    ] {
        let head = format!("{side} viewBox='0 0 40 20'");
        is(
            &svg(&head, "<rect width='40' height='20'/>"),
            &[[40.0, 20.0]],
        );
    }
}

#[test]
fn transforms_groups_and_viewports_lie_in_each_other() {
    let rect = "<rect width='10mm' height='10mm'/>";
    let head = "width='100mm' height='100mm'";
    for (outer, due) in [
        ("<g transform='scale(2)'>", [20.0, 20.0]),
        ("<g transform='translate(5) scale(2 3)'>", [20.0, 30.0]),
        ("<g transform='rotate(90) scale(2 3)'>", [30.0, 20.0]),
        (
            "<g transform='scale(2)'><g transform='matrix(3 0 0 1 7 7)'>",
            [60.0, 20.0],
        ),
        // A square of 10 mm skewed by the angle whose tangent is a half.
        ("<g transform='skewX(26.56505117707799)'>", [15.0, 10.0]),
        (
            "<svg width='50%' height='50%' viewBox='0 0 100mm 100mm'>",
            [0.0, 0.0],
        ),
        ("<svg x='5' width='50%' height='25%'>", [10.0, 10.0]),
        ("<a>", [10.0, 10.0]),
    ] {
        let closing = if outer.starts_with("<a") {
            "</a>".to_owned()
        } else if outer.starts_with("<svg") {
            "</svg>".to_owned()
        } else {
            "</g>".repeat(outer.matches("<g").count())
        };
        let text = svg(head, &format!("{outer}{rect}{closing}"));
        if due[0] <= 0.0 {
            // A view box has no units.
            let (_, left_out) = read(&text).expect_err("it can't be read");
            assert_eq!(left_out, [(LeftOut::Unread, 1)]);
        } else {
            is(&text, &[due]);
        }
    }
    // Half of the viewport, a quarter of its height, and of its diagonal over √2.
    let inner = "<svg width='50%' height='50%' viewBox='0 0 10 20'>\
                 <rect width='50%' height='25%'/><circle r='10%'/></svg>";
    let unit = 50.0 / 20.0;
    let across = 2.0 * 0.1 * 10.0_f64.hypot(20.0) / 2.0_f64.sqrt() * unit;
    is(
        &svg(head, inner),
        &[[5.0 * unit, 5.0 * unit], [across, across]],
    );
}

#[test]
fn what_stands_elsewhere_is_drawn_again() {
    let head = "width='100mm' height='100mm' viewBox='0 0 100 100' \
                xmlns:xlink='http://www.w3.org/1999/xlink'";
    let defs = "<defs><rect id='a' width='10' height='20'/>\
                <g id='b' transform='scale(2)'><use href='#a'/></g></defs>\
                <symbol id='c' viewBox='0 0 10 10'><rect width='10' height='10'/></symbol>";
    let uses = format!(
        "{defs}<use href='#a' x='5'/><use xlink:href='#b' y='40'/>\
         <use href='#c' width='30' height='30' x='50'/>"
    );
    is(
        &svg(head, &uses),
        &[[30.0, 30.0], [20.0, 40.0], [10.0, 20.0]],
    );
    for missing in [
        "<use href='#z'/>",
        "<use/>",
        "<g id='d'><use href='#d'/></g>",
    ] {
        let (why, left_out) = read(&svg(head, missing)).expect_err("nothing is there");
        assert_eq!(why, Refusal::NoOutline);
        assert_eq!(left_out, [(LeftOut::Missing, 1)]);
    }
    let round = "<g id='e'><use href='#f'/></g><g id='f'><use href='#e'/></g>";
    assert_eq!(
        read(&svg(head, round)).expect_err("endless").0,
        Refusal::TooMuch
    );
}

/// Without a size a maker's width holds; the height goes with it.
#[test]
fn what_has_no_size_takes_the_width_that_is_given() {
    for head in ["viewBox='0 0 300 200'", "width='100%' height='100%'", ""] {
        let found = drawing(&svg(head, "<rect width='30' height='20'/>"));
        let found = &found.outlines[0];
        assert_eq!(found.size(), None, "{head}");
        let (_, size) = found.traced(Length::mm(60), true).expect("it can be cut");
        assert!(near(mm(size), [60.0, 40.0]));
    }
    // So does one whose size is told.
    let told = drawing(&svg(
        "width='30mm' height='20mm'",
        "<rect width='15mm' height='20mm'/>",
    ));
    assert!(near(mm(whole(&told.outlines[0]).1), [15.0, 20.0]));
    let (_, size) = told.outlines[0]
        .traced(Length::mm(45), true)
        .expect("it can be cut");
    assert!(near(mm(size), [45.0, 60.0]));
    for none in [Length::ZERO, Length::mm(-3), Length::mm(9000)] {
        assert_eq!(told.outlines[0].traced(none, true), Err(Unfit::Size));
    }
}
