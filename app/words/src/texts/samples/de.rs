//! The cards of a harbour library's paper workshop, in German.

use super::SampleTexts;

pub(in crate::texts) const TEXTS: SampleTexts = SampleTexts {
    from_workshop: "Aus der Werkstatt der Hafenbücherei",
    six_finished: "Sechs fertige Karten. Öffne eine und ändere sie, oder mach sie, wie sie ist.",
    put_away: "Beiseitelegen",
    are_away: "Die fertigen Karten liegen beiseite.",
    gate: "Leuchtturm",
    gate_about: "Zum Geburtstag des Lesesaals: Zwei Flügel gehen vor dem Licht auf.",
    z: "Fährkarte",
    z_about: "Faltet sich auf wie ein Fahrplan, mit einem Streifen für jede Überfahrt.",
    stairs: "Kaitreppe",
    stairs_about: "Drei Stufen heben sich beim Öffnen, für Leute, die an den Hafen ziehen.",
    tent: "Reserviert",
    tent_about: "Steht auf dem Tisch und sagt, wem der Abend gehört.",
    window: "Bullauge",
    window_about: "Vorn sieht man durch bis zum Ufer.",
    v_fold: "Möwe",
    v_fold_about: "Zwischen zwei Deckeln hebt sich ein Flügel von der Seite.",
};
