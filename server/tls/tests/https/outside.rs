//! The outside programs.

use std::io::{Read as _, Write as _};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Output, Stdio};

/// What a program said and how it ended.
pub(crate) struct Said {
    pub(crate) well: bool,
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    /// What it printed in all.
    pub(crate) all: String,
}

impl From<Output> for Said {
    fn from(output: Output) -> Self {
        let out = String::from_utf8_lossy(&output.stdout).into_owned();
        let all = format!("{out}{}", String::from_utf8_lossy(&output.stderr));
        Self {
            well: output.status.success(),
            code: output.status.code(),
            out,
            all,
        }
    }
}

fn run(program: &str, arguments: &[&str]) -> Said {
    Command::new(program)
        .args(arguments)
        .stdin(Stdio::null())
        .output()
        .unwrap_or_else(|why| panic!("{program} is needed: {why}"))
        .into()
}

/// Runs OpenSSL.
pub(crate) fn openssl(arguments: &[&str]) -> Said {
    run("openssl", arguments)
}

/// Runs OpenSSL and expects it to end well: what it printed.
pub(crate) fn openssl_well(arguments: &[&str]) -> String {
    let said = openssl(arguments);
    assert!(said.well, "openssl {arguments:?}: {}", said.all);
    said.out
}

/// Runs curl, past any proxy.
pub(crate) fn curl(arguments: &[&str]) -> Said {
    let first = [
        "--silent",
        "--show-error",
        "--max-time",
        "30",
        "--noproxy",
        "*",
    ];
    run("curl", &[&first, arguments].concat())
}

/// The number by which a server's certificate is told from others.
pub(crate) fn serial(port: u16) -> String {
    let to = format!("localhost:{port}");
    let shown = openssl_well(&["s_client", "-connect", &to]);
    let mut read = Command::new("openssl")
        .args(["x509", "-noout", "-serial"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("openssl is needed");
    let mut input = read.stdin.take().expect("a pipe");
    input.write_all(shown.as_bytes()).expect("openssl reads");
    drop(input);
    let said = Said::from(read.wait_with_output().expect("openssl ends"));
    assert!(said.out.starts_with("serial="), "{}", said.all);
    said.out
}

/// A connection through OpenSSL that stays open.
pub(crate) struct Line {
    process: Child,
    into: ChildStdin,
    from: ChildStdout,
}

impl Line {
    pub(crate) fn open(port: u16, authority: &Path) -> Self {
        let mut process = Command::new("openssl")
            .args(["s_client", "-quiet", "-verify_return_error"])
            .args(["-connect", &format!("localhost:{port}"), "-CAfile"])
            .arg(authority)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("openssl is needed");
        let into = process.stdin.take().expect("a pipe");
        let from = process.stdout.take().expect("a pipe");
        Self {
            process,
            into,
            from,
        }
    }

    pub(crate) fn send(&mut self, bytes: &[u8]) {
        self.into.write_all(bytes).expect("the line is open");
        self.into.flush().expect("the line is open");
    }

    /// What comes, up to and with `end`.
    pub(crate) fn until(&mut self, end: &[u8]) -> Vec<u8> {
        let mut all = Vec::new();
        let mut byte = [0];
        while !all.ends_with(end) {
            let read = self.from.read(&mut byte).expect("the line is open");
            assert_eq!(read, 1, "ended after {:?}", String::from_utf8_lossy(&all));
            all.push(byte[0]);
        }
        all
    }
}

impl Drop for Line {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
