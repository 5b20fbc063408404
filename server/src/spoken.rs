//! What is read before the app is there, in its reader's language: the page that
//! every address of the app opens with, and what makes it installable.

use std::hash::{DefaultHasher, Hash as _, Hasher as _};

use axum::body::Bytes;
use foldwright_words::Language;
use html_escape::encode_double_quoted_attribute as escaped;
use serde_json::{Map, Value};

use crate::site::{Asset, gzip};

/// The file as it is in a language; `None` where it is the same in every one.
pub(crate) fn in_language(asset: &Asset, language: Language) -> Option<Asset> {
    let bytes: Bytes = match asset.path.as_str() {
        "/" => page(&String::from_utf8_lossy(asset.plain()), language).into(),
        "/manifest.webmanifest" => manifest(asset.plain(), language),
        _ => return None,
    };
    Some(Asset {
        language: Some(language),
        tag: tag(&bytes),
        in_gzip: gzip(&bytes).into(),
        brotli: None,
        as_is: bytes.into(),
        ..asset.clone()
    })
}

/// The page with its texts.
fn page(written: &str, language: Language) -> String {
    let texts = language.no_app();
    let holes = [
        ("{language}", language.tag()),
        ("{purpose}", texts.purpose),
        ("{could_not_start}", texts.could_not_start),
        ("{needs_javascript}", texts.needs_javascript),
    ];
    holes.iter().fold(written.to_owned(), |page, (hole, text)| {
        page.replace(hole, &escaped(text))
    })
}

/// The manifest with its texts, which are members of the Web Application Manifest.
fn manifest(written: &Bytes, language: Language) -> Bytes {
    let Ok(mut members) = serde_json::from_slice::<Map<String, Value>>(written) else {
        return written.clone();
    };
    members.insert(String::from("lang"), language.tag().into());
    let purpose = language.no_app().purpose;
    members.insert(String::from("description"), purpose.into());
    Value::Object(members).to_string().into()
}

/// What tells one content from another. A server built otherwise may name the same
/// one differently, which is then sent once more.
fn tag(bytes: &Bytes) -> String {
    let mut hasher = DefaultHasher::new();
    bytes.hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}

#[cfg(test)]
mod tests {
    use axum::body::Bytes;
    use foldwright_words::Language;
    use serde_json::Value;

    use super::{manifest, page};

    #[test]
    fn a_language_changes_what_is_read_and_nothing_else() {
        let written = Bytes::from_static(include_bytes!("../../public/manifest.webmanifest"));
        let read = |language| -> Value {
            serde_json::from_slice(&manifest(&written, language)).expect("it is JSON")
        };
        let (english, german) = (read(Language::English), read(Language::German));
        assert_eq!(
            (&english["lang"], &german["lang"]),
            (&"en".into(), &"de".into())
        );
        let members = english.as_object().expect("it has members");
        let differ = members
            .iter()
            .filter(|(name, value)| german[name.as_str()] != **value);
        let differ: Vec<_> = differ.map(|(name, _)| name.as_str()).collect();
        assert_eq!(differ, ["description", "lang"]);
    }

    #[test]
    fn every_hole_of_the_page_is_filled_in_every_language() {
        let written = include_str!("../../public/index.html");
        // What the bundle fills in stands in two braces.
        let lines = written.lines().filter(|line| !line.contains("{{"));
        let written: String = lines.flat_map(|line| [line, "\n"]).collect();
        for language in Language::ALL {
            let page = page(&written, language);
            let texts = language.no_app();
            assert!(!page.contains(['{', '}']), "{page}");
            assert!(page.contains(&format!("<html lang=\"{}\">", language.tag())));
            for text in [texts.purpose, texts.could_not_start, texts.needs_javascript] {
                assert!(page.contains(text), "{text}");
            }
        }
    }
}
