//! How much the sync service bears, alone and beside npm's y-websocket server
//! with its persistence on, which is given the same work.

use std::fs;
use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use serde::Deserialize;

use crate::cluster::{Cluster, Folder};
use crate::measure::{Figure, Trouble, Workshop};

/// What the work came to.
#[derive(Deserialize)]
struct Load {
    edits_per_s: f64,
    p99_ms: f64,
}

/// One server under the work.
struct Measured {
    load: Load,
    rss_mb: f64,
}

/// A program that ends with its owner.
struct Running {
    process: Child,
    address: String,
}

impl Drop for Running {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// With 1,000 devices on SQLite, and against the peer.
pub(crate) fn sqlite(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let folder = Folder::new();
    let place = folder.0.join("workshops.db").display().to_string();
    let ours = ours(&place)?;
    let peer = peer(&folder.0.join("peer"))?;
    let how = "1,000 devices in 100 workshops, one of each ten writes";
    let mut figures = figures(
        ["sync_edits_per_s", "sync_p99_ms", "sync_rss_mb"],
        &ours,
        &format!("{how}; SQLite, each edit on the disk before it is passed on"),
    );
    let peer_how = format!(
        "{how}; y-websocket with y-leveldb on: {:.0} edits/s, {:.0} MB",
        peer.load.edits_per_s, peer.rss_mb
    );
    figures.push(Figure {
        name: "sync_throughput_vs_peer",
        value: ours.load.edits_per_s / peer.load.edits_per_s,
        unit: "",
        target: None,
        how: format!("at least 3 is wanted; {peer_how}"),
    });
    figures.push(Figure {
        name: "sync_memory_vs_peer",
        value: ours.rss_mb / peer.rss_mb,
        unit: "",
        target: Some(0.33),
        how: peer_how,
    });
    Ok(figures)
}

/// The same on PostgreSQL.
pub(crate) fn postgres(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let cluster = Cluster::start();
    let measured = ours(&cluster.database("workshops"))?;
    Ok(figures(
        ["sync_edits_per_s_pg", "sync_p99_ms_pg", "sync_rss_mb_pg"],
        &measured,
        "1,000 devices in 100 workshops, one of each ten writes; PostgreSQL on the same computer",
    ))
}

fn figures(names: [&'static str; 3], measured: &Measured, how: &str) -> Vec<Figure> {
    let load = &measured.load;
    let values = [
        (load.edits_per_s, "edits/s"),
        (load.p99_ms, "ms"),
        (measured.rss_mb, "MB"),
    ];
    let each = names.into_iter().zip(values);
    each.map(|(name, (value, unit))| Figure {
        name,
        value,
        unit,
        target: None,
        how: how.to_owned(),
    })
    .collect()
}

fn ours(place: &str) -> Result<Measured, Trouble> {
    let programs = programs()?;
    let mut command = Command::new(programs.join("alone"));
    // It reports no more than the server does.
    command.args([place, "0", "info"]).stderr(Stdio::null());
    let server = start(&mut command)?;
    under_load(&programs, place, &server)
}

fn peer(folder: &Path) -> Result<Measured, Trouble> {
    let programs = programs()?;
    let peer = Workshop::root().join("tests/figures/peer");
    if !peer.join("node_modules").is_dir() {
        let mut npm = Command::new("npm");
        npm.args(["ci", "--no-audit", "--no-fund"])
            .current_dir(&peer);
        if !npm.stdout(Stdio::null()).status()?.success() {
            return Err(Trouble(String::from(
                "the peer cannot be installed; run npm ci in tests/figures/peer",
            )));
        }
    }
    let mut command = Command::new("node");
    command
        .arg(peer.join("serve.cjs"))
        .env("YPERSISTENCE", folder)
        .stderr(Stdio::null());
    let server = start(&mut command)?;
    under_load(&programs, "peer", &server)
}

/// Starts a server that prints its address; the line about where the peer
/// keeps its documents comes first.
fn start(command: &mut Command) -> Result<Running, Trouble> {
    let mut process = command.stdout(Stdio::piped()).spawn()?;
    let said = process.stdout.take().map(BufReader::new);
    let mut lines = said.into_iter().flat_map(BufReader::lines);
    let address = lines.find_map(|line| line.ok().filter(|line| line.starts_with("127.0.0.1:")));
    let address = address.unwrap_or_default();
    let running = Running { process, address };
    if running.address.is_empty() {
        return Err(Trouble(format!("{command:?} does not serve")));
    }
    // What else it says is read by nobody, and must not hold it up.
    std::thread::spawn(move || lines.for_each(drop));
    Ok(running)
}

fn under_load(programs: &Path, place: &str, server: &Running) -> Result<Measured, Trouble> {
    let said = Command::new(programs.join("load"))
        .args([place, &server.address])
        .stderr(Stdio::inherit())
        .output()?
        .stdout;
    let load = serde_json::from_slice(&said).map_err(|_| {
        Trouble(format!(
            "the work said {:?}",
            String::from_utf8_lossy(&said)
        ))
    })?;
    let rss_mb = rss_mb(server.process.id())?;
    Ok(Measured { load, rss_mb })
}

/// The memory a process holds, as Linux counts it.
fn rss_mb(process: u32) -> Result<f64, Trouble> {
    let status = fs::read_to_string(format!("/proc/{process}/status"))?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    let kilobytes = line.and_then(|line| line.trim().strip_suffix(" kB"));
    let kilobytes = kilobytes.and_then(|text| text.parse::<f64>().ok());
    let kilobytes = kilobytes.ok_or_else(|| Trouble(String::from("no memory is counted")))?;
    Ok(kilobytes / 1024.0)
}

/// The folder of the service alone and of the work, built as they are
/// released.
fn programs() -> Result<PathBuf, Trouble> {
    let built = Command::new("cargo")
        .args([
            "build",
            "--release",
            "--locked",
            "-p",
            "foldwright-sync",
            "--examples",
        ])
        .current_dir(Workshop::root())
        .status()?;
    if !built.success() {
        return Err(Trouble(String::from("the service cannot be built")));
    }
    let own = std::env::current_exe()?;
    Ok(own.with_file_name("examples"))
}
