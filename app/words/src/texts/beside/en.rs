//! What the bench has beside its steps, in English.

use super::BesideTexts;

pub(in crate::texts) const TEXTS: BesideTexts = BesideTexts {
    plan_again: "The plan by which these cards are cut is worked out again.",
    aids: "Reading aloud, clocks, ruler",
    reading: "Reading aloud",
    read_aloud: "Read aloud",
    stop_reading: "Stop reading",
    read_each_step: "Read steps aloud",
    about_reading: "Each step is read as it opens, and the key R reads it again.",
    on: "On",
    off: "Off",
    cannot_read: "This browser can't read aloud.",
    no_voice: "This browser has no English voice, so nothing is read aloud. The settings of your \
               device may offer one.",
    needs_a_tap: "The browser reads only after a tap on the page. Tap the loudspeaker.",
    voice_failed: "The voice could not be used. It may need a connection.",
    voice_here: "The voice is on this device and needs no connection.",
    voice_away: "The voice needs a connection. What is read goes to whoever runs it.",
    large_buttons: "Large buttons are for",
    right_hand: "The right hand",
    left_hand: "The left hand",
    clocks: "Clocks",
    set_a_clock: "Set a clock",
    about_clocks: "How long glue takes, its maker says. Clocks run on at the bench; a device that \
                   sleeps tells the end when it wakes.",
    own_minutes: "Minutes, 1 to 1440",
    start: "Start",
    not_minutes: "Give whole minutes from 1 to 1440.",
    dismiss: "Dismiss",
    clock_uncertain: "The time of this device was changed meanwhile, so what is left is uncertain.",
    ruler: "Ruler",
    ruler_not_set: "This screen does not know how large it is. Set the ruler once with a bank \
                    card.",
    ruler_set_again: "The zoom or the screen has changed, so the ruler has to be set again.",
    ruler_zoomed: "The page is enlarged by two fingers. Bring it back to its size to see the \
                   ruler.",
    ruler_is_set: "As true as you set it with your card. Before you cut, measure on your own \
                   ruler.",
    lay_a_card: "Lay a bank card, or another card of that size, upright on the outline. Move the \
                 slider until both are alike.",
    card_outline: "Outline of a card of 85.60 by 53.98 mm",
    narrower: "Narrower",
    wider: "Wider",
    how_wide: "Width of the outline",
    it_fits: "It fits",
    set_the_ruler: "Set the ruler",
    change_a_number: "Change a number in the recipe",
    back_to_step: "Back to the step",
    spoiled: "It is spoiled: make another",
    minutes: "{minutes} min",
    of_step: "{step} ({card})",
    time_is_up: "Time is up: {of}",
    stop_clock: "Stop the clock: {of}",
    ruler_of: "Ruler, {length} long",
};
