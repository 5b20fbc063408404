//! What the app asks the server.

#![allow(
    clippy::unused_async,
    reason = "the macro makes several functions of one, and not all of them wait"
)]

use leptos::prelude::*;
use leptos::server_fn::codec::GetUrl;
use serde::{Deserialize, Serialize};

/// One release of the app.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Release {
    /// Its name, which changes with every change of any file. A page carries
    /// the name of its own in the element `meta` called `release`.
    pub id: String,
}

/// The release the server has now. An open app compares it with its own where
/// no service worker watches for a newer one.
#[server(name = ServedRelease, prefix = "/api", endpoint = "release", input = GetUrl)]
pub async fn served_release() -> Result<Release, ServerFnError> {
    use_context::<Release>()
        .ok_or_else(|| ServerFnError::new("This server does not say which release it has."))
}
