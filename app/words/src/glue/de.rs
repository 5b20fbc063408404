//! The glue of layers, in German.

use foldwright_engine::problem::GlueFinding;
use foldwright_engine::recipe::LayerId;
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};

#[gathered]
pub(crate) fn told(names: &Names<'_>, layer: LayerId, found: GlueFinding) -> Told {
    let layer = nouns::layer(names, layer);
    match found {
        GlueFinding::NoRoom { margin } => Told::new(
            format!("{layer} hat keine Klebefläche."),
            format!(
                "Kleber bleibt {} von jeder Kante und jedem Falz weg; so bleibt nichts übrig.",
                names.length(margin)
            ),
            format!("Versetz {layer}, mach {layer} größer, oder nimm einen kleineren Abstand."),
        ),
        GlueFinding::OffItsBack => Told::new(
            format!("Der Kleber von {layer} liegt nicht auf der Rückseite."),
            "Die Abstände lassen nichts übrig oder reichen über die Kanten hinaus.",
            "Gib Abstände an, die einen Teil der Rückseite frei lassen.",
        ),
        GlueFinding::Across(line) => Told::new(
            format!(
                "Der Kleber von {layer} geht über {}.",
                nouns::line(names, line, Case::Accusative)
            ),
            "Überklebt lässt sich dort nicht falzen.",
            format!("Bleib mit dem Kleber auf dem Feld, das {layer} trägt."),
        ),
        GlueFinding::Ties { carrier, other } => {
            let (carrier, other) = (nouns::panel(names, carrier), nouns::panel(names, other));
            Told::new(
                format!("Der Kleber von {layer} verbindet {carrier} mit {other}."),
                format!("{carrier} und {other} trennen sich, wenn die Karte aufgeht."),
                format!("Bleib mit dem Kleber auf {carrier}."),
            )
        }
        GlueFinding::PastItsSeat => Told::new(
            format!("Der Kleber von {layer} reicht über die Unterlage hinaus."),
            "Dort klebte er am Tisch oder an dem, was in die Karte kommt.",
            format!("Bleib mit dem Kleber auf dem, worauf {layer} liegt."),
        ),
    }
}
