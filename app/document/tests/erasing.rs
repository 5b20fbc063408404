//! What was deleted for good is gone from the bytes, and stays gone.

#![expect(
    clippy::expect_used,
    reason = "a test may stop where its own pieces do not fit"
)]

use foldwright_document::{Document, Seen};
use serde_json::{Value, json};

const NAME: &str = "Lighthouse invitation";

fn recipe() -> Value {
    json!({
        "format": 1,
        "name": NAME,
        "notes": { "gather": "the blue card of the Lighthouse" },
        "measures": [{ "id": 1, "name": "Lighthouse width", "value": "4 in" }],
        "base": { "folds": ["valley"], "panels": [{ "id": 1, "name": "Lighthouse" }] },
    })
}

fn holds(bytes: &[u8], text: &str) -> bool {
    bytes
        .windows(text.len())
        .any(|part| part == text.as_bytes())
}

/// Such a document, and its changes one by one.
fn written(writer: u64) -> (Document, Vec<Vec<u8>>) {
    let mut document = Document::new(writer);
    let mut changes = Vec::new();
    let mut old = Value::Null;
    for copies in 0..5 {
        let mut new = recipe();
        new["copies"] = json!(copies);
        changes.extend(document.write(&old, &new));
        changes.extend(document.remember(5, "laptop", &new));
        old = new;
    }
    (document, changes)
}

fn merged(changes: &[Vec<u8>]) -> Document {
    let mut document = Document::new(0);
    for change in changes {
        document.apply(change).expect("a change");
    }
    document
}

#[test]
fn nothing_of_it_is_left_where_changes_are_merged() {
    let (mut document, mut changes) = written(7);
    assert!(holds(&merged(&changes).bytes(), "Lighthouse"));
    assert!(!document.is_empty());
    let before = document.bytes().len();
    changes.push(document.erase().expect("something to take away"));
    // Kept together, and in any order.
    let back: Vec<_> = changes.iter().rev().cloned().collect();
    for kept in [&document, &merged(&changes), &merged(&back)] {
        let bytes = kept.bytes();
        assert!(!holds(&bytes, "Lighthouse"), "{bytes:?}");
        assert!(bytes.len() < before, "{} of {before}", bytes.len());
        assert!(kept.is_empty());
        assert_eq!(kept.read().0, None);
        assert_eq!(kept.past(), []);
        // Once more from what is kept.
        let again = Document::open(9, &bytes).expect("a document");
        assert!(again.is_empty() && !again.waits());
    }
    assert_eq!(document.erase(), None, "nothing is erased twice");
}

#[test]
fn a_deletion_that_had_seen_all_of_it_still_has() {
    let (mut document, _) = written(7);
    let mut shelf = Document::new(8);
    let buried = shelf.bury("recipe/a", 5, &document.state());
    assert!(buried.is_ok());
    document.erase();
    let seen = Seen::of(&document.state()).expect("a state");
    assert!(shelf.graves()["recipe/a"].seen.covers(&seen));

    assert!(shelf.note_erased("recipe/a").is_some());
    assert_eq!(shelf.note_erased("recipe/a"), None);
    let elsewhere = Document::open(9, &shelf.bytes()).expect("a document");
    assert_eq!(elsewhere.erased(), ["recipe/a".to_owned()].into());
    assert_eq!(elsewhere.graves().len(), 1);
}

/// What another wrote without knowing is left alone, and it can be written
/// whole again on top of what is left.
#[test]
fn who_knew_nothing_of_it_can_bring_it_back_whole() {
    let (mut document, changes) = written(7);
    let mut late = Document::new(11);
    for change in &changes {
        late.apply(change).expect("a change");
    }
    let old = late.read().0.expect("a recipe");
    let mut new = old.clone();
    new["notes"]["fold"] = json!("slowly");
    let edit = late.write(&old, &new).expect("a change");
    let erased = document.erase().expect("something to take away");
    late.apply(&erased).expect("a change");
    document.apply(&edit).expect("a change");
    for one in [&document, &late] {
        assert!(!one.is_empty());
        assert_eq!(one.read().0, Some(json!({ "notes": { "fold": "slowly" } })));
    }
    let whole = late.write(&Value::Null, &new).expect("a change");
    document.apply(&whole).expect("a change");
    assert_eq!(document.read().0, Some(new.clone()));
    assert_eq!(late.read().0, Some(new));
}

#[test]
fn what_has_not_all_come_is_not_empty() {
    let (mut document, _) = written(7);
    let old = document.read().0.expect("a recipe");
    let mut new = old.clone();
    new["name"] = json!("another");
    let last = document.write(&old, &new).expect("a change");
    let mut apart = Document::new(12);
    apart.apply(&last).expect("a change");
    assert_eq!(apart.read().0, None);
    assert!(!apart.is_empty());
    assert!(Document::new(13).is_empty());
}
