//! The release server: how large it is and how quickly it answers.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Instant;

use crate::measure::{Figure, Trouble, Workshop, median};

/// Builds the release server as `cargo run --release` does, and says where it
/// is.
pub(crate) fn build() -> Result<PathBuf, Trouble> {
    let built = Command::new("cargo")
        .args(["build", "--locked", "--release", "--bin", "foldwright"])
        .arg("--message-format=json-render-diagnostics")
        .current_dir(Workshop::root())
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()?;
    if !built.status.success() {
        return Err(Trouble(String::from("the release server does not build")));
    }
    String::from_utf8_lossy(&built.stdout)
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter_map(|message| message.get("executable")?.as_str().map(PathBuf::from))
        .next_back()
        .ok_or_else(|| Trouble(String::from("cargo does not say where the server is")))
}

/// The size of the one file people copy.
pub(crate) fn size(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let bytes = std::fs::metadata(workshop.server()?)?.len();
    Ok(vec![Figure {
        name: "binary_mb",
        value: f64::from(u32::try_from(bytes).unwrap_or(u32::MAX)) / 1e6,
        unit: "MB",
        target: Some(20.0),
        how: String::from("size of the release server, app included, in millions of bytes"),
    }])
}

/// The time from starting the process to its first answer.
pub(crate) fn start(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let server = workshop.server()?;
    let times = (0..11)
        .map(|_| one_start(&server))
        .collect::<Result<Vec<_>, _>>()?;
    let value = median(times).ok_or_else(|| Trouble(String::from("no start was timed")))?;
    Ok(vec![Figure {
        name: "server_start_ms",
        value,
        unit: "ms",
        target: Some(150.0),
        how: String::from("starting the process to /health answered 200; median of 11 starts"),
    }])
}

fn one_start(server: &Path) -> Result<f64, Trouble> {
    let begin = Instant::now();
    let mut child = Command::new(server)
        .args(["--port", "0"])
        .stdout(Stdio::piped())
        .spawn()?;
    let answered = first_answer(&mut child);
    let time = begin.elapsed().as_secs_f64() * 1000.0;
    child.kill()?;
    child.wait()?;
    answered.map(|()| time)
}

fn first_answer(child: &mut Child) -> Result<(), Trouble> {
    let silent = || Trouble(String::from("the server does not print its address"));
    let mut line = String::new();
    BufReader::new(child.stdout.take().ok_or_else(silent)?).read_line(&mut line)?;
    let (_, address) = line.trim().rsplit_once("http://").ok_or_else(silent)?;
    let mut stream = TcpStream::connect(address.trim_end_matches('/'))?;
    stream.write_all(b"GET /health HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")?;
    let mut answer = String::new();
    stream.read_to_string(&mut answer)?;
    if answer.starts_with("HTTP/1.1 200 ") {
        Ok(())
    } else {
        Err(Trouble(format!("/health answered: {answer}")))
    }
}
