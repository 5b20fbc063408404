//! Recipes that anybody with the link may read.

use leptos::prelude::*;
use leptos::server_fn::codec::Json;
use serde::{Deserialize, Serialize};

use crate::Refused;
#[cfg(feature = "ssr")]
use crate::answering::{Asked, answer};

/// A new share. Its link is told this once: the server keeps only a hash.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Link {
    /// The share's name in the store.
    pub id: String,
    /// The document it leads to; empty in a link that was kept before this was told.
    #[serde(default)]
    pub document: String,
    /// The address to pass on.
    pub link: String,
    /// The same address for a camera, as SVG; empty where it is too long.
    pub picture: String,
}

/// A share of the workshop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Share {
    /// Its name in the store.
    pub id: String,
    /// The document that is shared.
    pub document: String,
    /// When it was shared, in seconds since 1970 by the server's clock.
    pub made: i64,
}

/// What a link opens.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shared {
    /// The document as one update, in Base64.
    pub document: String,
    /// What people call the workshop it comes from.
    pub from: String,
}

/// Shares a document of the workshop.
#[server(name = ShareIt, prefix = "/api", endpoint = "share/new", input = Json, output = Json)]
pub async fn share(key: String, document: String) -> Result<Link, Refused> {
    answer(async |asked: Asked| asked.workshops.share(&asked, &key, &document).await).await
}

/// The shares of the workshop.
#[server(name = Shares, prefix = "/api", endpoint = "share/all", input = Json, output = Json)]
pub async fn shares(key: String) -> Result<Vec<Share>, Refused> {
    answer(async |asked: Asked| asked.workshops.shares(&key).await).await
}

/// Ends a share of the workshop.
#[server(name = Unshare, prefix = "/api", endpoint = "share/end", input = Json, output = Json)]
pub async fn unshare(key: String, id: String) -> Result<(), Refused> {
    answer(async |asked: Asked| asked.workshops.unshare(&key, &id).await).await
}

/// The document that a link's token opens.
#[server(name = OpenShared, prefix = "/api", endpoint = "share/open", input = Json, output = Json)]
pub async fn shared(token: String) -> Result<Shared, Refused> {
    answer(async |asked: Asked| asked.workshops.shared(&token).await).await
}
