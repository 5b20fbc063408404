//! Headers every answer carries.

use axum::http::HeaderValue;
use axum::http::header::{
    CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, STRICT_TRANSPORT_SECURITY,
    X_CONTENT_TYPE_OPTIONS,
};
use axum::response::Response;

/// What a page of ours may do: load from this server, and nothing else.
/// `wasm-unsafe-eval` lets WebAssembly be compiled; it allows no other code.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; \
    style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; manifest-src 'self'; \
    worker-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'; \
    frame-ancestors 'none'";

/// The bench keeps the screen awake and listens where that is switched on, and papers
/// are photographed; nothing else of the device is needed.
const PERMISSIONS: &str = "screen-wake-lock=(self), camera=(self), geolocation=(), \
    microphone=(self), payment=(), usb=()";

/// For how long a browser takes nothing but HTTPS from a domain: a year
/// (OWASP Application Security Verification Standard 5.0, 3.4.1). What else
/// there is below the same domain is none of ours and not spoken for.
const ONLY_HTTPS: &str = "max-age=31536000";

/// Adds what lets browsers remember to take nothing but HTTPS from here.
pub(crate) async fn only_https(mut response: Response) -> Response {
    let value = HeaderValue::from_static(ONLY_HTTPS);
    response
        .headers_mut()
        .insert(STRICT_TRANSPORT_SECURITY, value);
    response
}

/// Adds them to `response`.
pub(crate) async fn guard(mut response: Response) -> Response {
    let headers = response.headers_mut();
    for (name, value) in [
        (CONTENT_SECURITY_POLICY, POLICY),
        (X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (REFERRER_POLICY, "no-referrer"),
        (HeaderName::from_static("permissions-policy"), PERMISSIONS),
        (
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ),
        (
            HeaderName::from_static("cross-origin-resource-policy"),
            "same-origin",
        ),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    response
}
