//! What this device knows of its workshop.

use serde::{Deserialize, Serialize};

use crate::store::versioned;

/// The key under which it is kept.
pub(crate) const KEY: &str = "foldwright/member";

/// A device's place in a workshop.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Member {
    /// What the device shows itself by: secret.
    pub(crate) key: String,
    /// The device's name in the server's store.
    pub(crate) device: String,
    /// The workshop's name in the server's store.
    pub(crate) workshop: String,
    /// What people call the workshop.
    pub(crate) workshop_name: String,
    /// What people call the device.
    pub(crate) device_name: String,
}

impl Member {
    pub(crate) fn parse(text: &str) -> Option<Self> {
        Self::deserialize(versioned::body(text)?).ok()
    }

    pub(crate) fn text(&self) -> String {
        versioned::text(self)
    }
}
