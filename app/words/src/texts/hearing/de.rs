//! The bench steered by what is said to it, in German.

use super::HearingTexts;

pub(in crate::texts) const TEXTS: HearingTexts = HearingTexts {
    listening: "Gesprochene Worte",
    listen_for_words: "Auf Worte hören",
    about_listening: "Sag „weiter“, „zurück“ oder „wiederholen“. Während ein Schritt vorgelesen wird, \
                      hört niemand zu.",
    about_service: "Manche Browser schicken, was sie hören, an einen Dienst ihres Herstellers. Diese \
                    Seite behält nichts davon.",
    cannot_listen: "Dieser Browser kann nicht zuhören.",
    not_allowed: "Der Browser darf hier das Mikrofon nicht benutzen und hört deshalb nicht zu.",
    failed: "Das Zuhören ist gescheitert. Vielleicht braucht es eine Verbindung.",
    next_words: "weiter nächster vorwärts",
    back_words: "zurück vorheriger",
    repeat_words: "wiederholen wiederhole nochmal",
};
