//! How soon the app is usable once the server is gone.

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::Stdio;

use foldwright_server::Site;

use crate::client::script;
use crate::measure::{Figure, Trouble, Workshop, median};
use crate::serving::Serving;

/// The starting fold whose recipe is opened: the one with most panels.
const STARTER: &str = "pleats";

/// The time to usable, and the same beside an empty app.
pub(crate) fn figures(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let app = opening(Site::embedded(), Some(STARTER))?;
    let empty = opening(workshop.empty()?, None)?;
    let how = format!(
        "headless Chromium, 390x844, processor slowed 4 times, server stopped: navigation to a \
         recipe ({STARTER}) in a browser just started until main[data-ready] is painted; median \
         of 9"
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

/// Opens `site` in a browser, begins a recipe there if it has any, stops serving
/// it, and opens it again and again.
fn opening(site: Site, starter: Option<&str>) -> Result<f64, Trouble> {
    let serving = Serving::start(site)?;
    let mut client = script("offline.js")?
        .arg(format!("http://{}/", serving.address))
        .args(starter)
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
