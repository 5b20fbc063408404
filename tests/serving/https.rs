//! The server's binary over HTTPS, asked with curl.

use std::io::{BufRead as _, BufReader};
use std::process::{Child, Command, Output, Stdio};

use tempfile::TempDir;

use crate::running::{BINARY, run};

/// A server that was started with more than a port of its own.
struct Started {
    process: Child,
    /// What it printed, up to how to stop it.
    said: String,
    folder: TempDir,
}

impl Started {
    fn with(arguments: &[&str]) -> Self {
        let folder = TempDir::new().expect("a folder");
        let mut process = Command::new(BINARY)
            .args(["--port", "0", "--data"])
            .arg(folder.path().join("workshops.db"))
            .args(arguments)
            .stdout(Stdio::piped())
            .spawn()
            .expect("the server's binary was built for this test");
        let out = BufReader::new(process.stdout.take().expect("the output is piped"));
        let mut said = String::new();
        for line in out.lines() {
            said.push_str(&line.expect("text"));
            said.push('\n');
            if said.contains("Press Ctrl+C") {
                break;
            }
        }
        Self {
            process,
            said,
            folder,
        }
    }

    /// The first address of this kind that it printed.
    fn address(&self, scheme: &str) -> &str {
        let words = self.said.split_whitespace();
        let found = words.into_iter().find(|word| word.starts_with(scheme));
        found.expect(scheme).trim_end_matches('/')
    }
}

impl Drop for Started {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

fn curl(arguments: &[&str]) -> Output {
    Command::new("curl")
        .args([
            "--silent",
            "--show-error",
            "--max-time",
            "30",
            "--noproxy",
            "*",
        ])
        .args(arguments)
        .output()
        .expect("curl is needed")
}

#[test]
fn an_authority_of_its_own_is_kept_beside_the_workshops_and_vouches_for_it() {
    let mut server = Started::with(&["--tls", "own"]);
    let kept = server.folder.path().join("foldwright-tls/authority.pem");
    let kept = kept.to_str().expect("a plain path");
    let health = format!("{}/health", server.address("https://"));
    let said = curl(&["--include", "--cacert", kept, &health]);
    let said = String::from_utf8_lossy(&said.stdout);
    assert!(said.contains("\"status\":\"ok\""), "{said}");
    assert!(said.contains("content-security-policy"), "{said}");
    assert!(!said.contains("strict-transport-security"), "{said}");
    // 60 is curl's “peer certificate cannot be authenticated”.
    assert_eq!(curl(&[&health]).status.code(), Some(60));

    let page = curl(&[&format!("{}/", server.address("http://"))]);
    let page = String::from_utf8_lossy(&page.stdout);
    let rows: Vec<&str> = server
        .said
        .lines()
        .filter(|line| line.starts_with("  "))
        .collect();
    assert_eq!(rows.len(), 4, "{}", server.said);
    for row in rows {
        assert!(page.contains(row.trim()), "{row}: {page}");
    }

    #[cfg(unix)]
    {
        let id = server.process.id().to_string();
        let asked = Command::new("kill").args(["-TERM", &id]).status();
        assert!(asked.expect("kill is a standard command").success());
        assert!(server.process.wait().expect("the server ends").success());
    }
}

#[test]
fn plain_http_for_others_is_said_aloud_unless_a_proxy_is_in_front() {
    let open = ["--bind", "0.0.0.0"];
    let server = Started::with(&open);
    assert!(
        server
            .said
            .starts_with("Foldwright is open at http://127.0.0.1:"),
        "{}",
        server.said
    );
    assert!(
        server.said.contains("!! HTTPS at home: --tls own."),
        "{}",
        server.said
    );

    let address = ["--address", "https://cards.example.org"];
    let server = Started::with(&[open, address].concat());
    let first = server.said.lines().next();
    assert_eq!(
        first,
        Some("Foldwright is open at https://cards.example.org/")
    );
    assert!(!server.said.contains("!!"), "{}", server.said);

    let server = Started::with(&[]);
    assert!(!server.said.contains("!!"), "{}", server.said);
}

#[test]
fn what_cannot_be_meant_is_explained() {
    for (arguments, part) in [
        (&["--tls", "yes"][..], "--tls cert.pem,key.pem"),
        (&["--tls", "none.pem,key.pem"], "none.pem cannot be read"),
        (
            &["--address", "cards.example.org/x"],
            "https://cards.example.org",
        ),
        (
            &["--address", "https://cards.example.org/x"],
            "a host and a port",
        ),
        (&["--trust-port", "4748"], "--tls"),
        (
            &["--tls", "a.pem,b.pem", "--trust-port", "4748"],
            "--trust-port belongs to --tls own",
        ),
        (
            &["--tls", "a.pem,b.pem", "--tls-folder", "x"],
            "--tls-folder belongs to --tls own",
        ),
    ] {
        let output = run(&[&["--port", "0"], arguments].concat());
        assert!(!output.status.success(), "{arguments:?}");
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(said.contains(part), "{arguments:?}: {said}");
    }
}
