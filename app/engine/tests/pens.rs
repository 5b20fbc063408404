//! How drawings are inked: what an independent reader of SVG (`usvg`) measures
//! in a file that leaves the app, and what the page's style sheet says.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod strips;

use std::path::PathBuf;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{
    Drawing, Line, Mark, Painted, Role, Spot, Theme, Tone, document, flat, painted, state,
    style_sheet, svg, told_apart,
};
use foldwright_engine::faces::View;
use foldwright_engine::length::{Length, Notation, Step};
use foldwright_engine::paper::Colour;
use foldwright_engine::recipe::{Recipe, Runs, Side, StripId, starters};
use strips::strip;
use usvg::{Node, Options, Paint, Tree, roxmltree};

/// A millimetre in CSS pixels, of which an inch has 96 (CSS Values 4, 5.2).
const PIXELS: f64 = 96.0 / 25.4;

fn accordion() -> Recipe {
    let widths = [40, 60, 60, 80].map(Length::mm);
    strip(&widths, Length::mm(100), "VMV", 3, Runs::Across)
}

fn drawn_flat(recipe: &Recipe) -> Drawing {
    let card = work_out(recipe, &Tools::default());
    flat(recipe, &card, StripId::Base, Side::A)
}

/// A line or area as `usvg` reads it, in millimetres.
#[derive(Debug)]
struct Read {
    left: f64,
    width: f64,
    height: f64,
    stroke: Option<Stroke>,
    filled: bool,
}

#[derive(Debug)]
struct Stroke {
    colour: String,
    width: f64,
    dashes: Vec<f64>,
}

fn read(file: &str) -> (Tree, Vec<Read>) {
    let tree = Tree::from_str(file, &Options::default()).expect("it is SVG");
    let mut found = Vec::new();
    gather(tree.root().children(), &mut found);
    (tree, found)
}

fn gather(nodes: &[Node], found: &mut Vec<Read>) {
    for node in nodes {
        match node {
            Node::Group(group) => gather(group.children(), found),
            Node::Path(path) => {
                // Everything is scaled alike, from millimetres to pixels.
                let scale = f64::from(path.abs_transform().sx);
                let mm = |pixels: f32| f64::from(pixels) / PIXELS;
                let length = |units: f32| f64::from(units) * scale / PIXELS;
                let at = path.abs_bounding_box();
                let stroke = path.stroke().map(|stroke| Stroke {
                    colour: match stroke.paint() {
                        Paint::Color(colour) => {
                            let usvg::Color { red, green, blue } = *colour;
                            format!("#{red:02x}{green:02x}{blue:02x}")
                        }
                        _ => "none".to_owned(),
                    },
                    width: length(stroke.width().get()),
                    dashes: stroke
                        .dasharray()
                        .unwrap_or_default()
                        .iter()
                        .map(|dash| length(*dash))
                        .collect(),
                });
                found.push(Read {
                    left: mm(at.left()),
                    width: mm(at.width()),
                    height: mm(at.height()),
                    stroke,
                    filled: path.fill().is_some(),
                });
            }
            Node::Image(_) | Node::Text(_) => {}
        }
    }
}

/// To a hundredth of a millimetre, as coordinates are written.
fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.011
}

#[test]
fn a_file_is_as_large_as_the_card() {
    let recipe = accordion();
    let drawing = drawn_flat(&recipe);
    let file = document(&drawing, "Quay < harbour", &|_| None);
    let (tree, found) = read(&file);
    let [width, height] = drawing.size();
    assert!(near(f64::from(tree.size().width()) / PIXELS, width));
    assert!(near(f64::from(tree.size().height()) / PIXELS, height));
    // The panels, 240 mm of paper side by side.
    let paper: Vec<_> = found.iter().filter(|it| it.filled).collect();
    let left = paper.iter().map(|it| it.left).fold(f64::INFINITY, f64::min);
    let right = paper.iter().map(|it| it.left + it.width);
    assert!(near(right.fold(0.0, f64::max) - left, 240.0));
    assert!(paper.iter().all(|it| near(it.height, 100.0)), "{paper:?}");
    // The scores, where a ruler finds them.
    let fold = Tone::Fold.colour(Theme::Light).to_string();
    let is_fold = |it: &&Read| it.stroke.as_ref().is_some_and(|it| it.colour == fold);
    let scores = found.iter().filter(is_fold);
    let at: Vec<f64> = scores
        .map(|it| {
            assert!(near(it.height, 100.0), "{it:?}");
            it.left - left
        })
        .collect();
    for (at, wanted) in at.iter().zip([40.0, 100.0, 160.0]) {
        assert!(near(*at, wanted), "{at} {wanted}");
    }
    assert_eq!(at.len(), 3);
}

/// Both kinds of fold have one colour; dashes and weight tell them apart. A
/// valley is dashed, a mountain dashed and dotted (common practice in drawings
/// of folds). The widths are of the series of ISO 128-2, from memory.
#[test]
fn folds_are_told_apart_by_dashes_and_weight() {
    let recipe = accordion();
    let (_, found) = read(&document(&drawn_flat(&recipe), "Folds", &|_| None));
    let fold = Tone::Fold.colour(Theme::Light).to_string();
    let strokes: Vec<&Stroke> = found
        .iter()
        .filter_map(|it| it.stroke.as_ref())
        .filter(|stroke| stroke.colour == fold)
        .collect();
    let told = |stroke: &Stroke| (stroke.dashes.len(), (stroke.width * 100.0).round());
    let told: Vec<_> = strokes.iter().map(|stroke| told(stroke)).collect();
    assert_eq!(told, [(2, 50.0), (4, 70.0), (2, 50.0)]);
    for stroke in strokes {
        let gaps = stroke.dashes.iter().skip(1).step_by(2);
        let dashes = stroke.dashes.iter().step_by(2);
        // Neither ink nor paper swallows the other, nor a dot its dash.
        assert!(gaps.clone().all(|gap| *gap >= stroke.width), "{stroke:?}");
        let (most, least) = (
            dashes.clone().fold(0.0_f64, |a, b| a.max(*b)),
            dashes.fold(f64::INFINITY, |a, b| a.min(*b)),
        );
        assert!(
            stroke.dashes.len() == 2 || most >= 3.0 * least,
            "{stroke:?}"
        );
    }
}

/// Many programs that read SVG know no style sheets, and none has ours.
#[test]
fn every_element_of_a_file_carries_its_own_style() {
    let recipe = accordion();
    let card = work_out(&recipe, &Tools::default());
    let drawings = [
        flat(&recipe, &card, StripId::Base, Side::A)
            .with_heads()
            .with_ruler(recipe.notation, 0.0),
        state(&recipe, &card, 0, View::Front),
    ];
    for drawing in drawings {
        let file = document(&drawing, "Styles", &|_| None);
        let tree = roxmltree::Document::parse(&file).expect("it is XML");
        let elements = tree.descendants().filter(roxmltree::Node::is_element);
        let mut letters = 0;
        for element in elements {
            let has = |name| element.attribute(name).is_some();
            assert!(!has("style"), "{element:?}");
            match element.tag_name().name() {
                "path" => assert!(has("fill") || has("stroke"), "{element:?}"),
                "text" => {
                    letters += 1;
                    // Capitals 3.5 mm high, on a ruler 2.5 mm (of the series of ISO
                    // 3098-1, from memory): seven tenths of the size of type.
                    let on_ruler = element.attribute("class") == Some("graduation");
                    let size = if on_ruler { "3.57" } else { "5" };
                    assert_eq!(element.attribute("font-size"), Some(size));
                    assert!(has("fill") && has("font-family") && has("text-anchor"));
                }
                "svg" | "title" | "pattern" => {}
                other => panic!("{other} is new here"),
            }
            assert!(!has("data-line") && !has("data-measure"));
        }
        let texts = drawing.marks.iter();
        let texts = texts.filter(|mark| matches!(mark, Mark::Text { .. }));
        assert_eq!(letters, texts.count());
    }
}

/// On the screen a class stands for all of it, so that frames stay small.
#[test]
fn a_page_is_told_pens_by_class() {
    let recipe = accordion();
    let drawn = svg(&drawn_flat(&recipe), "flat", &|_| None);
    for element in &drawn.elements {
        let names = element.attributes.iter().map(|(name, _)| *name);
        let styled = names.filter(|name| name.starts_with("stroke") || *name == "fill");
        // Paper brings its own colour.
        assert!(styled.count() <= 1, "{element}");
    }
    let sheet = style_sheet();
    let pens = drawn.elements.iter().flat_map(|element| {
        let attributes = element.attributes.iter();
        attributes.filter(|(name, _)| *name == "class")
    });
    for (_, class) in pens {
        // Paper without an edge is all its own.
        let rule = format!("svg .{} {{", class.replace(' ', "."));
        assert!(class == "paper" || sheet.contains(&rule), "{class}");
    }
}

/// `PENS=write` writes the page's style sheet anew from the table.
#[test]
fn the_page_has_the_style_sheet_of_the_table() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../style/45-figure.css");
    if std::env::var("PENS").is_ok_and(|wanted| wanted == "write") {
        std::fs::write(&path, style_sheet()).expect("the style sheet can be written");
    }
    let kept = std::fs::read_to_string(&path).expect("there is a style sheet");
    assert!(
        kept == style_sheet(),
        "PENS=write cargo test -p foldwright-engine --test pens writes it anew"
    );
}

/// Relative luminance and contrast as WCAG 2.2 defines them.
fn luminance(colour: Colour) -> f64 {
    let linear = |channel: u8| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.04045 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue)
}

fn contrast(a: Colour, b: Colour) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The tables of the page, light and dark.
fn tables() -> [(Theme, Colour); 2] {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../style/10-base.css");
    let base = std::fs::read_to_string(path).expect("there is a style sheet");
    let mut found = base.split("--table: ").skip(1).map(|rest| {
        let colour = rest.split(';').next().expect("it ends");
        colour.parse::<Colour>().expect("it is a colour")
    });
    let mut next = || found.next().expect("there are two");
    [(Theme::Light, next()), (Theme::Dark, next())]
}

#[test]
fn the_contrast_is_that_of_the_guidelines() {
    // Two ratios W3C's own explanations of the formula name.
    let grey = |grey: u32| Colour::rgb(grey << 16 | grey << 8 | grey);
    assert!((contrast(grey(0), grey(255)) - 21.0).abs() < 1e-9);
    assert!((contrast(grey(0x76), grey(255)) - 4.5422).abs() < 1e-4);
    for (theme, table) in tables() {
        let of = |tone: Tone| tone.colour(theme);
        // Lines: 1.4.11, three to one; on paper of any colour against the rim.
        for (tone, ground) in [
            (Tone::Fold, table),
            (Tone::Fold, of(Tone::Rim)),
            (Tone::Cut, of(Tone::Rim)),
            (Tone::Laid, of(Tone::Rim)),
            (Tone::Edge, table),
        ] {
            let is = contrast(of(tone), ground);
            assert!(is >= 3.0, "{theme:?} {tone:?} on {ground}: {is}");
        }
        // Letters and marks beside the paper: 1.4.3, four and a half to one.
        for tone in [Tone::Length, Tone::Number, Tone::Quiet] {
            for ground in [table, of(Tone::Ground)] {
                let is = contrast(of(tone), ground);
                assert!(is >= 4.5, "{theme:?} {tone:?} on {ground}: {is}");
            }
        }
    }
}

/// Where the marks and the numbers of a drawing's ruler are, from its beginning.
fn ruler(drawing: &Drawing) -> (Vec<f64>, Vec<(f64, String)>) {
    let marks = drawing.marks.iter().find_map(|mark| match mark {
        Mark::Lines { lines, .. } => Some(lines),
        _ => None,
    });
    let upright = marks.expect("there is a ruler").iter();
    let upright = upright.filter(|[from, to]| near(from[0], to[0]));
    let marks = upright.map(|[at, _]| at[0] - drawing.left).collect();
    let numbers = drawing.marks.iter().filter_map(|mark| match mark {
        Mark::Text {
            at,
            words,
            role: Role::Graduation,
        } => Some((at[0] - drawing.left, words.clone())),
        _ => None,
    });
    (marks, numbers.collect())
}

#[test]
fn a_ruler_is_in_the_makers_unit_at_the_scale_of_the_card() {
    // A strip of four times two inches, four inches high.
    let inches = |number: i64| Length::sixty_fourths(64 * number);
    let mut recipe = strip(&[inches(2); 4], inches(4), "VMV", 3, Runs::Across);
    recipe.notation.step = Step::Eighth;
    let (marks, numbers) = ruler(&drawn_flat(&recipe).with_ruler(recipe.notation, 0.0));
    assert!(marks.len() > 8 * 8, "{marks:?}");
    for (number, at) in marks.iter().enumerate() {
        let eighths = f64::from(u32::try_from(number).expect("a few"));
        assert!(near(*at, eighths * 25.4 / 8.0), "{number} {at}");
    }
    let first: Vec<_> = numbers.iter().take(3).map(|it| it.1.as_str()).collect();
    assert_eq!(first, ["0", "1", "2"]);
    for (inches, (at, _)) in numbers.iter().enumerate() {
        let inches = f64::from(u32::try_from(inches).expect("a few"));
        assert!(near(*at, inches * 25.4), "{inches} {at}");
    }
    let mut recipe = accordion();
    recipe.notation.step = Step::Millimetre;
    let (marks, numbers) = ruler(&drawn_flat(&recipe).with_ruler(recipe.notation, 0.0));
    // A mark each 5 mm: of 240 mm on a phone's width, single ones run together.
    assert!(near(marks[1], 5.0) && near(marks[48], 240.0), "{marks:?}");
    for (at, words) in numbers {
        assert!(near(at, words.parse().expect("a number")), "{words} {at}");
    }
}

/// Five metres of paper lie on no table.
#[test]
fn there_is_no_ruler_where_none_could_be_read() {
    let widths = [Length::mm(2500); 2];
    let recipe = strip(&widths, Length::mm(100), "V", 0, Runs::Across);
    let drawing = drawn_flat(&recipe);
    assert_eq!(drawing.clone().with_ruler(recipe.notation, 0.0), drawing);
}

/// Whatever the size and the division, marks stand apart and numbers too, and no
/// mark is finer than the maker's.
#[test]
fn a_ruler_is_never_crowded() {
    for (wide, high) in [
        (1, 1),
        (5, 20),
        (20, 5),
        (60, 60),
        (150, 100),
        (20, 300),
        (300, 300),
        (900, 900),
    ] {
        for step in [
            Step::Eighth,
            Step::Sixteenth,
            Step::ThirtySecond,
            Step::SixtyFourth,
            Step::Millimetre,
            Step::HalfMillimetre,
            Step::TenthMillimetre,
        ] {
            let widths = [Length::mm(wide); 2];
            let recipe = strip(&widths, Length::mm(high), "V", 0, Runs::Across);
            let drawing = drawn_flat(&recipe);
            // Numbers as high as a twenty-fourth of the drawing's width, or an
            // eighteenth of its height.
            let [width, height] = drawing.size();
            let text = (width / 24.0).max(height / 18.0);
            let notation = Notation {
                step,
                ..recipe.notation
            };
            let end = drawing.high[0] - drawing.left + 500.0;
            let (marks, numbers) = ruler(&drawing.with_ruler(notation, 500.0));
            let told = format!("{wide} by {high} mm, {step:?}");
            let apart = |two: &[f64]| two[1] - two[0];
            let step = step.length().as_mm_f64();
            assert!(
                marks
                    .windows(2)
                    .all(|two| apart(two) >= (text / 5.0).max(step) - 1e-6),
                "{told}"
            );
            let wide = |words: &str| {
                let letters = u32::try_from(words.chars().count()).expect("a few");
                f64::from(letters) * 0.6 * text
            };
            // The last number is not cut off.
            for (at, words) in &numbers {
                assert!(at + wide(words) / 2.0 <= end, "{told}: {words} at {at}");
            }
            for two in numbers.windows(2) {
                let room = two[1].0 - two[0].0;
                let taken = f64::midpoint(wide(&two[0].1), wide(&two[1].1));
                assert!(room > taken, "{told}: {two:?}");
            }
        }
    }
}

/// What is put on a page: where it is, whether it is filled, and its line.
fn put_on_paper(mark: &Painted) -> Option<(Vec<Spot>, bool, Option<Line>)> {
    match mark {
        Painted::Area { outlines, edge, .. } => Some((outlines.concat(), true, *edge)),
        Painted::Lines { chains, line, .. } => Some((chains.concat(), false, Some(*line))),
        Painted::Words { .. } => None,
    }
}

/// A page is painted as a file is, mark for mark: as an independent reader of SVG
/// finds it there.
#[test]
fn pages_are_painted_as_files_are() {
    for starter in starters() {
        let recipe = &starter.recipe;
        let card = work_out(recipe, &Tools::default());
        for drawing in [
            flat(recipe, &card, StripId::Base, Side::A).with_heads(),
            told_apart(recipe, &card),
        ] {
            let (_, found) = read(&document(&drawing, "Painted", &|_| None));
            let painted = painted(&drawing, 1.0, &|_| false);
            let painted = painted.iter().filter_map(put_on_paper);
            let painted: Vec<_> = painted.filter(|(at, ..)| !at.is_empty()).collect();
            assert_eq!(painted.len(), found.len(), "{}", starter.id);
            for ((at, filled, line), found) in painted.iter().zip(&found) {
                let along = |i: usize| at.iter().map(move |at| at[i]);
                let least = |i| along(i).fold(f64::INFINITY, f64::min);
                let most = |i| along(i).fold(f64::NEG_INFINITY, f64::max);
                assert!(near(most(0) - least(0), found.width), "{found:?}");
                assert!(near(most(1) - least(1), found.height), "{found:?}");
                assert_eq!(*filled, found.filled);
                let stroke = found.stroke.as_ref();
                assert_eq!(line.is_some(), stroke.is_some(), "{found:?}");
                let Some((line, stroke)) = line.as_ref().zip(stroke) else {
                    continue;
                };
                assert_eq!(line.colour.to_string(), stroke.colour);
                assert!(near(line.width, stroke.width), "{found:?}");
                let dashes = line.dashes.iter().zip(&stroke.dashes);
                assert_eq!(line.dashes.len(), stroke.dashes.len());
                assert!(dashes.into_iter().all(|(a, b)| near(*a, *b)), "{found:?}");
            }
        }
    }
}
