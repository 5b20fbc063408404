//! Sends the files of the site, each in the form the browser likes best.

use std::sync::Arc;

use axum::extract::State;
use axum::http::header::{
    ACCEPT_ENCODING, CACHE_CONTROL, CONTENT_ENCODING, CONTENT_LANGUAGE, CONTENT_TYPE, ETAG,
    HeaderValue, VARY,
};
use axum::http::{HeaderMap, StatusCode, Uri};
use axum::response::{IntoResponse, Response};
use foldwright_words::Language;

use crate::negotiate::{Coding, best, is_known, language};
use crate::site::{Asset, Site};

/// Answers with the file at the address. An address of the app, which no file
/// has, opens the page: the app then shows what belongs there.
pub(crate) async fn send(State(site): State<Arc<Site>>, uri: Uri, headers: HeaderMap) -> Response {
    let (path, language) = (uri.path(), language(&headers));
    let page = || {
        let page = is_place_in_app(path).then_some("/");
        page.and_then(|page| site.asset(page, language))
    };
    match site.asset(path, language).or_else(page) {
        Some(asset) => reply(asset, &headers),
        None => missing(language),
    }
}

/// Whether an address could be a place in the app: not where files and
/// answers live, and not with an ending as files have.
fn is_place_in_app(path: &str) -> bool {
    let last = path.rsplit('/').next().unwrap_or(path);
    !path.starts_with("/assets/") && !path.starts_with("/api/") && !last.contains('.')
}

fn missing(language: Language) -> Response {
    let say = format!("{}\n", language.no_app().nothing_here);
    let head = [
        (CACHE_CONTROL, "no-cache"),
        (CONTENT_LANGUAGE, language.tag()),
        (VARY, "Accept-Language"),
    ];
    (StatusCode::NOT_FOUND, head, say).into_response()
}

pub(crate) fn reply(asset: &Asset, headers: &HeaderMap) -> Response {
    let mut reply = in_best_form(asset, headers);
    if let Some(language) = asset.language {
        let language = HeaderValue::from_static(language.tag());
        reply.headers_mut().insert(CONTENT_LANGUAGE, language);
    }
    reply
}

fn in_best_form(asset: &Asset, headers: &HeaderMap) -> Response {
    let accepted = headers.get(ACCEPT_ENCODING);
    let accepted = accepted.and_then(|accepted| accepted.to_str().ok());
    let forms = [
        (Coding::Brotli, asset.brotli.is_some()),
        (Coding::Gzip, asset.packs()),
    ];
    let at_hand: Vec<Coding> = forms
        .iter()
        .filter(|(_, there)| *there)
        .map(|(coding, _)| *coding)
        .collect();
    let coding = best(accepted.unwrap_or_default(), &at_hand);
    let tag = format!("\"{}-{}\"", asset.tag, coding.name());
    let known = is_known(headers, &tag);
    let vary = match asset.language {
        Some(_) => "Accept-Encoding, Accept-Language",
        None => "Accept-Encoding",
    };
    let head = [
        (CACHE_CONTROL, asset.keep.header().to_owned()),
        (ETAG, tag),
        (VARY, String::from(vary)),
    ];
    if known {
        return (StatusCode::NOT_MODIFIED, head).into_response();
    }
    let kind = [(CONTENT_TYPE, asset.content_type)];
    let coded = match coding {
        Coding::Brotli => asset.brotli.clone(),
        Coding::Gzip => Some(asset.gzip().clone()),
        Coding::Plain => None,
    };
    match coded {
        Some(bytes) => {
            let packed = [(CONTENT_ENCODING, coding.name())];
            (head, kind, packed, bytes).into_response()
        }
        None => (head, kind, asset.plain().clone()).into_response(),
    }
}
