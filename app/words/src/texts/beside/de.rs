//! What the bench has beside its steps, in German.

use super::BesideTexts;

pub(in crate::texts) const TEXTS: BesideTexts = BesideTexts {
    plan_again: "Der Plan, nach dem diese Karten geschnitten werden, wird noch einmal berechnet.",
    aids: "Vorlesen, Uhren, Lineal",
    reading: "Vorlesen",
    read_aloud: "Schritt vorlesen",
    stop_reading: "Nicht weiterlesen",
    read_each_step: "Schritte vorlesen",
    about_reading: "Jeder Schritt wird vorgelesen, sobald er da ist. Die Taste R liest ihn noch \
                    einmal.",
    on: "An",
    off: "Aus",
    cannot_read: "Dieser Browser kann nicht vorlesen.",
    no_voice: "Dieser Browser hat keine deutsche Stimme, deshalb wird nichts vorgelesen. Vielleicht \
               bieten die Einstellungen deines Geräts eine an.",
    needs_a_tap: "Der Browser liest erst vor, wenn du die Seite angetippt hast. Tippe auf den \
                  Lautsprecher.",
    voice_failed: "Die Stimme war nicht zu benutzen. Vielleicht braucht sie ein Netz.",
    voice_here: "Die Stimme ist auf diesem Gerät und braucht kein Netz.",
    voice_away: "Die Stimme braucht ein Netz. Was vorgelesen wird, geht an den, der sie betreibt.",
    large_buttons: "Große Tasten sind für",
    right_hand: "Die rechte Hand",
    left_hand: "Die linke Hand",
    clocks: "Uhren",
    set_a_clock: "Uhr stellen",
    about_clocks: "Wie lange Kleber braucht, sagt sein Hersteller. Uhren laufen am Werktisch weiter; \
                   ein Gerät, das schläft, meldet das Ende beim Aufwachen.",
    own_minutes: "Minuten, 1 bis 1440",
    start: "Starten",
    not_minutes: "Gib ganze Minuten von 1 bis 1440 an.",
    dismiss: "Erledigt",
    clock_uncertain: "Die Zeit des Geräts wurde inzwischen verstellt; wie viel noch bleibt, ist \
                      unsicher.",
    ruler: "Lineal",
    ruler_not_set: "Dieser Bildschirm weiß nicht, wie groß er ist. Stell das Lineal einmal mit einer \
                    Bankkarte ein.",
    ruler_set_again: "Zoom oder Bildschirm haben sich geändert; stell das Lineal neu ein.",
    ruler_zoomed: "Die Seite ist mit zwei Fingern vergrößert. Stell sie auf ihre Größe zurück, um das \
                   Lineal zu sehen.",
    ruler_is_set: "So genau, wie du es mit deiner Karte eingestellt hast. Miss vor dem Schneiden mit \
                   deinem eigenen Lineal.",
    lay_a_card: "Leg eine Bankkarte oder eine andere Karte dieser Größe hochkant auf den Umriss. \
                 Verschieb den Regler, bis beide gleich sind.",
    card_outline: "Umriss einer Karte von 85,60 mal 53,98 mm",
    narrower: "Schmaler",
    wider: "Breiter",
    how_wide: "Breite des Umrisses",
    it_fits: "Es passt",
    set_the_ruler: "Lineal einstellen",
    change_a_number: "Eine Zahl im Rezept ändern",
    back_to_step: "Zurück zum Schritt",
    spoiled: "Verdorben: noch einmal machen",
    minutes: "{minutes} Min.",
    of_step: "{step} ({card})",
    time_is_up: "Die Zeit ist um: {of}",
    stop_clock: "Uhr anhalten: {of}",
    ruler_of: "Lineal, {length} lang",
};
