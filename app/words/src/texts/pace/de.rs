//! How long a session at the bench takes, in German.

use super::PaceTexts;

pub(in crate::texts) const TEXTS: PaceTexts = PaceTexts {
    learnt: "So lange hast du bisher gebraucht, auf diesem Gerät.",
    drying: "Das Trocknen kommt dazu. Wie lange der Kleber braucht, sagt sein Hersteller.",
    takes: |least, most, cards| match (least == most, most, cards) {
        (true, 1, 1) => "Etwa 1 Minute für 1 Karte.".to_owned(),
        (true, 1, _) => format!("Etwa 1 Minute für {cards} Karten."),
        (true, _, 1) => format!("Etwa {most} Minuten für 1 Karte."),
        (true, _, _) => format!("Etwa {most} Minuten für {cards} Karten."),
        (false, _, 1) => format!("Etwa {least} bis {most} Minuten für 1 Karte."),
        (false, _, _) => format!("Etwa {least} bis {most} Minuten für {cards} Karten."),
    },
    still: |least, most| match (least == most, most) {
        (true, 1) => "Noch etwa 1 Minute.".to_owned(),
        (true, _) => format!("Noch etwa {most} Minuten."),
        (false, _) => format!("Noch etwa {least} bis {most} Minuten."),
    },
};
