//! The bench, in German.

use foldwright_gathered::gathered;

use super::Bench;

#[gathered]
pub(in crate::texts) const TEXTS: Bench = Bench {
    how_many_cards: "Wie viele Karten",
    cards_to_make: "So viele Karten",
    one_card_fewer: "Eine Karte weniger",
    cards_to_make_between: "So viele Karten, 1 bis 9999",
    one_card_more: "Eine Karte mehr",
    cards_counted: "Gezählte Karten",
    done_for: "Fertig, von",
    one_fewer_done: "Eine weniger fertig",
    one_more_done: "Eine mehr fertig",
    all_done: "Alle fertig",
    finished: "Fertig",
    start_again: "Neu anfangen",
    closed_from_front: "Geschlossen, von vorn",
    back_at_first: "Zurück am ersten Schritt. Deine Notizen bleiben.",
    used: "Verbraucht",
    taken_off: "Abgezogen. Zurücklegen",
    take_off: "Vom Vorrat abziehen",
    look_first: "Sieh nach, bevor du weitermachst",
    joined: "Dieses Rezept wurde zugleich anderswo geändert; dieser Schritt ist jetzt anders.",
    looked_go_on: "Ich habe nachgesehen. Weiter",
    open_recipe: "Rezept öffnen",
    here_now: "gerade hier",
    not_yet: "noch nicht",
    done: "erledigt",
    your_note: "Deine Notiz zu diesem Schritt",
    pictures: "Bilder",
    all_steps: "Alle Schritte",
    do_not_cut: "Noch nicht schneiden",
    cannot_be_made: "So lässt sich diese Karte nicht machen.",
    put_right: "Das Rezept berichtigen",
    show_all_the_same: "Die Schritte trotzdem zeigen",
    step_is_gone: "Das Rezept ist anders, dein Schritt ist weg. Das ist der nächste davor.",
    have_ready: "Bereitlegen:",
    finish: "Fertig",
    next: "Weiter",
    steps: "Schritte",
    back: "Zurück",
    to_recipe: "Zum Rezept",
    screen_not_now: "Der Browser lässt den Bildschirm gerade nicht an, vielleicht wegen des \
                     Akkus.",
    screen_never: "Dieser Browser kann den Bildschirm nicht anlassen. Stell am Gerät eine längere \
                   Zeit ein.",
    understood: "Verstanden",
    cards: "{cards} Karten",
    of: "von {all}",
    made: |copies| match copies {
        1 => "Deine Karte ist fertig".to_owned(),
        copies => format!("{copies} Karten sind fertig"),
    },
    sheets_of: |sheets, paper, on_hand| match sheets {
        1 => format!("1 Bogen {paper}: {on_hand} vorrätig"),
        sheets => format!("{sheets} Bogen {paper}: {on_hand} vorrätig"),
    },
    steps_left: |open| match open {
        1 => "Ein Schritt ist noch nicht erledigt. Die Liste aller Schritte zeigt, welcher."
            .to_owned(),
        open => format!(
            "{open} Schritte sind noch nicht erledigt. Die Liste aller Schritte \
                         zeigt, welche."
        ),
    },
    some_done: "{done} von {times} erledigt",
    room_for: "Platz für noch {left} von {most} Zeichen.",
    show_all_steps: "{place}. Alle Schritte zeigen",
    leave_for: "Vom Werktisch zum Rezept {recipe}",
    step_of: "Schritt {step} von {all}",
    all_of_steps: |all| match all {
        1 => "Der einzige Schritt".to_owned(),
        all => format!("Alle {all} Schritte"),
    },
    at_the_bench: "{recipe} am Werktisch",
};
