//! How a server answers: what it must be able to do, and how it is asked.

use std::net::{IpAddr, Ipv4Addr};
use std::sync::Arc;

use async_trait::async_trait;
use axum::Router;
use axum::extract::{ConnectInfo, Request};
use axum::http::header::{CACHE_CONTROL, HOST, ORIGIN};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderName, Method, StatusCode};
use axum::response::IntoResponse as _;
use axum::routing::{MethodFilter, on};
use leptos::prelude::*;
use leptos::server_fn::axum::server_fn_paths;
use leptos_axum::ResponseOptions;
use tower_http::limit::RequestBodyLimitLayer;

use crate::refused::Refused;
use crate::sharing::{Link, Share, Shared};
use crate::workshop::{Code, Device, Joined, Room};
use crate::{Ailing, Release};

/// The largest question, in bytes. Our own bound: names and keys are short.
const LARGEST_QUESTION: usize = 4096;

/// What a server does for workshops. Every method refuses a key or token that
/// opens nothing, and never says of other workshops more than that.
#[async_trait]
pub trait Workshops: Send + Sync {
    /// Lets a device in that knows a code.
    async fn join(&self, asked: &Asked, code: &str, name: &str) -> Result<Joined, Refused>;
    /// The place of the device with that key.
    async fn place(&self, key: &str) -> Result<Joined, Refused>;
    /// Makes a code for one more device.
    async fn code(&self, asked: &Asked, key: &str) -> Result<Code, Refused>;
    /// The devices.
    async fn devices(&self, key: &str) -> Result<Vec<Device>, Refused>;
    /// Calls a device something else.
    async fn rename_device(&self, key: &str, id: &str, name: &str) -> Result<(), Refused>;
    /// Calls the workshop something else.
    async fn rename_workshop(&self, key: &str, name: &str) -> Result<(), Refused>;
    /// Ends the access of a device.
    async fn revoke(&self, key: &str, id: &str) -> Result<(), Refused>;
    /// Ends the access of the asking device.
    async fn leave(&self, key: &str) -> Result<(), Refused>;
    /// How much room the workshop takes, and how much there is.
    async fn room(&self, key: &str) -> Result<Room, Refused>;
    /// Every document, as the text of one file.
    async fn backup(&self, key: &str) -> Result<String, Refused>;
    /// Shares a document.
    async fn share(&self, asked: &Asked, key: &str, document: &str) -> Result<Link, Refused>;
    /// The shares.
    async fn shares(&self, key: &str) -> Result<Vec<Share>, Refused>;
    /// Ends a share.
    async fn unshare(&self, key: &str, id: &str) -> Result<(), Refused>;
    /// A name for what a token opens, as it is now: what has the same name is
    /// the same.
    async fn shared_state(&self, token: &str) -> Result<String, Refused>;
    /// The document a token opens.
    async fn shared(&self, token: &str) -> Result<Shared, Refused>;
    /// The file of a photograph of the workshop whose document a token opens; whether
    /// that document uses it is for the one who asks to see.
    async fn shared_photo(&self, token: &str, photo: &str) -> Result<Vec<u8>, Refused>;
}

/// A question, and who answers it.
#[derive(Clone)]
pub struct Asked {
    /// Who answers.
    pub workshops: Arc<dyn Workshops>,
    /// Where it comes from.
    pub from: IpAddr,
    /// The address under which other devices find the server, such as
    /// `https://cards.example:4747`, as well as it knows.
    pub address: String,
}

/// What the server believes to be its address.
#[derive(Clone)]
struct OwnAddress(String);

/// Every server function at its address and by its method, asked by this
/// site's own pages only. Who asks is told in `ConnectInfo<IpAddr>`. Without
/// workshops those that need them say so. `own` is the address under
/// which other devices find this server, as well as it knows.
pub fn routes(workshops: Option<Arc<dyn Workshops>>, release: Release, own: String) -> Router {
    let context = move || {
        provide_context(release.clone());
        provide_context(OwnAddress(own.clone()));
        if let Some(workshops) = &workshops {
            provide_context(Arc::clone(workshops));
        }
    };
    let answer = async move |mut request: Request| {
        if of_another_site(request.headers()) {
            return StatusCode::FORBIDDEN.into_response();
        }
        // Whoever asks for the head of an answer gets it of the same one.
        if request.method() == Method::HEAD {
            *request.method_mut() = Method::GET;
        }
        // Answers hold secrets or change any moment: nobody keeps them.
        let answer = leptos_axum::handle_server_fns_with_context(context, request).await;
        let mut answer = answer.into_response();
        // What a function itself refuses has another status: this is a
        // question that cannot be read.
        if answer.status() == StatusCode::INTERNAL_SERVER_ERROR {
            *answer.status_mut() = StatusCode::BAD_REQUEST;
        }
        ([(CACHE_CONTROL, "no-store")], answer).into_response()
    };
    // Each is known by one address and one method.
    server_fn_paths()
        .filter_map(|(path, method)| Some((path, MethodFilter::try_from(method).ok()?)))
        .fold(Router::new(), |router, (address, method)| {
            router.route(address, on(method, answer.clone()))
        })
        .layer(RequestBodyLimitLayer::new(LARGEST_QUESTION))
}

/// Answers with what the workshops say, and the status that goes with it.
pub(crate) async fn answer<T>(
    ask: impl AsyncFnOnce(Asked) -> Result<T, Refused>,
) -> Result<T, Refused> {
    let answered = match use_context::<Arc<dyn Workshops>>() {
        Some(workshops) => ask(asked(workshops)).await,
        None => Err(Refused::Trouble(Ailing::NoWorkshops)),
    };
    if let (Err(why), Some(options)) = (&answered, use_context::<ResponseOptions>()) {
        options.set_status(status(why));
    }
    answered
}

/// The status that goes with why something is not done.
pub fn status(why: &Refused) -> StatusCode {
    match why {
        Refused::NoKey => StatusCode::UNAUTHORIZED,
        Refused::Missing => StatusCode::NOT_FOUND,
        Refused::Senseless | Refused::Nameless => StatusCode::BAD_REQUEST,
        Refused::TooMany => StatusCode::TOO_MANY_REQUESTS,
        Refused::Trouble(_) | Refused::Unreached => StatusCode::SERVICE_UNAVAILABLE,
    }
}

fn asked(workshops: Arc<dyn Workshops>) -> Asked {
    let parts = use_context::<Parts>();
    let from = parts
        .as_ref()
        .and_then(|parts| parts.extensions.get::<ConnectInfo<IpAddr>>())
        .map_or(IpAddr::from(Ipv4Addr::UNSPECIFIED), |from| from.0);
    let headers = parts.map(|parts| parts.headers).unwrap_or_default();
    let own = use_context::<OwnAddress>().map(|own| own.0);
    Asked {
        workshops,
        from,
        address: address(&headers, &own.unwrap_or_default()),
    }
}

fn text(headers: &HeaderMap, name: HeaderName) -> Option<&str> {
    headers.get(name).and_then(|value| value.to_str().ok())
}

/// Whether a browser's page of another site asks. Other clients send no
/// origin.
pub fn of_another_site(headers: &HeaderMap) -> bool {
    match (
        headers.contains_key(ORIGIN),
        text(headers, ORIGIN),
        text(headers, HOST),
    ) {
        (false, ..) => false,
        (true, Some(origin), Some(host)) => origin
            .split_once("://")
            .is_none_or(|(_, from)| from != host),
        _ => true,
    }
}

/// The address under which other devices find this server: the one it was
/// asked under, unless that is good on this computer only. Browsers say it
/// with every question that is not a plain reading.
fn address(headers: &HeaderMap, own: &str) -> String {
    let asked = text(headers, ORIGIN).filter(|origin| {
        let host = origin.split_once("://").map(|(_, host)| host);
        host.is_some_and(|host| !is_this_computer(host))
    });
    asked.unwrap_or(own).to_owned()
}

fn is_this_computer(host: &str) -> bool {
    let name = host.strip_prefix('[').and_then(|it| it.split_once(']'));
    let name = name.map_or_else(
        || host.rsplit_once(':').map_or(host, |(name, _)| name),
        |(name, _)| name,
    );
    name == "localhost" || name.parse().is_ok_and(|ip: IpAddr| ip.is_loopback())
}

#[cfg(test)]
mod tests {
    use axum::http::{HeaderMap, HeaderValue};

    use super::{address, of_another_site};

    #[test]
    fn pages_of_other_sites_are_told_from_ours() {
        let headers = |origin: Option<&'static str>| {
            let mut headers = HeaderMap::new();
            headers.insert("host", HeaderValue::from_static("cards.example:4747"));
            if let Some(origin) = origin {
                headers.insert("origin", HeaderValue::from_static(origin));
            }
            headers
        };
        assert!(!of_another_site(&headers(None)));
        assert!(!of_another_site(&headers(Some(
            "https://cards.example:4747"
        ))));
        for other in ["https://cards.example", "null", "https://evil.example", ""] {
            assert!(of_another_site(&headers(Some(other))), "{other}");
        }
    }

    #[test]
    fn links_lead_other_devices_here() {
        for (origin, expected) in [
            ("http://localhost:4747", "http://10.0.0.7:4747"),
            ("http://127.0.0.1:4747", "http://10.0.0.7:4747"),
            ("http://[::1]:4747", "http://10.0.0.7:4747"),
            ("null", "http://10.0.0.7:4747"),
            ("https://cards.example", "https://cards.example"),
            ("https://[fd00::7]:4747", "https://[fd00::7]:4747"),
        ] {
            let mut headers = HeaderMap::new();
            headers.insert("origin", HeaderValue::from_static(origin));
            assert_eq!(address(&headers, "http://10.0.0.7:4747"), expected);
        }
    }
}
