//! Which address is answered by what.

use std::sync::Arc;

use axum::Router;
use axum::extract::Request;
use axum::http::header::CACHE_CONTROL;
use axum::middleware::map_response;
use axum::response::{IntoResponse, Json};
use axum::routing::{any, get};
use foldwright_app::api::{Release, ServedRelease};
use foldwright_sync::Hub;
use leptos::prelude::provide_context;
use leptos::server_fn::ServerFn as _;
use tower_http::trace::TraceLayer;

use crate::site::Site;
use crate::{files, headers};

/// The whole service: the site's files, the server functions, the health
/// address and, with a hub, what devices share, every answer with its security
/// headers.
pub fn app(site: Site, hub: Option<Arc<Hub>>) -> Router {
    let release = Release {
        id: site.release.clone(),
    };
    let functions = any(move |request: Request| answer(release.clone(), request));
    Router::new()
        .route("/health", get(health))
        .route(ServedRelease::PATH, functions)
        .merge(hub.map(foldwright_sync::routes).unwrap_or_default())
        .fallback_service(get(files::send).with_state(Arc::new(site)))
        .layer(map_response(headers::guard))
        .layer(TraceLayer::new_for_http())
}

/// Tells a supervisor that the server answers, and which version it is.
async fn health() -> impl IntoResponse {
    let body = serde_json::json!({ "status": "ok", "version": env!("CARGO_PKG_VERSION") });
    ([(CACHE_CONTROL, "no-store")], Json(body))
}

/// Runs the server function at the request's address.
async fn answer(release: Release, request: Request) -> impl IntoResponse {
    let context = move || provide_context(release.clone());
    let response = leptos_axum::handle_server_fns_with_context(context, request).await;
    ([(CACHE_CONTROL, "no-store")], response)
}
