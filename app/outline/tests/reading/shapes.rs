//! Outlines as an independent reader of SVG (`usvg`) has them, and their areas by formulas
//! of plane geometry.

use std::f64::consts::PI;

use crate::common::{area, drawing, mm, svg, whole};
use foldwright_engine::plane::FLAT_WITHIN;
use foldwright_engine::recipe::Untraced;
use foldwright_outline::{Found, LARGEST, LeftOut, MOST_OUTLINES, Refusal, Unfit, read};
use usvg::tiny_skia_path::{PathSegment, Point};
use usvg::{Node, Options, Tree};

/// Every command of path data, relative and absolute.
const PATHS: [&str; 12] = [
    "M10 10H60V50H10Z",
    "m10 10h50v40h-50z",
    "M10 10L60 10L35 50Z",
    "m10,10 50,0 -25,40z",
    "M10 30C10 0 60 0 60 30S10 60 10 30Z",
    "m10 30c0-30 50-30 50 0s-50 30-50 0z",
    "M10 30Q35-10 60 30T10 30Z",
    "m10 30q25-40 50 0t-50 0z",
    "M60 30A25 25 0 1 0 60 30.01Z",
    "M10 30A30 15 30 0 1 60 30A30 15 30 0 1 10 30Z",
    "m10 30a30 15 -20 0 0 50 0a30 15 -20 1 0 -50 0z",
    "M10 10h40v40h-40zm60 0h20v20h-20zM10 60l20 0l-10 20z",
];

const SHAPES: [&str; 7] = [
    "<rect x='5' y='5' width='70' height='40'/>",
    "<rect x='5' y='5' width='70' height='40' rx='10'/>",
    "<rect x='5' y='5' width='70' height='40' rx='50' ry='8'/>",
    "<circle cx='40' cy='40' r='30'/>",
    "<ellipse cx='40' cy='40' rx='30' ry='12'/>",
    "<polygon points='10,10 60 10,35,50'/>",
    "<polyline points='10,10 60,10 35,50 10,10'/>",
];

/// Paths as `usvg` has them, in pixels: bounds and area of each closed part.
fn by_usvg(text: &str) -> Vec<([f64; 4], f64)> {
    let tree = Tree::from_str(text, &Options::default()).expect("it is SVG");
    let mut parts = Vec::new();
    gather(tree.root().children(), &mut parts);
    parts.iter().map(|part| measured(part)).collect()
}

fn gather(nodes: &[Node], parts: &mut Vec<Vec<[f64; 2]>>) {
    for node in nodes {
        match node {
            Node::Group(group) => gather(group.children(), parts),
            Node::Path(path) => {
                let to = path.abs_transform();
                for segment in path.data().segments() {
                    let mut points: Vec<Point> = match segment {
                        PathSegment::MoveTo(at) => {
                            parts.push(Vec::new());
                            vec![at]
                        }
                        PathSegment::LineTo(at) => vec![at],
                        PathSegment::QuadTo(by, at) => sampled(parts, to, &[by, at]),
                        PathSegment::CubicTo(first, second, at) => {
                            sampled(parts, to, &[first, second, at])
                        }
                        PathSegment::Close => continue,
                    };
                    if matches!(segment, PathSegment::MoveTo(_) | PathSegment::LineTo(_)) {
                        to.map_points(&mut points);
                    }
                    let part = parts.last_mut().expect("it begins with a move");
                    part.extend(points.iter().map(|at| [at.x, at.y].map(f64::from)));
                }
            }
            Node::Image(_) | Node::Text(_) => panic!("there is none"),
        }
    }
}

/// Points on a curve (de Casteljau), so many that what lies between them is nothing.
fn sampled(parts: &[Vec<[f64; 2]>], to: usvg::Transform, by: &[Point]) -> Vec<Point> {
    let mut by = by.to_vec();
    to.map_points(&mut by);
    let from = parts.last().and_then(|part| part.last()).expect("a begin");
    let ends: Vec<_> = std::iter::once(*from)
        .chain(by.iter().map(|at| [at.x, at.y].map(f64::from)))
        .collect();
    (1..=200)
        .map(|step| {
            let share = f64::from(step) / 200.0;
            let mut left = ends.clone();
            while left.len() > 1 {
                let pairs = left.windows(2);
                left = pairs
                    .map(|pair| {
                        [0, 1].map(|axis| pair[0][axis] + (pair[1][axis] - pair[0][axis]) * share)
                    })
                    .collect();
            }
            #[expect(clippy::cast_possible_truncation, reason = "as usvg has them")]
            Point::from_xy(left[0][0] as f32, left[0][1] as f32)
        })
        .collect()
}

fn measured(part: &[[f64; 2]]) -> ([f64; 4], f64) {
    let of = |axis: usize| part.iter().map(move |at| at[axis]);
    let least = |axis| of(axis).fold(f64::INFINITY, f64::min);
    let most = |axis| of(axis).fold(f64::NEG_INFINITY, f64::max);
    let next = part.iter().cycle().skip(1);
    let twice: f64 = part
        .iter()
        .zip(next)
        .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
        .sum();
    ([least(0), most(0), least(1), most(1)], (twice / 2.0).abs())
}

/// Sizes and areas of all shapes are those of `usvg`, in groups, moved, turned, skewed
/// and in a view box.
#[test]
fn outlines_are_as_usvg_has_them() {
    let shapes = PATHS.map(|data| format!("<path d='{data}'/>")).into_iter();
    let shapes: Vec<_> = shapes.chain(SHAPES.map(str::to_owned)).collect();
    let px = 25.4 / 96.0;
    let mut compared = 0;
    for shape in &shapes {
        for (head, outer) in [
            ("width='400' height='400'", "<g>"),
            (
                "width='120mm' height='90mm' viewBox='0 0 100 100'",
                "<g transform='rotate(20 30 30)'>",
            ),
            (
                "width='5in' height='5in' viewBox='-20 -20 200 120' preserveAspectRatio='xMaxYMin'",
                "<g transform='translate(9 9)scale(.8 1.3)'>",
            ),
            (
                "width='300pt' height='300pt' viewBox='0 0 90 90'",
                "<g transform='matrix(1 .2 -.3 .9 40 5)'>",
            ),
        ] {
            let text = svg(head, &format!("{outer}{shape}</g>"));
            let mut due = by_usvg(&text);
            due.sort_by(|a, b| b.1.total_cmp(&a.1));
            let found = drawing(&text);
            assert_eq!(found.left_out, [], "{text}");
            assert_eq!(found.outlines.len(), due.len(), "{text}");
            for (found, (bounds, square)) in found.outlines.iter().zip(due) {
                let size = mm(found.size().expect("it is told"));
                let wide = [(bounds[1] - bounds[0]) * px, (bounds[3] - bounds[2]) * px];
                let round = 2.0 * (wide[0] + wide[1]);
                for (found, due) in size.iter().zip(wide) {
                    assert!((found - due).abs() < 0.02, "{text}: {found}, not {due}");
                }
                let area = area(&whole(found));
                // Curves within a fiftieth of a millimetre, along all of the outline.
                let within = round * FLAT_WITHIN.as_mm_f64();
                let due = square * px * px;
                assert!((area - due).abs() <= within, "{text}: {area}, not {due}");
                compared += 1;
            }
        }
    }
    assert!(compared >= 84, "{compared}");
}

/// Plane geometry: π a b, and a rectangle less (4 − π) a b.
#[test]
fn areas_are_those_of_plane_geometry() {
    for (shape, exact, round) in [
        (
            "<circle cx='50' cy='50' r='40'/>",
            PI * 1600.0,
            2.0 * PI * 40.0,
        ),
        (
            "<ellipse cx='50' cy='50' rx='40' ry='10'/>",
            PI * 400.0,
            2.0 * PI * 40.0,
        ),
        (
            "<rect width='80' height='60' rx='12' ry='9'/>",
            4800.0 - (4.0 - PI) * 108.0,
            280.0,
        ),
        (
            "<path d='M90 50A40 40 0 1 1 10 50A40 40 0 0 1 90 50'/>",
            PI * 1600.0,
            2.0 * PI * 40.0,
        ),
        ("<path d='M0 0H30V40Z'/>", 600.0, 120.0),
    ] {
        let text = svg("width='100mm' height='100mm' viewBox='0 0 100 100'", shape);
        let found = drawing(&text);
        let found = area(&whole(&found.outlines[0]));
        let off = (found - exact).abs();
        assert!(
            off <= round * FLAT_WITHIN.as_mm_f64(),
            "{shape}: {found}, not {exact}"
        );
    }
}

/// A drawing in tiny units is as round as one in large ones.
#[test]
fn curves_are_as_fine_in_any_unit() {
    for scale in [0.001, 1.0, 1000.0] {
        let [whole_side, mid, radius] = [100.0, 50.0, 40.0].map(|it| it * scale);
        let arc = format!(
            "<path d='M{0} {mid}A{radius} {radius} 0 1 1 {1} {mid}A{radius} {radius} 0 0 1 {0} {mid}Z'/>",
            mid + radius,
            mid - radius
        );
        let head = format!("width='100mm' height='100mm' viewBox='0 0 {whole_side} {whole_side}'");
        let found = drawing(&svg(&head, &arc));
        let found = whole(&found.outlines[0]);
        assert!(
            (area(&found) - PI * 1600.0).abs() <= 2.0 * PI * 40.0 * 0.02,
            "{scale}"
        );
        // By the sagitta of 0.02 mm a circle of 40 mm needs 100 chords, and half of the
        // room is for corners that are spared.
        let corners = found.0.rim.len();
        assert!((90..=200).contains(&corners), "{corners}");
    }
}

/// What lies directly in an outline is cut out of it; what lies in that is an outline of
/// its own.
#[test]
fn what_lies_in_an_outline_is_its_holes() {
    let inside = "<rect width='80' height='80'/><circle cx='40' cy='40' r='30'/>\
                  <circle cx='40' cy='40' r='10'/><rect x='2' y='2' width='5' height='5'/>\
                  <rect width='80' height='80' fill='none'/>";
    let found = drawing(&svg(
        "width='100mm' height='100mm' viewBox='0 0 100 100'",
        inside,
    ));
    let holes: Vec<_> = found.outlines.iter().map(Found::holes).collect();
    assert_eq!(holes, [2, 1, 0, 0], "drawn twice is drawn once");
    let due = 6400.0 - PI * 900.0 - 25.0;
    assert!((area(&whole(&found.outlines[0])) - due).abs() < 2.0 * PI * 30.0 * 0.02);
    let size = found.outlines[0].size().expect("it is told");
    let plain = found.outlines[0]
        .traced(size.width, false)
        .expect("it can be cut");
    assert!((area(&plain) - 6400.0).abs() < 0.01);
    assert!(found.outlines[0].picture(100.0).matches('Z').count() == 3);
}

#[test]
fn what_is_no_closed_outline_is_told() {
    let inside = "<text>Quay</text><image href='x.png'/><line x2='9'/><path d='M0 0L9 9L0 9'/>\
                  <g display='none'><rect width='9' height='9'/></g>\
                  <g visibility='hidden'><rect width='9' height='9'/></g>\
                  <path style='fill:red;display:none' d='M0 0h9v9z'/>\
                  <path d='M0 0 L oops'/><circle r='1em'/><foreignObject/>\
                  <g transform='oops'><rect width='9' height='9'/></g>\
                  <polyline points='0 0 9 9 0 9'/><use href='#none'/>\
                  <style>.a { transform: scale(2) }</style>\
                  <rect style='transform: scale(2)' width='1e6' height='9e6'/>\
                  <rect width='9' height='9' clip-path='url(#c)'/>";
    let found = drawing(&svg("width='100mm' height='100mm'", inside));
    assert_eq!(found.outlines.len(), 1);
    assert_eq!(
        found.left_out,
        [
            (LeftOut::Text, 1),
            (LeftOut::Picture, 1),
            (LeftOut::Open, 3),
            (LeftOut::Hidden, 3),
            (LeftOut::Unread, 3),
            (LeftOut::Missing, 1),
            (LeftOut::Other, 1),
            (LeftOut::Styled, 2),
            (LeftOut::Clipped, 1),
            (LeftOut::Huge, 1),
        ]
    );
    let many: String = (0..MOST_OUTLINES + 7)
        .map(|at| format!("<rect x='{}' width='9' height='{}'/>", at * 10, at + 1))
        .collect();
    let found = drawing(&svg("width='100mm' height='100mm'", &many));
    assert_eq!(found.outlines.len(), MOST_OUTLINES);
    assert_eq!(found.left_out, [(LeftOut::Smaller, 7)]);
}

#[test]
fn what_is_no_drawing_is_refused() {
    let refused = |text: &str| read(text).expect_err("it is refused").0;
    assert_eq!(refused("no"), Refusal::NoSvg);
    assert_eq!(refused("<html/>"), Refusal::NoSvg);
    assert_eq!(refused("<svg xmlns='urn:other'/>"), Refusal::NoSvg);
    assert_eq!(refused("<svg>"), Refusal::NoSvg);
    assert_eq!(refused(&svg("", "")), Refusal::NoOutline);
    assert_eq!(refused(&svg("width='0'", "")), Refusal::NoFrame);
    assert_eq!(refused(&svg("viewBox='0 0 0 9'", "")), Refusal::NoFrame);
    assert_eq!(refused(&" ".repeat(LARGEST + 1)), Refusal::TooLarge);
    let deep = format!("{}{}", "<g>".repeat(5000), "</g>".repeat(5000));
    assert_eq!(refused(&svg("", &deep)), Refusal::TooMuch);
    let long = format!("<path d='M0 0{}'/>", "h1".repeat(60_000));
    assert_eq!(refused(&svg("", &long)), Refusal::TooMuch);
    // Each draws the one before it twice.
    let doubled: String = (1..40)
        .map(|at| {
            format!(
                "<g id='a{at}'><use href='#a{0}'/><use href='#a{0}'/></g>",
                at - 1
            )
        })
        .collect();
    let doubled =
        format!("<defs><rect id='a0' width='9' height='9'/>{doubled}</defs><use href='#a39'/>");
    assert_eq!(refused(&svg("width='99'", &doubled)), Refusal::TooMuch);
}

#[test]
fn what_can_not_be_cut_is_told_as_it_is_taken() {
    let taken = |data: &str| {
        let text = svg(
            "width='100mm' height='100mm'",
            &format!("<path d='{data}'/>"),
        );
        let found = drawing(&text);
        let size = found.outlines[0].size().expect("it is told");
        found.outlines[0].traced(size.width, true)
    };
    // A bow tie with one larger side.
    assert_eq!(
        taken("M0 0L90 90V10L0 60Z"),
        Err(Unfit::Outline(Untraced::Crossed))
    );
    // A hole that reaches out of its outline, though its corners do not.
    let hole = "M0 0H200V200H0V120L150 100L0 80ZM20 20V180H10V20Z";
    assert_eq!(taken(hole), Err(Unfit::Outline(Untraced::Crossed)));
    let teeth: String = (0..600).map(|_| "l.1 5l.1-5").collect();
    let fine = taken(&format!("M0 0{teeth}V100H0Z"));
    assert!(
        matches!(fine, Err(Unfit::Outline(Untraced::TooFine(_)))),
        "{fine:?}"
    );
}
