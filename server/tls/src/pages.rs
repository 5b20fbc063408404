//! What is answered over plain HTTP beside HTTPS: the page on which devices
//! come to trust the own authority, and the way to HTTPS.
//!
//! There is no `Strict-Transport-Security` header here, and no redirect is
//! permanent: an own authority can be lost, and browsers that remember to
//! accept nothing but HTTPS for a host would then lock its people out. Over
//! plain HTTP the header means nothing anyway (RFC 6797, §7.2).

use std::sync::Arc;

use axum::Router;
use axum::extract::State;
use axum::http::header::{
    ACCEPT_LANGUAGE, CACHE_CONTROL, CONTENT_LANGUAGE, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HOST,
    HeaderValue, LOCATION, REFERRER_POLICY, VARY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderMap, StatusCode, Uri};
use axum::middleware::map_response;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use foldwright_words::Language;

use crate::authority::Authority;
use crate::tls::Tls;
use crate::trust::{self, Filled};

const STYLE: &str = include_str!("trust.css");
const POLICY: &str = "default-src 'none'; style-src 'self'; img-src data:; base-uri 'none'; \
    form-action 'none'; frame-ancestors 'none'";

/// Where the authority's certificate is; phones go by the ending.
const CERTIFICATE: &str = "/foldwright-authority.crt";

impl Tls {
    /// Answers to plain HTTP: with an own authority, the page on which devices
    /// come to trust it at `/`; anything else is sent to HTTPS.
    pub fn pages(self: &Arc<Self>) -> Router {
        let router = match self.authority() {
            Some(_) => Router::new()
                .route("/", get(send))
                .route(CERTIFICATE, get(certificate))
                .route("/trust.css", get(style)),
            None => Router::new(),
        };
        router
            .fallback(to_https)
            .layer(map_response(guard))
            .with_state(Arc::clone(self))
    }
}

/// The page. It carries no script and asks for nothing from elsewhere.
async fn send(State(tls): State<Arc<Tls>>, headers: HeaderMap) -> Response {
    match tls.authority() {
        Some(authority) => page(&tls, authority, &headers),
        None => nowhere(&headers),
    }
}

fn page(tls: &Tls, authority: &Authority, headers: &HeaderMap) -> Response {
    let open = tls.at(host(headers)).unwrap_or_else(|| tls.origin());
    let language = language(headers);
    let page = trust::page(
        language,
        &Filled {
            name: &authority.name,
            fingerprint: &authority.fingerprint(),
            certificate: CERTIFICATE,
            open: &open.to_string(),
        },
    );
    let head = [
        (CONTENT_TYPE, "text/html; charset=utf-8"),
        (CONTENT_LANGUAGE, language.tag()),
        (VARY, "Accept-Language"),
    ];
    (head, page).into_response()
}

/// The language that is asked for most (RFC 9110 §12.5.4).
fn language(headers: &HeaderMap) -> Language {
    let accepted = headers.get(ACCEPT_LANGUAGE);
    let accepted = accepted.and_then(|accepted| accepted.to_str().ok());
    accepted.and_then(Language::accepted).unwrap_or_default()
}

/// The certificate in the form and under the type that phones offer to install.
async fn certificate(State(tls): State<Arc<Tls>>, headers: HeaderMap) -> Response {
    let Some(authority) = tls.authority() else {
        return nowhere(&headers);
    };
    let kind = [(CONTENT_TYPE, "application/x-x509-ca-cert")];
    (kind, authority.certificate.to_vec()).into_response()
}

async fn style() -> impl IntoResponse {
    ([(CONTENT_TYPE, "text/css; charset=utf-8")], STYLE)
}

/// The same address over HTTPS, at a host the certificate is for: one that
/// only the request names could be anybody's.
async fn to_https(State(tls): State<Arc<Tls>>, uri: Uri, headers: HeaderMap) -> Response {
    let Some(origin) = tls.at(host(&headers)) else {
        return send(State(tls), headers).await;
    };
    let path = uri.path_and_query().map_or("/", |path| path.as_str());
    // The path of `OPTIONS *` begins with no slash.
    let slash = if path.starts_with('/') { "" } else { "/" };
    match HeaderValue::try_from(format!("{origin}{slash}{path}")) {
        Ok(target) => (StatusCode::TEMPORARY_REDIRECT, [(LOCATION, target)]).into_response(),
        Err(_) => nowhere(&headers),
    }
}

fn host(headers: &HeaderMap) -> &str {
    let host = headers.get(HOST).and_then(|host| host.to_str().ok());
    host.unwrap_or_default()
}

fn nowhere(headers: &HeaderMap) -> Response {
    let language = language(headers);
    let say = format!("{}\n", language.no_app().speaks_https);
    let head = [
        (CONTENT_LANGUAGE, language.tag()),
        (VARY, "Accept-Language"),
    ];
    (StatusCode::BAD_REQUEST, head, say).into_response()
}

async fn guard(mut response: Response) -> Response {
    for (name, value) in [
        (CACHE_CONTROL, "no-store"),
        (CONTENT_SECURITY_POLICY, POLICY),
        (REFERRER_POLICY, "no-referrer"),
        (X_CONTENT_TYPE_OPTIONS, "nosniff"),
    ] {
        let value = HeaderValue::from_static(value);
        response.headers_mut().insert(name, value);
    }
    response
}
