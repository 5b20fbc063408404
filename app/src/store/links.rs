//! Links made on this device. The server tells a link once and keeps only a
//! hash, so that no other device can show it again.

use std::collections::BTreeMap;

use foldwright_api::Link;
use leptos::prelude::WithValue as _;
use serde::Deserialize as _;

use super::{Store, versioned};

const KEY: &str = "foldwright/links";

/// The links by their shares' names.
type Links = BTreeMap<String, Link>;

fn parse(text: &str) -> Option<Links> {
    Links::deserialize(versioned::body(text)?).ok()
}

impl Store {
    /// The link of a share, where this device made it.
    pub(crate) fn link(self, share: &str) -> Option<Link> {
        self.links().remove(share)
    }

    /// Keeps a new link.
    pub(crate) fn keep_link(self, link: &Link) {
        let mut links = self.links();
        links.insert(link.id.clone(), link.clone());
        self.keep(KEY, &versioned::text(&links));
    }

    /// Forgets a link that no longer opens anything.
    pub(crate) fn forget_link(self, share: &str) {
        let mut links = self.links();
        if links.remove(share).is_some() {
            self.keep(KEY, &versioned::text(&links));
        }
    }

    fn links(self) -> Links {
        let text = self.shelf.with_value(|shelf| shelf.port().read(KEY));
        text.as_deref().and_then(parse).unwrap_or_default()
    }
}
