//! What the server's binary does with workshops from the command line.

use std::path::Path;

use tempfile::TempDir;

use crate::running::run;

/// What the binary said, and whether it was content.
fn said(data: &Path, arguments: &[&str]) -> (bool, String) {
    let data = data.to_str().expect("a plain path");
    let output = run(&[&["--data", data], arguments].concat());
    let out = String::from_utf8_lossy(&output.stdout).into_owned();
    let all = out + &String::from_utf8_lossy(&output.stderr);
    (output.status.success(), all)
}

#[test]
fn a_backup_is_made_and_put_back() {
    let folder = TempDir::new().expect("a folder");
    let data = folder.path().join("workshops.db");
    let copy = folder.path().join("copy.db");
    let copy = copy.to_str().expect("a plain path");
    let invite = ["--code-for", "Quay guild"];
    let (done, words) = said(&data, &invite);
    assert!(done && words.contains("“Quay guild”"), "{words}");

    let (done, words) = said(&data, &["--backup", copy]);
    assert!(done && words.contains("copied into"), "{words}");
    let (done, words) = said(&data, &["--backup", copy]);
    assert!(!done, "a backup is never written over: {words}");

    let (done, words) = said(&data, &["--restore", copy]);
    assert!(
        done && words.contains("What was there before is now"),
        "{words}"
    );
    let before = std::fs::read_dir(folder.path())
        .expect("it is there")
        .count();
    assert!(before >= 3, "what was there is kept: {before}");
    let (done, words) = said(&data, &invite);
    assert!(done, "what is back can be worked on: {words}");

    let (done, words) = said(&data, &["--restore", "none.db"]);
    assert!(!done && !words.is_empty(), "{words}");
}

#[test]
fn a_database_is_restored_with_its_own_tools() {
    let data = Path::new("postgres://nobody@127.0.0.1:1/none");
    let (done, words) = said(data, &["--restore", "copy.db"]);
    assert!(!done && words.contains("pg_restore"), "{words}");
    assert!(words.contains("UPDATE workshop SET last"), "{words}");
}
