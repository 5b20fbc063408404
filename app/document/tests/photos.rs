//! Photographs beside steps, which several people change at once.

#![expect(
    clippy::expect_used,
    reason = "a test may stop where its own pieces do not fit"
)]

use foldwright_document::Document;
use serde_json::{Value, json};

fn bare() -> Value {
    json!({ "name": "Harbour gate" })
}

fn with(photos: &Value) -> Value {
    json!({ "name": "Harbour gate", "photos": photos })
}

/// Two devices change what both have: what comes of it.
fn apart(first: &Value, changes: [&Value; 2]) -> Value {
    let mut one = Document::new(5);
    one.write(&Value::Null, first);
    let mut other = Document::open(6, &one.bytes()).expect("a document");
    let mut made = Vec::new();
    for (document, change) in [&mut one, &mut other].into_iter().zip(changes) {
        made.push(document.write(first, change).expect("a change"));
    }
    one.apply(&made[1]).expect("a change");
    other.apply(&made[0]).expect("a change");
    assert_eq!(one.read(), other.read());
    one.read().0.expect("an object")
}

#[test]
fn the_first_photographs_of_two_devices_are_both_there() {
    let [one, other] = [json!({ "gather": "aa" }), json!({ "fold-0": "bb" })];
    let both = json!({ "gather": "aa", "fold-0": "bb" });
    assert_eq!(apart(&bare(), [&with(&one), &with(&other)]), with(&both));
}

#[test]
fn one_that_is_added_stays_where_the_last_one_is_taken_off() {
    let [first, more] = [
        json!({ "gather": "aa" }),
        json!({ "gather": "aa", "fold-0": "bb" }),
    ];
    let left = json!({ "fold-0": "bb" });
    assert_eq!(apart(&with(&first), [&bare(), &with(&more)]), with(&left));
}

#[test]
fn of_two_in_the_same_place_one_stays_whole() {
    let [first, one, other] = ["aa", "bb", "cc"].map(|photo| json!({ "gather": photo }));
    let came = apart(&with(&first), [&with(&one), &with(&other)]);
    assert!([with(&one), with(&other)].contains(&came), "{came}");
}
