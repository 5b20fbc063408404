//! How much a first visit loads.

use std::collections::BTreeSet;

use foldwright_server::{Asset, Site};

use crate::measure::{Figure, Trouble, Workshop};

/// Everything a first visit loads, in bytes and beside an empty app.
pub(crate) fn figures(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let app = loaded(&Site::embedded());
    let empty = loaded(&workshop.empty()?);
    Ok(vec![
        Figure {
            name: "first_load_bytes",
            value: app.bytes,
            unit: "bytes",
            target: None,
            how: format!(
                "Brotli (or plain, where that is smaller) sizes of {}; without headers, and \
                 without the {} bytes of worker and icons that come once the app is open",
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
    /// Bytes of the files that the worker, once started, adds.
    later: usize,
    names: String,
}

/// Follows what the page names, and what the scripts among that name.
fn loaded(site: &Site) -> Loaded {
    let mut seen = BTreeSet::from(["/"]);
    let mut open = vec!["/"];
    let mut bytes: usize = 0;
    while let Some(asset) = open.pop().and_then(|path| site.asset(path)) {
        bytes += sent(asset);
        if asset.content_type.contains("html") || asset.content_type.contains("javascript") {
            let text = String::from_utf8_lossy(&asset.plain);
            for other in &site.assets {
                if names(&text, &other.path) && seen.insert(&other.path) {
                    open.push(&other.path);
                }
            }
        }
    }
    let all: usize = site.assets.iter().map(sent).sum();
    Loaded {
        later: all - bytes,
        bytes: f64::from(u32::try_from(bytes).unwrap_or(u32::MAX)),
        names: seen
            .into_iter()
            .map(plain_name)
            .collect::<Vec<_>>()
            .join(", "),
    }
}

/// Whether `text` has browsers load `path` at once: the worker is started
/// later, and the touch icon only when the page is put on a home screen.
fn names(text: &str, path: &str) -> bool {
    path != "/worker.js"
        && text.lines().any(|line| {
            ["\"", "'"]
                .iter()
                .any(|quote| line.contains(&format!("{quote}{path}{quote}")))
                && !line.contains("apple-touch-icon")
        })
        && path != "/"
}

fn sent(asset: &Asset) -> usize {
    asset.brotli.as_ref().unwrap_or(&asset.plain).len()
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
