//! The same for both stores.

#![expect(
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::sync::Arc;

use common::{Cluster, Folder};
use foldwright_api::{MOST_PHOTOS, Photo, ROOM_FOR_PHOTOS};
use foldwright_document::Document;
use foldwright_sync::Hub;
use foldwright_sync::store::{
    Change, Device, News, Postgres, Share, Sqlite, Store, Trouble, Workshop,
};
use serde_json::{Value, json};

fn change(workshop: &str, document: &str, update: &[u8]) -> Change {
    Change {
        workshop: workshop.to_owned(),
        document: document.to_owned(),
        update: update.into(),
    }
}

fn workshop(id: &str) -> Workshop {
    Workshop {
        id: id.to_owned(),
        name: format!("the {id} workshop"),
    }
}

fn bytes(kept: &[foldwright_sync::store::Kept]) -> Vec<(i64, &str, &[u8])> {
    kept.iter()
        .map(|kept| (kept.number, &*kept.document, &*kept.update))
        .collect()
}

/// Everything a store promises.
async fn suite(store: &dyn Store) {
    store.add_workshop(&workshop("harbour"), 1).await.unwrap();
    store.add_workshop(&workshop("hill"), 2).await.unwrap();
    store.add_workshop(&workshop("hill"), 3).await.unwrap();
    let all = store.workshops().await.unwrap();
    assert_eq!(all, [workshop("harbour"), workshop("hill")]);
    changes(store).await;
    devices(store).await;
    codes(store).await;
    shares(store).await;
    photos(store).await;
    store.check().await.unwrap();
}

async fn changes(store: &dyn Store) {
    let numbers = store
        .append(&[
            change("harbour", "recipe/a", b"a1"),
            change("hill", "recipe/a", b"other"),
            change("harbour", "recipe/b", b""),
        ])
        .await
        .unwrap();
    assert_eq!(numbers, [1, 1, 2]);
    let all = [
        change("harbour", "recipe/a", b"a2"),
        change("nowhere", "x", b"x"),
    ];
    assert!(
        store.append(&all).await.is_err(),
        "there is no such workshop"
    );
    assert_eq!(store.last("harbour").await.unwrap(), 2, "all or none");
    store.append(&all[..1]).await.unwrap();

    let since = |number| store.since("harbour", number);
    let a1 = (1, "recipe/a", &b"a1"[..]);
    let b = (2, "recipe/b", &b""[..]);
    let a2 = (3, "recipe/a", &b"a2"[..]);
    assert_eq!(bytes(&since(0).await.unwrap()), [a1, b, a2]);
    assert_eq!(bytes(&since(2).await.unwrap()), [a2]);
    assert_eq!(bytes(&since(3).await.unwrap()), []);
    let document = store.document("harbour", "recipe/a").await.unwrap();
    assert_eq!(bytes(&document), [a1, a2]);
    assert_eq!(store.document("hill", "recipe/b").await.unwrap().len(), 0);
    let state = |document| store.state("harbour", document);
    assert_eq!(state("recipe/a").await.unwrap(), Some(3));
    assert_eq!(state("recipe/c").await.unwrap(), None);

    let scattered = [("harbour".to_owned(), "recipe/a".to_owned())];
    assert_eq!(store.scattered(2).await.unwrap(), scattered);
    store
        .append(&[change("harbour", "recipe/a", b"a3")])
        .await
        .unwrap();
    store
        .compact("harbour", "recipe/a", 3, b"a1a2")
        .await
        .unwrap();
    let whole = (3, "recipe/a", &b"a1a2"[..]);
    let a3 = (4, "recipe/a", &b"a3"[..]);
    let document = store.document("harbour", "recipe/a").await.unwrap();
    assert_eq!(bytes(&document), [whole, a3]);
    assert_eq!(state("recipe/a").await.unwrap(), Some(4));
    assert_eq!(store.taken("harbour").await.unwrap(), 6, "a1a2 and a3");
    assert_eq!(store.taken("nowhere").await.unwrap(), 0);
    assert_eq!(bytes(&since(0).await.unwrap()), [b, whole, a3]);
    // Who comes later with less changes nothing.
    store
        .compact("harbour", "recipe/a", 1, b"a1")
        .await
        .unwrap();
    assert_eq!(bytes(&since(0).await.unwrap()), [b, whole, a3]);
    assert_eq!(
        bytes(&store.since("hill", 0).await.unwrap()),
        [(1, "recipe/a", &b"other"[..])]
    );

    // Much comes in several parts, in order and without gaps.
    let much = vec![7; 100_000];
    let many: Vec<_> = (0..20).map(|_| change("hill", "recipe/m", &much)).collect();
    store.append(&many).await.unwrap();
    let (mut number, mut parts) = (1, 0);
    loop {
        let kept = store.since("hill", number).await.unwrap();
        for kept in &kept {
            number += 1;
            assert_eq!(kept.number, number);
        }
        if kept.is_empty() {
            break;
        }
        parts += 1;
    }
    assert_eq!(number, 21);
    assert!(parts > 1);
}

async fn devices(store: &dyn Store) {
    let device = |id: &str, workshop: &str| Device {
        id: id.to_owned(),
        workshop: workshop.to_owned(),
        name: format!("{id}’s phone"),
        made: 5,
        seen: 5,
        revoked: false,
    };
    let kai = device("kai", "harbour");
    store.add_device(&kai, &[1; 32]).await.unwrap();
    store
        .add_device(&device("ann", "hill"), &[2; 32])
        .await
        .unwrap();
    assert!(
        store
            .add_device(&device("eve", "hill"), &[1; 32])
            .await
            .is_err()
    );
    assert_eq!(store.device(&[1; 32]).await.unwrap(), Some(kai));
    assert_eq!(store.device(&[3; 32]).await.unwrap(), None);
    store.seen("kai", 9).await.unwrap();
    assert_eq!(store.devices("harbour").await.unwrap()[0].seen, 9);
    assert!(
        !store.revoke("hill", "kai", "laptop").await.unwrap(),
        "not theirs to revoke"
    );
    assert!(store.revoke("harbour", "kai", "laptop").await.unwrap());
    assert!(
        !store.revoke("harbour", "kai", "laptop").await.unwrap(),
        "once"
    );
    assert_eq!(store.device(&[1; 32]).await.unwrap(), None);
    assert!(store.devices("harbour").await.unwrap()[0].revoked);
}

async fn codes(store: &dyn Store) {
    let harbour = workshop("harbour");
    store.offer(&[1; 32], &harbour, 100).await.unwrap();
    store.offer(&[2; 32], &harbour, 200).await.unwrap();
    assert_eq!(store.accept(&[9; 32], 50).await.unwrap(), None);
    assert_eq!(store.accept(&[1; 32], 50).await.unwrap(), Some(harbour));
    assert_eq!(store.accept(&[1; 32], 50).await.unwrap(), None, "once");
    assert_eq!(store.accept(&[2; 32], 201).await.unwrap(), None, "in time");
}

async fn shares(store: &dyn Store) {
    let share = Share {
        id: "s1".to_owned(),
        workshop: "harbour".to_owned(),
        document: "recipe/a".to_owned(),
        made: 7,
    };
    store.share(&share, &[1; 32]).await.unwrap();
    assert_eq!(store.shared(&[1; 32]).await.unwrap().as_ref(), Some(&share));
    assert_eq!(store.shared(&[2; 32]).await.unwrap(), None);
    assert_eq!(store.shares("harbour").await.unwrap(), [share]);
    assert_eq!(store.shares("hill").await.unwrap(), []);
    assert!(
        !store.unshare("hill", "s1").await.unwrap(),
        "not theirs to end"
    );
    assert!(store.unshare("harbour", "s1").await.unwrap());
    assert_eq!(store.shared(&[1; 32]).await.unwrap(), None);
}

async fn photos(store: &dyn Store) {
    let names = |photos: Vec<Photo>| {
        let photos = photos.into_iter();
        photos
            .map(|photo| (photo.name, photo.bytes))
            .collect::<Vec<_>>()
    };
    let taken = store.taken("harbour").await.unwrap();
    assert!(store.keep_photo("harbour", "b", b"rope").await.unwrap());
    assert!(store.keep_photo("harbour", "a", b"net\0").await.unwrap());
    assert!(store.keep_photo("hill", "a", b"other").await.unwrap());
    let all = [("a".to_owned(), 4), ("b".to_owned(), 4)];
    assert_eq!(names(store.photos("harbour").await.unwrap()), all);
    assert_eq!(store.taken("harbour").await.unwrap(), taken + 8);
    let file = |workshop, name| store.photo(workshop, name);
    assert_eq!(
        file("harbour", "a").await.unwrap().as_deref(),
        Some(&b"net\0"[..])
    );
    assert_eq!(
        file("hill", "a").await.unwrap().as_deref(),
        Some(&b"other"[..])
    );
    assert_eq!(file("hill", "b").await.unwrap(), None, "not theirs");
    assert!(!store.forget_photo("hill", "b").await.unwrap());
    assert!(store.forget_photo("harbour", "b").await.unwrap());
    assert!(!store.forget_photo("harbour", "b").await.unwrap(), "once");

    // Room ends by number; what is there already takes none, and others have theirs.
    for number in 1..MOST_PHOTOS {
        let name = format!("n{number:03}");
        assert!(store.keep_photo("harbour", &name, b"x").await.unwrap());
    }
    assert!(!store.keep_photo("harbour", "more", b"x").await.unwrap());
    assert!(store.keep_photo("harbour", "a", b"net\0").await.unwrap());
    assert!(store.keep_photo("hill", "more", b"x").await.unwrap());
    assert_eq!(store.photos("harbour").await.unwrap().len(), MOST_PHOTOS);
    assert!(store.forget_photo("harbour", "a").await.unwrap());
    assert!(store.keep_photo("harbour", "more", b"x").await.unwrap());
    // And by size.
    let tenth = vec![7; usize::try_from(ROOM_FOR_PHOTOS / 10).unwrap()];
    for number in 0..9 {
        let name = format!("large{number}");
        assert!(store.keep_photo("hill", &name, &tenth).await.unwrap());
    }
    assert!(!store.keep_photo("hill", "large9", &tenth).await.unwrap());
    assert_eq!(
        file("hill", "large8").await.unwrap().map(|it| it.len()),
        Some(tenth.len())
    );
    for number in 0..9 {
        let name = format!("large{number}");
        assert!(store.forget_photo("hill", &name).await.unwrap());
    }
}

/// Many write at once, each a workshop of its own and one in common: numbers
/// rise by one, and nobody sees a number before all lower ones.
async fn at_once(stores: Vec<Arc<dyn Store>>) {
    stores[0]
        .add_workshop(&workshop("common"), 1)
        .await
        .unwrap();
    let reader = {
        let store = Arc::clone(&stores[0]);
        tokio::spawn(async move {
            let mut number = 0;
            while number < 200 {
                for kept in store.since("common", number).await.unwrap() {
                    assert_eq!(kept.number, number + 1, "a gap");
                    number = kept.number;
                }
                tokio::task::yield_now().await;
            }
        })
    };
    let writers: Vec<_> = stores
        .iter()
        .cycle()
        .take(4)
        .cloned()
        .zip(0_u8..)
        .map(|(store, writer)| {
            tokio::spawn(async move {
                for count in 0_u8..50 {
                    let change = change("common", "recipe/a", &[writer, count]);
                    store.append(&[change]).await.unwrap();
                }
            })
        })
        .collect();
    for writer in writers {
        writer.await.unwrap();
    }
    reader.await.unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn sqlite_keeps_what_it_promises() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    let store = Sqlite::open(&file).await.unwrap();
    suite(&store).await;
    let disk = store.disk().await.unwrap();
    assert!(disk.free > 0 && disk.free <= disk.whole);
    // A copy made while it is open, and the file opened again.
    let copy = folder.0.join("backup.db");
    store.backup(&copy).await.unwrap();
    let before = bytes(&store.since("harbour", 0).await.unwrap()).len();
    store.close().await;
    drop(store);
    for file in [&file, &copy] {
        let store = Sqlite::open(file).await.unwrap();
        let again = store.since("harbour", 0).await.unwrap();
        assert_eq!(bytes(&again).len(), before);
        assert_eq!(store.photos("harbour").await.unwrap().len(), MOST_PHOTOS);
        assert_eq!(
            store.photo("hill", "a").await.unwrap().as_deref(),
            Some(&b"other"[..])
        );
        at_once(vec![Arc::new(store)]).await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn many_may_open_a_new_file_at_once() {
    for _ in 0..10 {
        let folder = Folder::new();
        let file = folder.0.join("workshops.db");
        let visits: Vec<_> = (0..8)
            .map(|_| {
                let file = file.clone();
                tokio::spawn(async move { Sqlite::visit(&file).await })
            })
            .collect();
        for visit in visits {
            visit.await.unwrap().unwrap().check().await.unwrap();
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn many_may_open_a_new_database_at_once() {
    let cluster = Cluster::start();
    let address = cluster.database("workshops");
    let opened: Vec<_> = (0..8)
        .map(|instance| {
            let address = address.clone();
            tokio::spawn(async move { Postgres::open(&address, instance).await })
        })
        .collect();
    for opened in opened {
        opened.await.unwrap().unwrap().check().await.unwrap();
    }
}

#[tokio::test]
async fn one_serves_a_file_and_others_visit() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    let store = Sqlite::open(&file).await.unwrap();
    store.add_workshop(&workshop("harbour"), 1).await.unwrap();
    let second = Sqlite::open(&file).await.unwrap_err();
    assert!(matches!(second, Trouble::Taken), "{second}");
    let visitor = Sqlite::visit(&file).await.unwrap();
    assert_eq!(visitor.workshops().await.unwrap(), [workshop("harbour")]);
    visitor.backup(&folder.0.join("backup.db")).await.unwrap();
    drop(store);
    Sqlite::open(&file).await.unwrap();
}

#[tokio::test]
async fn sqlite_says_what_is_wrong() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    let store = Sqlite::open(&file).await.unwrap();
    store.add_workshop(&workshop("w"), 1).await.unwrap();
    let many: Vec<_> = (0..200)
        .map(|_| change("w", "recipe/a", &[9; 2000]))
        .collect();
    store.append(&many).await.unwrap();
    store.close().await;
    let mut raw = std::fs::read(&file).unwrap();
    let middle = raw.len() / 2;
    raw[middle..middle + 6000].fill(0xAA);
    let damaged = folder.0.join("damaged.db");
    std::fs::write(&damaged, &raw).unwrap();
    let why = Sqlite::open(&damaged).await.unwrap_err().to_string();
    assert!(why.contains("damaged.db is damaged"), "{why}");
    let none = folder.0.join("none.db");
    std::fs::write(
        &none,
        "a text that is no database at all, and long enough to tell",
    )
    .unwrap();
    let why = Sqlite::open(&none).await.unwrap_err();
    assert!(matches!(why, Trouble::Foreign(_)), "{why}");
    let missing = folder.0.join("missing/workshops.db");
    let why = Sqlite::open(&missing).await.unwrap_err().to_string();
    assert!(why.contains("missing/workshops.db"), "{why}");
}

#[tokio::test(flavor = "multi_thread")]
async fn postgres_keeps_what_it_promises() {
    let cluster = Cluster::start();
    let address = cluster.database("workshops");
    let store = Arc::new(Postgres::open(&address, 1).await.unwrap());
    suite(&*store).await;

    // Another server over the same database hears of everything.
    let other = Arc::new(Postgres::open(&address, 2).await.unwrap());
    let mut news = other.listen().await.unwrap().unwrap();
    store
        .append(&[change("hill", "recipe/n", b"n")])
        .await
        .unwrap();
    let number = store.last("hill").await.unwrap();
    let changed = News::Changed("hill".to_owned(), number);
    assert_eq!(news.recv().await, Some(changed));
    assert!(store.revoke("hill", "ann", "laptop").await.unwrap());
    assert_eq!(news.recv().await, Some(News::Revoked("ann".to_owned())));
    // Not of what it did itself.
    other
        .append(&[change("hill", "recipe/n", b"m")])
        .await
        .unwrap();
    store
        .append(&[change("harbour", "recipe/n", b"n")])
        .await
        .unwrap();
    let next = news.recv().await;
    assert!(matches!(next, Some(News::Changed(workshop, _)) if workshop == "harbour"));

    at_once(vec![store.clone(), other.clone()]).await;

    // The database goes and comes back.
    cluster.stop();
    let gone = store.append(&[change("hill", "recipe/n", b"o")]).await;
    assert!(gone.is_err());
    cluster.go();
    common::until("the database", async || {
        store.append(&[change("hill", "recipe/n", b"p")]).await.ok()
    })
    .await;
    let kept = store.document("hill", "recipe/n").await.unwrap();
    let bodies: Vec<_> = kept.iter().map(|kept| kept.update.to_vec()).collect();
    assert_eq!(bodies, [b"n", b"m", b"p"]);
    while news.recv().await != Some(News::Missed) {}
    store.close().await;
    other.close().await;
}

/// What a document no longer holds is gone from the file once its changes are
/// merged.
#[tokio::test]
async fn what_was_erased_is_not_left_in_the_file() {
    const NAME: &[u8] = b"Lighthouse invitation";
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    let mut document = Document::new(7);
    let recipe = json!({ "name": String::from_utf8_lossy(NAME) });
    let written = document.write(&Value::Null, &recipe).unwrap();
    let erased = document.erase().unwrap();
    for (update, is_there) in [(written, true), (erased, false)] {
        let store = Arc::new(Sqlite::open(&file).await.unwrap());
        store.add_workshop(&workshop("harbour"), 1).await.unwrap();
        let change = change("harbour", "recipe/a", &update);
        store.append(&[change]).await.unwrap();
        let hub = Hub::start(store.clone()).await.unwrap();
        hub.compact(1).await.unwrap();
        drop(hub);
        // Closing it puts everything into the one file.
        store.close().await;
        let bytes = std::fs::read(&file).unwrap();
        let found = bytes.windows(NAME.len()).any(|part| part == NAME);
        assert_eq!(found, is_there);
    }
}
