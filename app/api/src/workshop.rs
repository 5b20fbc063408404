//! Workshops and their devices.

use leptos::prelude::*;
use leptos::server_fn::codec::Json;
use serde::{Deserialize, Serialize};

use crate::Refused;
#[cfg(feature = "ssr")]
use crate::answering::{Asked, answer};
#[cfg(feature = "ssr")]
use crate::recovery::cookies;

/// What a device gets when it joins a workshop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Joined {
    /// What it shows itself by from now on: secret.
    pub key: String,
    /// Its name in the store.
    pub device: String,
    /// The workshop's name in the store.
    pub workshop: String,
    /// What people call the workshop.
    pub workshop_name: String,
    /// What people call the device.
    pub device_name: String,
}

/// A code that lets one more device in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Code {
    /// The code, to be typed.
    pub code: String,
    /// For how many seconds it may be used.
    pub seconds: u32,
    /// The address that brings the code along.
    pub link: String,
    /// The same address for a camera, as SVG; empty where it is too long.
    pub picture: String,
}

/// A device of a workshop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Device {
    /// Its name in the store.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// When it joined, in seconds since 1970 by the server's clock.
    pub made: i64,
    /// How long ago it was last seen, in seconds.
    pub seen_ago: i64,
    /// Whether it is the one that asks.
    pub own: bool,
}

/// How much room there is at the server, in bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Room {
    /// What the workshop takes.
    pub taken: u64,
    /// What is left on the server's disk, and how large that is; missing where
    /// the server does not know its disk.
    pub disk: Option<(u64, u64)>,
}

/// Joins the workshop a code is for, under the device's name.
#[server(name = Join, prefix = "/api", endpoint = "workshop/join", input = Json, output = Json)]
pub async fn join(code: String, name: String) -> Result<Joined, Refused> {
    answer(async |asked: Asked| {
        let joined = asked.workshops.join(&asked, &code, &name).await?;
        cookies::keep(&asked, &joined.key);
        Ok(joined)
    })
    .await
}

/// A code for one more device of the asking device's workshop.
#[server(name = NewCode, prefix = "/api", endpoint = "workshop/code", input = Json, output = Json)]
pub async fn code(key: String) -> Result<Code, Refused> {
    answer(async |asked: Asked| asked.workshops.code(&asked, &key).await).await
}

/// The devices of the workshop.
#[server(name = Devices, prefix = "/api", endpoint = "workshop/devices", input = Json, output = Json)]
pub async fn devices(key: String) -> Result<Vec<Device>, Refused> {
    answer(async |asked: Asked| {
        let devices = asked.workshops.devices(&key).await?;
        cookies::keep(&asked, &key);
        Ok(devices)
    })
    .await
}

/// Calls a device of the workshop something else.
#[server(name = RenameDevice, prefix = "/api", endpoint = "workshop/rename-device", input = Json, output = Json)]
pub async fn rename_device(key: String, id: String, name: String) -> Result<(), Refused> {
    answer(async |asked: Asked| asked.workshops.rename_device(&key, &id, &name).await).await
}

/// Calls the workshop something else.
#[server(name = RenameWorkshop, prefix = "/api", endpoint = "workshop/rename", input = Json, output = Json)]
pub async fn rename_workshop(key: String, name: String) -> Result<(), Refused> {
    answer(async |asked: Asked| asked.workshops.rename_workshop(&key, &name).await).await
}

/// Ends the access of a device of the workshop, at once.
#[server(name = Revoke, prefix = "/api", endpoint = "workshop/revoke", input = Json, output = Json)]
pub async fn revoke(key: String, id: String) -> Result<(), Refused> {
    answer(async |asked: Asked| asked.workshops.revoke(&key, &id).await).await
}

/// Ends the access of the asking device.
#[server(name = Leave, prefix = "/api", endpoint = "workshop/leave", input = Json, output = Json)]
pub async fn leave(key: String) -> Result<(), Refused> {
    answer(async |asked: Asked| {
        cookies::forget(&asked);
        asked.workshops.leave(&key).await
    })
    .await
}

/// How much room the workshop takes, and how much there is.
#[server(name = RoomLeft, prefix = "/api", endpoint = "workshop/room", input = Json, output = Json)]
pub async fn room(key: String) -> Result<Room, Refused> {
    answer(async |asked: Asked| asked.workshops.room(&key).await).await
}

/// Every document of the workshop, as the text of one file.
#[server(name = Backup, prefix = "/api", endpoint = "workshop/backup", input = Json, output = Json)]
pub async fn backup(key: String) -> Result<String, Refused> {
    answer(async |asked: Asked| asked.workshops.backup(&key).await).await
}
