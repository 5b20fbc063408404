//! The bench steered by single words, where the browser recognises speech (Web Speech
//! API) and its maker has switched that on.

use std::time::Duration;

use leptos::ev;
use leptos::prelude::*;
use web_sys::js_sys::Reflect;
use web_sys::wasm_bindgen::JsValue;
use web_sys::wasm_bindgen::prelude::Closure;

use super::aids::AtHand;
use super::aloud::Reading;
use super::table::Table;
use crate::by_name::{call, new, of, of_browser, set};
use crate::part::Choice;
use crate::spoken::{language, locale, texts};

/// What browsers call their recogniser.
const NAMES: [&str; 2] = ["SpeechRecognition", "webkitSpeechRecognition"];

/// How long until it is begun again after it has ended by itself, as browsers have it do
/// after each silence. Our own choice.
const PAUSE: Duration = Duration::from_millis(400);

/// What somebody asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Asked {
    Next,
    Back,
    Repeat,
}

impl Asked {
    /// What is asked for by the last word of what was heard; nothing where it is no word
    /// that is listened for.
    fn of(heard: &str, words: [(&str, Self); 3]) -> Option<Self> {
        let last = heard.split_whitespace().next_back()?.to_lowercase();
        let last = last.trim_matches(|letter: char| !letter.is_alphanumeric());
        let known = |words: &str| words.split(' ').any(|word| word == last);
        let mut all = words.into_iter();
        all.find_map(|(words, asked)| known(words).then_some(asked))
    }
}

/// The words of the maker's language.
fn words() -> [(&'static str, Asked); 3] {
    let texts = language().hearing();
    [
        (texts.next_words, Asked::Next),
        (texts.back_words, Asked::Back),
        (texts.repeat_words, Asked::Repeat),
    ]
}

/// A recogniser that listens, with what it tells its ends and results to.
struct Recogniser {
    what: JsValue,
    _heard: Closure<dyn FnMut(JsValue)>,
    _ended: Closure<dyn FnMut()>,
    _failed: Closure<dyn FnMut(JsValue)>,
}

impl Drop for Recogniser {
    /// It stops, and what it still tells is of no account.
    fn drop(&mut self) {
        for told in ["onresult", "onend", "onerror"] {
            set(&self.what, told, &JsValue::NULL);
        }
        // It has nothing to stop where it fails.
        drop(call(&self.what, "abort", &[]));
    }
}

/// Listening for words.
#[derive(Clone, Copy)]
pub(super) struct Listening {
    table: Table,
    hand: AtHand,
    reading: Reading,
    is_ready: Memo<bool>,
    /// How often it has ended by itself, so that it is begun again.
    ends: RwSignal<u32>,
    recogniser: StoredValue<Option<Recogniser>, LocalStorage>,
    trouble: RwSignal<Option<&'static str>>,
}

impl Listening {
    pub(super) fn here() -> Self {
        expect_context()
    }

    /// Listens for as long as the bench is open and in sight, where that is switched on,
    /// but not while a step is read. What is said counts while `is_ready`.
    pub(super) fn begin(
        table: Table,
        hand: AtHand,
        reading: Reading,
        is_ready: Memo<bool>,
    ) -> Self {
        let listening = Self {
            table,
            hand,
            reading,
            is_ready,
            ends: RwSignal::new(0),
            recogniser: StoredValue::new_local(None),
            trouble: RwSignal::new(None),
        };
        let is_seen = RwSignal::new(!document().hidden());
        let hidden = window_event_listener(ev::visibilitychange, move |_| {
            is_seen.set(!document().hidden());
        });
        let is_wanted = hand.of(|aids| aids.listens);
        Effect::new(move || {
            listening.ends.track();
            listening.stop();
            if is_wanted.get() && is_seen.get() && !reading.is_reading() {
                listening.listen();
            }
        });
        on_cleanup(move || {
            hidden.remove();
            listening.stop();
        });
        listening
    }

    fn listen(self) {
        let Some(name) = name() else { return };
        // Fails only where the browser has one that cannot be made.
        if self.start(name).is_err() {
            self.give_up(language().hearing().failed);
        }
    }

    fn start(self, name: &str) -> Result<(), JsValue> {
        let what = new(name, &[])?;
        let heard = Closure::<dyn FnMut(JsValue)>::new(move |event: JsValue| self.hear(&event));
        let ended = Closure::<dyn FnMut()>::new(move || {
            set_timeout(
                move || {
                    // The bench may have been left.
                    self.ends.try_update(|ends| *ends = ends.wrapping_add(1));
                },
                PAUSE,
            );
        });
        let failed = Closure::<dyn FnMut(JsValue)>::new(move |event: JsValue| {
            let error = of(&event, "error").and_then(|error| error.as_string());
            let texts = language().hearing();
            // The names are those of SpeechRecognitionErrorCode.
            match error.as_deref() {
                Some("no-speech" | "aborted") => {}
                Some("not-allowed" | "service-not-allowed" | "audio-capture") => {
                    self.give_up(texts.not_allowed);
                }
                _ => self.give_up(texts.failed),
            }
        });
        for (name, value) in [
            ("lang", locale().into()),
            ("continuous", true.into()),
            ("interimResults", false.into()),
        ] {
            set(&what, name, &value);
        }
        set(&what, "onresult", heard.as_ref());
        set(&what, "onend", ended.as_ref());
        set(&what, "onerror", failed.as_ref());
        let started = call(&what, "start", &[]).map(drop);
        self.recogniser.set_value(Some(Recogniser {
            what,
            _heard: heard,
            _ended: ended,
            _failed: failed,
        }));
        started
    }

    /// Does what was asked for.
    fn hear(self, event: &JsValue) {
        let Some(asked) = heard(event).and_then(|heard| Asked::of(&heard, words())) else {
            return;
        };
        if self.is_ready.try_get_untracked() != Some(true) {
            return;
        }
        match asked {
            Asked::Next => self.table.go_on(),
            Asked::Back => self.table.go_back(),
            Asked::Repeat => self.reading.read(),
        }
    }

    /// Listens no more, and says why.
    fn give_up(self, why: &'static str) {
        self.hand.change(|aids| aids.listens = false);
        self.trouble.set(Some(why));
    }

    fn stop(self) {
        let recogniser = self.recogniser.try_update_value(Option::take);
        // What is listened to may be what calls this: it is let go of afterwards.
        if let Some(Some(recogniser)) = recogniser {
            set_timeout(move || drop(recogniser), Duration::ZERO);
        }
    }
}

/// What the browser calls its recogniser; nothing where it has none.
fn name() -> Option<&'static str> {
    NAMES.into_iter().find(|name| of_browser(name).is_some())
}

/// What an event tells that was heard last.
fn heard(event: &JsValue) -> Option<String> {
    let results = of(event, "results")?;
    let count = of(&results, "length")?.as_f64()?;
    let last = Reflect::get(&results, &(count - 1.0).into()).ok()?;
    let best = Reflect::get(&last, &0.into()).ok()?;
    of(&best, "transcript")?.as_string()
}

/// Whether the bench listens.
#[component]
pub(super) fn ListenForWords() -> impl IntoView {
    let listening = Listening::here();
    let hand = listening.hand;
    let texts = language().hearing();
    let choose = move |listens: bool| {
        listening.trouble.set(None);
        hand.change(|aids| aids.listens = listens);
    };
    if name().is_none() {
        return view! {
            <section>
                <h3>{texts.listening}</h3>
                <p class="quiet">{texts.cannot_listen}</p>
            </section>
        }
        .into_any();
    }
    let beside = language().beside();
    view! {
        <section>
            <h3>{texts.listening}</h3>
            <Choice
                titled=true
                label=texts.listen_for_words
                options=move || vec![(false, beside.off), (true, beside.on)]
                chosen=hand.of(|aids| aids.listens)
                choose
            />
            <p class="quiet">{texts.about_listening} " " {texts.about_service}</p>
        </section>
    }
    .into_any()
}

/// Says why nothing is listened to any more.
#[component]
pub(super) fn ListeningTrouble() -> impl IntoView {
    let trouble = Listening::here().trouble;
    view! {
        <Show when=move || trouble.get().is_some()>
            <div class="bench-awake" role="status">
                <p>{move || trouble.get()}</p>
                <button type="button" class="button" on:click=move |_| trouble.set(None)>{texts().bench.understood}</button>
            </div>
        </Show>
    }
}

#[cfg(test)]
mod tests {
    use foldwright_words::Language;

    use super::{Asked, words};
    use crate::spoken::speak;

    #[test]
    fn the_last_word_tells_what_is_asked_for() {
        speak(Language::English);
        let asked = |heard| Asked::of(heard, words());
        assert_eq!(asked("next"), Some(Asked::Next));
        assert_eq!(asked(" Okay, Next. "), Some(Asked::Next));
        assert_eq!(asked("go back"), Some(Asked::Back));
        assert_eq!(asked("Repeat!"), Some(Asked::Repeat));
        // Talk at the table is none.
        for heard in ["", "...", "the next card is blue", "weiter", "backing"] {
            assert_eq!(asked(heard), None, "{heard}");
        }
        speak(Language::German);
        let asked = |heard| Asked::of(heard, words());
        assert_eq!(asked("Weiter"), Some(Asked::Next));
        assert_eq!(asked("bitte zurück"), Some(Asked::Back));
        assert_eq!(asked("Nochmal."), Some(Asked::Repeat));
        assert_eq!(asked("next"), None);
        speak(Language::English);
    }
}
