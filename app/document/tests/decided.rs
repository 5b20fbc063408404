//! Who decided something stays known until somebody decides otherwise.

#![expect(
    clippy::expect_used,
    reason = "a test may stop where its own pieces do not fit"
)]

use foldwright_document::{Document, Hand};
use serde_json::{Value, json};

/// Writes how many copies there are; `meant` says whether that was decided.
fn copies(document: &mut Document, by: &str, from: u32, to: u32, meant: bool) -> Vec<u8> {
    let hand = Hand {
        at: 10,
        by,
        mark: "",
        meant: &|_, _| meant,
    };
    let [old, new] = [from, to].map(|copies| json!({ "copies": copies }));
    let change = document.write_by(&old, &new, Some(&hand));
    change.expect("something to write")
}

fn said(document: &Document) -> Vec<(String, Value)> {
    let said = document.said().into_iter();
    said.map(|said| (said.by, said.value)).collect()
}

/// The document holds what followed elsewhere, the recipe is solved for what
/// was decided, and somebody goes on from that.
#[test]
fn what_is_written_as_it_was_decided_stays_decided() {
    let mut laptop = Document::new(1);
    let first = laptop.write(&Value::Null, &json!({ "copies": 1 }));
    let first = first.expect("something to write");
    let [mut phone, mut tablet] = [2, 3].map(|writer| {
        let mut document = Document::new(writer);
        document.apply(&first).expect("a change");
        document
    });
    let decided = copies(&mut laptop, "Laptop", 1, 5, true);
    let followed = copies(&mut phone, "Phone", 1, 7, false);
    for change in [decided, followed] {
        tablet.apply(&change).expect("a change");
    }
    // Of two who write at once the one with the higher number comes last.
    assert_eq!(tablet.read().0, Some(json!({ "copies": 7 })));
    let five = [("Laptop".to_owned(), json!(5))];
    assert_eq!(said(&tablet), five);
    copies(&mut tablet, "Tablet", 7, 5, false);
    assert_eq!(said(&tablet), five);
    // Decided anew it is the decision of who did that, as long as it is so.
    copies(&mut tablet, "Tablet", 5, 6, true);
    assert_eq!(said(&tablet), [("Tablet".to_owned(), json!(6))]);
    copies(&mut tablet, "Tablet", 6, 8, false);
    assert_eq!(said(&tablet), []);
}
