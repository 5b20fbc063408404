//! What devices ask besides: pairing, devices, shares, the backup of a
//! workshop. A device shows its key in the header `Authorization`; nothing is
//! kept in cookies, so that no other site can ask in its name.

use std::collections::BTreeMap;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Instant;

use axum::extract::{
    ConnectInfo, DefaultBodyLimit, FromRequestParts, Path, State, WebSocketUpgrade,
};
use axum::http::header::{AUTHORIZATION, CACHE_CONTROL, CONTENT_TYPE, HOST, ORIGIN};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::middleware::map_response;
use axum::response::{IntoResponse, Response};
use axum::routing::{delete, get, post};
use axum::{Json, Router};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde::Deserialize;
use serde_json::json;

use crate::frame::{self, LARGEST};
use crate::hub::{Hub, now, whole};
use crate::secret::{self, NoRandomness};
use crate::socket;
use crate::store::{Device, Share, Trouble};

/// How long a pairing code may be used, in seconds.
const PAIRING: i64 = 10 * 60;
/// The longest name of a device, in characters.
const LONGEST_NAME: usize = 60;
/// The largest question, in bytes.
const LARGEST_QUESTION: usize = 4096;

/// Everything under `/api/sync`.
pub fn routes(hub: Arc<Hub>) -> Router {
    Router::new()
        .route("/api/sync/socket", get(connect))
        .route("/api/sync/join", post(join))
        .route("/api/sync/code", post(code))
        .route("/api/sync/devices", get(devices))
        .route("/api/sync/devices/{id}", delete(revoke))
        .route("/api/sync/shares", get(shares).post(share))
        .route("/api/sync/shares/{id}", delete(unshare))
        .route("/api/sync/shared/{token}", get(shared))
        .route("/api/sync/backup", get(backup))
        .layer(DefaultBodyLimit::max(LARGEST_QUESTION))
        .layer(map_response(fresh))
        .with_state(hub)
}

/// Answers hold secrets or change any moment: nobody keeps them.
async fn fresh(mut response: Response) -> Response {
    let never = HeaderValue::from_static("no-store");
    response.headers_mut().insert(CACHE_CONTROL, never);
    response
}

/// Why something is not answered.
enum Refused {
    /// No key, or none that opens anything.
    NoKey,
    /// There is no such thing, or not any more.
    Missing,
    /// The question makes no sense.
    Senseless,
    /// Too many tries.
    TooMany,
    /// The store is in trouble.
    Store(Trouble),
}

impl From<Trouble> for Refused {
    fn from(trouble: Trouble) -> Self {
        Self::Store(trouble)
    }
}

impl From<NoRandomness> for Refused {
    fn from(_: NoRandomness) -> Self {
        Self::Store(Trouble::Other(String::from(
            "the system has no random numbers to give",
        )))
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        let (status, why) = match self {
            Self::NoKey => (
                StatusCode::UNAUTHORIZED,
                String::from("This device is not paired, or no longer."),
            ),
            Self::Missing => (
                StatusCode::NOT_FOUND,
                String::from("There is no such thing, or not any more."),
            ),
            Self::Senseless => (
                StatusCode::BAD_REQUEST,
                String::from("That makes no sense to the server."),
            ),
            Self::TooMany => (
                StatusCode::TOO_MANY_REQUESTS,
                String::from("Too many codes were tried. Wait a minute and try again."),
            ),
            Self::Store(trouble) => {
                tracing::error!(%trouble, "a question was not answered");
                (StatusCode::SERVICE_UNAVAILABLE, trouble.to_string())
            }
        };
        (status, Json(json!({ "trouble": why }))).into_response()
    }
}

/// The device that asks.
struct Asking(Device);

impl FromRequestParts<Arc<Hub>> for Asking {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, hub: &Arc<Hub>) -> Result<Self, Refused> {
        let key = parts
            .headers
            .get(AUTHORIZATION)
            .and_then(|value| value.to_str().ok())
            .and_then(|value| value.strip_prefix("Bearer "))
            .ok_or(Refused::NoKey)?;
        let device = hub.store.device(&secret::hash(key)).await?;
        device.map(Self).ok_or(Refused::NoKey)
    }
}

/// Whether a browser's page of another site asks. Other clients send no
/// origin.
fn of_another_site(headers: &HeaderMap) -> bool {
    let text = |name| {
        headers
            .get(name)
            .and_then(|value: &HeaderValue| value.to_str().ok())
    };
    match (headers.contains_key(ORIGIN), text(ORIGIN), text(HOST)) {
        (false, ..) => false,
        (true, Some(origin), Some(host)) => origin
            .split_once("://")
            .is_none_or(|(_, from)| from != host),
        _ => true,
    }
}

async fn connect(
    State(hub): State<Arc<Hub>>,
    headers: HeaderMap,
    upgrade: WebSocketUpgrade,
) -> Response {
    if of_another_site(&headers) {
        return StatusCode::FORBIDDEN.into_response();
    }
    upgrade
        .max_message_size(LARGEST)
        .max_frame_size(LARGEST)
        .on_upgrade(|socket| socket::serve(hub, socket))
}

#[derive(Deserialize)]
struct Joining {
    code: String,
    name: String,
}

/// A name as people write it: no control characters, not too long.
fn readable(name: &str) -> Option<String> {
    let name: String = name
        .chars()
        .filter(|c| !c.is_control())
        .take(LONGEST_NAME)
        .collect();
    let name = name.trim();
    (!name.is_empty()).then(|| name.to_owned())
}

/// Gives a device that knows a code its key.
async fn join(
    State(hub): State<Arc<Hub>>,
    from: Result<ConnectInfo<SocketAddr>, axum::extract::rejection::ExtensionRejection>,
    Json(joining): Json<Joining>,
) -> Result<Response, Refused> {
    let from = from.map_or(IpAddr::from(Ipv4Addr::UNSPECIFIED), |from| from.0.ip());
    if !hub.rate.allows(from, Instant::now()) {
        return Err(Refused::TooMany);
    }
    let name = readable(&joining.name).ok_or(Refused::Senseless)?;
    let hash = secret::code_hash(&joining.code);
    let workshop = hub
        .store
        .accept(&hash, now())
        .await?
        .ok_or(Refused::Missing)?;
    hub.store.add_workshop(&workshop, now()).await?;
    let key = secret::key()?;
    let device = Device {
        id: secret::name()?,
        workshop: workshop.id,
        name,
        made: now(),
        seen: now(),
        revoked: false,
    };
    hub.store.add_device(&device, &secret::hash(&key)).await?;
    let answer = json!({
        "key": key,
        "device": device.id,
        "workshop": device.workshop,
        "workshop_name": workshop.name,
    });
    Ok(Json(answer).into_response())
}

/// A picture of a text that phones can read.
fn picture(text: &str) -> Option<String> {
    let code = qrcode::QrCode::new(text).ok()?;
    let mut svg = code.render::<qrcode::render::svg::Color>();
    Some(svg.min_dimensions(240, 240).build())
}

/// The address this server was asked under, as far as it can tell.
fn own_address(headers: &HeaderMap) -> String {
    let text = |name: &str| headers.get(name).and_then(|value| value.to_str().ok());
    match (text("origin"), text("host")) {
        (Some(origin), _) if origin.contains("://") => origin.to_owned(),
        (_, Some(host)) => format!("http://{host}"),
        _ => String::new(),
    }
}

/// A code that brings one more device into the workshop.
async fn code(
    State(hub): State<Arc<Hub>>,
    Asking(device): Asking,
    headers: HeaderMap,
) -> Result<Response, Refused> {
    let workshops = hub.store.workshops().await?;
    let workshop = workshops
        .into_iter()
        .find(|workshop| workshop.id == device.workshop)
        .ok_or(Refused::Missing)?;
    let code = secret::code()?;
    let until = now() + PAIRING;
    hub.store
        .offer(&secret::code_hash(&code), &workshop, until)
        .await?;
    // After the number sign, so that no server on the way reads it.
    let link = format!("{}/settings#pair={code}", own_address(&headers));
    let answer = json!({
        "code": code,
        "seconds": PAIRING,
        "link": link,
        "picture": picture(&link),
    });
    Ok(Json(answer).into_response())
}

async fn devices(State(hub): State<Arc<Hub>>, Asking(asking): Asking) -> Result<Response, Refused> {
    let devices = hub.store.devices(&asking.workshop).await?;
    let devices: Vec<_> = devices
        .into_iter()
        .filter(|device| !device.revoked)
        .map(|device| {
            json!({
                "id": device.id,
                "name": device.name,
                "made": device.made,
                "seen": device.seen,
                "own": device.id == asking.id,
            })
        })
        .collect();
    Ok(Json(devices).into_response())
}

async fn revoke(
    State(hub): State<Arc<Hub>>,
    Asking(asking): Asking,
    Path(id): Path<String>,
) -> Result<StatusCode, Refused> {
    if !hub.store.revoke(&asking.workshop, &id).await? {
        return Err(Refused::Missing);
    }
    // Nobody may be connected.
    let _ = hub.revoked.send(id);
    Ok(StatusCode::NO_CONTENT)
}

#[derive(Deserialize)]
struct Sharing {
    document: String,
}

async fn share(
    State(hub): State<Arc<Hub>>,
    Asking(asking): Asking,
    headers: HeaderMap,
    Json(sharing): Json<Sharing>,
) -> Result<Response, Refused> {
    let document = sharing.document;
    if !frame::is_name(&document) {
        return Err(Refused::Senseless);
    }
    if hub
        .store
        .document(&asking.workshop, &document)
        .await?
        .is_empty()
    {
        return Err(Refused::Missing);
    }
    let token = secret::key()?;
    let share = Share {
        id: secret::name()?,
        workshop: asking.workshop,
        document,
        made: now(),
    };
    hub.store.share(&share, &secret::hash(&token)).await?;
    let link = format!("{}/shared/{token}", own_address(&headers));
    let answer = json!({
        "id": share.id,
        "token": token,
        "link": link,
        "picture": picture(&link),
    });
    Ok(Json(answer).into_response())
}

async fn shares(State(hub): State<Arc<Hub>>, Asking(asking): Asking) -> Result<Response, Refused> {
    let shares = hub.store.shares(&asking.workshop).await?;
    let shares: Vec<_> = shares
        .into_iter()
        .map(|share| json!({ "id": share.id, "document": share.document, "made": share.made }))
        .collect();
    Ok(Json(shares).into_response())
}

async fn unshare(
    State(hub): State<Arc<Hub>>,
    Asking(asking): Asking,
    Path(id): Path<String>,
) -> Result<StatusCode, Refused> {
    if hub.store.unshare(&asking.workshop, &id).await? {
        Ok(StatusCode::NO_CONTENT)
    } else {
        Err(Refused::Missing)
    }
}

/// The one document a token opens, as one update.
async fn shared(
    State(hub): State<Arc<Hub>>,
    Path(token): Path<String>,
) -> Result<Response, Refused> {
    let share = hub.store.shared(&secret::hash(&token)).await?;
    let share = share.ok_or(Refused::Missing)?;
    let kept = hub.store.document(&share.workshop, &share.document).await?;
    let document = whole(kept).await.ok_or(Refused::Missing)?;
    let kind = [(CONTENT_TYPE, "application/octet-stream")];
    Ok((kind, document.bytes()).into_response())
}

/// Every document of the workshop in one file, each as one update.
async fn backup(State(hub): State<Arc<Hub>>, Asking(asking): Asking) -> Result<Response, Refused> {
    let mut pieces: BTreeMap<String, Vec<_>> = BTreeMap::new();
    let mut number = 0;
    loop {
        let kept = hub.store.since(&asking.workshop, number).await?;
        let Some(last) = kept.last() else { break };
        number = last.number;
        for kept in kept {
            pieces.entry(kept.document.clone()).or_default().push(kept);
        }
    }
    let mut documents = serde_json::Map::new();
    for (name, kept) in pieces {
        let document = whole(kept).await.ok_or(Refused::Missing)?;
        documents.insert(name, BASE64_STANDARD.encode(document.bytes()).into());
    }
    let answer = json!({ "foldwright_backup": 1, "documents": documents });
    Ok(Json(answer).into_response())
}

#[cfg(test)]
mod tests {
    use axum::http::{HeaderMap, HeaderValue};

    use super::{of_another_site, picture, readable};

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
    fn names_are_made_readable() {
        assert_eq!(readable(" Kai’s\nphone "), Some("Kai’sphone".to_owned()));
        assert_eq!(readable("\u{7}"), None);
        assert_eq!(readable(&"x".repeat(99)).map(|name| name.len()), Some(60));
        assert!(picture("https://cards.example").is_some_and(|svg| svg.contains("<svg")));
    }
}
