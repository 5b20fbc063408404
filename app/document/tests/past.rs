//! How much is kept of what something was before.

use foldwright_document::Document;
use serde_json::json;

const HOUR: u64 = 60 * 60 * 1000;
const DAY: u64 = 24 * HOUR;

/// Keeps a state of about so many bytes.
fn remember(document: &mut Document, at: u64, bytes: usize) {
    let object = json!({ "about": "a".repeat(bytes) });
    assert!(document.remember(at, "laptop", &object).is_some());
}

fn days(document: &Document) -> Vec<u64> {
    let past = document.past();
    past.iter().map(|state| state.at / DAY).collect()
}

#[test]
fn large_states_are_kept_for_fewer_days() {
    let (mut small, mut large) = (Document::new(1), Document::new(2));
    for day in 100..140 {
        remember(&mut small, day * DAY, 1_000);
        remember(&mut large, day * DAY, 1_500_000);
    }
    // Today's, the latest before it, and fourteen days before that.
    assert_eq!(days(&small), (124..140).rev().collect::<Vec<_>>());
    // Five times 1.5 MB are less than 8 MB.
    assert_eq!(days(&large), [139, 138, 137, 136, 135]);
    assert!(large.bytes().len() < 8_000_000);
}

#[test]
fn the_latest_state_is_kept_however_large() {
    let mut document = Document::new(1);
    remember(&mut document, 100 * DAY, 1_000);
    remember(&mut document, 101 * DAY, 9_000_000);
    assert_eq!(days(&document), [101]);
    remember(&mut document, 101 * DAY + HOUR, 1_000);
    assert_eq!(days(&document), [101]);
    assert_eq!(document.past().len(), 1);
}
