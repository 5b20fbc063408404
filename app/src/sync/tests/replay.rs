//! Another library, in another language, that replays histories: `yjs`, by
//! `tests/peer/replay.js`.

use std::io::{BufRead as _, BufReader, Lines, Write as _};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_document::Document;
use serde_json::{Value, json};

/// The other library, at work.
pub(super) struct Replay {
    process: Child,
    lines: Lines<BufReader<ChildStdout>>,
}

impl Replay {
    pub(super) fn start() -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/peer");
        assert!(
            folder.join("node_modules").is_dir(),
            "the peer needs its packages: npm ci --prefix tests/peer"
        );
        let mut process = Command::new("node")
            .arg(folder.join("replay.js"))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("Node is installed");
        let out = process.stdout.take().expect("its output");
        let lines = BufReader::new(out).lines();
        Self { process, lines }
    }

    /// Lets it make a document of these changes, and compares that with ours:
    /// its maps and texts, and what we read in what it writes.
    pub(super) fn compare(&mut self, seed: u64, changes: &[&[u8]], ours: &Document) {
        let updates: Vec<_> = changes
            .iter()
            .map(|it| BASE64_STANDARD.encode(it))
            .collect();
        let mut input = self.process.stdin.as_ref().expect("its input");
        writeln!(input, "{}", json!({ "updates": updates })).expect("it listens");
        let said = self.lines.next().expect("it goes on").expect("a line");
        let said: Value = serde_json::from_str(&said).expect("JSON");
        let object = ours.read().0.expect("an object");
        assert_eq!(said["object"]["name"], object["name"], "seed {seed}");
        let notes = object["notes"].as_object().expect("notes");
        let texts = said["texts"].as_object().expect("texts");
        for (step, note) in notes {
            assert_eq!(
                texts.get(&format!("notes.{step}")),
                Some(note),
                "seed {seed}"
            );
        }
        let whole = BASE64_STANDARD.decode(said["whole"].as_str().expect("text"));
        let theirs = Document::open(1, &whole.expect("base64")).expect("a document");
        assert_eq!(theirs.read(), ours.read(), "seed {seed}");
        assert_eq!(theirs.said(), ours.said(), "seed {seed}");
        assert_eq!(theirs.made(), ours.made(), "seed {seed}");
    }
}

impl Drop for Replay {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
