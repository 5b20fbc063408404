//! The files the server sends.

use std::io::Write as _;
use std::sync::OnceLock;

use axum::body::Bytes;
use flate2::Compression;
use flate2::write::GzEncoder;
use foldwright_words::Language;

use crate::spoken::in_language;

/// Every file of one release of the app.
#[derive(Clone, Debug)]
pub struct Site {
    /// Names this release; it changes whenever any file does.
    pub release: String,
    /// The files.
    pub assets: Vec<Asset>,
    /// Those that are another in each language.
    spoken: Vec<Asset>,
}

/// One file with its compressed forms.
#[derive(Clone, Debug)]
pub struct Asset {
    /// Path of its address. The page the app opens with is at `/`.
    pub path: String,
    /// Media type.
    pub content_type: &'static str,
    /// The language that it is in; `None` where it is the same in every one.
    pub language: Option<Language>,
    /// How long a browser may keep it.
    pub keep: Keep,
    /// Hash of the content, in characters an entity tag may hold.
    pub tag: String,
    /// The bytes as they are, once known: hardly any browser asks for them, so
    /// the program carries them only where they do not pack.
    pub as_is: OnceLock<Bytes>,
    /// The bytes in gzip, once known: browsers ask for Brotli wherever the line is
    /// safe, so the program does not carry them.
    pub in_gzip: OnceLock<Bytes>,
    /// The bytes in Brotli, where that is smaller.
    pub brotli: Option<Bytes>,
}

impl Asset {
    /// The bytes as they are, unpacked when first asked for.
    pub fn plain(&self) -> &Bytes {
        self.as_is.get_or_init(|| {
            let mut plain = Vec::new();
            let mut packed = self.brotli.as_deref().unwrap_or_default();
            // What was packed when the program was built can be unpacked.
            let _ = brotli_decompressor::BrotliDecompress(&mut packed, &mut plain);
            plain.into()
        })
    }

    /// The bytes in gzip, packed when first asked for.
    pub fn gzip(&self) -> &Bytes {
        self.in_gzip.get_or_init(|| gzip(self.plain()))
    }

    /// Whether they become smaller by packing.
    pub fn packs(&self) -> bool {
        self.brotli.is_some() || self.in_gzip.get().is_some()
    }
}

/// Bytes in gzip.
pub(crate) fn gzip(bytes: &[u8]) -> Bytes {
    let mut packing = GzEncoder::new(Vec::new(), Compression::best());
    // Writing to memory cannot fail.
    let _ = packing.write_all(bytes);
    packing.finish().unwrap_or_default().into()
}

/// How long a browser may keep a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keep {
    /// For good: the name changes with the content.
    Forever,
    /// Only after asking whether it is still current.
    Ask,
}

impl Keep {
    /// The value of `Cache-Control`.
    pub(crate) const fn header(self) -> &'static str {
        match self {
            Self::Forever => "public, max-age=31536000, immutable",
            Self::Ask => "no-cache",
        }
    }
}

impl Site {
    /// A release of these files, of which those that are read before the app is
    /// there have holes for their texts.
    pub fn of(release: String, assets: Vec<Asset>) -> Self {
        let languages = Language::ALL.into_iter();
        let spoken = languages.flat_map(|language| {
            let assets = assets.iter();
            assets.filter_map(move |asset| in_language(asset, language))
        });
        Self {
            release,
            spoken: spoken.collect(),
            assets,
        }
    }

    /// The release that was built together with this server.
    pub fn embedded() -> Self {
        include!(concat!(env!("OUT_DIR"), "/site.rs"))
    }

    /// The file at `path`, for whoever reads a language.
    pub fn asset(&self, path: &str, language: Language) -> Option<&Asset> {
        let mut spoken = self.spoken.iter();
        spoken
            .find(|asset| asset.path == path && asset.language == Some(language))
            .or_else(|| self.assets.iter().find(|asset| asset.path == path))
    }
}
