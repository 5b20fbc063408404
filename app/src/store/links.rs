//! Links made on this device. The server tells a link once and keeps only a
//! hash, so that no other device can show it again.

use std::collections::BTreeMap;

use foldwright_api::{Link, Share};
use leptos::prelude::WithValue as _;
use serde::Deserialize as _;

use super::{Store, versioned};

const KEY: &str = "foldwright/links";

/// The links by their shares' names.
type Links = BTreeMap<String, Link>;

fn parse(text: &str) -> Option<Links> {
    Links::deserialize(versioned::body(text)?).ok()
}

/// The links that are among the shares, with what each leads to.
fn known(mut links: Links, shares: &[Share]) -> Links {
    links.retain(|id, link| {
        let share = shares.iter().find(|share| share.id == *id);
        if let Some(share) = share {
            link.document.clone_from(&share.document);
        }
        share.is_some()
    });
    links
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

    /// The link of a document that this device made, where it has one.
    pub(crate) fn link_to(self, document: &str) -> Option<Link> {
        let mut links = self.links().into_values();
        links.find(|link| link.document == document)
    }

    /// Takes from the server what its shares lead to. A link that is none of them was
    /// ended, wherever that was.
    pub(crate) fn know_shares(self, shares: &[Share]) {
        let before = self.links();
        let links = known(before.clone(), shares);
        if links != before {
            self.keep(KEY, &versioned::text(&links));
        }
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

#[cfg(test)]
mod tests {
    use foldwright_api::Share;

    use super::{known, parse};

    #[test]
    fn what_links_lead_to_comes_from_the_server_and_ended_ones_go() {
        // Kept before links knew their documents.
        let links = parse(
            r#"{"foldwright":1,"kept":{
                "a":{"id":"a","link":"https://cards.example.org/shared/a","picture":""},
                "b":{"id":"b","link":"https://cards.example.org/shared/b","picture":""}
            }}"#,
        );
        let links = links.expect("links");
        let share = Share {
            id: "b".to_owned(),
            document: "recipe/quay".to_owned(),
            made: 7,
        };
        let links = known(links, &[share]);
        let links: Vec<_> = links.values().collect();
        let [link] = &links[..] else {
            panic!("{links:?}");
        };
        assert_eq!(link.document, "recipe/quay");
        assert_eq!(link.link, "https://cards.example.org/shared/b");
    }
}
