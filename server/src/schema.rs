//! How files of recipes are built, for programs that write or read them.

use std::hash::{DefaultHasher, Hash as _, Hasher as _};
use std::sync::{Arc, OnceLock};

use axum::Router;
use axum::body::Bytes;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;
use axum::routing::get;
use foldwright_app::RECIPE_SCHEMA;

use crate::files::reply;
use crate::site::{Asset, Keep, gzip};

/// Where it is.
const ADDRESS: &str = "/recipe.schema.json";

/// That address.
pub(crate) fn route() -> Router {
    Router::new()
        .route(ADDRESS, get(send))
        .with_state(Arc::new(schema()))
}

async fn send(State(schema): State<Arc<Asset>>, headers: HeaderMap) -> Response {
    reply(&schema, &headers)
}

fn schema() -> Asset {
    let mut hash = DefaultHasher::new();
    RECIPE_SCHEMA.hash(&mut hash);
    Asset {
        path: ADDRESS.to_owned(),
        // JSON Schema 2020-12, core, 14.1.
        content_type: "application/schema+json",
        language: None,
        keep: Keep::Ask,
        tag: format!("{:016x}", hash.finish()),
        as_is: OnceLock::from(Bytes::from_static(RECIPE_SCHEMA.as_bytes())),
        in_gzip: gzip(RECIPE_SCHEMA.as_bytes()).into(),
        brotli: None,
    }
}
