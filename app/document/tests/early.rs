//! Changes that come in any order, to copies that are written and read again in
//! between.

#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod dice;

use dice::Dice;
use foldwright_document::{Document, together};
use serde_json::{Value, json};

const STEPS: [&str; 3] = ["cut-strip", "score-0", "glue"];

/// A copy and what is on its way to it.
struct Copy {
    document: Document,
    inbox: Vec<Vec<u8>>,
}

/// Somebody begins a step and counts a piece.
fn press(copy: &mut Copy, step: &str) -> Vec<u8> {
    let old = copy.document.read().0.unwrap_or(Value::Null);
    let begun = copy.document.write(&old, &json!({ "step": step }));
    let counted = copy.document.add(step, 1);
    together(begun.into_iter().chain(counted).collect()).expect("a change")
}

fn history(seed: u64) {
    let mut dice = Dice(seed);
    let mut copies: Vec<Copy> = (1..=3)
        .map(|writer| Copy {
            document: Document::new(writer),
            inbox: Vec::new(),
        })
        .collect();
    let (mut all, mut writers, mut pressed) = (Vec::new(), 3, [0; 3]);
    for _ in 0..30 {
        let at = dice.below(copies.len());
        match dice.below(4) {
            0 => {
                let step = dice.below(STEPS.len());
                let change = press(&mut copies[at], STEPS[step]);
                pressed[step] += 1;
                let others = copies.iter_mut().enumerate().filter(|(to, _)| *to != at);
                others.for_each(|(_, other)| other.inbox.push(change.clone()));
                all.push(change);
            }
            1 => {
                writers += 1;
                let bytes = copies[at].document.bytes();
                copies[at].document = Document::open(writers, &bytes).expect("a document");
            }
            _ => {
                let copy = &mut copies[at];
                if !copy.inbox.is_empty() {
                    let change = copy.inbox.swap_remove(dice.below(copy.inbox.len()));
                    copy.document.apply(&change).expect("a change");
                }
            }
        }
    }
    for copy in &mut copies {
        for change in &all {
            copy.document.apply(change).expect("a change");
        }
        assert!(!copy.document.waits(), "seed {seed}");
    }
    let object = copies[0].document.read().0;
    for Copy { document, .. } in &copies {
        assert_eq!(document.read().0, object, "seed {seed}");
        let counts = document.counts();
        for (step, count) in STEPS.iter().zip(pressed) {
            let found = counts.get(*step).copied().unwrap_or(0);
            assert_eq!(found, count, "seed {seed}: {step}");
        }
    }
}

#[test]
fn what_came_early_and_was_written_down_counts_once_its_beginning_is_there() {
    println!("seeds 1 to 4000");
    (1..=4000).for_each(history);
}

#[test]
fn a_change_waits_for_what_it_goes_on_from() {
    let mut one = Document::new(1);
    let first = one
        .write(&Value::Null, &json!({ "name": "Quay" }))
        .expect("a change");
    let second = one.add("cut", 2).expect("a change");
    let mut other = Document::new(2);
    other.apply(&second).expect("a change");
    assert!(other.waits() && !other.is_empty());
    assert_eq!(other.counts().get("cut"), None);
    let again = Document::open(3, &other.bytes()).expect("a document");
    assert!(
        !again.waits() && again.is_empty(),
        "it comes again with its beginning"
    );
    other.apply(&first).expect("a change");
    assert!(!other.waits());
    assert_eq!(other.counts().get("cut"), Some(&2));
    assert_eq!(other.read(), one.read());
}
