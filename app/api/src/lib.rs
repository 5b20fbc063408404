//! What the app asks its server, in one place for both sides.
//!
//! A device shows its key with each question that needs one. The key is part
//! of what is asked and not a cookie, so that no other site can ask in the
//! device's name. The one cookie that holds it only gives it back to the app
//! when that has lost it.

#![allow(
    clippy::unused_async,
    reason = "the macro makes several functions of one, and not all of them wait"
)]
#![allow(
    unreachable_pub,
    reason = "what the server macro makes is public, whatever the function is"
)]

mod ailing;
#[cfg(feature = "ssr")]
mod answering;
mod photos;
mod recovery;
mod refused;
mod sharing;
mod workshop;

pub use ailing::Ailing;
#[cfg(feature = "ssr")]
pub use answering::{Asked, Workshops, of_another_site, routes, status};
pub use photos::{
    LARGEST_PHOTO, MOST_PHOTOS, NotTaken, PHOTOS, Photo, PhotoKind, ROOM_FOR_PHOTOS, SHARED_PHOTO,
    has_room_for, is_photo_name,
};
pub use recovery::{mark, recover};
pub use refused::Refused;
pub use sharing::{Link, Share, Shared, share, shared, shares, unshare};
pub use workshop::{
    Code, Device, Joined, Room, backup, code, devices, join, leave, rename_device, rename_workshop,
    revoke, room,
};

use leptos::prelude::*;
use leptos::server_fn::codec::GetUrl;
use serde::{Deserialize, Serialize};

/// What an app asks over the socket now and then, to see whether the server is
/// still there. It answers with the number of the last change.
pub const ARE_YOU_THERE: &str = "{\"there\":true}";

/// What an app says it speaks when it greets over the socket. One that speaks
/// less is not answered: it does not know how recipes are kept in its browser
/// by now, and could put back there what has been changed since; it would pass
/// over what comes in pieces; or it would drop of a recipe what it has no field for.
pub const SPOKEN: u32 = 8;

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
