//! Reading the step aloud, with the browser's own voice (Web Speech API).

mod voice;

use std::slice;
use std::time::Duration;

use leptos::ev;
use leptos::prelude::*;
use web_sys::wasm_bindgen::JsValue;
use web_sys::wasm_bindgen::prelude::Closure;

use super::aids::AtHand;
use super::said::Said;
use super::table::Table;
use super::turn::is_for_bench;
use crate::by_name::{call, new, of, of_browser, set};
use crate::part::{Icon, Symbol};
use crate::spoken::{language, locale, texts};
use voice::{are_here, best};

/// How long a browser may take to tell of its voices before it counts as having none.
/// Our own bound.
const PATIENCE: Duration = Duration::from_secs(2);

/// Why nothing is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Trouble {
    /// The browser knows no way.
    CannotRead,
    /// It has no voice for the language.
    NoVoice,
    /// It wants somebody to have tapped the page first.
    NeedsATap,
    /// The voice did not do it.
    Failed,
}

impl Trouble {
    /// What an utterance tells by the names of the Web Speech API; `None` where it was
    /// stopped, which is no trouble.
    fn of_error(error: &str) -> Option<Self> {
        match error {
            "canceled" | "interrupted" => None,
            "not-allowed" => Some(Self::NeedsATap),
            "language-unavailable" | "voice-unavailable" => Some(Self::NoVoice),
            _ => Some(Self::Failed),
        }
    }

    fn words(self) -> &'static str {
        let texts = language().beside();
        match self {
            Self::CannotRead => texts.cannot_read,
            Self::NoVoice => texts.no_voice,
            Self::NeedsATap => texts.needs_a_tap,
            Self::Failed => texts.voice_failed,
        }
    }
}

/// What is being read: browsers forget utterances that nobody holds, and then tell
/// nothing of their end.
struct Utterances {
    all: Vec<JsValue>,
    _ended: Closure<dyn FnMut()>,
    _failed: Closure<dyn FnMut(JsValue)>,
}

impl Drop for Utterances {
    /// What they still tell is of no account.
    fn drop(&mut self) {
        for utterance in &self.all {
            for told in ["onend", "onerror"] {
                set(utterance, told, &JsValue::NULL);
            }
        }
    }
}

/// The reading of the step.
#[derive(Clone, Copy)]
pub(super) struct Reading {
    said: Said,
    /// Whether a step is shown: there is nothing else to read.
    is_shown: Memo<bool>,
    synthesis: StoredValue<Option<JsValue>, LocalStorage>,
    utterances: StoredValue<Option<Utterances>, LocalStorage>,
    speaks: RwSignal<bool>,
    /// Whether it begins as soon as there is a voice.
    waits: StoredValue<bool>,
    trouble: RwSignal<Option<Trouble>>,
}

impl Reading {
    pub(super) fn here() -> Self {
        expect_context()
    }

    /// Reads each step as it opens, where that is wanted, for as long as the bench is
    /// open. Only a step `is_shown` is read.
    pub(super) fn begin(table: Table, said: Said, hand: AtHand, is_shown: Memo<bool>) -> Self {
        let reading = Self {
            said,
            is_shown,
            synthesis: StoredValue::new_local(of_browser("speechSynthesis")),
            utterances: StoredValue::new_local(None),
            speaks: RwSignal::new(false),
            waits: StoredValue::new(false),
            trouble: RwSignal::new(None),
        };
        let key = table.key();
        Effect::new(move |before: Option<_>| {
            let now = key.get().filter(|_| is_shown.get());
            if before != Some(now) {
                reading.stop();
                if now.is_some() && hand.aids().reads_aloud {
                    reading.read();
                }
            }
            now
        });
        let hidden = window_event_listener(ev::visibilitychange, move |_| {
            if document().hidden() {
                reading.stop();
            }
        });
        let left = window_event_listener(ev::pagehide, move |_| reading.stop());
        let keys = window_event_listener(ev::keydown, move |event| {
            let asks = matches!(&*event.key(), "r" | "R") && is_for_bench(&event);
            // A letter alone may only do something where that was chosen, and can be
            // unchosen (WCAG 2.2, 2.1.4).
            if asks && hand.aids().reads_aloud {
                reading.read();
            }
        });
        let voices = Closure::<dyn FnMut()>::new(move || {
            if reading.waits.try_get_value() == Some(true) {
                reading.read();
            }
        });
        reading.with_synthesis(|synthesis| {
            // Asked for so that it begins to look for them.
            are_here(synthesis);
            set(synthesis, "onvoiceschanged", voices.as_ref());
        });
        let _held = StoredValue::new_local(voices);
        on_cleanup(move || {
            hidden.remove();
            left.remove();
            keys.remove();
            reading.stop();
            reading.with_synthesis(|synthesis| set(synthesis, "onvoiceschanged", &JsValue::NULL));
        });
        reading
    }

    fn with_synthesis<T>(self, what: impl FnOnce(&JsValue) -> T) -> Option<T> {
        self.synthesis
            .try_with_value(|synthesis| synthesis.as_ref().map(what))
            .flatten()
    }

    /// Reads the step from its beginning.
    pub(super) fn read(self) {
        self.stop();
        if !self.is_shown.get_untracked() {
            return;
        }
        let locale = locale();
        let Some(voice) = self.with_synthesis(|synthesis| best(synthesis, &locale)) else {
            self.trouble.set(Some(Trouble::CannotRead));
            return;
        };
        if let Some((voice, what)) = voice {
            self.trouble.set(None);
            // Fails only where the browser has voices and no utterances.
            if self.speak(&voice.tag, &what).is_err() {
                self.trouble.set(Some(Trouble::Failed));
            }
            return;
        }
        self.waits.set_value(true);
        if self.with_synthesis(are_here) == Some(true) {
            self.trouble.set(Some(Trouble::NoVoice));
            return;
        }
        set_timeout(
            move || {
                if self.waits.try_get_value() == Some(true) {
                    self.trouble.set(Some(Trouble::NoVoice));
                }
            },
            PATIENCE,
        );
    }

    /// Hands the step to a voice, a breath at a time.
    fn speak(self, tag: &str, voice: &JsValue) -> Result<(), JsValue> {
        let ended = Closure::<dyn FnMut()>::new(move || {
            self.speaks.try_set(false);
        });
        let failed = Closure::<dyn FnMut(JsValue)>::new(move |event: JsValue| {
            let error = of(&event, "error").and_then(|error| error.as_string());
            self.stop();
            self.trouble
                .try_set(Trouble::of_error(&error.unwrap_or_default()));
        });
        let all = self.said.for_a_voice().into_iter().map(|text| {
            let utterance = new("SpeechSynthesisUtterance", &[text.into()])?;
            set(&utterance, "voice", voice);
            set(&utterance, "lang", &tag.into());
            set(&utterance, "onerror", failed.as_ref());
            Ok(utterance)
        });
        let all = all.collect::<Result<Vec<_>, JsValue>>()?;
        if let Some(last) = all.last() {
            set(last, "onend", ended.as_ref());
        }
        self.speaks.set(true);
        let spoken = self.with_synthesis(|synthesis| {
            let mut all = all.iter();
            all.try_for_each(|it| call(synthesis, "speak", slice::from_ref(it)).map(drop))
        });
        self.utterances.set_value(Some(Utterances {
            all,
            _ended: ended,
            _failed: failed,
        }));
        spoken.unwrap_or(Ok(()))
    }

    /// Stops, and is quiet.
    pub(super) fn stop(self) {
        // The bench may have been left.
        let reading = self.utterances.try_update_value(Option::take);
        drop(reading);
        self.waits.try_set_value(false);
        self.speaks.try_set(false);
        self.with_synthesis(|synthesis| {
            // It has nothing to stop where it fails.
            drop(call(synthesis, "cancel", &[]));
        });
    }

    /// Whether a step is being read. Tracks.
    pub(super) fn is_reading(self) -> bool {
        self.speaks.get()
    }

    /// What there is to read with.
    pub(super) fn about_voice(self) -> &'static str {
        let texts = language().beside();
        let voice = self.with_synthesis(|synthesis| best(synthesis, &locale()));
        match voice {
            None => texts.cannot_read,
            Some(None) => texts.no_voice,
            Some(Some((voice, _))) if voice.is_local => texts.voice_here,
            Some(Some(_)) => texts.voice_away,
        }
    }
}

/// The button that reads the step, and stops again.
#[component]
pub(super) fn ReadAloud() -> impl IntoView {
    let reading = Reading::here();
    let label = move || {
        let texts = language().beside();
        if reading.speaks.get() {
            texts.stop_reading
        } else {
            texts.read_aloud
        }
    };
    let press = move |_| {
        if reading.speaks.get_untracked() {
            reading.stop();
        } else {
            reading.read();
        }
    };
    view! {
        <button
            type="button"
            class="bench-aid"
            class:busy=reading.speaks
            aria-label=label
            disabled=move || !reading.is_shown.get()
            on:click=press
        >
            <Icon symbol=Symbol::Speaker/>
        </button>
    }
}

/// Says why nothing is read.
#[component]
pub(super) fn ReadingTrouble() -> impl IntoView {
    let trouble = Reading::here().trouble;
    let words = move || trouble.get().map(Trouble::words);
    view! {
        <Show when=move || trouble.get().is_some()>
            <div class="bench-awake" role="status">
                <p>{words}</p>
                <button type="button" class="button" on:click=move |_| trouble.set(None)>{texts().bench.understood}</button>
            </div>
        </Show>
    }
}

#[cfg(test)]
mod tests {
    use super::Trouble;

    // The names are those of SpeechSynthesisErrorCode (Web Speech API, 4.2.9).
    #[test]
    fn what_an_utterance_tells_is_understood() {
        let told = [
            ("canceled", None),
            ("interrupted", None),
            ("not-allowed", Some(Trouble::NeedsATap)),
            ("language-unavailable", Some(Trouble::NoVoice)),
            ("voice-unavailable", Some(Trouble::NoVoice)),
            ("network", Some(Trouble::Failed)),
            ("audio-busy", Some(Trouble::Failed)),
            ("synthesis-failed", Some(Trouble::Failed)),
        ];
        for (error, trouble) in told {
            assert_eq!(Trouble::of_error(error), trouble, "{error}");
        }
    }
}
