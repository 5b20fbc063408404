//! What comes before a page can be used that is visited for the first time over a
//! slow line.

use serde::Deserialize;
use tokio::runtime::Runtime;

use crate::client::script;
use crate::cluster::Folder;
use crate::measure::{Figure, Trouble, Workshop};
use crate::shared_page::share;

/// How many panels the shared card has: as many as a starting fold.
const PANELS: u32 = 6;

/// One visit, as the browser tells of it.
#[derive(Deserialize)]
struct Visit {
    name: String,
    /// What came until it could be used, with headers.
    bytes: f64,
    /// When that was, and when its largest part was painted, in milliseconds.
    usable: f64,
    largest: f64,
}

/// The most that comes, and the latest picture.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let folder = Folder::new();
    let runtime = Runtime::new()?;
    let (address, path) = runtime.block_on(share(&folder, PANELS))?;
    let token = path.rsplit('/').next().unwrap_or_default();
    let said = script("arrivals.js")?
        .arg(format!("http://{address}/"))
        .arg(token)
        .output()?
        .stdout;
    runtime.shutdown_background();
    let visits: Vec<Visit> = serde_json::from_slice(&said).map_err(|_| {
        let said = String::from_utf8_lossy(&said);
        Trouble(format!("the browser's client said {said:?}"))
    })?;
    let most = |of: fn(&Visit) -> f64, visits: &mut dyn Iterator<Item = &Visit>| {
        visits.map(of).fold(0.0, f64::max)
    };
    let mut heavy = visits
        .iter()
        .filter(|visit| ["recipe", "bench", "shared"].contains(&visit.name.as_str()));
    let bytes = most(|visit| visit.bytes, &mut heavy);
    let largest = most(|visit| visit.largest, &mut visits.iter());
    let each = visits.iter().map(|visit| {
        let Visit {
            name,
            bytes,
            usable,
            largest,
        } = visit;
        format!("{name} {bytes:.0} bytes, usable after {usable:.0} ms, painted after {largest:.0}")
    });
    let each = each.collect::<Vec<_>>().join("; ");
    let how = format!(
        "headless Chromium, 390x844, first visit without a worker over 1.6 Mbit/s and 150 ms, \
         processor slowed 4 times: {each}"
    );
    Ok(vec![
        Figure {
            name: "arrival_bytes",
            value: bytes,
            unit: "bytes",
            target: Some(650_000.0),
            how: format!("the most of a recipe, the bench and a shared page; {how}"),
        },
        Figure {
            name: "arrival_lcp_ms",
            value: largest,
            unit: "ms",
            target: Some(2500.0),
            how: format!("the latest largest contentful paint of all pages; {how}"),
        },
    ])
}
