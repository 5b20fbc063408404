//! Files that are not ours, backups that cannot be used, and who may read what
//! is kept.
//!
//! Stands for the OWASP Application Security Verification Standard 5.0, 13.3.2
//! (who may read what is secret), 5.2.2 (a file is what it is taken for), 2.3.3
//! (all or nothing) and 16.5.3 (failing leaves nothing open).

#![expect(
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use common::Folder;
use foldwright_sync::restore;
use foldwright_sync::store::{Sqlite, Store as _, Workshop};

/// Everything in a folder, by name.
fn everything(folder: &Folder) -> BTreeMap<String, Vec<u8>> {
    let files = std::fs::read_dir(&folder.0).unwrap().map(Result::unwrap);
    let named = files.map(|file| {
        let name = file.file_name().into_string().unwrap();
        (name, std::fs::read(file.path()).unwrap())
    });
    named.collect()
}

/// Lets another program, which knows nothing of us, work on a database.
fn sqlite(file: &Path, statements: &str) {
    let script = "import sqlite3,sys; c=sqlite3.connect(sys.argv[1]); \
                  c.executescript(sys.argv[2]); c.commit(); c.close()";
    let done = Command::new("python3")
        .args(["-c", script])
        .args([file.as_os_str(), statements.as_ref()])
        .status();
    assert!(done.unwrap().success());
}

async fn workshops(file: &Path) {
    let store = Sqlite::open(file).await.unwrap();
    let workshop = Workshop {
        id: "w".to_owned(),
        name: "harbour".to_owned(),
    };
    store.add_workshop(&workshop, 1).await.unwrap();
    store.close().await;
}

/// Files that are none of ours, in a folder.
fn others(folder: &Folder) -> Vec<std::path::PathBuf> {
    let in_folder = |name: &str| folder.0.join(name);
    let plain = in_folder("library.db");
    sqlite(
        &plain,
        "CREATE TABLE book (title TEXT); INSERT INTO book VALUES ('Knots');",
    );
    let logged = in_folder("tides.db");
    sqlite(
        &logged,
        "PRAGMA journal_mode = wal; CREATE TABLE tide (height REAL); INSERT INTO tide VALUES (1);",
    );
    // Tables of the same names do not make it ours.
    let alike = in_folder("stairs.db");
    sqlite(
        &alike,
        "CREATE TABLE step (height REAL); CREATE TABLE workshop (id TEXT);",
    );
    let text = in_folder("letter.txt");
    std::fs::write(&text, "Dear harbour master, the tide is late again.").unwrap();
    let short = in_folder("short");
    std::fs::write(&short, "SQLite").unwrap();
    let broken = in_folder("broken.db");
    std::fs::write(
        &broken,
        [b"SQLite format 3\0".as_slice(), &[0xA5; 5000]].concat(),
    )
    .unwrap();
    vec![plain, logged, alike, text, short, broken]
}

#[tokio::test]
async fn what_belongs_to_others_is_refused_and_left_alone() {
    let folder = Folder::new();
    let others = others(&folder);
    let before = everything(&folder);
    for other in &others {
        let name = other.display().to_string();
        for opened in [Sqlite::open(other).await, Sqlite::visit(other).await] {
            let why = opened.unwrap_err().to_string();
            assert!(why.contains(&name), "{why}");
            assert_eq!(everything(&folder), before, "{name}");
        }
    }
}

#[tokio::test]
async fn an_empty_file_may_be_filled() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    std::fs::write(&file, "").unwrap();
    workshops(&file).await;
    Sqlite::open(&file).await.unwrap();
}

#[tokio::test]
async fn what_cannot_be_restored_leaves_all_as_it_was() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    workshops(&file).await;
    let mut bad = others(&folder);
    let later = folder.0.join("later.db");
    workshops(&later).await;
    let steps = (1..99).map(|step| format!("INSERT OR IGNORE INTO step VALUES ({step});"));
    sqlite(&later, &steps.collect::<String>());
    let empty = folder.0.join("empty.db");
    std::fs::write(&empty, "").unwrap();
    let cut = folder.0.join("cut.db");
    let bytes = std::fs::read(&file).unwrap();
    std::fs::write(&cut, &bytes[..bytes.len() / 2]).unwrap();
    bad.extend([later.clone(), empty, cut, folder.0.join("missing.db")]);
    let before = everything(&folder);
    for bad in &bad {
        for place in [&file, &folder.0.join("new.db")] {
            let why = restore(bad, place).await.unwrap_err().to_string();
            assert!(why.contains(&bad.display().to_string()), "{why}");
            let mut after = everything(&folder);
            // The lock outlasts every server, too.
            after.remove("new.db-lock");
            assert_eq!(after, before, "{}", bad.display());
        }
    }
    let why = restore(&later, &file).await.unwrap_err().to_string();
    assert!(why.contains("a later Foldwright"), "{why}");
    for opened in [Sqlite::open(&later).await, Sqlite::visit(&later).await] {
        let why = opened.unwrap_err().to_string();
        assert!(why.contains("later.db was made by a later"), "{why}");
    }
    assert_eq!(everything(&folder), before);
}

/// What another server had not taken into its file comes along.
#[tokio::test]
async fn what_was_moved_aside_can_be_brought_back() {
    let folder = Folder::new();
    let (file, backup) = (folder.0.join("workshops.db"), folder.0.join("backup.db"));
    workshops(&backup).await;
    let store = Sqlite::open(&file).await.unwrap();
    let named = |name: &str| Workshop {
        id: name.to_owned(),
        name: name.to_owned(),
    };
    store.add_workshop(&named("quay"), 1).await.unwrap();
    // As after a crash: beside the file is what is not in it yet.
    let crashed = folder.0.join("crashed.db");
    for end in ["", "-wal"] {
        let from = folder.0.join(format!("workshops.db{end}"));
        std::fs::copy(from, folder.0.join(format!("crashed.db{end}"))).unwrap();
    }
    store.close().await;
    drop(store);
    let aside = restore(&backup, &crashed).await.unwrap().unwrap();
    assert!(!folder.0.join("crashed.db-wal").exists());
    restore(&aside, &crashed).await.unwrap().unwrap();
    let store = Sqlite::open(&crashed).await.unwrap();
    assert_eq!(store.workshops().await.unwrap(), [named("quay")]);
}

#[cfg(unix)]
#[tokio::test]
async fn what_is_kept_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = Folder::new();
    let modes = || {
        let files = std::fs::read_dir(&folder.0).unwrap().map(Result::unwrap);
        let modes = files.map(|file| {
            let mode = file.metadata().unwrap().permissions().mode() & 0o777;
            (file.file_name().into_string().unwrap(), mode)
        });
        modes.collect::<BTreeMap<_, _>>()
    };
    let in_folder = |name: &str| folder.0.join(name);
    let file = in_folder("workshops.db");
    let store = Sqlite::open(&file).await.unwrap();
    store.backup(&in_folder("copy.db")).await.unwrap();
    let found = modes();
    for name in ["", "-wal", "-shm", "-lock"] {
        assert!(
            found.contains_key(&format!("workshops.db{name}")),
            "{found:?}"
        );
    }
    assert!(found.values().all(|mode| *mode == 0o600), "{found:?}");
    let why = store.backup(&in_folder("copy.db")).await.unwrap_err();
    assert!(why.to_string().contains("copy.db"), "{why}");
    store.close().await;
    drop(store);

    // Files that an earlier version made, or that came back from elsewhere.
    for (name, _) in modes() {
        let all = std::fs::Permissions::from_mode(0o644);
        std::fs::set_permissions(in_folder(&name), all).unwrap();
    }
    restore(&in_folder("copy.db"), &file)
        .await
        .unwrap()
        .unwrap();
    drop(Sqlite::open(&file).await.unwrap());
    let found = modes();
    for (name, mode) in &found {
        // The backup itself is left as it is.
        assert!(name == "copy.db" || *mode == 0o600, "{found:?}");
    }
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o666)).unwrap();
    drop(Sqlite::open(&file).await.unwrap());
    assert_eq!(modes().get("workshops.db"), Some(&0o600));
}
