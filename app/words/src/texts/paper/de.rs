//! Paper, print direction, scores and envelopes, in German.

use foldwright_gathered::gathered;

use super::Paper;

#[gathered]
fn times(count: usize) -> String {
    match count {
        0 => "nie".to_owned(),
        1 => "einmal".to_owned(),
        2 => "zweimal".to_owned(),
        more => format!("{more}-mal"),
    }
}

#[gathered]
pub(in crate::texts) const TEXTS: Paper = Paper {
    paper_of_base: "Papier des Kartenrohlings",
    base_cut_from: "Der Kartenrohling ist aus",
    papers: "Papiere",
    look_at: "Ansehen",
    add_paper: "Weiteres Papier hinzufügen",
    how_lengths_are_written: "Wie Längen geschrieben werden",
    smallest_division: "Kleinste Teilung auf deinem Lineal",
    decimal_mark: "Dezimalzeichen",
    point: "Punkt",
    comma: "Komma",
    none_on_divisions: "Keine ähnliche Karte liegt auf dieser Teilung. Nimm eine feinere oder \
                        unter „Größe anpassen“ eine andere Größe.",
    bring_onto_ruler: "Auf die Teilung bringen",
    not_known: "Nicht bekannt",
    grain_long: "Schmalbahn",
    grain_short: "Breitbahn",
    grain_up: "Laufrichtung hoch",
    grain_across: "Laufrichtung quer",
    name: "Name",
    face: "Schauseite",
    back: "Rückseite",
    prints_of_sides: "Drucke der beiden Seiten",
    head_to_head: "Kopf an Kopf",
    head_to_foot: "Kopf an Fuß",
    grain: "Laufrichtung",
    take_paper_out: "Dieses Papier aus dem Rezept nehmen",
    own_size: "Eigene Größe",
    sheet: "Bogen",
    width_face_upright: "Breite, Schauseite aufrecht",
    height: "Höhe",
    weight: "Gewicht",
    number_above_zero: "Gib eine Zahl über 0 an; Pfund sind ganze Zahlen.",
    weighed_in: "Gewogen in",
    caliper: "Dicke des Bogens",
    plain: "Unbedruckt",
    printed_no_direction: "Bedruckt, ohne Richtung",
    printed_one_way: "Bedruckt, mit oben und unten",
    printed_both_ways: "Bedruckt, beidseitig lesbar",
    face_print: "Schauseite, Druck",
    back_print: "Rückseite, Druck",
    how_to_lay: "Wie das Papier liegt",
    must_be_upright: "Muss aufrecht stehen",
    mark_upright: "Markiere die Seiten, deren Druck aufrecht stehen muss.",
    print_direction: "Druckrichtung",
    best: "Die beste",
    direction_face_up: "Druckrichtung, Bogen mit der Schauseite oben",
    score_chart: "Rilltabelle",
    how_to_score: "Wie gerillt wird",
    inside_up: "Innenseite oben",
    outside_up: "Außenseite oben",
    ridge_inside: "Wulst in jedem Falz innen",
    one_side_up: "Alle Rillen mit einer Seite oben: Der Kartenrohling wird nie gewendet, mancher \
                  Wulst liegt außen.",
    ridges_inside: "Jeder Wulst liegt innen: Der Kartenrohling wird gewendet, wo die Falze \
                    wechseln.",
    nothing_to_score: "Es gibt nichts zu rillen.",
    room_at_folds: "Platz an den Falzen",
    nothing_in_folds: "In keinem Falz der geschlossenen Karte liegt etwas.",
    make_room: "Platz schaffen",
    room_a_fold_asks: "Wie viel Platz ein Falz braucht",
    envelopes_that_take_it: "Umschläge, in die sie passt",
    try_one_first: "Außenmaße wie veröffentlicht. Hersteller weichen etwas ab; probier erst einen.",
    clearance: "Spielraum",
    rules_differ: "Gedruckte Regeln weichen voneinander ab. Nimm die, der du traust.",
    envelope: "Umschlag",
    not_chosen: "Noch nicht gewählt",
    why_not: "Warum nicht dieser?",
    between_divisions: |count| match count {
        1 => "1 Länge liegt zwischen dieser Teilung.".to_owned(),
        more => format!("{more} Längen liegen zwischen dieser Teilung."),
    },
    turned: "{sheet}, quer",
    suggested: "Vorschlag: {thickness}",
    colour: "{side}, Farbe",
    turns: |over, round| format!("Wenden: {}. Drehen: {}.", times(over), times(round)),
    takes_it: "Diese Karte passt in {envelope}.",
};
