//! Creases and cuts, in German.

use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Fault, Misfit};
use foldwright_engine::problem::PatternFinding;
use foldwright_engine::recipe::StripId;
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};

pub(crate) fn told(names: &Names<'_>, of: StripId, found: &PatternFinding) -> Told {
    match found {
        PatternFinding::Fault(found) => fault(names, of, found),
        PatternFinding::Misfit(found) => misfit(names, of, found),
    }
}

#[gathered]
fn fault(names: &Names<'_>, of: StripId, found: &Fault) -> Told {
    let line = |id| nouns::line(names, id, Case::Nominative);
    let spot = |at| nouns::spot(names, of, at);
    let middle = |part| nouns::middle(names, of, part);
    match found {
        Fault::TooMany => Told::new(
            format!(
                "{} hat zu viele Falzlinien und Schnitte.",
                nouns::strip(names, of, Case::Nominative)
            ),
            "Es sind zu viele Ecken, Linien und Kreuzungen.",
            "Entferne einige Falzlinien oder Schnitte.",
        ),
        Fault::TooFar { at } => Told::new(
            format!(
                "Eine Ecke oder ein Ende liegt zu weit draußen: {}.",
                spot(*at)
            ),
            format!(
                "Nichts darf weiter als {} von der Ecke liegen.",
                names.length(Length::LIMIT)
            ),
            "Rück den Punkt näher heran.",
        ),
        Fault::Outline { at } => Told::new(
            format!(
                "Die Kante des Papiers trifft sich selbst bei {}.",
                spot(*at)
            ),
            "So lässt sie sich nicht in einem Stück ausschneiden.",
            "Versetz die Ecken so, dass die Kante einmal rundum läuft.",
        ),
        Fault::Hole { hole, at } => Told::new(
            format!("Loch {} passt nicht: {}.", hole + 1, spot(*at)),
            "Ein Loch liegt im Papier und trifft nicht sich selbst, ein anderes oder die Kante.",
            "Versetz das Loch oder seine Ecken.",
        ),
        Fault::NoLength { line: id, at } => Told::new(
            format!("{} hat keine Länge.", line(*id)),
            format!("Beide Enden sind derselbe Punkt: {}.", spot(*at)),
            "Versetz ein Ende, oder entferne die Linie.",
        ),
        Fault::Outside { line: id, part } => Told::new(
            format!("{} verlässt das Papier.", line(*id)),
            format!(
                "Bei {} gibt es nichts zu falzen oder zu schneiden.",
                middle(part)
            ),
            "Lass die Linie an der Kante enden.",
        ),
        Fault::AlongEdge { line: id, part } => Told::new(
            format!("{} läuft an der Kante entlang.", line(*id)),
            format!("Bei {} endet das Papier ohnehin.", middle(part)),
            "Rück die Linie nach innen, oder entferne sie.",
        ),
        Fault::Overlap {
            lines: [a, b],
            part,
        } => Told::new(
            format!("{} und {} liegen aufeinander.", line(*a), line(*b)),
            format!("Bei {} kann das Papier nur eines tun.", middle(part)),
            "Entferne eine der Linien, oder kürze sie.",
        ),
        Fault::Crossing { lines: [a, b], at } => Told::new(
            format!("{} und {} kreuzen sich.", line(*a), line(*b)),
            format!(
                "Das ist bei {}. Ist eine gefalzt, trifft die andere sich selbst; eine Hälfte \
                 muss andersherum gefalzt werden.",
                spot(*at)
            ),
            "Teile eine der Linien an der Kreuzung, und kehr eine Hälfte um.",
        ),
        Fault::Dangles { line: id, end } => Told::new(
            format!("{} endet mitten in einem Feld.", line(*id)),
            format!(
                "Das ist bei {}. Papier lässt sich nur bis zu einer Kante oder Falzlinie falzen.",
                spot(*end)
            ),
            "Führ die Linie bis zu einer Kante, einem Schnitt oder einer Falzlinie.",
        ),
        Fault::SamePanel { line: id, part } => Told::new(
            format!("{} hat auf beiden Seiten dasselbe Feld.", line(*id)),
            format!(
                "Das ist bei {}. Ein Feld ist flach und lässt sich nicht auf sich selbst falzen.",
                middle(part)
            ),
            "Teile das Feld auch auf der anderen Seite, oder entferne diese Linie.",
        ),
        Fault::Loose { at, .. } => Told::new(
            format!(
                "Der Teil mit einer Ecke bei {} ist abgeschnitten.",
                spot(*at)
            ),
            "Keine Falzlinie verbindet ihn mit dem Rest.",
            "Kürze einen Schnitt, oder mach ein eigenes Teil daraus.",
        ),
    }
}

#[gathered]
fn misfit(names: &Names<'_>, of: StripId, found: &Misfit) -> Told {
    let spot = |at| nouns::spot(names, of, at);
    let not_flat = |at| {
        format!(
            "Die Falzlinien bei {} lassen sich nicht flach falten.",
            spot(at)
        )
    };
    match found {
        Misfit::OddCreases { at, count } => Told::new(
            format!(
                "Die {count} Falzlinien bei {} lassen sich nicht flach falten.",
                spot(*at)
            ),
            "Jede wendet das Papier; bei ungerader Zahl läge die falsche Seite oben.",
            "Zieh dort eine weitere Falzlinie, oder entferne eine.",
        ),
        Misfit::Angles { at, sums, gap } => Told::new(
            not_flat(*at),
            format!(
                "Jeder zweite Winkel muss zusammen 180° ergeben; hier sind es {} und {}. Die \
                 Felder verfehlen sich um {}.",
                names.angle(sums[0]),
                names.angle(sums[1]),
                names.length(*gap)
            ),
            match found.small_turn() {
                Some(turn) => format!(
                    "Dreh eine dieser Falzlinien um {}, oder versetz den Punkt.",
                    names.angle(turn)
                ),
                None => "Versetz den Punkt oder die anderen Enden dieser Falzlinien.".to_owned(),
            },
        ),
        Misfit::Folds {
            at,
            mountains,
            valleys,
        } => Told::new(
            not_flat(*at),
            format!(
                "Bergfalze und Talfalze müssen sich um zwei unterscheiden; hier sind es {mountains} \
                 und {valleys}."
            ),
            "Kehr eine dieser Falzlinien um.",
        ),
        Misfit::Opening {
            at,
            is_hole,
            turned_over,
            gap,
        } => Told::new(
            if *is_hole {
                format!(
                    "Die Felder um das Loch {} lassen sich nicht flach falten.",
                    spot(*at)
                )
            } else {
                format!(
                    "Die Felder um den Schnitt {} lassen sich nicht flach falten.",
                    spot(*at)
                )
            },
            if *turned_over {
                "Dort endet eine ungerade Zahl von Falzlinien; die falsche Seite läge oben."
                    .to_owned()
            } else {
                let gap = names.length(*gap);
                format!("Einmal rundum gefaltet verfehlen sie sich um {gap}.")
            },
            "Versetz eine Falzlinie, die dort endet, oder führ einen Schnitt von dort zur Kante.",
        ),
        Misfit::Drift { line, gap, .. } => Told::new(
            format!(
                "Die Felder an {} treffen sich gefaltet nicht.",
                nouns::line(names, *line, Case::Dative)
            ),
            format!(
                "Kleine Fehler an vielen Punkten ergeben zusammen {}.",
                names.length(*gap)
            ),
            "Setz die Punkte genauer, wo Falzlinien sich treffen.",
        ),
    }
}
