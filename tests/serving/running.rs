//! The server's binary as tests run it.

use std::io::{BufRead as _, BufReader};
use std::process::{Child, Command, Output, Stdio};

use tempfile::TempDir;

pub(crate) const BINARY: &str = env!("CARGO_BIN_EXE_foldwright");

/// What the server said.
pub(crate) type Answer = ureq::http::Response<ureq::Body>;

/// A server on a port of its own, stopped when the test ends however it ends.
pub(crate) struct Server {
    pub(crate) process: Child,
    address: String,
}

impl Server {
    pub(crate) fn start() -> Self {
        let mut process = Command::new(BINARY)
            .args(["--port", "0"])
            .stdout(Stdio::piped())
            .spawn()
            .expect("the server's binary was built for this test");
        let mut line = String::new();
        BufReader::new(process.stdout.take().expect("the output is piped"))
            .read_line(&mut line)
            .expect("the server prints its address");
        let address = line
            .trim()
            .trim_end_matches('/')
            .rsplit(' ')
            .next()
            .expect("a line has a last word")
            .to_owned();
        Self { process, address }
    }

    /// Asks with any method, known or not.
    pub(crate) fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)]) -> Answer {
        let agent: ureq::Agent = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .allow_non_standard_methods(true)
            .build()
            .into();
        let request = headers.iter().fold(
            ureq::http::Request::builder()
                .method(method)
                .uri(format!("{}{path}", self.address)),
            |request, (name, value)| request.header(*name, *value),
        );
        agent
            .run(request.body(()).expect("a request as the test means it"))
            .expect("the server answers")
    }

    pub(crate) fn get(&self, path: &str, headers: &[(&str, &str)]) -> Answer {
        self.ask("GET", path, headers)
    }

    pub(crate) fn text(&self, path: &str) -> String {
        self.get(path, &[])
            .body_mut()
            .read_to_string()
            .expect("the answer is text")
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// A server that was started with more than a port of its own.
pub(crate) struct Started {
    pub(crate) process: Child,
    /// What it printed, up to how to stop it.
    pub(crate) said: String,
    pub(crate) folder: TempDir,
}

impl Started {
    pub(crate) fn with(arguments: &[&str]) -> Self {
        Self::of(Command::new(BINARY).args(arguments))
    }

    /// Starts it by a command of which only the rest is missing.
    pub(crate) fn of(command: &mut Command) -> Self {
        Self::on(0, command)
    }

    /// The same on a port, or on any free one where that is 0.
    pub(crate) fn on(port: u16, command: &mut Command) -> Self {
        let folder = TempDir::new().expect("a folder");
        let mut process = command
            .args(["--port", &port.to_string(), "--data"])
            .arg(folder.path().join("workshops.db"))
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
    pub(crate) fn address(&self, scheme: &str) -> &str {
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

/// The value of a header, empty where there is none.
pub(crate) fn header<'a>(response: &'a Answer, name: &str) -> &'a str {
    response
        .headers()
        .get(name)
        .and_then(|value| value.to_str().ok())
        .unwrap_or_default()
}

/// Every address of a file that the page or the worker names.
pub(crate) fn named_files(text: &str) -> Vec<String> {
    text.split('"')
        .filter(|part| {
            (part.starts_with("/assets/") && part.contains('.')) || *part == "/manifest.webmanifest"
        })
        .map(str::to_owned)
        .collect()
}

/// Runs the server with `arguments` until it ends by itself.
pub(crate) fn run(arguments: &[&str]) -> Output {
    Command::new(BINARY)
        .args(arguments)
        .output()
        .expect("the server's binary was built for this test")
}
