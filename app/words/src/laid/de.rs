//! The flat pieces, in German.

use foldwright_engine::problem::{CutoutFinding, LaidFinding, OutlineFinding};
use foldwright_engine::recipe::CutoutId;
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};

#[gathered]
pub(crate) fn laid(names: &Names<'_>, found: LaidFinding) -> Told {
    match found {
        LaidFinding::NoPlace(id) => Told::new(
            format!("{} hat keinen Platz in der Karte.", nouns::piece(names, id)),
            "Es fehlt die erste Klebestelle.",
            "Wähl ein Feld und die Klebestelle.",
        ),
        LaidFinding::NoJoin { piece, part, on } => Told::new(
            format!(
                "{} lässt sich dort nicht kleben.",
                nouns::piece(names, piece)
            ),
            format!(
                "{} oder {} fehlt, oder die Linie zum Ankleben hat keine Länge.",
                nouns::panel(names, part),
                nouns::panel(names, on)
            ),
            "Wähl andere Felder oder eine andere Linie.",
        ),
        LaidFinding::OnNothing(id) => {
            let layer = nouns::layer(names, id);
            Told::new(
                format!("{layer} liegt auf nichts."),
                format!("Was {layer} trug, fehlt oder wird erst später aufgeklebt."),
                format!(
                    "Leg {layer} auf ein Feld oder eine frühere Auflage, oder nimm {layer} weg."
                ),
            )
        }
        LaidFinding::Falls { of, parts } => {
            let strip = nouns::strip(names, of, Case::Accusative);
            let what = match parts {
                1 => format!("Die Schnitte zerteilen {strip}: 1 Teil fällt ab."),
                more => format!("Die Schnitte zerteilen {strip}: {more} Teile fallen ab."),
            };
            Told::new(
                what,
                "Der größte Teil, den Falze zusammenhalten, bleibt.",
                "Bestätige das, oder tipp im flachen Bild auf den Teil, der bleiben soll.",
            )
        }
    }
}

#[gathered]
pub(crate) fn outline(names: &Names<'_>, found: OutlineFinding) -> Told {
    match found {
        OutlineFinding::TooRound(of) => {
            let name = nouns::shaped(names, of);
            Told::new(
                format!("Für die Rundung von {name} ist nicht genug Platz."),
                "Zwei runde Ecken treffen sich in der Mitte einer Seite; mehr entfällt.",
                format!("Mach den Radius kleiner, die Rundung flacher oder {name} größer."),
            )
        }
        OutlineFinding::Crossed(of) => {
            let name = nouns::shaped(names, of);
            Told::new(
                format!("Der Umriss von {name} überschneidet sich."),
                "Gezeichnet wird ein Rechteck, bis die Ecken einmal rundum laufen.",
                "Versetz die Ecken, oder beginn neu mit einem fertigen Umriss.",
            )
        }
        OutlineFinding::NoRoom(id) => {
            let layer = nouns::layer(names, id);
            Told::new(
                format!("Der Rand lässt von {layer} nichts übrig."),
                format!("Der Rand ist mindestens halb so breit wie das, worauf {layer} liegt."),
                format!("Mach den Rand schmaler, oder gib {layer} eine eigene Größe."),
            )
        }
    }
}

#[gathered]
pub(crate) fn cutout(names: &Names<'_>, cutout: CutoutId, found: CutoutFinding) -> Told {
    let name = nouns::cutout(names, cutout);
    let not_cut = |why: &str| {
        Told::new(
            format!("{name} lässt sich dort nicht schneiden."),
            why,
            format!("Versetz {name}, wähl ein anderes Feld, oder entferne {name}."),
        )
    };
    let apart = |what: String| {
        Told::new(
            what,
            "Nichts hielte den Rest zusammen; darum wird hier nicht geschnitten.",
            format!("Mach {name} kleiner, oder rück {name} von den Kanten weg."),
        )
    };
    match found {
        CutoutFinding::NoPanel => not_cut("Das Feld, aus dem geschnitten wird, fehlt."),
        CutoutFinding::Beside => not_cut("Alles davon läge neben dem Papier."),
        CutoutFinding::TooManyCorners => not_cut("Das Papier hätte zu viele Ecken."),
        CutoutFinding::NoFreeCorner => {
            not_cut("Das Feld hat beidseits Rillen; keine Ecke ist frei.")
        }
        CutoutFinding::AtScore => {
            not_cut("Das Feld endet dort an einer Rille, nicht an einer Kante.")
        }
        CutoutFinding::LeavesNothing => apart(format!("{name} ließe vom Papier nichts übrig.")),
        CutoutFinding::Parts => apart(format!("{name} würde das Papier zerteilen.")),
    }
}
