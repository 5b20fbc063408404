//! What the server's binary does with workshops from the command line.

use std::path::Path;

use tempfile::TempDir;

use crate::running::{Started, run};

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

/// The folder's files, by name.
fn names(folder: &TempDir) -> Vec<String> {
    let files = std::fs::read_dir(folder.path()).expect("it is there");
    let names = files.map(|file| file.expect("a file").file_name());
    let mut names: Vec<_> = names
        .map(|name| name.to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

#[test]
fn what_belongs_to_another_program_is_left_alone() {
    let folder = TempDir::new().expect("a folder");
    let other = folder.path().join("library.db");
    let script = "import sqlite3,sys; c=sqlite3.connect(sys.argv[1]); \
                  c.executescript('CREATE TABLE book (title TEXT)'); c.close()";
    let made = std::process::Command::new("python3")
        .args(["-c", script])
        .arg(&other)
        .status();
    assert!(made.expect("Python 3 is installed").success());
    let text = folder.path().join("letter.txt");
    std::fs::write(&text, "Dear harbour master, the tide is late.").expect("a file");
    let copy = folder.path().join("copy.db");
    let copy = copy.to_str().expect("a plain path");
    for other in [&other, &text] {
        let before = std::fs::read(other).expect("a file");
        for arguments in [
            &["--port", "0"][..],
            &["--backup", copy],
            &["--code-for", "Quay guild"],
        ] {
            let (done, words) = said(other, arguments);
            assert!(!done && words.contains("--data"), "{arguments:?}: {words}");
            assert!(words.contains(&other.display().to_string()), "{words}");
            assert!(words.contains("another program"), "{words}");
        }
        assert_eq!(std::fs::read(other).expect("a file"), before);
    }
    assert_eq!(names(&folder), ["letter.txt", "library.db"]);
}

#[test]
fn a_backup_that_cannot_be_used_is_named_and_leaves_nothing_behind() {
    let folder = TempDir::new().expect("a folder");
    let data = folder.path().join("workshops.db");
    let in_folder = |name: &str| {
        let path = folder.path().join(name);
        path.to_str().expect("a plain path").to_owned()
    };
    assert!(said(&data, &["--code-for", "Quay guild"]).0);
    let later = in_folder("later.db");
    assert!(said(&data, &["--backup", &later]).0);
    let script = "import sqlite3,sys; c=sqlite3.connect(sys.argv[1]); \
                  c.executescript('INSERT INTO step VALUES (99)'); c.close()";
    let made = std::process::Command::new("python3")
        .args(["-c", script, &later])
        .status();
    assert!(made.expect("Python 3 is installed").success());
    let garbage = in_folder("garbage.db");
    std::fs::write(&garbage, [0xA5; 9000]).expect("a file");
    let before = names(&folder);
    // Whoever only looked in has closed the file: nothing stays beside it.
    assert_eq!(before, ["garbage.db", "later.db", "workshops.db"]);
    for (backup, why) in [
        (&later, "a later Foldwright"),
        (&garbage, "Name a file that --backup made"),
        (&in_folder("none.db"), "Name a file that --backup made"),
    ] {
        let (done, words) = said(&data, &["--restore", backup]);
        assert!(
            !done && words.starts_with("Nothing was restored."),
            "{words}"
        );
        assert!(words.contains(backup) && words.contains(why), "{words}");
        let stays = format!("What {} holds is as it was.", data.display());
        assert!(words.contains(&stays), "{words}");
        assert_eq!(names(&folder), before);
    }
    let (done, words) = said(Path::new(&later), &["--port", "0"]);
    assert!(!done && words.contains("a later Foldwright"), "{words}");
    // A backup of what is not there would be an empty one.
    let missing = folder.path().join("mistyped.db");
    let (done, words) = said(&missing, &["--backup", &in_folder("empty.db")]);
    assert!(!done && words.contains("mistyped.db"), "{words}");
    let (done, words) = said(&data, &["--backup", &later]);
    assert!(!done && words.contains("Name a new file."), "{words}");
    assert_eq!(names(&folder), before);
}

#[test]
fn a_server_that_stops_leaves_everything_in_its_file() {
    let mut server = Started::with(&[]);
    let asked = std::process::Command::new("kill")
        .args(["-TERM", &server.process.id().to_string()])
        .status()
        .expect("kill is a standard command");
    assert!(asked.success());
    assert!(server.process.wait().expect("the server ends").success());
    let names = names(&server.folder);
    assert_eq!(names, ["workshops.db", "workshops.db-lock"]);
}

#[test]
fn a_workshop_needs_a_name() {
    let folder = TempDir::new().expect("a folder");
    let data = folder.path().join("workshops.db");
    for name in ["", " ", "\u{200b}"] {
        let (done, words) = said(&data, &["--code-for", name]);
        assert!(!done && words.contains("needs a name"), "{name:?}: {words}");
    }
}
