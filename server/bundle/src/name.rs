//! Names made from content, and what a name says about a file.

use sha2::{Digest, Sha256};

use crate::{File, Trouble};

/// What a file is, told by the end of its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    Page,
    Style,
    Script,
    Wasm,
    Bytes,
    Manifest,
    Vector,
    Picture,
    Font,
}

impl Kind {
    /// The kind of the file at `path`; the page is at the root.
    pub(crate) fn of(path: &str) -> Result<Self, Trouble> {
        if path == "/" {
            return Ok(Self::Page);
        }
        match path.rsplit_once('.').map(|(_, end)| end) {
            Some("html") => Ok(Self::Page),
            Some("css") => Ok(Self::Style),
            Some("js") => Ok(Self::Script),
            Some("wasm") => Ok(Self::Wasm),
            Some("bin") => Ok(Self::Bytes),
            Some("webmanifest") => Ok(Self::Manifest),
            Some("svg") => Ok(Self::Vector),
            Some("png") => Ok(Self::Picture),
            Some("woff2") => Ok(Self::Font),
            _ => Err(Trouble::new(format!(
                "The media type of {path} is not known. Add its ending to the bundler's kinds, \
                 or take the file out of the public folder."
            ))),
        }
    }

    pub(crate) const fn content_type(self) -> &'static str {
        match self {
            Self::Page => "text/html; charset=utf-8",
            Self::Style => "text/css; charset=utf-8",
            Self::Script => "text/javascript; charset=utf-8",
            Self::Wasm => "application/wasm",
            Self::Bytes => "application/octet-stream",
            Self::Manifest => "application/manifest+json",
            Self::Vector => "image/svg+xml",
            Self::Picture => "image/png",
            Self::Font => "font/woff2",
        }
    }
}

/// The hash of some content, as sixteen hexadecimal digits.
pub(crate) fn tag(content: &[u8]) -> String {
    short(Sha256::digest(content).as_slice())
}

/// How many digits of a hash tell a file from others of its name. The first page has
/// hundreds of such addresses in it, which nothing packs.
const TOLD_BY: usize = 8;

/// The address of a file whose name carries the beginning of the hash of its content.
pub(crate) fn hashed_path(name: &str, tag: &str) -> String {
    let tag = tag.get(..TOLD_BY).unwrap_or(tag);
    match name.rsplit_once('.') {
        Some((stem, end)) => format!("/assets/{stem}-{tag}.{end}"),
        None => format!("/assets/{name}-{tag}"),
    }
}

/// The name of a release: a hash over every file and the texts still to fill.
pub(crate) fn release(files: &[File], texts: &[&str]) -> String {
    let mut all = Sha256::new();
    for file in files {
        all.update(file.path.as_bytes());
        all.update([0]);
        all.update(file.tag.as_bytes());
        all.update([0]);
    }
    for text in texts {
        all.update(tag(text.as_bytes()));
    }
    short(all.finalize().as_slice())
}

fn short(hash: &[u8]) -> String {
    use std::fmt::Write as _;

    hash.iter().take(8).fold(String::new(), |mut text, byte| {
        // Writing to a string cannot fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::{Kind, hashed_path, tag};

    /// FIPS 180-4, the example for "abc": ba7816bf 8f01cfea …
    #[test]
    fn a_tag_starts_like_the_published_hash() {
        assert_eq!(tag(b"abc"), "ba7816bf8f01cfea");
    }

    #[test]
    fn the_hash_goes_before_the_ending() {
        assert_eq!(
            hashed_path("icon-192.png", "00ffba7816bf8f01"),
            "/assets/icon-192-00ffba78.png"
        );
    }

    #[test]
    fn an_unknown_ending_is_refused_by_name() {
        let trouble = Kind::of("/assets/notes.docx").unwrap_err();
        assert!(trouble.to_string().contains("notes.docx"));
    }
}
