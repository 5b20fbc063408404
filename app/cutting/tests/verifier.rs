//! The verifier says yes to what can be cut and no to what can't.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

mod common;

use common::instances::{ONE_SHEET, list, number, packings, read};
use common::verifier::{Placed, faults, separable};
use serde_json::Value;

fn rects(value: &Value) -> Vec<Placed> {
    let rects = value.as_array().expect("a list").iter();
    rects
        .map(|it| [0, 1, 2, 3].map(|at| it[at].as_i64().expect("a number")))
        .collect()
}

#[test]
fn layouts_that_were_checked_elsewhere_pass() {
    let layouts = read("bw_mv_layouts.json");
    let mut seen = 0;
    for packing in packings() {
        let Some(given) = layouts["layouts"].get(&packing.name) else {
            continue;
        };
        let size = (i64::from(packing.sheet.0), i64::from(packing.sheet.1));
        for variant in ["oriented", "rotation"] {
            for sheet in list(given, variant) {
                assert_eq!(
                    faults(size, 0, &rects(sheet), 0),
                    Vec::<String>::new(),
                    "{}",
                    packing.name
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 500, "{seen} sheets");
}

#[test]
fn the_fullest_sheets_that_were_checked_elsewhere_pass() {
    let instances: Vec<Value> = ONE_SHEET.iter().map(|file| read(file)).collect();
    let instances: Vec<&Value> = instances
        .iter()
        .flat_map(|it| list(it, "instances"))
        .collect();
    let mut seen = 0;
    for layout in list(&read("knapsack_layouts.json"), "layouts") {
        let Some(instance) = instances.iter().find(|it| it["name"] == layout["name"]) else {
            continue;
        };
        let size = (
            number(&instance["sheet"]["w"]).into(),
            number(&instance["sheet"]["h"]).into(),
        );
        assert_eq!(
            faults(size, 0, &rects(&layout["rects"]), 0),
            Vec::<String>::new()
        );
        seen += 1;
    }
    assert!(seen > 30, "{seen} sheets");
}

#[test]
fn layouts_that_need_other_than_straight_cuts_are_refused() {
    let (mut yes, mut no) = (0, 0);
    for layout in list(&read("non_guillotine_layouts.json"), "layouts") {
        let size = (
            number(&layout["sheet"][0]).into(),
            number(&layout["sheet"][1]).into(),
        );
        for (sheet, can) in list(layout, "sheets")
            .iter()
            .zip(list(layout, "guillotine"))
        {
            let can = can.as_bool().expect("yes or no");
            assert_eq!(separable(&rects(sheet), 0), can);
            assert_eq!(faults(size, 0, &rects(sheet), 0).is_empty(), can);
            if can { yes += 1 } else { no += 1 }
        }
    }
    assert!(yes > 0 && no > 0, "{yes} and {no}");
}

/// Worked by hand.
#[test]
fn faults_of_every_kind_are_found() {
    let two = [[0, 0, 5, 10], [5, 0, 5, 10]];
    assert!(faults((10, 10), 0, &two, 0).is_empty());
    // A blade that takes 1 needs room between them.
    assert!(!separable(&two, 1));
    assert!(separable(&[[0, 0, 5, 10], [6, 0, 5, 10]], 1));
    assert_eq!(faults((10, 10), 1, &two, 0).len(), 2);
    assert_eq!(faults((9, 10), 0, &two, 0).len(), 1);
    assert_eq!(
        faults((10, 10), 0, &[[0, 0, 6, 10], [5, 0, 5, 10]], 0).len(),
        2
    );
    // Four round a hole in the middle.
    let wheel = [[0, 0, 6, 4], [6, 0, 4, 6], [4, 6, 6, 4], [0, 4, 4, 6]];
    assert!(!separable(&wheel, 0));
}
