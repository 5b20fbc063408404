//! What reaches too far, or into a fold, in German.

use foldwright_engine::length::ceil;
use foldwright_engine::problem::{Contents, Cramped, Past, Reach, ReachFinding, Reacher};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};

#[gathered]
pub(crate) fn told(names: &Names<'_>, found: &ReachFinding) -> Told {
    let reach = &found.reach;
    let name = nouns::reacher(names, reach.of);
    let far = nouns::far(names, &reach.edges, reach.most);
    let size = names.short_size(found.finished);
    let panel = found.on.map_or_else(
        || "das Feld".to_owned(),
        |face| nouns::panel(names, face.panel),
    );
    let lines = |case| {
        let lines = reach.across.iter();
        let lines: Vec<_> = lines.map(|id| nouns::line(names, *id, case)).collect();
        nouns::list(&lines)
    };
    match (reach.of, reach.past) {
        (Reacher::Panel(_), _) => Told::new(
            format!("{name} ragt aus der geschlossenen Karte: {far}."),
            format!(
                "Von vorn gesehen. Mit allem, was herausragt, misst die geschlossene Karte {size}."
            ),
            or_fits(names, reach),
        ),
        (Reacher::Layer(_), Past::Card) => Told::new(
            format!("{name} ragt aus der geschlossenen Karte: {far}."),
            match found.on {
                Some(face) => format!(
                    "Mit Blick auf {}. Mit allem, was herausragt, misst die geschlossene Karte \
                     {size}.",
                    nouns::face(names, face, Case::Accusative)
                ),
                None => format!("Mit allem, was herausragt, misst die geschlossene Karte {size}."),
            },
            or_fits(names, reach),
        ),
        (Reacher::Layer(_), Past::Fold) => match reach.across.len() {
            0 => Told::new(
                format!("Mit {name} schließt die Karte nicht."),
                format!(
                    "{name} ragt über {panel} hinaus, {far}. Dort müsste es durch andere Felder \
                     oder einen Falz."
                ),
                or_stays(
                    names,
                    reach,
                    &panel,
                    &format!("Rück {name} zurück auf {panel}."),
                    &format!("Oder rück {name} zurück auf {panel}."),
                ),
            ),
            _ => Told::new(
                format!("{name} ragt über {}: {far}.", lines(Case::Accusative)),
                format!(
                    "Dort schließt sich die Karte über {name}, und Papier kann nicht durch einen \
                     Falz."
                ),
                or_stays(
                    names,
                    reach,
                    &panel,
                    &format!("Rück {name} vom Falz weg."),
                    &format!("Oder rück {name} vom Falz weg."),
                ),
            ),
        },
        (Reacher::Layer(_), Past::Panel) => Told::new(
            format!("{name} ragt über {panel} hinaus: {far}."),
            if reach.across.is_empty() {
                "Dort bleibt der Kleber weg; er hielte sonst anderes Papier fest.".to_owned()
            } else {
                format!(
                    "Es liegt quer über {}. Dort bleibt der Kleber weg; er hielte sonst anderes \
                     Papier fest.",
                    lines(Case::Dative)
                )
            },
            or_stays(
                names,
                reach,
                &panel,
                "Lass es so, wenn es so weit reichen soll.",
                "Lass es so, wenn es so weit reichen soll.",
            ),
        ),
    }
}

/// How large it could be within the card, where it could, and to move it.
#[gathered]
fn or_fits(names: &Names<'_>, reach: &Reach) -> String {
    match reach.fits.map(|size| names.short_size(size)) {
        None => "Versetz es. Lass es so, wenn es herausragen soll.".to_owned(),
        Some(size) if reach.in_rectangle => format!(
            "Höchstens {size} passen hinein. Oder versetz es. Lass es so, wenn es herausragen soll."
        ),
        Some(size) => format!(
            "Mit {size} passt es hinein. Oder versetz es. Lass es so, wenn es herausragen soll."
        ),
    }
}

/// A remedy after the size at which it would stay on its panel, where there is
/// one.
#[gathered]
fn or_stays(names: &Names<'_>, reach: &Reach, panel: &str, alone: &str, after: &str) -> String {
    match reach.fits.map(|size| names.short_size(size)) {
        None => alone.to_owned(),
        Some(size) if reach.in_rectangle => {
            format!("Höchstens {size} bleiben auf {panel}. {after}")
        }
        Some(size) => format!("Mit {size} bleibt es auf {panel}. {after}"),
    }
}

#[gathered]
pub(crate) fn cramped(names: &Names<'_>, found: Cramped) -> Told {
    let [a, b] = found.between.map(|panel| nouns::panel(names, panel));
    let asked = names.length(ceil(found.asked, names.step()).at);
    let gap = names.sided(found.gap);
    let (name, remedy) = match found.what {
        Contents::Panel(id) => {
            let name = nouns::panel(names, id);
            let remedy = format!("Kürze {name}, oder wähl eine Regel, die weniger verlangt.");
            (name, remedy)
        }
        Contents::Layer(id) => {
            let name = nouns::layer(names, id);
            let remedy = format!("Rück {name} vom Falz weg, oder mach {name} kleiner.");
            (name, remedy)
        }
    };
    Told::new(
        format!("{name} lässt am Falz zwischen {a} und {b} nur {gap} Platz."),
        format!("Bei weniger als {asked} stößt es in den Falz und wellt sich."),
        remedy,
    )
}
