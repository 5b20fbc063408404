//! A shared recipe, as it is read, in German.

use foldwright_gathered::gathered;

use super::Shared;

#[gathered]
pub(in crate::texts) const TEXTS: Shared = Shared {
    your_unit_and_paper: "Deine Einheit und dein Papier",
    on_your_paper: "Auf deinem Papier",
    measured_in: "Gemessen in",
    as_shared: "Wie geteilt",
    your_sheet: "Dein Bogen",
    measured_upright: "Gemessen mit aufrechtem Druck.",
    the_sheet: "Der Bogen",
    use_this_sheet: "Diesen Bogen nehmen",
    a_shared_recipe: "Ein geteiltes Rezept",
    fetching: "Wird geholt …",
    by_a_newer: "Aus einem neueren Foldwright",
    written_by_newer: "Dieses Rezept stammt aus einem neueren Foldwright. Schließ alle Tabs von \
                       Foldwright und öffne den Link noch einmal.",
    not_here_yet: "Noch nicht auf diesem Gerät",
    needs_connection: "Der Server ist nicht erreichbar. War diese Seite einmal mit Netz offen, \
                       öffnet sie sich auch ohne.",
    nothing_shared: "Hier ist nichts geteilt",
    not_opened: "Dieser Link öffnet kein Rezept. Vielleicht wurde er beendet oder nicht ganz \
                 kopiert; bitte um einen neuen.",
    is_newer_card: "Das ist die neuere Karte.",
    has_changed: "Wer es geteilt hat, hat es geändert. Deine Fassung bleibt, bis du die neuere \
                  nimmst.",
    take_newer: "Die neuere nehmen",
    has_ended: "Wer es geteilt hat, hat den Link beendet. Was dieses Gerät davon hat, bleibt.",
    no_connection: "Keine Verbindung. Das hier hat dieses Gerät behalten.",
    newer_has_changed: "Ein neueres Foldwright hat das Geteilte geändert. Schließ alle Tabs von \
                        Foldwright und öffne den Link noch einmal.",
    keep_it: "Behalten",
    open_copy: "Deine Kopie öffnen",
    print: "Drucken",
    step_by_step: "Schritt für Schritt",
    closed_from_front: "Geschlossen, von vorn",
    paper: "Papier",
    sheet_size: "Bogen, Breite × Höhe",
    weight: "Gewicht",
    what_to_cut: "Zuschnitt",
    piece: "Teil",
    width_height: "Breite × Höhe",
    from_paper: "Aus",
    all_measurements: "Alle Maße",
    scores: "Rillen",
    no_envelope: "Sie passt in keinen gängigen Umschlag.",
    envelope: "Umschlag",
    note: "Notiz:",
    too_large_here: "Diese Karte ist zu groß, um hier zu stehen. Mit JavaScript zeigt diese Seite \
                     sie Schritt für Schritt.",
    to_foldwright: "Zu Foldwright",
    not_now: "Gerade nicht",
    cannot_read_now: "Der Server kann das Geteilte gerade nicht lesen. Versuch es später noch \
                      einmal.",
    with_javascript: "Mit JavaScript zeigt diese Seite die Karte auch in deiner Einheit und auf \
                      deinem Papier. Sie führt auch ohne Netz durch die Schritte.",
    scrap: "Reststück, {size}",
    base_cut_from: "Der Kartenrohling ist aus {sheet}.",
    lengths_differ: |count| match count {
        1 => "1 Länge weicht von der geteilten Karte ab".to_owned(),
        more => format!("{more} Längen weichen von der geteilten Karte ab"),
    },
    shared_by: "Geteilt von {who}.",
    among_yours: "„{recipe}“ ist jetzt bei deinen Rezepten, mit deinem Arbeitsstand.",
    for_cards: "Für {copies} Karten.",
};
