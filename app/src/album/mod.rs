//! Photographs of papers and of steps, as this browser keeps them: each once, under the
//! name of what is in its file, whichever recipes use it.
//!
//! They are kept in a database of their own ([`chest`]), since the room for recipes is
//! small. [`uses`] tells which recipes use which; what no recipe uses any longer is
//! forgotten by the one who syncs (`sync/photos.rs`), who also fetches what is not here.

mod chest;
mod shown;
pub(crate) mod uses;

use std::collections::{BTreeMap, BTreeSet};

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_api::{LARGEST_PHOTO, PhotoKind};
use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::Recipe;
use leptos::task::spawn_local;
use sha2::{Digest as _, Sha256};

use crate::spoken::language;
use crate::store::ask_to_keep;
use chest::Trouble;
pub use shown::address;

/// Why a photograph was not kept. Nothing else that is kept was touched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotKept {
    /// It is no JPEG, PNG or WebP by its first bytes.
    NoPhotograph,
    /// Its file is larger than [`LARGEST_PHOTO`].
    TooLarge,
    /// The browser has no room left.
    Full,
    /// The browser keeps nothing of the kind for this site.
    Closed,
}

impl From<Trouble> for NotKept {
    fn from(trouble: Trouble) -> Self {
        match trouble {
            Trouble::Full => Self::Full,
            Trouble::Closed => Self::Closed,
        }
    }
}

impl NotKept {
    /// What is told of it.
    pub fn words(self) -> &'static str {
        let texts = language().album();
        match self {
            Self::NoPhotograph => texts.no_photograph,
            Self::TooLarge => texts.too_large,
            Self::Full => texts.no_room,
            Self::Closed => texts.not_kept_here,
        }
    }
}

/// The name of a photograph with this file.
pub(crate) fn name(file: &[u8]) -> PhotoId {
    PhotoId::of_digest(Sha256::digest(file).into())
}

/// Whether a file is a photograph that is kept.
fn check(file: &[u8]) -> Result<(), NotKept> {
    if file.len() > LARGEST_PHOTO {
        return Err(NotKept::TooLarge);
    }
    let kind = PhotoKind::of(file);
    kind.map(drop).ok_or(NotKept::NoPhotograph)
}

/// Keeps a photograph, the bytes of a JPEG, PNG or WebP file as they are, and tells
/// its name. One that is kept already stays.
pub async fn keep(bytes: Vec<u8>) -> Result<PhotoId, NotKept> {
    check(&bytes)?;
    let photo = name(&bytes);
    let is_first = chest::names().await?.is_empty();
    chest::put(&photo.to_string(), &bytes).await?;
    shown::came(photo);
    if is_first {
        // A browser may take its time, and ask whoever sits before it.
        spawn_local(async {
            ask_to_keep().await;
        });
    }
    Ok(photo)
}

/// The bytes of the file of a photograph, for what is printed; `None` where it is not
/// here.
pub async fn bytes(photo: PhotoId) -> Option<Vec<u8>> {
    chest::get(&photo.to_string()).await.ok()?
}

/// The photographs of a recipe's papers that are here, written out as addresses that
/// hold all of their file, for a drawing that leaves the app.
pub(crate) async fn written_out(recipe: &Recipe) -> BTreeMap<PhotoId, String> {
    let mut all = BTreeMap::new();
    for photo in uses::of_papers(recipe) {
        let file = bytes(photo).await;
        let kind = file.as_deref().and_then(PhotoKind::of);
        all.extend(file.zip(kind).map(|(file, kind)| {
            let kind = kind.media_type();
            let address = format!("data:{kind};base64,{}", BASE64_STANDARD.encode(file));
            (photo, address)
        }));
    }
    all
}

/// The photographs that are here.
pub(crate) async fn here() -> Result<BTreeSet<PhotoId>, NotKept> {
    let names = chest::names().await?;
    Ok(names.iter().filter_map(|name| name.parse().ok()).collect())
}

/// Forgets a photograph. Where it is shown it stays until the page is left.
pub(crate) async fn forget(photo: PhotoId) {
    // Where that fails it is forgotten another time.
    let _ = chest::remove(&photo.to_string()).await;
}

#[cfg(test)]
mod tests {
    use foldwright_api::LARGEST_PHOTO;

    use super::{NotKept, check, name};

    /// The hash of "abc" in FIPS 180-4, appendix of examples.
    #[test]
    fn a_photograph_is_named_by_what_is_in_its_file() {
        assert_eq!(name(b"abc").to_string(), "ba7816bf8f01cfea414140de5dae2223");
    }

    #[test]
    fn only_photographs_of_some_size_are_kept() {
        let mut file = vec![0; LARGEST_PHOTO + 1];
        file[..3].copy_from_slice(b"\xff\xd8\xff");
        assert_eq!(check(&file), Err(NotKept::TooLarge));
        file.pop();
        assert_eq!(check(&file), Ok(()));
        assert_eq!(check(b"GIF89a"), Err(NotKept::NoPhotograph));
    }
}
