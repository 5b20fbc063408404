//! Photographs of paper, as this browser keeps them: each once, under the name of
//! what is in its file, whichever recipes use it.

use foldwright_engine::paper::PhotoId;

/// Why a photograph was not kept. Nothing else that is kept was touched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NotKept {
    /// It is no JPEG, PNG or WebP by its first bytes.
    NoPhotograph,
    /// Its file is larger than 1.5 MB.
    TooLarge,
    /// The browser has no room left.
    Full,
    /// The browser keeps nothing of the kind for this site.
    Closed,
}

/// Keeps a photograph, the bytes of a JPEG, PNG or WebP file as they are, and tells
/// its name. One that is kept already stays.
pub(crate) async fn keep(bytes: Vec<u8>) -> Result<PhotoId, NotKept> {
    let _ = bytes;
    Err(NotKept::Closed)
}

/// An address at which the page can show a photograph; `None` while it is looked up,
/// and where it is not here. Tracks: what is drawn with it is drawn again as soon as
/// it is here.
pub(crate) fn address(photo: PhotoId) -> Option<String> {
    let _ = photo;
    None
}

/// The bytes of the file of a photograph, for what is printed; `None` where it is not
/// here.
pub(crate) async fn bytes(photo: PhotoId) -> Option<Vec<u8>> {
    let _ = photo;
    None
}
