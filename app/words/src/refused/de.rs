//! Why a change to a recipe was not made, in German.

use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Clash, EditError, MeasureId, Relation};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::de as nouns;
use crate::recipe::de::plural;
use crate::told::sentence;

#[gathered]
pub(crate) fn told(names: &Names<'_>, why: &EditError) -> String {
    match why {
        EditError::Clash(clash) => return self::clash(names, clash),
        EditError::TooMany(parts) => {
            let (most, many) = (parts.most(), plural(*parts));
            return format!(
                "Hier ist die Grenze erreicht: {most} {many}. Entferne einige, oder mach zwei \
                 Rezepte daraus."
            );
        }
        EditError::NoMeasure => "Dieses Maß ist nicht mehr im Rezept.",
        EditError::NoScore => "Diese Rille ist nicht mehr im Rezept.",
        EditError::NoPanel => "Dieses Feld ist nicht mehr im Rezept.",
        EditError::NoLine => "Diese Falzlinie oder dieser Schnitt ist nicht mehr im Rezept.",
        EditError::OffPaper => {
            "Dieses Ende läge neben dem Papier. Lass beide Enden auf dem Papier."
        }
        EditError::NoLength => "Diese Linie endete, wo sie beginnt. Schieb ein Ende weg.",
        EditError::NoCutout => "Dieses Fenster oder diese Formkante ist nicht mehr im Rezept.",
        EditError::NoLayer => "Diese Auflage ist nicht mehr im Rezept.",
        EditError::NoPiece => {
            "Dieses Pop-up, diese Tasche oder ihre Klebestelle ist nicht mehr im Rezept."
        }
        EditError::Upward => {
            "Kleb Pop-ups und Taschen auf den Kartenrohling oder ein Teil weiter vorn in der \
             Liste."
        }
        EditError::NoRelation => "Diese Regel ist nicht mehr im Rezept.",
        EditError::Limits => "Das Mindestmaß ist größer als das Höchstmaß. Ändere eines.",
        EditError::LastPanel => {
            "Jedes Teil behält mindestens ein Feld. Füg zuerst ein anderes hinzu."
        }
        EditError::NoRoom => {
            "Kein Feld lässt sich kürzen. Lös eine Breite, oder wähl eine Regel, die weniger \
             verlangt."
        }
        EditError::NoFit => {
            "Es passt nicht, solange die Karte ihre Maße behält. Lös Größe oder Platz, oder \
             ändere die Regel."
        }
        EditError::Full => "Für noch ein Teil ist kein Name frei. Entferne zuerst eines.",
    }
    .to_owned()
}

#[gathered]
fn clash(names: &Names<'_>, clash: &Clash) -> String {
    let measure = |id: &MeasureId| sentence(nouns::measure(names, *id));
    match clash {
        Clash::Relations { relations, pinned } => {
            let rules = against(names, relations);
            if pinned.is_empty() {
                return format!("{rules} Setz eine andere Länge, oder entferne eine Regel.");
            }
            let pinned: Vec<_> = pinned.iter().map(|id| nouns::measure(names, *id)).collect();
            let pinned = nouns::list(&pinned);
            format!("{rules} Fixiert: {pinned}. Lös eines, oder setz eine andere Länge.")
        }
        Clash::NotPositive { measure: id, value } => format!(
            "{} wäre dann {}. Da bliebe kein Papier. Setz eine andere Länge.",
            measure(id),
            names.length(*value)
        ),
        Clash::TooLong(id) => format!(
            "{} wäre dann länger als {}. Setz eine kürzere Länge.",
            measure(id),
            names.length(Length::LIMIT)
        ),
        Clash::TooTangled => {
            "Die Regeln dieses Rezepts sind zu verwickelt. Entferne eine.".to_owned()
        }
    }
}

/// Each rule is a sentence of its own, since there may be many.
#[gathered]
fn against(names: &Names<'_>, relations: &[Relation]) -> String {
    let rule = |held: &Relation| nouns::relation(names, held);
    match relations {
        [] => "Die Maße können nicht folgen.".to_owned(),
        [only] => format!("Diese Regel lässt das nicht zu: {}.", rule(only)),
        all => {
            let rules: Vec<_> = all
                .iter()
                .map(|held| format!("„{}“.", rule(held)))
                .collect();
            format!(
                "{} Regeln zusammen lassen das nicht zu. {}",
                all.len(),
                rules.join(" ")
            )
        }
    }
}
