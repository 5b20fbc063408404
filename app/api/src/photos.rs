//! Photographs of paper between a device and its server. They go as they are and by
//! addresses of their own, since questions to server functions are short texts; the
//! key is shown in the header `Authorization`, as `Bearer`.

use serde::{Deserialize, Serialize};

use crate::Refused;

/// Where a workshop's photographs are listed. Each is below it, by its name.
pub const PHOTOS: &str = "/api/photos";

/// The largest file of a photograph, in bytes. Our own bound: a sheet at about ten
/// dots to the millimetre, well packed, takes less.
pub const LARGEST_PHOTO: usize = 1_500_000;

/// The most photographs of a workshop. Our own bound.
pub const MOST_PHOTOS: usize = 200;

/// The most bytes that the photographs of a workshop take together. Our own bound.
pub const ROOM_FOR_PHOTOS: u64 = 100_000_000;

/// What the query of a shared recipe's address asks for a photograph by.
pub const SHARED_PHOTO: &str = "photo";

/// A photograph that the server has.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Photo {
    /// Its name: the first half of the SHA-256 of its file, in 32 hexadecimal digits.
    pub name: String,
    /// How large its file is.
    pub bytes: u64,
}

/// Why a photograph is not taken, given or forgotten.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotTaken {
    /// It is no JPEG, PNG or WebP by its first bytes.
    NoPhotograph,
    /// Its file is larger than [`LARGEST_PHOTO`].
    TooLarge,
    /// The name is not that of what is in the file.
    OtherName,
    /// The workshop has [`MOST_PHOTOS`], or no more of [`ROOM_FOR_PHOTOS`].
    Full,
    /// What keeps any question from being answered.
    Refused(Refused),
}

/// What a photograph is kept as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhotoKind {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// WebP.
    Webp,
}

impl PhotoKind {
    /// By the first bytes of a file, as the WHATWG's MIME Sniffing standard, section
    /// 6.1, has it; `None` for anything else.
    pub fn of(file: &[u8]) -> Option<Self> {
        const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";
        if file.starts_with(&[0xff, 0xd8, 0xff]) {
            Some(Self::Jpeg)
        } else if file.starts_with(PNG) {
            Some(Self::Png)
        } else if file.starts_with(b"RIFF") && file.get(8..14) == Some(b"WEBPVP") {
            Some(Self::Webp)
        } else {
            None
        }
    }

    /// Its media type.
    pub const fn media_type(self) -> &'static str {
        match self {
            Self::Jpeg => "image/jpeg",
            Self::Png => "image/png",
            Self::Webp => "image/webp",
        }
    }
}

/// Whether a text can name a photograph.
pub fn is_photo_name(text: &str) -> bool {
    let digit = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
    text.len() == 32 && text.bytes().all(digit)
}

/// Whether there is room for one more photograph of so many bytes beside these.
pub fn has_room_for(bytes: u64, beside: impl Iterator<Item = u64>) -> bool {
    let (number, all) = beside.fold((1, bytes), |(number, all), other| {
        (number + 1, u64::saturating_add(all, other))
    });
    number <= MOST_PHOTOS && all <= ROOM_FOR_PHOTOS
}

#[cfg(test)]
mod tests {
    use super::{MOST_PHOTOS, PhotoKind, ROOM_FOR_PHOTOS, has_room_for, is_photo_name};

    /// The signatures of the WHATWG's MIME Sniffing standard, section 6.1.
    #[test]
    fn pictures_are_known_by_their_first_bytes() {
        let kinds: [(&[u8], _); 9] = [
            (b"\xff\xd8\xff\xe0\0\x10JFIF", Some("image/jpeg")),
            (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", Some("image/png")),
            (b"RIFF\x1a\0\0\0WEBPVP8 ", Some("image/webp")),
            (b"RIFF\x1a\0\0\0WAVEfmt ", None),
            (b"GIF89a", None),
            (b"<svg xmlns='http://www.w3.org/2000/svg'/>", None),
            (b"<html>", None),
            (b"\xff\xd8", None),
            (b"", None),
        ];
        for (file, kind) in kinds {
            let found = PhotoKind::of(file).map(PhotoKind::media_type);
            assert_eq!(found, kind, "{file:?}");
        }
    }

    #[test]
    fn only_names_are_names() {
        assert!(is_photo_name("0123456789abcdef0123456789abcdef"));
        for other in [
            "",
            "0123456789ABCDEF0123456789ABCDEF",
            "0123456789abcdef0123456789abcde",
            "0123456789abcdef0123456789abcdef0",
            "../3456789abcdef0123456789abcdef",
            "0123456789abcdef0123456789abcdeé",
        ] {
            assert!(!is_photo_name(other), "{other}");
        }
    }

    #[test]
    fn room_ends_by_number_and_by_size() {
        assert!(has_room_for(1, [ROOM_FOR_PHOTOS - 1].into_iter()));
        assert!(!has_room_for(2, [ROOM_FOR_PHOTOS - 1].into_iter()));
        assert!(has_room_for(1, (1..MOST_PHOTOS).map(|_| 1)));
        assert!(!has_room_for(1, (0..MOST_PHOTOS).map(|_| 1)));
    }
}
