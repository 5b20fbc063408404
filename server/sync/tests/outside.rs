//! Another library, in another language, edits the same document through the
//! running service: `yjs`, by a client of its own in `tests/peer`.

#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::io::{BufRead as _, BufReader, Lines, Write as _};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};

use common::service::{Service, Socket, harbour};
use foldwright_document::Document;
use serde_json::{Value, json};

/// The other library, at work.
struct Peer {
    process: Child,
    lines: Lines<BufReader<ChildStdout>>,
}

impl Peer {
    fn start(service: &Service, key: &str, document: &str) -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/peer");
        assert!(
            folder.join("node_modules").is_dir(),
            "the peer needs its packages: npm ci --prefix tests/peer"
        );
        let mut process = Command::new("node")
            .arg(folder.join("peer.js"))
            .args([&*service.address, key, document])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("Node is installed");
        let lines = BufReader::new(process.stdout.take().unwrap()).lines();
        Self { process, lines }
    }

    fn set(&mut self, entries: &Value) {
        let mut input = self.process.stdin.as_ref().unwrap();
        writeln!(input, "{}", json!({ "set": entries })).unwrap();
    }

    /// Reads on until it says something like that.
    fn until(&mut self, like: impl Fn(&Value) -> bool) -> Value {
        loop {
            let said = self.lines.next().expect("it goes on").unwrap();
            let said: Value = serde_json::from_str(&said).unwrap();
            assert!(said.get("trouble").is_none(), "{said}");
            if like(&said) {
                return said;
            }
        }
    }
}

impl Drop for Peer {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn another_library_edits_the_same_document() {
    let harbour = harbour();
    let (service, laptop, phone) = harbour.parts();
    let mut near = Socket::open(service, laptop, 0).await;
    near.caught_up().await;
    let mut ours = Document::new(11);
    let first = json!({ "name": "Gate – ü", "width": 148, "scored": true });
    let update = ours.write(&Value::Null, &first).unwrap();
    assert!(near.send("recipe/a", 2, &update).await);
    near.until(&json!({ "saved": 1 })).await;

    // It reads ours, from the beginning.
    let mut peer = Peer::start(service, phone, "recipe/a");
    let said = peer.until(|said| said["holds"]["name"].is_string());
    assert_eq!(said["holds"], first);

    // We read its, live and from the server.
    peer.set(&json!({ "name": "Harbour gate", "notes": "for the library" }));
    peer.until(|said| *said == json!({ "saved": 1 }) || said["saved"].as_u64() > Some(0));
    let theirs = json!({
        "name": "Harbour gate", "width": 148, "scored": true, "notes": "for the library"
    });
    common::until("the change of the peer", async || {
        ours = near.fetch("recipe/a").await;
        (ours.read().0.as_ref() == Some(&theirs)).then_some(())
    })
    .await;

    // It hears ours live.
    let mut next = theirs.clone();
    if let Some(width) = next.get_mut("width") {
        *width = json!(150);
    }
    let update = ours.write(&theirs, &next).unwrap();
    assert!(near.send("recipe/a", 2, &update).await);
    let said = peer.until(|said| said["holds"]["width"] == 150);
    assert_eq!(said["holds"], next);
}
