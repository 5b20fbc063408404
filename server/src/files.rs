//! Sends the files of the site, each in the form the browser likes best.

use std::sync::Arc;

use axum::extract::State;
use axum::http::header::{
    ACCEPT_ENCODING, CACHE_CONTROL, CONTENT_ENCODING, CONTENT_TYPE, ETAG, IF_NONE_MATCH, VARY,
};
use axum::http::{HeaderMap, StatusCode, Uri};
use axum::response::{IntoResponse, Response};

use crate::negotiate::{Coding, best};
use crate::site::{Asset, Site};

/// Answers with the file at the address. An address of the app, which no file
/// has, opens the page: the app then shows what belongs there.
pub(crate) async fn send(State(site): State<Arc<Site>>, uri: Uri, headers: HeaderMap) -> Response {
    let path = uri.path();
    match site.asset(path) {
        Some(asset) => reply(asset, &headers),
        None if is_place_in_app(path) => match site.asset("/") {
            Some(page) => reply(page, &headers),
            None => missing(),
        },
        None => missing(),
    }
}

/// Whether an address could be a place in the app: not where files and
/// answers live, and not with an ending as files have.
fn is_place_in_app(path: &str) -> bool {
    let last = path.rsplit('/').next().unwrap_or(path);
    !path.starts_with("/assets/") && !path.starts_with("/api/") && !last.contains('.')
}

fn missing() -> Response {
    (
        StatusCode::NOT_FOUND,
        [(CACHE_CONTROL, "no-cache")],
        "There is nothing at this address.\n",
    )
        .into_response()
}

fn reply(asset: &Asset, headers: &HeaderMap) -> Response {
    let text = |name| {
        headers
            .get(&name)
            .and_then(|value| value.to_str().ok())
            .unwrap_or_default()
    };
    let forms = [
        (Coding::Brotli, asset.brotli.as_ref()),
        (Coding::Gzip, asset.gzip.as_ref()),
    ];
    let at_hand: Vec<Coding> = forms
        .iter()
        .filter(|(_, bytes)| bytes.is_some())
        .map(|(coding, _)| *coding)
        .collect();
    let coding = best(text(ACCEPT_ENCODING), &at_hand);
    let tag = format!("\"{}-{}\"", asset.tag, coding.name());
    let known = text(IF_NONE_MATCH)
        .split(',')
        .map(|known| known.trim().trim_start_matches("W/"))
        .any(|known| known == tag || known == "*");
    let head = [
        (CACHE_CONTROL, asset.keep.header().to_owned()),
        (ETAG, tag),
        (VARY, String::from("Accept-Encoding")),
    ];
    if known {
        return (StatusCode::NOT_MODIFIED, head).into_response();
    }
    let kind = [(CONTENT_TYPE, asset.content_type)];
    let coded = match coding {
        Coding::Brotli => asset.brotli.clone(),
        Coding::Gzip => asset.gzip.clone(),
        Coding::Plain => None,
    };
    match coded {
        Some(bytes) => (head, kind, [(CONTENT_ENCODING, coding.name())], bytes).into_response(),
        None => (head, kind, asset.plain().clone()).into_response(),
    }
}
