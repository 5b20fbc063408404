//! Photographs of paper, each taken and given as it is. Whoever shows a key of the
//! workshop may read, add and forget those of that workshop, and no other.

use std::sync::Arc;

use axum::Router;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, FromRequest as _, Path, Request, State};
use axum::http::header::{
    AUTHORIZATION, CACHE_CONTROL, CONTENT_TYPE, HeaderName, VARY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderMap, StatusCode};
use axum::middleware::{Next, from_fn};
use axum::response::{IntoResponse, Json, Response};
use axum::routing::get;
use foldwright_api::{
    LARGEST_PHOTO, NotTaken, PHOTOS, Photo, PhotoKind, Refused, is_photo_name, of_another_site,
    status,
};

use crate::hub::Hub;
use crate::secret;
use crate::store::Trouble;

/// How a browser keeps a photograph: what has its name is always the same. `Vary` says
/// that whoever shows another key has to ask.
const FOR_GOOD: [(HeaderName, &str); 3] = [
    (CACHE_CONTROL, "private, max-age=31536000, immutable"),
    (VARY, "Authorization"),
    (X_CONTENT_TYPE_OPTIONS, "nosniff"),
];

/// Why a photograph is not taken or given, as it is answered.
struct Not(NotTaken);

impl From<NotTaken> for Not {
    fn from(why: NotTaken) -> Self {
        Self(why)
    }
}

impl From<Refused> for Not {
    fn from(why: Refused) -> Self {
        Self(NotTaken::Refused(why))
    }
}

impl From<Trouble> for Not {
    fn from(trouble: Trouble) -> Self {
        Refused::from(trouble).into()
    }
}

impl IntoResponse for Not {
    fn into_response(self) -> Response {
        let status = match &self.0 {
            NotTaken::NoPhotograph => StatusCode::UNSUPPORTED_MEDIA_TYPE,
            NotTaken::TooLarge => StatusCode::PAYLOAD_TOO_LARGE,
            NotTaken::OtherName => StatusCode::UNPROCESSABLE_ENTITY,
            NotTaken::Full => StatusCode::INSUFFICIENT_STORAGE,
            NotTaken::Refused(why) => status(why),
        };
        (status, [(CACHE_CONTROL, "no-store")], Json(self.0)).into_response()
    }
}

/// The addresses of photographs, for this site's own pages only.
pub(crate) fn route(hub: Arc<Hub>) -> Router {
    Router::new()
        .route(PHOTOS, get(list))
        .route(
            &format!("{PHOTOS}/{{name}}"),
            get(give).put(take).delete(forget),
        )
        .layer(DefaultBodyLimit::max(LARGEST_PHOTO))
        .layer(from_fn(from_here))
        .with_state(hub)
}

async fn from_here(request: Request, next: Next) -> Response {
    if of_another_site(request.headers()) {
        return StatusCode::FORBIDDEN.into_response();
    }
    next.run(request).await
}

/// The workshop of the device whose key comes along.
async fn workshop(hub: &Hub, headers: &HeaderMap) -> Result<String, Refused> {
    let shown = headers.get(AUTHORIZATION);
    let shown = shown.and_then(|shown| shown.to_str().ok());
    let key = shown.and_then(|shown| shown.strip_prefix("Bearer "));
    let device = hub.asking(key.ok_or(Refused::NoKey)?).await?;
    Ok(device.workshop)
}

/// Names are compared and never followed; what is none names nothing.
fn named(name: &str) -> Result<&str, Refused> {
    is_photo_name(name).then_some(name).ok_or(Refused::Missing)
}

async fn list(State(hub): State<Arc<Hub>>, headers: HeaderMap) -> Result<Response, Not> {
    let workshop = workshop(&hub, &headers).await?;
    let photos: Vec<Photo> = hub.store.photos(&workshop).await?;
    Ok(([(CACHE_CONTROL, "no-store")], Json(photos)).into_response())
}

async fn give(
    State(hub): State<Arc<Hub>>,
    Path(name): Path<String>,
    headers: HeaderMap,
) -> Result<Response, Not> {
    let workshop = workshop(&hub, &headers).await?;
    let file = hub.store.photo(&workshop, named(&name)?).await?;
    let file = file.ok_or(Refused::Missing)?;
    // Nothing else was taken.
    let kind = PhotoKind::of(&file).ok_or(NotTaken::NoPhotograph)?;
    let kind = [(CONTENT_TYPE, kind.media_type())];
    Ok((FOR_GOOD, kind, file).into_response())
}

async fn take(
    State(hub): State<Arc<Hub>>,
    Path(name): Path<String>,
    request: Request,
) -> Result<StatusCode, Not> {
    // Nothing is read for whoever has no key.
    let workshop = workshop(&hub, request.headers()).await?;
    let name = named(&name)?;
    let file = Bytes::from_request(request, &()).await;
    let file = file.map_err(|why| match why.status() {
        StatusCode::PAYLOAD_TOO_LARGE => NotTaken::TooLarge,
        _ => NotTaken::Refused(Refused::Senseless),
    })?;
    PhotoKind::of(&file).ok_or(NotTaken::NoPhotograph)?;
    if secret::photo_name(&file) != name {
        return Err(NotTaken::OtherName.into());
    }
    if !hub.store.keep_photo(&workshop, name, &file).await? {
        return Err(NotTaken::Full.into());
    }
    Ok(StatusCode::NO_CONTENT)
}

async fn forget(
    State(hub): State<Arc<Hub>>,
    Path(name): Path<String>,
    headers: HeaderMap,
) -> Result<StatusCode, Not> {
    let workshop = workshop(&hub, &headers).await?;
    let found = hub.store.forget_photo(&workshop, named(&name)?).await?;
    found.then_some(()).ok_or(Refused::Missing)?;
    Ok(StatusCode::NO_CONTENT)
}
