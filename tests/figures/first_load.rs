//! How much a first visit loads.

use std::collections::BTreeSet;

use foldwright_server::{Asset, Site};
use foldwright_words::Language;

use crate::client::told;
use crate::measure::{Figure, Trouble, Workshop};

/// Everything a first visit loads, in bytes and beside an empty app.
pub(crate) fn figures(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let site = Site::embedded();
    let app = loaded(&site)?;
    let empty = loaded(&workshop.empty()?)?;
    Ok(vec![
        Figure {
            name: "first_load_bytes",
            value: app.bytes,
            unit: "bytes",
            target: None,
            how: format!(
                "Brotli (gzip for the page, plain where that is smaller) sizes, without headers, of what headless \
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
        language(&site)?,
    ])
}

/// The largest of the languages, each in a file of its own.
fn language(site: &Site) -> Result<Figure, Trouble> {
    let languages = site.assets.iter().filter_map(|asset| {
        let name = plain_name(&asset.path);
        name.starts_with("split_language_")
            .then(|| (sent(asset), name))
    });
    let languages: Vec<_> = languages.collect();
    let Some((largest, _)) = languages.iter().max() else {
        return Err(Trouble(String::from("no language is a file of its own")));
    };
    let each = languages.iter();
    let each: Vec<_> = each
        .map(|(bytes, name)| format!("{name} {bytes}"))
        .collect();
    Ok(Figure {
        name: "language_bytes",
        value: f64::from(u32::try_from(*largest).unwrap_or(u32::MAX)),
        unit: "bytes",
        target: Some(40_000.0),
        how: format!(
            "Brotli size of the largest language, which comes with the first page that needs \
             more than the frame; a language that is not spoken is not fetched: {}",
            each.join(", ")
        ),
    })
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
    // As it is sent, with its texts.
    let spoken = |asset: &Asset| site.asset(&asset.path, Language::English).map_or(0, sent);
    let sum = |assets: &[&Asset]| assets.iter().map(|asset| spoken(asset)).sum::<usize>();
    let names: Vec<_> = now.iter().map(|asset| plain_name(&asset.path)).collect();
    Ok(Loaded {
        bytes: f64::from(u32::try_from(sum(&now)).unwrap_or(u32::MAX)),
        later: sum(&later),
        names: names.join(", "),
    })
}

fn sent(asset: &Asset) -> usize {
    let packed = asset.brotli.as_ref();
    let packed = packed.or_else(|| asset.packs().then(|| asset.gzip()));
    packed.unwrap_or_else(|| asset.plain()).len()
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
