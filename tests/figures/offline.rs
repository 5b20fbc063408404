//! How soon the app is usable once the server is gone.

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::{Command, Stdio};

use foldwright_server::Site;

use crate::measure::{Figure, Trouble, Workshop, median};
use crate::serving::Serving;

/// The address that is opened.
const PLACE: &str = "/";

/// The time to usable, and the same beside an empty app.
pub(crate) fn figures(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    install_client()?;
    let app = opening(Site::embedded())?;
    let empty = opening(workshop.empty()?)?;
    let how = format!(
        "headless Chromium, 390x844, processor slowed 4 times, server stopped: navigation to \
         {PLACE} in a browser just started until main[data-ready] is painted; median of 9"
    );
    Ok(vec![
        Figure {
            name: "offline_open_ms",
            value: app,
            unit: "ms",
            target: Some(1000.0),
            how: how.clone(),
        },
        Figure {
            name: "offline_open_ratio",
            value: app / empty,
            unit: "ratio",
            target: Some(1.5),
            how: format!("{how}; over {empty:.1} ms for the empty app in the same run"),
        },
    ])
}

/// Installs the browser's client unless it is there.
fn install_client() -> Result<(), Trouble> {
    let folder = Workshop::root().join("tests/browser");
    if folder.join("node_modules").is_dir() {
        return Ok(());
    }
    let installed = Command::new("npm")
        .args(["ci", "--no-audit", "--no-fund"])
        .current_dir(folder)
        .stdout(Stdio::null())
        .status()?;
    if installed.success() {
        Ok(())
    } else {
        Err(Trouble(String::from(
            "the browser's client cannot be installed; run npm ci in tests/browser",
        )))
    }
}

/// Opens `site` in a browser, stops serving it, and opens it again and again.
fn opening(site: Site) -> Result<f64, Trouble> {
    let serving = Serving::start(site)?;
    let mut client = Command::new("node")
        .arg(Workshop::root().join("tests/browser/offline.js"))
        .arg(format!("http://{}{PLACE}", serving.address))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    let silent = || Trouble(String::from("the browser's client ended early"));
    let mut lines = BufReader::new(client.stdout.take().ok_or_else(silent)?).lines();
    let kept = lines.next().ok_or_else(silent)??;
    serving.stop();
    if kept != "kept" {
        return Err(Trouble(format!("the browser's client said {kept}")));
    }
    client
        .stdin
        .take()
        .ok_or_else(silent)?
        .write_all(b"gone\n")?;
    let times = lines.next().ok_or_else(silent)??;
    client.wait()?;
    serde_json::from_str(&times)
        .ok()
        .and_then(median)
        .ok_or_else(|| Trouble(format!("the browser's client said {times}")))
}
