//! A drawing in words, in German.

use foldwright_engine::faces::Part;
use foldwright_engine::pattern::{LineId, LineKind};
use foldwright_engine::plane::Size;
use foldwright_engine::posed::Stands;
use foldwright_engine::recipe::Fold;
use foldwright_engine::seen::{Fallen, FlatSeen, StateSeen, Third};
use foldwright_engine::stage::{Stage, Stop, Swung};
use foldwright_gathered::gathered;

use super::OfLook;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};
use crate::told::sentence;

/// More of a kind than these are counted, not told one by one.
const MOST_TOLD: usize = 12;

/// More panels than these are counted, not named.
const MOST_NAMED: usize = 2;

#[gathered]
pub(crate) fn told(names: &Names<'_>, of: OfLook<'_>) -> String {
    match of {
        OfLook::Flat(seen) => flat(names, seen),
        OfLook::State(seen) => state(names, seen),
        OfLook::Stands(Stands::Firm(by)) => format!(
            "Halb geöffnet steht sie von selbst, {} vor dem Kippen.",
            names.length(by)
        ),
        OfLook::Stands(Stands::Barely) => {
            "Halb geöffnet steht sie gerade noch: Probier es mit dem Papier.".to_owned()
        }
        OfLook::Stands(Stands::Falls) => {
            "Halb geöffnet steht sie nicht von selbst; hier liegt sie.".to_owned()
        }
        OfLook::Stage(stage) => self::stage(names, stage),
        OfLook::Fallen(part) => fallen(names, part),
        OfLook::FallsOff(part) => format!("Fällt ab: {}", fallen(names, part)),
    }
}

#[gathered]
fn flat(names: &Names<'_>, seen: &FlatSeen) -> String {
    let what = nouns::strip(names, seen.of, Case::Nominative);
    let mut told = vec![sentence(format!(
        "{what} misst {}.",
        names.short_size(seen.size)
    ))];
    let panels = seen.panels.iter();
    let panels =
        panels.map(|(id, width)| format!("{} {}", nouns::panel(names, *id), names.short(*width)));
    told.push(match &panels.collect::<Vec<_>>()[..] {
        [only] => format!("Ein Feld: {only}."),
        panels if panels.len() > MOST_TOLD => format!("Es sind {} Felder.", panels.len()),
        panels => format!("Von links: {}.", panels.join("; ")),
    });
    let lines = seen.lines.iter().map(|(id, kind)| line(names, *id, *kind));
    told.extend(match &lines.collect::<Vec<_>>()[..] {
        [] => None,
        lines if lines.len() > MOST_TOLD => Some(format!(
            "Es sind {} Rillen, Falze und Schnitte.",
            lines.len()
        )),
        lines => Some(format!("{}.", sentence(lines.join("; ")))),
    });
    let parts = seen.fallen.iter().map(|part| fallen(names, part));
    told.extend(match &parts.collect::<Vec<_>>()[..] {
        [] => None,
        parts if parts.len() > MOST_TOLD => Some(format!("{} Teile fallen ab.", parts.len())),
        parts => Some(format!("Was abfällt: {}.", parts.join("; "))),
    });
    let on = seen.on.iter();
    let on = on.map(|(id, size)| sized(names, nouns::layer(names, *id), Some(*size)));
    told.extend(match &on.collect::<Vec<_>>()[..] {
        [] => None,
        on if on.len() > MOST_TOLD => Some(format!("Darauf liegen {} Auflagen.", on.len())),
        on => Some(format!("Darauf: {}.", on.join("; "))),
    });
    told.join(" ")
}

#[gathered]
fn line(names: &Names<'_>, id: LineId, kind: LineKind) -> String {
    let line = nouns::line(names, id, Case::Nominative);
    match kind {
        LineKind::Crease(Fold::Mountain) => format!("{line}, Bergfalz"),
        LineKind::Crease(Fold::Valley) => format!("{line}, Talfalz"),
        LineKind::Cut => line,
    }
}

#[gathered]
fn state(names: &Names<'_>, seen: &StateSeen) -> String {
    let (size, parts, standing) = match seen {
        StateSeen::NotFlat => return "Die Karte lässt sich nicht flach falten.".to_owned(),
        StateSeen::Stopped(stop) => return format!("{}.", stopped(*stop)),
        StateSeen::Lies {
            size,
            parts,
            standing,
        } => (size, parts, standing),
    };
    let mut told = vec![format!("Die Karte misst {}.", names.short_size(*size))];
    let parts = parts.iter().map(|(part, size)| {
        let what = match part {
            Part::Face(face) => nouns::face(names, *face, Case::Nominative),
            Part::Layer(id) => nouns::layer(names, *id),
            Part::LayerBack(id) => format!("die Rückseite von {}", nouns::layer(names, *id)),
        };
        sized(names, what, *size)
    });
    told.push(match &parts.collect::<Vec<_>>()[..] {
        [] => "Nichts ist zu sehen.".to_owned(),
        parts if parts.len() > MOST_TOLD => format!("{} Teile sind zu sehen.", parts.len()),
        parts => format!("Von vorn nach hinten: {}.", parts.join("; ")),
    });
    let up = standing.iter().map(|id| nouns::panel(names, *id));
    told.extend(match &up.collect::<Vec<_>>()[..] {
        [] => None,
        up if up.len() > MOST_TOLD => Some(format!("{} Felder stehen hoch.", up.len())),
        [only] => Some(format!("{only} steht hoch.")),
        up => Some(format!("{} stehen hoch.", nouns::list(up))),
    });
    told.join(" ")
}

#[gathered]
fn sized(names: &Names<'_>, what: String, size: Option<Size>) -> String {
    match size {
        None => what,
        Some(size) => format!("{what} {}", names.short_size(size)),
    }
}

#[gathered]
fn stage(names: &Names<'_>, stage: &Stage) -> String {
    sentence(match stage {
        Stage::NotFlat => "Lässt sich nicht flach falten".to_owned(),
        Stage::Closed => "Geschlossen".to_owned(),
        Stage::HeldShut => "Geschlossen: Etwas hält die Karte zu".to_owned(),
        Stage::NoFold => "Kein Falz".to_owned(),
        Stage::Open => "Offen".to_owned(),
        Stage::Flat => "Flach".to_owned(),
        Stage::Stopped(stop) => stopped(*stop),
        Stage::Opening(what) => match swung(names, what) {
            (what, false) => format!("{what} geht auf"),
            (what, true) => format!("{what} gehen auf"),
        },
        Stage::Opened { swung: what, stops } => {
            let (what, _) = swung(names, what);
            if *stops {
                format!("{what} aufgeklappt, weiter geht es nicht")
            } else {
                format!("{what} aufgeklappt")
            }
        }
    })
}

#[gathered]
fn stopped(stop: Stop) -> String {
    match stop {
        Stop::Degrees(degrees) => format!("Offen bis {degrees}°, weiter geht es nicht"),
        Stop::AsFarAsItGoes => "So weit offen, wie es geht".to_owned(),
    }
}

/// What swings, and whether it is more than one.
#[gathered]
fn swung(names: &Names<'_>, swung: &Swung) -> (String, bool) {
    match swung {
        Swung::Card => ("die Karte".to_owned(), false),
        Swung::Panels(panels) if panels.is_empty() => ("ein Feld".to_owned(), false),
        Swung::Panels(panels) if panels.len() > MOST_NAMED => {
            (format!("{} Felder", panels.len()), true)
        }
        Swung::Panels(panels) => (nouns::panels(names, panels), panels.len() > 1),
    }
}

#[gathered]
fn fallen(names: &Names<'_>, fallen: &Fallen) -> String {
    let at = match (fallen.up, fallen.across) {
        (Third::Last, Third::First) => "oben links",
        (Third::Last, Third::Middle) => "oben",
        (Third::Last, Third::Last) => "oben rechts",
        (Third::Middle, Third::First) => "links",
        (Third::Middle, Third::Middle) => "in der Mitte",
        (Third::Middle, Third::Last) => "rechts",
        (Third::First, Third::First) => "unten links",
        (Third::First, Third::Middle) => "unten",
        (Third::First, Third::Last) => "unten rechts",
    };
    format!("{} {at}", names.short_size(fallen.size))
}
