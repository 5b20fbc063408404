//! Outlines as an independent reader of SVG (`usvg`) has them.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

use std::collections::BTreeMap;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::part::Part;
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::recipe::{Fold, Side, StripId, Takes, Wraps, starters};
use foldwright_engine::template::{Template, templates};
use foldwright_export::{csv, svg};
use foldwright_words::{Language, starter};
use usvg::tiny_skia_path::PathSegment;
use usvg::{Node, Options, Tree, roxmltree};

/// A millimetre in CSS pixels, of which an inch has 96 (CSS Values 4, 5.2).
const PIXELS: f64 = 96.0 / 25.4;

/// How far a place may be from where it is, in millimetres.
const WITHIN: f64 = 0.01;

type Spot = [f64; 2];

/// All paths by their `id`, each corner after the other, in millimetres, y up.
fn paths(file: &str) -> BTreeMap<String, Vec<Spot>> {
    let tree = Tree::from_str(file, &Options::default()).expect("it is SVG");
    let mut found = BTreeMap::new();
    gather(tree.root().children(), &mut found);
    found
}

fn gather(nodes: &[Node], found: &mut BTreeMap<String, Vec<Spot>>) {
    for node in nodes {
        match node {
            Node::Group(group) => gather(group.children(), found),
            Node::Path(path) => {
                let turn = path.abs_transform();
                let corners = path.data().segments().filter_map(|segment| match segment {
                    PathSegment::MoveTo(at) | PathSegment::LineTo(at) => Some(at),
                    PathSegment::Close => None,
                    curve => panic!("{curve:?} is no straight line"),
                });
                let corners = corners.map(|mut at| {
                    turn.map_point(&mut at);
                    [f64::from(at.x) / PIXELS, -f64::from(at.y) / PIXELS]
                });
                found.insert(path.id().to_owned(), corners.collect());
            }
            other => panic!("{other:?} is no path"),
        }
    }
}

fn spot(at: Point<PieceFrame>) -> Spot {
    [at.x, at.y].map(Length::as_mm_f64)
}

/// What is to be drawn of a part in each group.
fn due(template: &Template) -> [(&'static str, Vec<Spot>); 4] {
    let folds = |is: Fold| {
        let folds = template.folds.iter().filter(move |(fold, _)| *fold == is);
        folds
            .flat_map(|(_, course)| [spot(course.from), spot(course.to)])
            .collect()
    };
    let cuts = template.cuts.iter();
    let cuts = cuts.flat_map(|course| [spot(course.from), spot(course.to)]);
    let edges = template.edges.iter().flat_map(|edge| &edge.corners);
    let glue = template.glue.iter().flat_map(|glue| &glue.outlines);
    let glue = glue.flat_map(|outline| &outline.corners);
    [
        ("cut", cuts.chain(edges.map(|at| spot(*at))).collect()),
        ("score-mountain", folds(Fold::Mountain)),
        ("score-valley", folds(Fold::Valley)),
        ("glue", glue.map(|at| spot(*at)).collect()),
    ]
}

fn id_of(part: Part) -> String {
    match part {
        Part::Strip(StripId::Base) => "base".to_owned(),
        Part::Strip(StripId::Piece(piece)) => format!("piece-{}", piece.0),
        Part::Layer(layer) => format!("layer-{}", layer.0),
    }
}

#[test]
fn every_part_is_there_true_to_scale_and_apart_from_others() {
    for it in starters() {
        for side in [Side::A, Side::B] {
            let recipe = starter(Language::English.tongue(), it, it.recipe.notation);
            let card = work_out(&recipe, &Tools::default());
            let drawn = paths(&svg(&recipe, &card, Language::English.tongue(), side));
            let mut boxes: Vec<[Spot; 2]> = Vec::new();
            let mut count = 0;
            for template in templates(&recipe, &card, side) {
                let groups = due(&template);
                let cut = drawn.get(&format!("cut-{}", id_of(template.part)));
                let cut = cut.expect("it is cut");
                let origin = [0, 1].map(|i| groups[0].1[0][i] - cut[0][i]);
                for (group, corners) in groups {
                    let id = format!("{group}-{}", id_of(template.part));
                    let found = drawn.get(&id).map_or(&[][..], Vec::as_slice);
                    assert_eq!(found.len(), corners.len(), "{}: {id}", it.id);
                    count += usize::from(!found.is_empty());
                    for (is, due) in found.iter().zip(corners) {
                        let off = [0, 1].map(|i| (is[i] + origin[i] - due[i]).abs());
                        assert!(off[0].max(off[1]) < WITHIN, "{}: {id} {off:?}", it.id);
                    }
                }
                let low = [0, 1].map(|i| cut.iter().map(|at| at[i]).fold(f64::MAX, f64::min));
                let high = [0, 1].map(|i| cut.iter().map(|at| at[i]).fold(f64::MIN, f64::max));
                let apart = |other: &[Spot; 2]| {
                    (0..2).any(|i| high[i] < other[0][i] || other[1][i] < low[i])
                };
                assert!(boxes.iter().all(apart), "{}", it.id);
                boxes.push([low, high]);
            }
            assert_eq!(count, drawn.len(), "{}", it.id);
        }
    }
}

/// SVG 2, 8.2 and 5.8: units in millimetres, groups named by `id` and by `title`, and no
/// attributes of other namespaces.
#[test]
fn groups_are_named_and_units_are_millimetres() {
    let it = starters().iter().find(|it| it.id == "patch-pocket");
    let it = it.expect("there is a pocket");
    for (language, cut) in [(Language::English, "Cut"), (Language::German, "Schnitt")] {
        let mut recipe = starter(language.tongue(), it, it.recipe.notation);
        recipe.name = "Quay <wall> & \u{1}mole".to_owned();
        let card = work_out(&recipe, &Tools::default());
        let file = svg(&recipe, &card, language.tongue(), Side::A);
        let tree = roxmltree::Document::parse(&file).expect("it is XML");
        let root = tree.root_element();
        let [width, height] = ["width", "height"].map(|name| {
            let side = root.attribute(name).expect("it has a size");
            side.strip_suffix("mm").expect("it is in millimetres")
        });
        let view = format!("0 0 {width} {height}");
        assert_eq!(root.attribute("viewBox"), Some(view.as_str()));
        let groups = root.children().filter(|it| it.tag_name().name() == "g");
        let ids: Vec<_> = groups
            .clone()
            .filter_map(|group| group.attribute("id"))
            .collect();
        assert_eq!(ids, ["glue", "score-mountain", "score-valley", "cut"]);
        let strokes: std::collections::BTreeSet<_> = groups
            .clone()
            .filter_map(|group| group.attribute("stroke"))
            .collect();
        assert_eq!(strokes.len(), 4);
        let titles = groups.filter_map(|group| group.first_element_child()?.text());
        assert!(titles.into_iter().any(|title| title == cut));
        let title = root.first_element_child().and_then(|title| title.text());
        assert!(title.expect("a title").starts_with("Quay <wall> & mole"));
        for node in tree.descendants() {
            assert!(
                node.attributes().all(|it| it.namespace().is_none()),
                "{node:?}"
            );
        }
    }
}

/// RFC 4180, 2.5 to 2.7, and OWASP, “CSV Injection”: cells are quoted, and none begins
/// as formulas do.
#[test]
fn no_cell_of_a_list_is_a_formula() {
    let it = starters().first().expect("there is a fold");
    for (name, cell) in [
        ("=1+1", "'=1+1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("-2", "'-2"),
        ("\t=1", "\"'\t=1\""),
        ("=\"x\",y", "\"'=\"\"x\"\",y\""),
        ("Quay \"wall\"", "\"Quay \"\"wall\"\"\""),
        ("Kaimauer", "Kaimauer"),
    ] {
        let mut recipe = it.recipe.clone();
        recipe.stocks[0].name = name.to_owned();
        let card = work_out(&recipe, &Tools::default());
        for language in Language::ALL {
            let list = csv(&recipe, &card, language.tongue());
            let wanted = format!(",{cell},");
            assert!(list.contains(&wanted), "{wanted} in {list}");
        }
    }
}

/// Three gems for each of 24 cards are 72; of a ribbon a card takes one length, as the
/// engine's own tests find it by hand.
#[test]
fn what_is_not_paper_is_in_the_table() {
    let book = starters().iter().find(|starter| starter.id == "book");
    let book = book.expect("there is a book");
    let mut recipe = starter(Language::English.tongue(), book, book.recipe.notation);
    recipe.copies = 24;
    let ribbon = Takes::Ribbon {
        wraps: Wraps::Across,
        knot: Length::inches(10),
    };
    for (name, takes) in [("=gems", Takes::Count(3)), ("satin", ribbon)] {
        recipe.add_supply(name, takes).expect("there is room");
    }
    let card = work_out(&recipe, &Tools::default());
    let list = csv(&recipe, &card, Language::English.tongue());
    let rows: Vec<_> = list.lines().rev().take(2).collect();
    let [satin, gems] = rows[..] else {
        panic!("{list}");
    };
    assert_eq!(gems, "Besides paper,'=gems,,,,72,,");
    let cells: Vec<_> = satin.split(',').collect();
    let [kind, name, long, "", unit, "24", "", ""] = cells[..] else {
        panic!("{satin}");
    };
    assert_eq!([kind, name, unit], ["Besides paper", "satin", "in"]);
    // Twice 4 1/4 in, and the edges of a few papers.
    let long: f64 = long.parse().expect("a number");
    assert!((18.5..18.7).contains(&long), "{long}");
}
