//! How much a first visit loads.

use std::collections::BTreeSet;

use foldwright_server::{Asset, Site};

use crate::client::told;
use crate::measure::{Figure, Trouble, Workshop};

/// Everything a first visit loads, in bytes and beside an empty app.
pub(crate) fn figures(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let app = loaded(&Site::embedded())?;
    let empty = loaded(&workshop.empty()?)?;
    Ok(vec![
        Figure {
            name: "first_load_bytes",
            value: app.bytes,
            unit: "bytes",
            target: None,
            how: format!(
                "Brotli (or plain, where that is smaller) sizes, without headers, of what headless \
                 Chromium asks for until the first page is there and the network is quiet: {}. \
                 Another {} bytes, the code of the other pages among them, come when one of \
                 those is opened or, behind the open app, with the worker",
                app.names, app.later
            ),
        },
        Figure {
            name: "first_load_ratio",
            value: app.bytes / empty.bytes,
            unit: "ratio",
            target: Some(2.2),
            how: format!(
                "first_load_bytes over {} bytes, the same sum for an empty app ({}) with a \
                 router and one server function, bundled in this run",
                empty.bytes, empty.names
            ),
        },
    ])
}

struct Loaded {
    bytes: f64,
    /// Bytes of the files that are not asked for.
    later: usize,
    names: String,
}

/// What a browser asks for.
fn loaded(site: &Site) -> Result<Loaded, Trouble> {
    let asked: BTreeSet<String> = told("first-load.js", site.clone())?;
    let (now, later): (Vec<_>, Vec<_>) = site
        .assets
        .iter()
        .partition(|asset| asked.contains(&asset.path));
    let sum = |assets: &[&Asset]| assets.iter().map(|asset| sent(asset)).sum::<usize>();
    let names: Vec<_> = now.iter().map(|asset| plain_name(&asset.path)).collect();
    Ok(Loaded {
        bytes: f64::from(u32::try_from(sum(&now)).unwrap_or(u32::MAX)),
        later: sum(&later),
        names: names.join(", "),
    })
}

fn sent(asset: &Asset) -> usize {
    asset.brotli.as_ref().unwrap_or_else(|| asset.plain()).len()
}

/// The name of a file without the hash of its content.
fn plain_name(path: &str) -> String {
    if path == "/" {
        return String::from("the page");
    }
    let name = path.rsplit('/').next().unwrap_or(path);
    match (name.rsplit_once('-'), name.rsplit_once('.')) {
        (Some((stem, _)), Some((_, end))) => format!("{stem}.{end}"),
        _ => name.to_owned(),
    }
}
