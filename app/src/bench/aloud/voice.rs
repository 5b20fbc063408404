//! Which of a browser's voices reads a language.

use web_sys::js_sys::Array;
use web_sys::wasm_bindgen::JsValue;

use crate::by_name::{call, of};

/// What the browser says of a voice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Voice {
    /// Its language tag. Some browsers write it with a low line.
    pub(super) tag: String,
    /// Whether it is on this device and needs no connection.
    pub(super) is_local: bool,
    is_default: bool,
}

/// The best voice there is for a language: one on this device, if it can be of the
/// reader's country, and the one that the browser would take.
pub(super) fn best(synthesis: &JsValue, locale: &str) -> Option<(Voice, JsValue)> {
    let all = all(synthesis);
    let voices: Vec<_> = all.iter().map(|(voice, _)| voice.clone()).collect();
    all.into_iter().nth(choose(&voices, locale)?)
}

/// Whether the browser has told of any voice yet.
pub(super) fn are_here(synthesis: &JsValue) -> bool {
    !all(synthesis).is_empty()
}

fn all(synthesis: &JsValue) -> Vec<(Voice, JsValue)> {
    let found = call(synthesis, "getVoices", &[]).ok();
    let Some(found) = found.filter(JsValue::is_object) else {
        return Vec::new();
    };
    let voices = Array::from(&found).into_iter().map(|voice| {
        let is = |name| of(&voice, name).is_some_and(|it| it.is_truthy());
        let told = Voice {
            tag: of(&voice, "lang")
                .and_then(|tag| tag.as_string())
                .unwrap_or_default(),
            is_local: is("localService"),
            is_default: is("default"),
        };
        (told, voice)
    });
    voices.collect()
}

/// Which of these voices is the best; the first of those that are alike.
fn choose(voices: &[Voice], locale: &str) -> Option<usize> {
    let written = |tag: &str| tag.replace('_', "-").to_ascii_lowercase();
    let language = |tag: &str| {
        let tag = written(tag);
        tag.split('-').next().map(str::to_owned)
    };
    let speaks = |voice: &&Voice| language(&voice.tag) == language(locale);
    let worth = |voice: &Voice| {
        let is_near = written(&voice.tag) == written(locale);
        (voice.is_local, is_near, voice.is_default)
    };
    let best = voices.iter().filter(speaks).map(worth).max()?;
    voices
        .iter()
        .position(|voice| speaks(&voice) && worth(voice) == best)
}

#[cfg(test)]
mod tests {
    use super::{Voice, choose};

    fn voice(tag: &str, is_local: bool, is_default: bool) -> Voice {
        Voice {
            tag: tag.to_owned(),
            is_local,
            is_default,
        }
    }

    #[test]
    fn a_voice_on_the_device_comes_first() {
        let voices = [
            voice("fr-FR", true, true),
            voice("en-GB", false, false),
            voice("en_US", true, false),
            voice("de-AT", true, false),
            voice("de-DE", true, false),
            voice("de-DE", true, true),
        ];
        assert_eq!(choose(&voices, "en-GB"), Some(2));
        assert_eq!(choose(&voices, "de-AT"), Some(3));
        assert_eq!(choose(&voices, "de-DE"), Some(5));
        assert_eq!(choose(&voices, "de"), Some(5));
        assert_eq!(choose(&voices, "de-CH"), Some(5));
        assert_eq!(choose(&voices[..2], "en-US"), Some(1));
        assert_eq!(choose(&voices[..1], "en-US"), None);
        assert_eq!(choose(&[voice("", true, true)], "en"), None);
    }
}
