//! How the end of a clock is told: by a tone, by a buzz, and by a message of the
//! system where the page is out of sight.

use std::slice;

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Array, Object, Promise};
use web_sys::wasm_bindgen::{JsCast as _, JsValue};

use crate::by_name::{call, new, of, of_browser, set};

/// The tone: how high in hertz, how loud of 1, how often, how long and how far apart
/// in seconds. Our own choice: to be heard over a fan, and told from a telephone.
const PITCH: f64 = 880.0;
const LOUDNESS: f64 = 0.4;
const TIMES: u32 = 4;
const LONG: f64 = 0.35;
const APART: f64 = 0.6;
/// How long it swells and fades, so that it does not crack.
const SWELL: f64 = 0.03;

/// How the device buzzes: on and off, in milliseconds. Our own choice.
const BUZZ: [u32; 5] = [300, 200, 300, 200, 300];

/// What tells the end of a clock.
#[derive(Clone, Copy)]
pub(super) struct Bell {
    /// What makes sound, once the browser lets it be made.
    sound: StoredValue<Option<JsValue>, LocalStorage>,
}

impl Bell {
    pub(super) fn new() -> Self {
        Self {
            sound: StoredValue::new_local(None),
        }
    }

    /// Gets ready to make a sound, as somebody taps.
    pub(super) fn get_ready(self) {
        let is_here = self.sound.with_value(Option::is_some);
        if !is_here {
            self.sound.set_value(new("AudioContext", &[]).ok());
        }
        self.sound.with_value(|sound| {
            if let Some(sound) = sound {
                // Where it cannot go on there is no sound, and all else tells the end.
                drop(call(sound, "resume", &[]));
            }
        });
    }

    /// Asks whether the system may tell the end, where it was not asked yet.
    #[expect(
        clippy::unused_self,
        reason = "it is asked for the bell, and by nothing else"
    )]
    pub(super) fn ask(self) {
        if let Some(messages) = of_browser("Notification")
            && may_tell(&messages).as_deref() == Some("default")
        {
            // What comes of it is asked for when it is needed.
            drop(call(&messages, "requestPermission", &[]));
        }
    }

    /// Tells that time is up.
    pub(super) fn ring(self, words: &str) {
        self.sound.with_value(|sound| {
            if let Some(sound) = sound {
                // Where it fails there is no sound, and all else tells the end.
                drop(tone(sound));
            }
        });
        buzz();
        if document().hidden() {
            let words = words.to_owned();
            spawn_local(async move {
                // Where it fails the line at the bench tells it.
                drop(message(&words).await);
            });
        }
    }
}

/// Plays the tone, made of nothing but a wave.
fn tone(sound: &JsValue) -> Result<(), JsValue> {
    let from = of(sound, "currentTime").and_then(|time| time.as_f64());
    let from = from.unwrap_or_default();
    let out = of(sound, "destination").unwrap_or_default();
    for time in 0..TIMES {
        let begin = from + f64::from(time) * APART;
        let wave = call(sound, "createOscillator", &[])?;
        let volume = call(sound, "createGain", &[])?;
        if let Some(pitch) = of(&wave, "frequency") {
            set(&pitch, "value", &PITCH.into());
        }
        if let Some(gain) = of(&volume, "gain") {
            for (loud, at) in [
                (0.0, begin),
                (LOUDNESS, begin + SWELL),
                (LOUDNESS, begin + LONG - SWELL),
                (0.0, begin + LONG),
            ] {
                call(&gain, "linearRampToValueAtTime", &[loud.into(), at.into()])?;
            }
        }
        call(&wave, "connect", slice::from_ref(&volume))?;
        call(&volume, "connect", slice::from_ref(&out))?;
        call(&wave, "start", &[begin.into()])?;
        call(&wave, "stop", &[(begin + LONG).into()])?;
    }
    Ok(())
}

/// Buzzes, where the device can and somebody has touched the page: without that
/// browsers refuse it, and complain.
fn buzz() {
    let navigator = window().navigator();
    let activation = of(&navigator, "userActivation");
    let touched = activation.and_then(|it| of(&it, "hasBeenActive"));
    if of(&navigator, "vibrate").is_some() && touched.is_some_and(|it| it.is_truthy()) {
        let pattern: Array = BUZZ.iter().map(|long| JsValue::from(*long)).collect();
        // It says whether it did, which changes nothing.
        drop(call(&navigator, "vibrate", &[pattern.into()]));
    }
}

/// Whether the system may tell something: "granted", "denied" or "default".
fn may_tell(messages: &JsValue) -> Option<String> {
    of(messages, "permission")?.as_string()
}

/// Has the system tell it: by the page, or where that may not, by the worker.
async fn message(words: &str) -> Result<(), JsValue> {
    let granted = of_browser("Notification").and_then(|it| may_tell(&it));
    if granted.as_deref() != Some("granted") {
        return Ok(());
    }
    let options = Object::new();
    // Two tabs tell the same once.
    set(&options, "tag", &words.into());
    let with = [words.into(), options.into()];
    if new("Notification", &with).is_ok() {
        return Ok(());
    }
    let Some(workers) = of(&window().navigator(), "serviceWorker") else {
        return Ok(());
    };
    let found: Promise = call(&workers, "getRegistration", &[])?.dyn_into()?;
    let worker = JsFuture::from(found).await?;
    let shown: Promise = call(&worker, "showNotification", &with)?.dyn_into()?;
    JsFuture::from(shown).await?;
    Ok(())
}
