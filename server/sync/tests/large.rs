//! What is large crosses over in pieces, and nothing waits for it.

#![expect(
    clippy::indexing_slicing,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use common::service::{Heard, Service, Socket, harbour};
use common::{Cluster, Folder};
use foldwright_document::Document;
use foldwright_document::frame::{self, Message};
use foldwright_document::pieces::{LARGEST, WHOLE, cut};
use serde_json::{Value, json};

const NAME: &str = "recipe/large";

/// A change of a document whose frame has just so many bytes.
fn change_of(length: usize) -> (Value, Vec<u8>) {
    let made = |letters: usize| {
        let recipe = json!({ "name": "a".repeat(letters) });
        let change = Document::new(3).write(&Value::Null, &recipe).unwrap();
        (recipe, change)
    };
    let framed = |change: &[u8]| frame::write(NAME, Message::Update(change)).len();
    let over = framed(&made(length - 200).1) - (length - 200);
    let (recipe, change) = made(length - over);
    assert_eq!(framed(&change), length);
    (recipe, change)
}

/// The changes of documents among what was heard.
fn about<'a>(heard: &'a [Heard], name: &str) -> Vec<&'a [u8]> {
    let changes = heard.iter().filter_map(|heard| match heard {
        Heard::About(of, 2, change) if of == name => Some(&**change),
        _ => None,
    });
    changes.collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn the_largest_change_crosses_over_and_holds_up_no_other() {
    let (folder, cluster) = (Folder::new(), Cluster::start());
    let file = folder.0.join("workshops.db").display().to_string();
    for place in [file, cluster.database("workshops")] {
        let mut service = Service::start(&place);
        let laptop = service.join(&service.code, "laptop");
        let phone = service.join_by(&laptop, "phone");
        let mut near = Socket::open(&service, &laptop, 0).await;
        let mut far = Socket::open(&service, &phone, 0).await;
        far.until(&json!({ "last": 0 })).await;

        let (recipe, change) = change_of(LARGEST);
        let pieces = cut(&frame::write(NAME, Message::Update(&change)));
        let (first, rest) = pieces.split_at(pieces.len() / 2);
        for piece in first {
            assert!(near.raw(piece.clone()).await);
        }
        near.until(&json!({ "pieces": first.len() })).await;
        // What is small is kept and passed on meanwhile.
        let small = json!({ "name": "small" });
        let small = Document::new(5).write(&Value::Null, &small).unwrap();
        assert!(near.send("recipe/small", 2, &small).await);
        near.until(&json!({ "saved": 1 })).await;
        let heard = far.until(&json!({ "last": 1 })).await;
        assert_eq!(about(&heard, "recipe/small"), [&*small]);
        for piece in rest {
            assert!(near.raw(piece.clone()).await);
        }
        near.until(&json!({ "saved": 2 })).await;
        let heard = far.until(&json!({ "last": 2 })).await;
        assert!(about(&heard, NAME) == [&*change], "all of it");

        // It outlasts the server, and whoever comes later has it.
        service.kill();
        let service = Service::start(&place);
        let mut late = Socket::open(&service, &phone, 0).await;
        let heard = late.until(&json!({ "last": 2 })).await;
        assert!(about(&heard, NAME) == [&*change], "all of it");
        assert_eq!(late.fetch(NAME).await.read().0, Some(recipe));
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_too_large_or_torn_ends_that_connection_alone() {
    let harbour = harbour();
    let (service, laptop, phone) = harbour.parts();
    let mut other = Socket::open(service, phone, 0).await;
    other.until(&json!({ "last": 0 })).await;
    let (_, change) = change_of(LARGEST + 1);
    let pieces = cut(&frame::write(NAME, Message::Update(&change)));
    // It says at once how large all of it is.
    let too_large = vec![pieces[0].clone()];
    let (_, change) = change_of(3 * WHOLE);
    let pieces = cut(&frame::write(NAME, Message::Update(&change)));
    let torn = vec![pieces[0].clone(), pieces[2].clone()];
    for wrong in [too_large, torn] {
        let mut socket = Socket::open(service, laptop, 0).await;
        for piece in wrong {
            socket.raw(piece).await;
        }
        assert_eq!(socket.end().await, Some(4400));
    }
    // What is left unfinished is nothing.
    let mut socket = Socket::open(service, laptop, 0).await;
    assert!(socket.raw(pieces[0].clone()).await);
    socket.until(&json!({ "pieces": 1 })).await;
    drop(socket);
    let mut again = Socket::open(service, laptop, 0).await;
    again.until(&json!({ "last": 0 })).await;
    assert!(again.send(NAME, 2, &change).await);
    again.until(&json!({ "saved": 1 })).await;
    let heard = other.until(&json!({ "last": 1 })).await;
    assert_eq!(about(&heard, NAME), [&*change]);
}
