//! The name of a photograph.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

/// Names a photograph by what is in its file: the first half of the file's SHA-256
/// (FIPS 180-4). Stored as 32 hexadecimal digits.
///
/// That of a side of a sheet shows the whole sheet and nothing else, seen from
/// straight above, its print upright; it is stretched over the sheet's size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct PhotoId([u8; 16]);

impl PhotoId {
    /// From the SHA-256 of the file.
    pub fn of_digest(digest: [u8; 32]) -> Self {
        let mut half = [0; 16];
        half.copy_from_slice(&digest[..16]);
        Self(half)
    }
}

impl fmt::Display for PhotoId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

/// A text that names no photograph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoIdError(String);

impl fmt::Display for PhotoIdError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "photograph {:?}", self.0)
    }
}

impl std::error::Error for PhotoIdError {}

impl FromStr for PhotoId {
    type Err = PhotoIdError;

    fn from_str(text: &str) -> Result<Self, PhotoIdError> {
        let digit = |byte: &u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(byte);
        let named = text.len() == 32 && text.as_bytes().iter().all(digit);
        let number = u128::from_str_radix(text, 16).ok().filter(|_| named);
        number
            .map(|number| Self(number.to_be_bytes()))
            .ok_or_else(|| PhotoIdError(text.to_owned()))
    }
}

impl TryFrom<String> for PhotoId {
    type Error = PhotoIdError;

    fn try_from(text: String) -> Result<Self, PhotoIdError> {
        text.parse()
    }
}

impl From<PhotoId> for String {
    fn from(photo: PhotoId) -> Self {
        photo.to_string()
    }
}
