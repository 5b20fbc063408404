//! Which address is answered by what.

use std::sync::Arc;

use axum::Router;
use axum::extract::Request;
use axum::http::header::CACHE_CONTROL;
use axum::middleware::map_response;
use axum::response::{IntoResponse, Json};
use axum::routing::get;
use foldwright_api::{Release, Workshops};
use foldwright_sync::Hub;
use tower_http::trace::TraceLayer;
use tracing::Span;

use crate::site::Site;
use crate::{files, folds, headers, schema, shared};

/// The whole service: the site's files, the server functions, the health
/// address, the folds to choose from, the schema of recipes, what is shared by link and,
/// with a hub, what devices share, every answer with its security headers. `own` is the address under which other
/// devices find it.
pub fn app(site: Site, hub: Option<Arc<Hub>>, own: String) -> Router {
    let release = Release {
        id: site.release.clone(),
    };
    let workshops = hub.clone().map(|hub| hub as Arc<dyn Workshops>);
    Router::new()
        .route("/health", get(health))
        .merge(folds::route(&site))
        .merge(schema::route())
        .merge(shared::route(&site, workshops.clone(), own.clone()))
        .merge(foldwright_api::routes(workshops, release, own))
        .merge(hub.map(foldwright_sync::route).unwrap_or_default())
        .fallback_service(get(files::send).with_state(Arc::new(site)))
        .layer(map_response(headers::guard))
        .layer(TraceLayer::new_for_http().make_span_with(span))
}

/// What the log says of a question. What follows the address of shared recipes
/// opens one, and is nobody else's business.
fn span(request: &Request) -> Span {
    let path = request.uri().path();
    let path = if path.starts_with(shared::ADDRESS) {
        shared::ADDRESS
    } else {
        path
    };
    tracing::debug_span!("request", method = %request.method(), path)
}

/// Tells a supervisor that the server answers, and which version it is.
async fn health() -> impl IntoResponse {
    let body = serde_json::json!({ "status": "ok", "version": env!("CARGO_PKG_VERSION") });
    ([(CACHE_CONTROL, "no-store")], Json(body))
}
