//! Notes that several people write at once.

#![expect(
    clippy::expect_used,
    reason = "a test may stop where its own pieces do not fit"
)]

use foldwright_document::Document;
use serde_json::{Value, json};

fn noted(note: &str) -> Value {
    json!({ "name": "Harbour gate", "notes": { "gather": note } })
}

/// A document with that note, on two devices.
fn two(note: &str) -> (Document, Document) {
    let mut one = Document::new(5);
    one.write(&Value::Null, &noted(note));
    let other = Document::open(6, &one.bytes()).expect("a document");
    (one, other)
}

/// The same as written before notes were texts.
fn older(note: &str) -> Vec<u8> {
    let doc = yrs::Doc::with_client_id(3);
    older_write(&doc, note)
}

fn older_write(doc: &yrs::Doc, note: &str) -> Vec<u8> {
    use yrs::{Any, Map as _, Transact as _};
    let object = doc.get_or_insert_map("object");
    let mut transaction = doc.transact_mut();
    object.insert(&mut transaction, "name", "Harbour gate");
    object.insert(
        &mut transaction,
        "notes",
        Any::from(std::collections::HashMap::<String, Any>::new()),
    );
    object.insert(&mut transaction, "notes.gather", note);
    transaction.encode_update_v1()
}

fn note(document: &Document) -> Value {
    document.read().0.expect("an object")["notes"]["gather"].clone()
}

/// Writes a note over the one that is shown.
fn write(document: &mut Document, text: &str) -> Vec<u8> {
    let old = document.read().0.expect("an object");
    document.write(&old, &noted(text)).expect("a change")
}

fn cross(one: &mut Document, other: &mut Document, changes: [&[u8]; 2]) -> Value {
    one.apply(changes[1]).expect("a change");
    other.apply(changes[0]).expect("a change");
    assert_eq!(one.read(), other.read());
    note(one)
}

#[test]
fn what_two_type_at_once_is_all_there() {
    let (mut one, mut other) = two("the blue card");
    let here = write(&mut one, "the blue card, and the bone folder");
    let there = write(&mut other, "take the blue card");
    let both = cross(&mut one, &mut other, [&here, &there]);
    assert_eq!(both, json!("take the blue card, and the bone folder"));
    // Both type on at the same place, letter by letter and beyond ASCII.
    let mut changes = [Vec::new(), Vec::new()];
    for letter in "für Ä🙂".chars() {
        for (document, changes) in [&mut one, &mut other].into_iter().zip(&mut changes) {
            let text = format!("{}{letter}", note(document).as_str().expect("a text"));
            changes.push(write(document, &text));
        }
    }
    for (document, changes) in [(&mut one, &changes[1]), (&mut other, &changes[0])] {
        for change in changes {
            document.apply(change).expect("a change");
        }
    }
    assert_eq!(one.read(), other.read());
    let text = note(&one);
    let text = text.as_str().expect("a text");
    assert_eq!(text.matches('🙂').count(), 2, "{text}");
    assert_eq!(text.matches("für Ä").count(), 2, "{text}");
}

#[test]
fn one_begins_a_note_where_another_does() {
    let (mut one, mut other) = two("");
    let here = write(&mut one, "blue");
    let there = write(&mut other, "wide");
    let both = cross(&mut one, &mut other, [&here, &there]);
    assert!(
        both == json!("bluewide") || both == json!("wideblue"),
        "{both}"
    );
}

#[test]
fn a_note_that_one_takes_away_keeps_what_another_types_meanwhile() {
    let (mut one, mut other) = two("the blue card");
    let there = write(&mut other, "the blue card, wide");
    let old = one.read().0.expect("an object");
    let gone = json!({ "name": "Harbour gate", "notes": {} });
    let here = one.write(&old, &gone).expect("a change");
    assert_eq!(one.read().0, Some(gone));
    assert_eq!(
        cross(&mut one, &mut other, [&here, &there]),
        json!(", wide")
    );
}

#[test]
fn notes_of_older_writers_are_read_and_taken_over_once() {
    let old = older("the blue card");
    let mut one = Document::open(5, &old).expect("a document");
    let mut other = Document::open(6, &old).expect("a document");
    assert_eq!(note(&one), json!("the blue card"));
    let here = write(&mut one, "the blue card, wide");
    let there = write(&mut other, "take the blue card");
    let both = cross(&mut one, &mut other, [&here, &there]);
    assert_eq!(both, json!("take the blue card, wide"));
    assert_eq!(one.read().0, Some(noted("take the blue card, wide")));
}

#[test]
fn what_an_older_writer_puts_beside_a_text_is_not_lost() {
    let old = older("the blue card");
    let doc = yrs::Doc::with_client_id(4);
    {
        use yrs::Transact as _;
        use yrs::updates::decoder::Decode as _;
        let update = yrs::Update::decode_v1(&old).expect("an update");
        doc.transact_mut().apply_update(update).expect("a change");
    }
    let mut one = Document::open(5, &old).expect("a document");
    write(&mut one, "the blue card, wide");
    let theirs = older_write(&doc, "the grey card");
    one.apply(&theirs).expect("a change");
    let both = note(&one);
    assert_eq!(both, json!("the blue card, wide\n\nthe grey card"));
    write(&mut one, "the blue card, wide\n\nthe grey card!");
    assert_eq!(note(&one), json!("the blue card, wide\n\nthe grey card!"));
}

#[test]
fn a_text_is_erased_with_the_rest() {
    let (mut one, _) = two("the blue card of the Lighthouse");
    let erased = one.erase();
    assert!(erased.is_some() && one.is_empty());
    assert_eq!(one.read().0, None);
    let bytes = one.bytes();
    let name = b"Lighthouse";
    assert!(!bytes.windows(name.len()).any(|part| part == name));
}

/// Bytes that were changed on the way are refused or make some other document,
/// and never bring one down. `SEED` and `ROUNDS` go on with others.
#[test]
fn broken_changes_of_texts_do_no_harm() {
    let number = |name: &str, otherwise: u64| {
        std::env::var(name).map_or(otherwise, |text| text.parse().expect("a number"))
    };
    let (seed, rounds) = (number("SEED", 1), number("ROUNDS", 3000));
    println!("{rounds} rounds from seed {seed}");
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
    // Marsaglia, "Xorshift RNGs", 2003.
    let mut next = |bound: usize| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        usize::try_from(state % u64::try_from(bound.max(1)).expect("small")).expect("small")
    };
    for _ in 0..rounds {
        let (mut one, mut other) = two("the blüe card 🙂");
        let mut changes = vec![
            write(&mut one, "the blüe card 🙂, wide"),
            write(&mut other, "the 🙂"),
            one.bytes(),
        ];
        let which = next(changes.len());
        let bytes = &mut changes[which];
        for _ in 0..=next(3) {
            let at = next(bytes.len());
            match next(3) {
                0 => bytes[at] = u8::try_from(next(256)).expect("a byte"),
                1 => bytes.insert(at, u8::try_from(next(256)).expect("a byte")),
                _ => drop(bytes.remove(at)),
            }
        }
        let mut victim = Document::new(9);
        for change in &changes {
            // It may be refused.
            let _ = victim.apply(change);
            let _ = other.apply(change);
        }
        for document in [&victim, &other] {
            document.read();
            document.bytes();
        }
        let old = other.read().0.unwrap_or_default();
        other.write(&old, &noted("after all"));
    }
}
