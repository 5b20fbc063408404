//! Arbitrary and changed bytes where frames and changes are expected. The
//! number of rounds comes from `ROUNDS`, the first seed from `SEED`.

#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::panic::{AssertUnwindSafe, catch_unwind};

use common::service::{Heard, Socket, harbour};
use foldwright_document::frame::{self, Message};
use foldwright_document::pieces::{Gathering, LARGEST};
use foldwright_document::{Document, check};
use serde_json::{Value, json};

/// Numbers that look drawn, from a seed (Steele, Lea and Flood, "Fast
/// splittable pseudorandom number generators", 2014).
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, most: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(most.max(1)).unwrap()).unwrap()
    }

    fn byte(&mut self) -> u8 {
        // Those that mean something, more often than others.
        match self.below(4) {
            0 => [0, 1, 2, 0x7f, 0x80, 0xff, 117, 118, 119, 8, 4, 7][self.below(12)],
            _ => u8::try_from(self.next() & 0xff).unwrap(),
        }
    }
}

fn number(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).map_or(otherwise, |text| text.parse().expect("a number"))
}

/// Good changes, of a document that grows.
fn changes() -> Vec<Vec<u8>> {
    let mut document = Document::new(5);
    let mut old = Value::Null;
    let mut all = vec![document.bytes()];
    for round in 0..12 {
        let new = json!({
            "name": format!("Gate {round}"), "about": "ü".repeat(round),
            "measures": (0..round).map(|id| json!({ "id": id, "at": [id, 1.5, null, true] })).collect::<Vec<_>>(),
        });
        all.extend(document.write(&old, &new));
        all.extend(document.add("sheet", 3));
        old = new;
    }
    all.push(document.bytes());
    all
}

/// One of the good ones, or bytes of no meaning, changed in a few places.
fn bytes(dice: &mut Dice, good: &[Vec<u8>]) -> Vec<u8> {
    if dice.below(8) == 0 {
        return (0..dice.below(200)).map(|_| dice.byte()).collect();
    }
    let mut bytes = good[dice.below(good.len())].clone();
    for _ in 0..=dice.below(4) {
        let at = dice.below(bytes.len());
        match dice.below(6) {
            0 => bytes.truncate(at),
            1 => bytes.insert(at, dice.byte()),
            2 if !bytes.is_empty() => drop(bytes.remove(at)),
            3 => {
                let other = &good[dice.below(good.len())];
                let from = dice.below(other.len());
                bytes.truncate(at);
                bytes.extend_from_slice(&other[from..]);
            }
            _ if !bytes.is_empty() => bytes[at] = dice.byte(),
            _ => bytes.push(dice.byte()),
        }
    }
    bytes
}

#[test]
fn no_bytes_break_the_reading() {
    let good = changes();
    let frames: Vec<_> = good
        .iter()
        .map(|change| frame::write("recipe/a", Message::Update(change)))
        .collect();
    let (first, rounds) = (number("SEED", 1), number("ROUNDS", 100_000));
    let (mut read, mut sound, mut applied) = (0, 0, 0);
    for seed in first..first + rounds {
        let mut dice = Dice(seed);
        let one = bytes(&mut dice, &frames);
        let two = bytes(&mut dice, &good);
        let fine = catch_unwind(AssertUnwindSafe(|| {
            if let Some((name, message)) = frame::read(&one) {
                read += 1;
                assert!(frame::is_name(name));
                let again = frame::write(name, message);
                assert_eq!(frame::read(&again), Some((name, message)));
            }
            if check(&two).is_ok() {
                sound += 1;
            }
            let mut gathering = Gathering::new(LARGEST);
            for bytes in [&one, &[&[0][..], &two].concat(), &one] {
                if let Ok(Some(frame)) = gathering.take(bytes) {
                    assert!(frame.len() <= LARGEST);
                }
            }
            let mut document = Document::new(9);
            document.apply(&good[good.len() / 2]).unwrap();
            if document.apply(&two).is_ok() {
                applied += 1;
            }
            // What came of it can be read, kept and opened again.
            drop(document.read());
            drop(document.since(&two));
            let kept = document.bytes();
            drop(Document::open(3, &kept).unwrap().read());
        }));
        assert!(fine.is_ok(), "seed {seed}: {two:?}");
    }
    println!(
        "{rounds} rounds from seed {first}: {read} frames read, {sound} changes sound, {applied} applied"
    );
    assert!(
        read > 0 && sound > 0 && applied > 0,
        "some were nearly good"
    );
}

/// A change that sets a value nested so deep.
fn nested(levels: usize) -> Vec<u8> {
    // One client, one item at clock 0: a value under a name of the object.
    let mut update = vec![1, 1, 9, 0, 0x28, 1, 6];
    update.extend_from_slice(b"object");
    update.extend_from_slice(&[1, b'x', 1]);
    update.extend([117, 1].repeat(levels));
    update.extend_from_slice(&[126, 0]);
    update
}

#[test]
fn depth_is_bounded() {
    assert_eq!(check(&nested(10)), Ok(()));
    for levels in [40, 1000, 500_000] {
        assert!(check(&nested(levels)).is_err(), "{levels}");
        assert!(Document::new(1).apply(&nested(levels)).is_err(), "{levels}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn no_bytes_break_the_server() {
    let harbour = harbour();
    let (service, laptop, phone) = harbour.parts();
    let good = changes();
    let first = number("SEED", 1);
    let mut deep = Socket::open(service, laptop, 0).await;
    deep.send("recipe/deep", 2, &nested(500_000)).await;
    assert_eq!(deep.end().await, Some(4400));
    for seed in first..first + number("ROUNDS", 100_000) / 200 {
        let mut dice = Dice(seed);
        let step = u8::try_from(dice.below(3)).unwrap();
        let payload = bytes(&mut dice, &good);
        let mut socket = Socket::open(service, laptop, 0).await;
        // Each a document of its own, so that one is not harmed by another.
        let name = format!("recipe/z{seed}");
        socket.send(&name, step, &payload).await;
        socket.send(&name, 0, &[0]).await;
        loop {
            match socket.hear().await {
                Heard::About(of, 0, _) if of == name => break,
                Heard::End(code) => {
                    // No message, or one that no document can be made of.
                    assert!(matches!(code, Some(4400 | 1013)), "seed {seed}: {code:?}");
                    break;
                }
                _ => {}
            }
        }
    }
    let mut socket = Socket::open(service, phone, 0).await;
    socket.caught_up().await;
    assert!(socket.send("recipe/a", 2, &good[1]).await);
    socket.until(&json!({ "saved": 1 })).await;
    let log = service.log.lock().unwrap().clone();
    assert!(!log.contains("panicked"), "{log}");
}
