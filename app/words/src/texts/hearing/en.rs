//! The bench steered by what is said to it, in English.

use super::HearingTexts;

pub(in crate::texts) const TEXTS: HearingTexts = HearingTexts {
    listening: "Spoken words",
    listen_for_words: "Listen for words",
    about_listening: "Say “next”, “back” or “repeat”. While a step is read, nothing is listened to.",
    about_service: "Some browsers send what they hear to a service of their maker. This page keeps \
                    none of it.",
    cannot_listen: "This browser can't listen.",
    not_allowed: "The browser may not use the microphone here, so nothing is listened to.",
    failed: "Listening has failed. It may need a connection.",
    next_words: "next forward continue",
    back_words: "back previous",
    repeat_words: "repeat again",
};
