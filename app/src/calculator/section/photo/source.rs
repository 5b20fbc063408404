//! A picture that was taken or chosen.

use std::sync::Arc;

use foldwright_photo::Pixels;
use web_sys::{Blob, Url};

use crate::part::taking::Taken;
use crate::part::taking::canvas::pixels;

/// A picture with its pixels, and an address by which a page shows it for as long as
/// anything holds it.
#[derive(Clone)]
pub(super) struct Source {
    pub(super) pixels: Arc<Pixels>,
    address: Arc<Address>,
}

impl Source {
    /// `None` where the browser gives it no pixels or no address.
    pub(super) fn of(taken: &Taken) -> Option<Self> {
        Some(Self {
            pixels: Arc::new(pixels(&taken.canvas)?),
            address: Arc::new(Address::of(&taken.picture)?),
        })
    }

    pub(super) fn address(&self) -> String {
        self.address.0.clone()
    }

    /// Width and height in pixels.
    pub(super) fn size(&self) -> [f64; 2] {
        [self.pixels.width(), self.pixels.height()].map(f64::from)
    }
}

/// Where a page finds a picture, until nothing shows it any more.
struct Address(String);

impl Address {
    fn of(picture: &Blob) -> Option<Self> {
        Url::create_object_url_with_blob(picture).ok().map(Self)
    }
}

impl Drop for Address {
    fn drop(&mut self) {
        // One that is not known any more has nothing to give back.
        let _ = Url::revoke_object_url(&self.0);
    }
}
