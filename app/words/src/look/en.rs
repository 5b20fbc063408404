//! A drawing in words, in English.

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
use crate::nouns::en as nouns;
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
            "Partly open it stands by itself, {} from tipping over.",
            names.length(by)
        ),
        OfLook::Stands(Stands::Barely) => {
            "Partly open it only just balances: try it with the paper.".to_owned()
        }
        OfLook::Stands(Stands::Falls) => {
            "Partly open it does not stand by itself; here it lies.".to_owned()
        }
        OfLook::Stage(stage) => self::stage(names, stage),
        OfLook::Fallen(part) => fallen(names, part),
        OfLook::FallsOff(part) => format!("Falls off: {}", fallen(names, part)),
    }
}

#[gathered]
fn flat(names: &Names<'_>, seen: &FlatSeen) -> String {
    let what = nouns::strip(names, seen.of);
    let mut told = vec![sentence(format!(
        "{what} is {}.",
        names.short_size(seen.size)
    ))];
    let panels = seen.panels.iter();
    let panels =
        panels.map(|(id, width)| format!("{} {}", nouns::panel(names, *id), names.short(*width)));
    told.push(match &panels.collect::<Vec<_>>()[..] {
        [only] => format!("It has one panel, {only}."),
        panels if panels.len() > MOST_TOLD => format!("It has {} panels.", panels.len()),
        panels => format!("From the left: {}.", panels.join("; ")),
    });
    let lines = seen.lines.iter().map(|(id, kind)| line(names, *id, *kind));
    told.extend(match &lines.collect::<Vec<_>>()[..] {
        [] => None,
        lines if lines.len() > MOST_TOLD => {
            Some(format!("It has {} scores, creases and cuts.", lines.len()))
        }
        lines => Some(format!("{}.", sentence(lines.join("; ")))),
    });
    let parts = seen.fallen.iter().map(|part| fallen(names, part));
    told.extend(match &parts.collect::<Vec<_>>()[..] {
        [] => None,
        parts if parts.len() > MOST_TOLD => Some(format!("{} parts fall off.", parts.len())),
        parts => Some(format!("What falls off: {}.", parts.join("; "))),
    });
    let on = seen.on.iter();
    let on = on.map(|(id, size)| sized(names, nouns::layer(names, *id), Some(*size)));
    told.extend(match &on.collect::<Vec<_>>()[..] {
        [] => None,
        on if on.len() > MOST_TOLD => Some(format!("On it lie {} layers.", on.len())),
        on => Some(format!("On it: {}.", on.join("; "))),
    });
    told.join(" ")
}

#[gathered]
fn line(names: &Names<'_>, id: LineId, kind: LineKind) -> String {
    let line = nouns::line(names, id);
    match kind {
        LineKind::Crease(Fold::Mountain) => format!("{line}, mountain"),
        LineKind::Crease(Fold::Valley) => format!("{line}, valley"),
        LineKind::Cut => line,
    }
}

#[gathered]
fn state(names: &Names<'_>, seen: &StateSeen) -> String {
    let (size, parts, standing) = match seen {
        StateSeen::NotFlat => return "The card does not fold flat.".to_owned(),
        StateSeen::Stopped(stop) => return format!("{}.", stopped(*stop)),
        StateSeen::Lies {
            size,
            parts,
            standing,
        } => (size, parts, standing),
    };
    let mut told = vec![format!("It measures {}.", names.short_size(*size))];
    let parts = parts.iter().map(|(part, size)| {
        let what = match part {
            Part::Face(face) => nouns::face(names, *face),
            Part::Layer(id) => nouns::layer(names, *id),
            Part::LayerBack(id) => format!("the back of {}", nouns::layer(names, *id)),
        };
        sized(names, what, *size)
    });
    told.push(match &parts.collect::<Vec<_>>()[..] {
        [] => "Nothing shows.".to_owned(),
        parts if parts.len() > MOST_TOLD => format!("{} parts show.", parts.len()),
        parts => format!("From the nearest: {}.", parts.join("; ")),
    });
    let up = standing.iter().map(|id| nouns::panel(names, *id));
    told.extend(match &up.collect::<Vec<_>>()[..] {
        [] => None,
        up if up.len() > MOST_TOLD => Some(format!("{} panels stand up.", up.len())),
        [only] => Some(format!("{} stands up.", sentence(only.clone()))),
        up => Some(format!("{} stand up.", sentence(nouns::list(up)))),
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
        Stage::NotFlat => "Does not fold flat".to_owned(),
        Stage::Closed => "Closed".to_owned(),
        Stage::HeldShut => "Closed: something holds it shut".to_owned(),
        Stage::NoFold => "No fold".to_owned(),
        Stage::Open => "Open".to_owned(),
        Stage::Flat => "Flat".to_owned(),
        Stage::Stopped(stop) => stopped(*stop),
        Stage::Opening(what) => format!("{} opening", swung(names, what)),
        Stage::Opened { swung: what, stops } => {
            let what = swung(names, what);
            if *stops {
                format!("{what} opened, and no further")
            } else {
                format!("{what} opened")
            }
        }
    })
}

#[gathered]
fn stopped(stop: Stop) -> String {
    match stop {
        Stop::Degrees(degrees) => format!("Open to {degrees}°, and no further"),
        Stop::AsFarAsItGoes => "Open as far as it goes".to_owned(),
    }
}

#[gathered]
fn swung(names: &Names<'_>, swung: &Swung) -> String {
    match swung {
        Swung::Card => "the card".to_owned(),
        Swung::Panels(panels) if panels.is_empty() => "a panel".to_owned(),
        Swung::Panels(panels) if panels.len() > MOST_NAMED => format!("{} panels", panels.len()),
        Swung::Panels(panels) => nouns::panels(names, panels),
    }
}

/// "4 × 4 in at the top left".
#[gathered]
fn fallen(names: &Names<'_>, fallen: &Fallen) -> String {
    let at = match (fallen.up, fallen.across) {
        (Third::Last, Third::First) => "at the top left",
        (Third::Last, Third::Middle) => "at the top",
        (Third::Last, Third::Last) => "at the top right",
        (Third::Middle, Third::First) => "at the left",
        (Third::Middle, Third::Middle) => "in the middle",
        (Third::Middle, Third::Last) => "at the right",
        (Third::First, Third::First) => "at the bottom left",
        (Third::First, Third::Middle) => "at the bottom",
        (Third::First, Third::Last) => "at the bottom right",
    };
    format!("{} {at}", names.short_size(fallen.size))
}
