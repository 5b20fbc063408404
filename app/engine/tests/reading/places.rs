//! Where flat pieces go and which way round they lie, worked out by hand for
//! lists as a harbour town's library might keep them.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::problem::{Finding, Spot, Trouble, Where};
use foldwright_engine::reading::{Evidence, Read, Remark, SeatedFor, Suggestion, WayRound};
use foldwright_engine::recipe::{Face, Outline, PanelId, Recipe, Seat, Side};

use super::{inches, layer, made, metric, panel_name};

/// The face at the bottom of what a layer lies on: the name of its panel, and its
/// side.
fn face(recipe: &Recipe, name: &str) -> (String, Side) {
    let mut on = layer(recipe, name).on;
    while let Seat::Layer(id) = on {
        on = recipe.layer(id).expect("what it lies on").on;
    }
    let Seat::Face(face) = on else {
        unreachable!("a layer lies on a face in the end")
    };
    (panel_name(recipe, face.panel), face.side)
}

fn size(recipe: &Recipe, name: &str) -> [Length; 2] {
    let layer = layer(recipe, name);
    [layer.width, layer.height].map(|it| recipe.value(it))
}

fn sixteenths(count: i64) -> Length {
    Length::sixty_fourths(4 * count)
}

fn remarks(read: &Read, line: usize) -> Vec<Remark> {
    read.lines.get(line).expect("a line").remarks.clone()
}

/// That a layer lies so, by its name and that of what it lies on: a panel with
/// its side, or a layer.
fn seated(read: &Read, name: &str, on: (&str, Option<Side>), why: SeatedFor) -> Remark {
    let recipe = made(read);
    let on = match on {
        (name, Some(side)) => Seat::Face(Face {
            panel: panel(&recipe, name),
            side,
        }),
        (name, None) => Seat::Layer(layer(&recipe, name).id),
    };
    Remark::Seated {
        layer: layer(&recipe, name).id,
        on,
        lies: WayRound::AsWritten,
        why,
    }
}

fn panel(recipe: &Recipe, name: &str) -> PanelId {
    let mut panels = recipe.base.panels.iter();
    panels.find(|it| it.name == name).expect("a panel").id
}

/// The same turned a quarter.
fn turned(remark: Remark) -> Remark {
    match remark {
        Remark::Seated { layer, on, why, .. } => Remark::Seated {
            layer,
            on,
            lies: WayRound::Turned,
            why,
        },
        other => other,
    }
}

#[test]
fn a_band_as_wide_as_the_closed_card_goes_in_front_unturned() {
    // 4 1/4 × 2 3/4 turned a quarter would lie on the inside mat with 5/8 in all
    // round: 4 − 2 3/4 = 5 1/2 − 4 1/4 = 1 1/4.
    let list = inches(
        "base 8 1/2 x 5 1/2, score at 4 1/4\nfront mat 4 x 5 1/4\ninside mat 4 x 5 1/2\n\
         focal mat 4 1/4 x 2 3/4",
    );
    let recipe = made(&list);
    assert_eq!(
        size(&recipe, "focal piece"),
        [sixteenths(68), sixteenths(44)]
    );
    assert_eq!(face(&recipe, "focal piece"), ("front".to_owned(), Side::B));
    assert_eq!(
        remarks(&list, 3),
        [seated(
            &list,
            "focal piece",
            ("mat", None),
            SeatedFor::Width
        )]
    );
    // Flush with the card on both sides: 1/8 in past the mat it lies on.
    let left = recipe.value(layer(&recipe, "focal piece").left);
    assert_eq!(left, -sixteenths(2));
    let across = list
        .proposals
        .iter()
        .find(|it| matches!(it.is, Suggestion::Across { tall: false, .. }));
    let across = across.expect("a proposal");
    assert!(across.accepted);
    let focal = layer(&recipe, "focal piece").id;
    let wide = Suggestion::Across {
        layer: focal,
        tall: false,
    };
    assert_eq!(across.is, wide);
    assert_eq!(across.evidence, Evidence::BothWide(sixteenths(68)));
}

#[test]
fn the_same_band_without_a_focal_word_goes_in_front_too() {
    for list in [
        "base 8 1/2 x 5 1/2, score at 4 1/4\nmat 4 1/4 x 2 3/4",
        "base 8 1/2 x 5 1/2, score at 4 1/4\nmat 4 x 5 1/4\nmat 4 x 5 1/4\nmat 4 1/4 x 2 3/4",
    ] {
        let read = inches(list);
        let recipe = made(&read);
        let band = recipe.layers.last().expect("the band");
        let name = band.name.clone();
        assert_eq!(size(&recipe, &name), [sixteenths(68), sixteenths(44)]);
        assert_eq!(
            face(&recipe, &name),
            ("front".to_owned(), Side::B),
            "{list}"
        );
    }
}

#[test]
fn a_narrow_even_border_comes_first_whichever_way_it_is_written() {
    // 5 1/4 × 4, height first: 4 1/4 − 4 = 5 1/2 − 5 1/4 = 1/4, turned.
    let list = inches("base 8 1/2 x 5 1/2, score at 4 1/4\nmat 5 1/4 x 4");
    let recipe = made(&list);
    assert_eq!(size(&recipe, "mat"), [sixteenths(64), sixteenths(84)]);
    assert_eq!(
        remarks(&list, 1),
        [turned(seated(
            &list,
            "mat",
            ("front", Some(Side::B)),
            SeatedFor::Border(sixteenths(2))
        ))]
    );
}

#[test]
fn a_piece_is_turned_only_where_it_does_not_fit_otherwise() {
    // 40 × 30 fits 105 × 148 either way; 120 × 90 only on end.
    let list = metric("Karte 210 x 148 mm, falzen bei 105\nEtikett 40 x 30 mm\nFoto 120 x 90 mm");
    let recipe = made(&list);
    assert_eq!(size(&recipe, "focal piece"), [40, 30].map(Length::mm));
    assert_eq!(size(&recipe, "focal piece 2"), [90, 120].map(Length::mm));
    assert_eq!(
        remarks(&list, 2),
        [turned(seated(
            &list,
            "focal piece 2",
            ("front", Some(Side::B)),
            SeatedFor::OnlySo
        ))]
    );
}

#[test]
fn words_say_how_a_piece_lies() {
    let base = "base 12 x 6 in, score at 6";
    for (words, wanted) in [
        ("label 2 x 3", [32, 48]),
        ("label 3 x 2 portrait", [32, 48]),
        ("label 2 x 3, landscape", [48, 32]),
        ("label 2 x 3 turned", [48, 32]),
        ("label 3\" high x 2\" wide", [32, 48]),
        ("label 2 W x 3 H", [32, 48]),
        ("label 3 H x 2 W", [32, 48]),
        ("label: W 2, H 3", [32, 48]),
        ("label width 2 in, height 3 in", [32, 48]),
        ("label 2\"w by 3\"h", [32, 48]),
    ] {
        let list = inches(&format!("{base}\n{words}"));
        let recipe = made(&list);
        assert_eq!(
            size(&recipe, "focal piece"),
            wanted.map(sixteenths),
            "{words}"
        );
    }
    // A width and a height across an almost square panel: 5 × 4 7/8 on 5 × 5 1/8
    // would leave 1/8 in all round if it were turned.
    let list = inches("base 10 x 5 1/4, score at 5\nmat 5 W x 4 3/4 H");
    let recipe = made(&list);
    assert_eq!(size(&recipe, "mat"), [sixteenths(80), sixteenths(76)]);
}

#[test]
fn what_is_seen_first_goes_in_front() {
    // Both 4 × 5 1/4 leave 1/8 in. The photo fits either stack.
    let list = inches(
        "base 5 1/2 x 8 1/2, score 4 1/4\nmat 4 x 5 1/4\nmat 4 x 5 1/4\nphoto 2 x 3\n\
         insert 3 1/2 x 5",
    );
    let recipe = made(&list);
    assert_eq!(face(&recipe, "focal piece"), ("front".to_owned(), Side::B));
    assert_eq!(face(&recipe, "insert").1, Side::A);
}

#[test]
fn a_piece_goes_where_the_list_says() {
    let list = inches(
        "base 5 1/2 x 8 1/2, score 4 1/4\nmat 4 x 5 1/4 inside left\nlabel 1 x 3 on the back\n\
         mat 4 x 5 1/4, front\nphoto 2 x 3 front",
    );
    let recipe = made(&list);
    assert_eq!(face(&recipe, "mat"), ("front".to_owned(), Side::A));
    assert_eq!(face(&recipe, "mat 2"), ("front".to_owned(), Side::B));
    assert_eq!(face(&recipe, "focal piece"), ("back".to_owned(), Side::B));
    assert_eq!(
        face(&recipe, "focal piece 2"),
        ("front".to_owned(), Side::B)
    );
    // A second piece on the front lies on the first.
    assert_eq!(
        remarks(&list, 4),
        [seated(
            &list,
            "focal piece 2",
            ("mat 2", None),
            SeatedFor::Fits
        )]
    );
}

#[test]
fn a_heading_says_where_what_follows_goes() {
    let list = metric(
        "Karte 210 x 148 mm, falzen bei 105\nInnen:\nAufleger 99 x 142\nVorderseite\n\
         Aufleger 99 x 142",
    );
    let recipe = made(&list);
    assert_eq!(
        remarks(&list, 1),
        [Remark::Heading(Spot {
            side: Where::Inside,
            hand: None,
            extent: None
        })]
    );
    assert_eq!(face(&recipe, "mat"), ("back".to_owned(), Side::A));
    assert_eq!(face(&recipe, "mat 2"), ("front".to_owned(), Side::B));
}

#[test]
fn what_does_not_fit_where_the_list_says_is_told() {
    let list = inches("base 6 x 3, score at 2\nmat 3 3/4 x 2 3/4 front");
    let line = list.lines.get(1).expect("the mat");
    let problems = line.problems.iter().map(|it| it.finding.clone());
    let mat = Size {
        width: Length::sixty_fourths(15 * 16),
        height: Length::sixty_fourths(11 * 16),
    };
    let front = Spot {
        side: Where::Front,
        hand: None,
        extent: None,
    };
    assert_eq!(
        problems.collect::<Vec<_>>(),
        [Finding::List(Trouble::NotThere(mat, front))]
    );
    let recipe = made(&list);
    assert_eq!(face(&recipe, "mat"), ("back".to_owned(), Side::A));
}

#[test]
fn what_is_seen_first_may_lie_across_a_narrow_front() {
    // Half fronts carry what reaches over them, glued to the one half (common
    // practice). 3 in round in the middle of 5 1/2: 1 1/4 in from the left.
    let list = inches("z-fold base 11 x 5 1/2, score at 2 3/4 and 5 1/2\ncircle 3 in");
    let recipe = made(&list);
    let circle = layer(&recipe, "circle");
    assert_eq!(circle.outline, Outline::Round);
    assert_eq!(face(&recipe, "circle").0, "front");
    assert_eq!(recipe.value(circle.left), sixteenths(20));
    assert_eq!(recipe.value(circle.bottom), sixteenths(20));
    assert_eq!(
        remarks(&list, 1),
        [seated(
            &list,
            "circle",
            ("front", Some(Side::A)),
            SeatedFor::Across(panel(&recipe, "front"))
        )]
    );
}

#[test]
fn a_square_does_not_lie_on_a_circle_it_reaches_past() {
    // The diagonal of a square of 50 mm is 70.7 mm, of 49 mm 69.3.
    let on = |side: u32| {
        let list = metric(&format!(
            "Karte 300 x 150 mm, falzen bei 150\nKreis 70 mm\nEtikett {side} x {side} mm"
        ));
        let recipe = made(&list);
        matches!(layer(&recipe, "focal piece").on, Seat::Layer(_))
    };
    assert!(on(49));
    assert!(!on(50));
}

#[test]
fn the_order_of_the_lines_does_not_matter_for_a_stack() {
    let mats = ["mat 4 x 5 1/4", "mat 3 3/4 x 5", "photo 2 x 3"];
    for order in [[0, 1, 2], [1, 0, 2], [2, 1, 0], [1, 2, 0]] {
        let lines = order.map(|at| mats[at]).join("\n");
        let recipe = made(&inches(&format!(
            "base 5 1/2 x 8 1/2, score 4 1/4\n{lines}"
        )));
        let names: Vec<&str> = recipe.layers.iter().map(|it| it.name.as_str()).collect();
        assert_eq!(names, ["mat", "mat 2", "focal piece"]);
        assert!(matches!(layer(&recipe, "mat 2").on, Seat::Layer(_)));
        for name in names {
            assert_eq!(face(&recipe, name), ("front".to_owned(), Side::B));
        }
    }
}
