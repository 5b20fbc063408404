//! Recipes as makers edit and keep them, and the folds to start from.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use std::collections::BTreeSet;

use foldwright_engine::fold::fold;
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::recipe::{
    Clash, Detail, EditError, Face, Fault, FileError, Fold, LayerKind, Measured, Misread, Needed,
    PanelId, Parts, Placing, Recipe, Runs, Seat, Side, Spot, StripId, VERSION, read, read_part,
    starters, write, write_part, write_parts,
};
use plain::Plain;
use proptest::prelude::*;
use serde_json::{Value, json};
use strips::{HEIGHT, LENGTH, panel, strip};

fn three() -> Recipe {
    strip(
        &[40, 50, 60].map(Length::mm),
        Length::mm(100),
        "VM",
        2,
        Runs::Across,
    )
}

fn front() -> Seat {
    Seat::Face(Face {
        panel: PanelId(0),
        side: Side::B,
    })
}

/// Common practice: a 4 1/4 × 5 1/2 in panel takes a mat of 4 × 5 1/4 in with a
/// border of 1/8 in, and that one a mat of 3 3/4 × 5 in.
#[test]
fn mats_leave_an_even_border() {
    let eighth = Length::sixty_fourths(8);
    let mut recipe = strip(&[eighth * 34; 2], eighth * 44, "V", 1, Runs::Across);
    let first = recipe
        .add_layer(front(), LayerKind::Mat, &Plain)
        .expect("a mat")
        .id;
    let second = recipe
        .add_layer(Seat::Layer(first), LayerKind::Mat, &Plain)
        .expect("a mat on it")
        .id;
    let sizes: Vec<_> = recipe
        .layers
        .iter()
        .map(|mat| (recipe.value(mat.width), recipe.value(mat.height)))
        .collect();
    assert_eq!(
        sizes,
        [(eighth * 32, eighth * 42), (eighth * 30, eighth * 40)]
    );
    assert_eq!(recipe.check(), []);
    recipe.remove_layer(first).expect("it is there");
    assert_eq!(recipe.layer(second), None);
    assert_eq!(recipe.measures.len(), 5);
}

#[test]
fn a_focal_piece_stays_centred() {
    let mut recipe = three();
    let id = recipe
        .add_layer(front(), LayerKind::Focal, &Plain)
        .expect("a piece")
        .id;
    let layer = recipe.layer(id).expect("just added").clone();
    let centred = |recipe: &Recipe| {
        let [left, width] = [layer.left, layer.width].map(|measure| recipe.value(measure));
        assert!((left * 2 + width - recipe.value(panel(0))).abs().units() <= 1);
    };
    centred(&recipe);
    recipe.set(panel(0), Length::mm(44)).expect("wider");
    centred(&recipe);
    recipe.border_layer(id, &Plain).expect("a border instead");
    assert_eq!(
        recipe.value(layer.width),
        recipe.value(panel(0)) - Length::sixty_fourths(16)
    );
    recipe
        .place_layer(id, Placing::Distances)
        .expect("by distances");
    assert_eq!(recipe.relations, []);
    assert_eq!(recipe.check(), []);
}

#[test]
fn a_score_moves_between_its_panels() {
    let mut recipe = three();
    recipe
        .move_score(StripId::Base, 1, Length::mm(80))
        .expect("room on both sides");
    let widths = [0, 1, 2].map(|at| recipe.value(panel(at)));
    assert_eq!(widths, [40, 40, 70].map(Length::mm));
    let before = recipe.clone();
    assert!(matches!(
        recipe.move_score(StripId::Base, 1, Length::mm(30)),
        Err(EditError::Clash(_))
    ));
    assert_eq!(
        recipe.move_score(StripId::Base, 2, Length::mm(30)),
        Err(EditError::NoScore)
    );
    assert_eq!(recipe, before);
}

#[test]
fn panels_come_and_go() {
    let mut recipe = three();
    let added = recipe
        .add_panel(StripId::Base, 2, None, &Plain)
        .expect("the strip grows")
        .id;
    assert_eq!(recipe.value(LENGTH), Length::mm(210));
    assert_eq!(
        recipe.base.folds,
        [Fold::Valley, Fold::Mountain, Fold::Valley]
    );
    recipe.remove_panel(PanelId(2)).expect("not the last");
    assert_eq!(recipe.value(LENGTH), Length::mm(150));
    assert_eq!(recipe.base.rests, added);
    assert_eq!(recipe.check(), []);
    recipe.remove_panel(PanelId(0)).expect("not the last");
    recipe.remove_panel(PanelId(1)).expect("not the last");
    assert_eq!(recipe.remove_panel(added), Err(EditError::LastPanel));
    recipe.pin(LENGTH, true).expect("it is there");
    let clash = recipe
        .add_panel(StripId::Base, 0, None, &Plain)
        .expect_err("no room");
    assert!(matches!(clash, EditError::Clash(Clash::NotPositive { .. })));
    assert_eq!(recipe.value(HEIGHT), Length::mm(100));
}

#[test]
fn starters_hold_together_in_both_units() {
    let ids: BTreeSet<_> = starters().iter().map(|starter| &starter.id).collect();
    assert_eq!(ids.len(), starters().len());
    assert!(ids.len() >= 8);
    for starter in starters() {
        for step in [Step::Sixteenth, Step::HalfMillimetre] {
            let notation = Notation {
                step,
                decimal: DecimalMark::Point,
            };
            let mut recipe = starter.recipe_in(notation);
            let what = format!("{} in {step:?}", starter.id);
            assert_eq!(recipe.check(), [], "{what}");
            assert_eq!(recipe.broken(), [], "{what}");
            assert_eq!(recipe.settle(&[], &[], &[]), Ok(vec![]), "{what}");
            if step == Step::HalfMillimetre {
                assert_eq!(recipe.base.stock, starter.metric.stock, "{what}");
            }
            let folded = fold(&recipe, &lay_out(&recipe)).expect("every starter folds flat");
            assert!(folded.answers_kept, "{what}");
            let closed = folded.states.first().expect("the closed card");
            let top = closed
                .order
                .last()
                .and_then(|at| recipe.base.panels.get(*at));
            // Corners turned in and pages of one sheet are no panels of a strip.
            assert!(
                !recipe.base.lines.is_empty()
                    || top.is_some_and(|top| {
                        recipe.upright.iter().any(|face| face.panel == top.id)
                    }),
                "{what}: the front must be upright"
            );
            let text = write(std::slice::from_ref(&recipe));
            assert_eq!(read(&text), Ok(vec![recipe]), "{what}");
        }
    }
}

#[test]
fn files_that_are_not_recipes_say_so() {
    assert_eq!(read("{\n\"a\""), Err(FileError::NotJson { line: 2 }));
    for other in [
        "[]",
        "{}",
        "null",
        r#"{"foldwright":1}"#,
        r#"{"foldwright":0}"#,
    ] {
        assert_eq!(read(other), Err(FileError::NotOurs), "{other}");
    }
    let version = VERSION + 1;
    let newer = format!("{{\"foldwright\":{version},\"recipes\":[]}}");
    assert_eq!(read(&newer), Err(FileError::Newer { version }));
    assert_eq!(read(r#"{"foldwright":1,"recipes":[]}"#), Ok(vec![]));
    assert_eq!(read(&write(&[])), Ok(vec![]));
    let shape = read(r#"{"foldwright":1,"recipes":[{}]}"#);
    assert!(matches!(shape, Err(FileError::Misshapen { recipe: 1, .. })));
    let mut mats = three();
    mats.name = "Quay".to_owned();
    for _ in 0..2 {
        mats.add_layer(front(), LayerKind::Mat, &Plain)
            .expect("a mat");
    }
    let spoilt = write(&[mats]).replacen("\"safe\"", "\"stapled\"", 1);
    let misshapen = FileError::Misshapen {
        recipe: 1,
        name: "Quay".to_owned(),
        at: Spot::Of(Parts::Layers, Some(1)),
        detail: Some(Detail::Glue),
    };
    assert_eq!(read(&spoilt), Err(misshapen), "no bond is called so");
}

/// Each field that is spoilt or missing is named, and the part it is of.
#[test]
fn what_is_misshapen_is_named_to_the_field() {
    let mut card = three();
    card.add_layer(front(), LayerKind::Mat, &Plain)
        .expect("a mat");
    let whole: Value = serde_json::from_str(&write(&[card])).expect("JSON");
    let at = |parts, number| Spot::Of(parts, Some(number));
    let cases = [
        (
            "/measures/1",
            "value",
            at(Parts::Measures, 2),
            Detail::Length,
        ),
        ("/measures/0", "name", at(Parts::Measures, 1), Detail::Name),
        (
            "/stocks/0",
            "caliper",
            at(Parts::Papers, 1),
            Detail::Thickness,
        ),
        ("/layers/0", "on", at(Parts::Layers, 1), Detail::Seat),
        (
            "/base/panels/1",
            "width",
            at(Parts::Panels, 2),
            Detail::Width,
        ),
        ("/base", "length", Spot::Base, Detail::Length),
        ("/base", "rests", Spot::Base, Detail::Rests),
        (
            "/folding_in",
            "allowance",
            Spot::FoldingIn,
            Detail::Allowance,
        ),
        ("", "name", Spot::Whole, Detail::Name),
        ("", "glue_margin", Spot::Whole, Detail::Glue),
    ];
    for (part, field, spot, detail) in cases {
        for spoilt in [None, Some(json!({ "some": "thing" }))] {
            let mut file = whole.clone();
            let part = file.pointer_mut(&format!("/recipes/0{part}"));
            let part = part.and_then(Value::as_object_mut).expect("a part");
            assert!(part.remove(field).is_some(), "{field}");
            part.extend(spoilt.map(|value| (field.to_owned(), value)));
            let Err(FileError::Misshapen { at, detail: of, .. }) = read(&file.to_string()) else {
                panic!("{field} is not missed");
            };
            assert_eq!((at, of), (spot, Some(detail)), "{field}");
        }
    }
}

#[test]
fn a_file_in_parts_is_the_file() {
    let recipes: Vec<Recipe> = starters().iter().map(|it| it.recipe.clone()).collect();
    let [before, between, after] = write_parts();
    for recipes in [&recipes[..], &recipes[..1]] {
        let parts: Vec<String> = recipes.iter().map(write_part).collect();
        let text = format!("{before}{}{after}", parts.join(&between));
        assert_eq!(text, write(recipes));
        for (part, (recipe, number)) in parts.iter().zip(recipes.iter().zip(1..)) {
            assert_eq!(read_part(VERSION, part, number, 1).as_ref(), Ok(recipe));
        }
    }
    let part = |text: &str| read_part(VERSION, text, 7, 40);
    assert_eq!(part("{\n\n1"), Err(FileError::NotJson { line: 42 }));
    assert!(matches!(
        part("{\"name\":\"Quay\"}"),
        Err(FileError::Misshapen { recipe: 7, name, .. }) if name == "Quay"
    ));
    assert_eq!(
        read_part(99, "{}", 1, 1),
        Err(FileError::Newer { version: 99 })
    );
}

#[test]
fn faults_are_found() {
    type Spoil = fn(&mut Recipe);
    let cases: [(Spoil, Fault); 6] = [
        (|it| it.copies = 0, Fault::Copies(0)),
        (
            |it| it.base.rests = PanelId(9),
            Fault::Missing(Needed::Panel),
        ),
        (
            |it| it.base.folds.clear(),
            Fault::Folds {
                panels: 3,
                folds: 0,
            },
        ),
        (
            |it| it.measures.push(it.measures[0].clone()),
            Fault::Twice(Parts::Measures),
        ),
        (
            |it| it.glue_margin = Length::LIMIT + Length::mm(1),
            Fault::TooLong(Measured::GlueMargin),
        ),
        (
            |it| {
                let id = it
                    .add_layer(front(), LayerKind::Mat, &Plain)
                    .expect("a mat")
                    .id;
                it.layers[0].on = Seat::Layer(id);
            },
            Fault::Circle(foldwright_engine::recipe::LayerId(1)),
        ),
    ];
    for (spoil, fault) in cases {
        let mut recipe = three();
        spoil(&mut recipe);
        assert_eq!(recipe.check(), std::slice::from_ref(&fault));
        let text = write(std::slice::from_ref(&recipe));
        let of = Misread {
            recipe: Box::new(recipe),
            faults: vec![fault],
        };
        assert_eq!(read(&text), Err(FileError::Faulty { recipe: 1, of }));
    }
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in any::<String>()) {
        if let Ok(recipes) = read(&text) {
            prop_assert!(recipes.iter().all(|recipe| recipe.check().is_empty()));
        }
    }

    #[test]
    fn a_changed_file_is_read_or_refused(at in any::<prop::sample::Index>(), put in any::<u8>()) {
        let mut bytes = write(&[three()]).into_bytes();
        let at = at.index(bytes.len());
        bytes[at] = put;
        if let Ok(recipes) = read(&String::from_utf8_lossy(&bytes)) {
            for recipe in recipes {
                prop_assert_eq!(recipe.check(), []);
            }
        }
    }

    #[test]
    fn panels_always_make_up_the_strip(
        which in 0_u32..3,
        units in 1..Length::LIMIT.units() / 4,
        whole in 1..Length::LIMIT.units(),
    ) {
        let mut recipe = three();
        let strip_is = |recipe: &Recipe| {
            let parts = recipe.base.panels.iter().map(|panel| recipe.value(panel.width));
            parts.sum::<Length>() == recipe.value(LENGTH)
        };
        for (measure, units) in [(panel(which), units), (LENGTH, whole)] {
            let before = recipe.clone();
            if recipe.set(measure, Length::from_units(units)).is_err() {
                prop_assert_eq!(&recipe, &before);
            }
            prop_assert!(strip_is(&recipe));
        }
    }
}
