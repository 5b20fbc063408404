//! Photographs of papers, as pages take them.

use std::collections::BTreeMap;

use foldwright_engine::paper::PhotoId;
use krilla::image::Image;

/// The photographs of a recipe's papers. One that is missing is shown as colour and
/// print.
#[derive(Debug, Clone, Default)]
pub struct Photos(BTreeMap<PhotoId, Image>);

impl Photos {
    /// Those that are files of JPEG, PNG or WebP, which are told by their first bytes;
    /// others are left out.
    pub fn new(files: impl IntoIterator<Item = (PhotoId, Vec<u8>)>) -> Self {
        let read = files.into_iter().filter_map(|(photo, file)| {
            let image = match file.get(..3)? {
                b"\xff\xd8\xff" => Image::from_jpeg(file.into(), true),
                b"\x89PN" => Image::from_png(file.into(), true),
                b"RIF" => Image::from_webp(file.into(), true),
                _ => return None,
            };
            Some((photo, image.ok()?))
        });
        Self(read.collect())
    }

    pub(crate) fn get(&self, photo: PhotoId) -> Option<Image> {
        self.0.get(&photo).cloned()
    }

    pub(crate) fn has(&self, photo: PhotoId) -> bool {
        self.0.contains_key(&photo)
    }
}
