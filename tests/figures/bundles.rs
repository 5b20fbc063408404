//! The empty app, made by the same bundler as the real one.

use std::path::Path;
use std::sync::OnceLock;

use axum::body::Bytes;
use foldwright_bundle::{Bundle, Cache, Effort, Order, bundle};
use foldwright_server::{Asset, Keep, Site};

use crate::measure::{Trouble, Workshop};

/// Bundles the empty app. It is compiled beside the app itself, in the output
/// folder that `server`, the server's binary, lies in.
pub(crate) fn empty(server: &Path) -> Result<Site, Trouble> {
    let root = Workshop::root();
    let output = server.ancestors().nth(2).ok_or_else(|| {
        Trouble(String::from(
            "The server lies in no output folder of cargo.",
        ))
    })?;
    let page = root.join("tests/empty-app/public");
    bundle(&Order {
        app: &root.join("tests/empty-app"),
        public: &[&root.join("public"), &page],
        // A folder without style sheets: the empty app has no looks.
        style: &page,
        target: &output.join("wasm"),
        effort: Effort::Release,
    })
    .map(site)
    .map_err(|trouble| Trouble(trouble.to_string()))
}

fn site(bundle: Bundle) -> Site {
    let assets = bundle
        .files
        .into_iter()
        .map(|file| Asset {
            path: file.path,
            content_type: file.content_type,
            language: None,
            keep: match file.cache {
                Cache::Forever => Keep::Forever,
                Cache::Ask => Keep::Ask,
            },
            tag: file.tag,
            as_is: Bytes::from(file.plain).into(),
            in_gzip: OnceLock::new(),
            brotli: file.brotli.map(Into::into),
        })
        .collect();
    Site::of(bundle.release, assets)
}
