//! The store is in trouble while devices are connected: they are told, nothing
//! acknowledged is lost, and work goes on without a restart once it is over.

#![expect(
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};

use common::service::{Heard, Service, Socket, harbour, program};
use common::{Cluster, Folder};
use foldwright_document::Document;
use foldwright_sync::store::{Sqlite, Store as _};
use serde_json::json;

/// Come again later.
const LATER: Option<u16> = Some(1013);
/// Letters that a change brings along, so that a disk fills up.
const MUCH: usize = 20_000;

fn done(program: &str, arguments: &[&str]) -> bool {
    let status = Command::new(program)
        .args(arguments)
        .stderr(Stdio::null())
        .status();
    status.is_ok_and(|status| status.success())
}

/// Makes changes until the connection ends: those acknowledged, and what the
/// server said at the end.
async fn until_trouble(
    service: &Service,
    key: &str,
    document: &mut Document,
    most: usize,
) -> (Vec<String>, String, Option<u16>) {
    let mut socket = Socket::open(service, key, 0).await;
    let mut sent = Vec::new();
    let mut saved = 0;
    let mut trouble = String::new();
    // What did not arrive before goes first, as devices send it: changes after a
    // gap are kept, and show once the gap is filled.
    let mine = document.counts();
    if !mine.is_empty() {
        let theirs = socket.fetch("recipe/a").await;
        let there = theirs.counts();
        if let Some(edit) = mine.into_keys().find(|edit| !there.contains_key(edit)) {
            let rest = document.since(&theirs.state()).unwrap();
            socket.send("recipe/a", 2, &rest).await;
            sent.push(edit);
        }
    }
    loop {
        while sent.len() < (saved + 4).min(most) {
            let edit = format!("{}{}", "x".repeat(MUCH), document.counts().len());
            let update = document.add(&edit, 1).unwrap();
            sent.push(edit);
            if !socket.send("recipe/a", 2, &update).await {
                break;
            }
        }
        match socket.hear().await {
            Heard::Said(said) => {
                if let Some(now) = said["saved"].as_u64() {
                    saved = usize::try_from(now).unwrap();
                }
                if let Some(why) = said["trouble"].as_str() {
                    why.clone_into(&mut trouble);
                }
                if saved == most {
                    return (sent, trouble, None);
                }
            }
            Heard::About(..) => {}
            Heard::End(code) => {
                sent.truncate(saved);
                return (sent, trouble, code);
            }
        }
    }
}

async fn kept(service: &Service, key: &str) -> BTreeMap<String, i64> {
    let mut socket = Socket::open(service, key, 0).await;
    socket.fetch("recipe/a").await.counts()
}

/// Fills a disk, checks what is said, makes room again and goes on.
async fn fill(service: &Service, file: &Path, clear: &str, make_room: impl FnOnce()) {
    let laptop = service.join(&service.code, "laptop");
    let mut document = Document::new(5);
    let (first, ..) = until_trouble(service, &laptop, &mut document, 5).await;
    let (more, trouble, code) = until_trouble(service, &laptop, &mut document, 500).await;
    assert!(trouble == clear, "it says what is wrong: {trouble:?}");
    assert_eq!(code, LATER);
    // What is there can be read all the same.
    let there = kept(service, &laptop).await;
    for edit in first.iter().chain(&more) {
        assert!(there.contains_key(edit), "it was acknowledged");
    }
    let (again, trouble, code) = until_trouble(service, &laptop, &mut document, 100).await;
    assert!(again.len() < 100, "there is no room yet");
    assert!(trouble == clear && code == LATER, "{trouble:?}");
    make_room();
    let (last, trouble, _) = until_trouble(service, &laptop, &mut document, 10).await;
    assert_eq!((last.len(), &*trouble), (10, ""), "without a restart");
    let there = kept(service, &laptop).await;
    for edit in [first, more, again, last].iter().flatten() {
        assert!(there.contains_key(edit), "it was acknowledged");
    }
    Sqlite::visit(file).await.unwrap().check().await.unwrap();
}

/// A file that may not grow, as with a quota.
#[tokio::test(flavor = "multi_thread")]
async fn a_file_that_may_not_grow() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    let mut command = Command::new("bash");
    command
        .args(["-c", "trap '' XFSZ; ulimit -S -f 2048; exec \"$0\" \"$1\""])
        .arg(program())
        .arg(&file);
    let service = Service::run(command).unwrap();
    let process = service.process().to_string();
    fill(&service, &file, "away", || {
        assert!(done("prlimit", &["--pid", &process, "--fsize=unlimited"]));
    })
    .await;
}

/// A disk without room. Disks are mounted by root alone; elsewhere the test
/// above stands for both.
#[tokio::test(flavor = "multi_thread")]
async fn a_full_disk() {
    let folder = Folder::new();
    let disk = Disk(folder.0.join("disk"));
    let path = disk.0.to_str().unwrap();
    std::fs::create_dir(&disk.0).unwrap();
    if !done("mount", &["-t", "tmpfs", "-o", "size=2m", "none", path]) {
        println!("No disk may be mounted here: only the limit of a file was tested.");
        return;
    }
    let file = disk.0.join("workshops.db");
    let service = Service::start(&file.display().to_string());
    fill(&service, &file, "full", || {
        assert!(done("mount", &["-o", "remount,size=64m", path]));
    })
    .await;
}

/// A mounted disk.
struct Disk(std::path::PathBuf);

impl Drop for Disk {
    fn drop(&mut self) {
        // Lazily: whoever has files open there is about to end.
        done("umount", &["-l", &self.0.display().to_string()]);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_folder_that_may_only_be_read() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let mut document = Document::new(5);
    let (edits, ..) = until_trouble(service, laptop, &mut document, 5).await;
    let disk = Disk(harbour.folder.0.clone());
    let path = disk.0.to_str().unwrap();
    let key = laptop.to_owned();
    let file = harbour.file().display().to_string();
    drop(harbour.service);
    // Root may write wherever the disk lets it.
    let mounted =
        done("mount", &["--bind", path, path]) && done("mount", &["-o", "remount,bind,ro", path]);
    assert!(mounted || done("chmod", &["-R", "a-w", path]));
    if !mounted && std::fs::write(disk.0.join("probe"), b"").is_ok() {
        println!("Nothing can be kept from being written here: not tested.");
        return;
    }
    let said = Service::try_start(&file).err().expect("it does not start");
    assert!(
        said.contains("ReadOnly") || said.contains("may not write"),
        "{said}"
    );
    if mounted {
        assert!(done("umount", &[path]));
    } else {
        assert!(done("chmod", &["-R", "u+w", path]));
    }
    let service = Service::start(&file);
    let there = kept(&service, &key).await;
    assert!(edits.iter().all(|edit| there.contains_key(edit)));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_database_that_goes_and_comes_back() {
    let cluster = Cluster::start();
    let place = cluster.database("workshops");
    let one = Service::start(&place);
    let other = Service::start(&place);
    let laptop = one.join(&one.code, "laptop");
    let phone = other.join_by(&laptop, "phone");
    let mut document = Document::new(5);
    let stop = async {
        tokio::time::sleep(std::time::Duration::from_millis(700)).await;
        cluster.stop();
    };
    let (first, ()) = tokio::join!(until_trouble(&one, &laptop, &mut document, 100_000), stop);
    let (first, trouble, code) = first;
    assert!(!first.is_empty());
    assert!(["away", "other"].contains(&&*trouble), "{trouble:?}");
    assert_eq!(code, LATER);
    let (complaint, code) = Socket::open(&one, &laptop, 0).await.complaint().await;
    assert_eq!(complaint, "away");
    assert_eq!(code, LATER);
    let (status, said) = one.ask("workshop/devices", &json!({ "key": laptop }));
    assert_eq!(status, 503, "{said}");
    assert!(said["Trouble"] == "away", "{said}");

    cluster.go();
    let (last, trouble, _) = until_trouble(&one, &laptop, &mut document, 10).await;
    assert_eq!((last.len(), &*trouble), (10, ""), "without a restart");
    let there = kept(&one, &laptop).await;
    for edit in first.iter().chain(&last) {
        assert!(there.contains_key(edit), "it was acknowledged");
    }
    // The servers hear of each other again.
    let mut far = Socket::open(&other, &phone, 0).await;
    far.caught_up().await;
    common::until("news of the other server", async || {
        let mut socket = Socket::open(&one, &laptop, 0).await;
        socket.caught_up().await;
        let update = document.add("news", 1)?;
        socket.send("recipe/b", 2, &update).await.then_some(())?;
        let near = async { socket.until(&json!({ "saved": 1 })).await };
        near.await;
        far.soon().await
    })
    .await;
}
