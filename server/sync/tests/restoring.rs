//! A backup made under load is restored: nothing acknowledged before it is
//! missing, and what devices had after it comes back from them.

#![expect(
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::collections::BTreeSet;
use std::path::Path;

use common::Folder;
use common::service::{Heard, Service, Socket, harbour};
use foldwright_document::Document;
use foldwright_sync::restore;
use foldwright_sync::store::{Sqlite, Store as _, Trouble};
use serde_json::json;

/// A device as the app is one: it keeps its documents and the number of the
/// last change it has, and compares each document once it has caught up.
struct Device {
    key: String,
    since: i64,
    document: Document,
}

impl Device {
    /// Takes in what comes, and gives what is asked, until both sides have
    /// everything.
    async fn meet(&mut self, service: &Service) {
        let mut socket = Socket::open(service, &self.key, self.since).await;
        let mut asked = false;
        loop {
            match socket.hear().await {
                Heard::About(_, 0, state) => {
                    let rest = self.document.since(&state).unwrap();
                    assert!(socket.send("recipe/a", 1, &rest).await);
                    socket.until(&json!({ "saved": 1 })).await;
                    return;
                }
                Heard::About(name, _, update) => {
                    assert_eq!(name, "recipe/a");
                    self.document.apply(&update).unwrap();
                }
                Heard::Said(said) => {
                    let Some(last) = said.get("last").and_then(serde_json::Value::as_i64) else {
                        continue;
                    };
                    self.since = last;
                    if !asked {
                        asked = true;
                        let state = self.document.state();
                        assert!(socket.send("recipe/a", 0, &state).await);
                    }
                }
                Heard::End(code) => panic!("ended with {code:?}"),
            }
        }
    }

    fn has(&self) -> BTreeSet<String> {
        self.document.counts().into_keys().collect()
    }
}

/// Writes until it is told to stop; what was acknowledged, as it grows.
async fn write(service: &Service, device: &mut Device, edits: u32, name: &str) -> Vec<String> {
    let mut socket = Socket::open(service, &device.key, device.since).await;
    socket.caught_up().await;
    let mut acknowledged = Vec::new();
    for number in 1..=edits {
        let edit = format!("{name}{number}");
        let update = device.document.add(&edit, 1).unwrap();
        assert!(socket.send("recipe/a", 2, &update).await);
        socket.until(&json!({ "saved": number })).await;
        acknowledged.push(edit);
    }
    acknowledged
}

async fn back_up(file: &Path, to: &Path) {
    let store = Sqlite::visit(file).await.unwrap();
    store.backup(to).await.unwrap();
    store.close().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_lost_comes_back_from_the_devices() {
    let harbour = harbour();
    let file = harbour.file();
    let backup = harbour.folder.0.join("backup.db");
    let device = |key: &str, writer| Device {
        key: key.to_owned(),
        since: 0,
        document: Document::new(writer),
    };
    let (mut laptop, mut phone) = (device(&harbour.laptop, 1), device(&harbour.phone, 2));
    let service = harbour.service;
    let before = write(&service, &mut laptop, 40, "before").await;
    // Both write while everything is copied.
    let (during, also, ()) = tokio::join!(
        write(&service, &mut laptop, 100, "during"),
        write(&service, &mut phone, 100, "also"),
        back_up(&file, &backup),
    );
    let after = write(&service, &mut phone, 30, "after").await;
    laptop.meet(&service).await;
    phone.meet(&service).await;
    let reached = phone.since;

    // Not under a server that has the file.
    let taken = restore(&backup, &file).await.unwrap_err();
    assert!(matches!(taken, Trouble::Taken), "{taken}");
    drop(service);
    let aside = restore(&backup, &file).await.unwrap().unwrap();
    assert_eq!(aside, file.with_file_name("workshops.db.before-restore-1"));
    let lost = Sqlite::visit(&aside).await.unwrap();
    lost.check().await.unwrap();
    lost.close().await;

    let service = Service::start(&file.display().to_string());
    assert_eq!(service.code, "", "it is claimed");
    let key = laptop.key.clone();
    let kept = Socket::open(&service, &key, 0)
        .await
        .fetch("recipe/a")
        .await;
    let kept = kept.counts();
    for edit in &before {
        assert!(kept.contains_key(edit), "{edit} was in the backup");
    }
    assert!(!kept.contains_key("after30"), "this came later");
    // The server has gone on before the phone is back, with more changes than
    // it had: their numbers are none the phone has seen.
    let mut tablet = device(&service.join_by(&key, "tablet"), 3);
    let more = u32::try_from(reached).unwrap() + 5;
    let newer = write(&service, &mut tablet, more, "newer").await;
    phone.meet(&service).await;
    laptop.meet(&service).await;
    tablet.meet(&service).await;
    let everything: BTreeSet<String> = [before, during, also, after, newer]
        .into_iter()
        .flatten()
        .collect();
    for device in [&laptop, &phone, &tablet] {
        assert_eq!(device.has(), everything);
    }

    // Once more: another name is found for what is moved aside.
    drop(service);
    let aside = restore(&backup, &file).await.unwrap().unwrap();
    assert_eq!(aside, file.with_file_name("workshops.db.before-restore-2"));
}

#[tokio::test]
async fn only_a_sound_backup_is_restored() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    let store = Sqlite::open(&file).await.unwrap();
    let workshop = foldwright_sync::store::Workshop {
        id: "w".to_owned(),
        name: "harbour".to_owned(),
    };
    store.add_workshop(&workshop, 1).await.unwrap();
    let good = folder.0.join("good.db");
    store.backup(&good).await.unwrap();
    store.close().await;
    drop(store);
    let before = std::fs::read(&file).unwrap();

    let text = folder.0.join("text.db");
    std::fs::write(&text, "a text that is no database at all").unwrap();
    let empty = folder.0.join("empty.db");
    std::fs::write(&empty, "").unwrap();
    let cut = folder.0.join("cut.db");
    let bytes = std::fs::read(&good).unwrap();
    std::fs::write(&cut, bytes.get(..bytes.len() / 2).unwrap()).unwrap();
    for bad in [&text, &empty, &cut, &folder.0.join("missing.db")] {
        let why = restore(bad, &file).await.expect_err("no backup");
        assert!(!why.to_string().is_empty());
        assert_eq!(std::fs::read(&file).unwrap(), before, "{}", bad.display());
    }
    assert!(!folder.0.join("workshops.db.before-restore-1").exists());
    // Where there is nothing yet, nothing is moved.
    let new = folder.0.join("new.db");
    assert_eq!(restore(&good, &new).await.unwrap(), None);
    let store = Sqlite::open(&new).await.unwrap();
    assert_eq!(store.workshops().await.unwrap(), [workshop]);
}
