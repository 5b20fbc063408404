//! What the numbers of a list suggest, in German.

use foldwright_engine::reading::{Evidence, Suggestion};
use foldwright_engine::recipe::{LayerId, PanelId};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::de as nouns;
use crate::paper::de as paper;
use crate::told::sentence;

fn panels(names: &Names<'_>, ids: &[PanelId]) -> String {
    let called: Vec<_> = ids.iter().map(|id| nouns::panel(names, *id)).collect();
    nouns::list(&called)
}

fn layers(names: &Names<'_>, ids: &[LayerId]) -> String {
    let called: Vec<_> = ids.iter().map(|id| nouns::layer(names, *id)).collect();
    nouns::list(&called)
}

#[gathered]
pub(crate) fn suggestion(names: &Names<'_>, is: &Suggestion) -> String {
    let panel = |id: PanelId| nouns::panel(names, id);
    let layer = |id: LayerId| nouns::layer(names, id);
    sentence(match is {
        Suggestion::SamePanels(ids) => {
            let all = names.panels() == ids.len() && ids.len() > 3;
            match (all, names.runs_down()) {
                (true, false) => format!("Alle {} Felder sind gleich breit", ids.len()),
                (true, true) => format!("Alle {} Felder sind gleich hoch", ids.len()),
                (false, false) => format!("{} sind gleich breit", panels(names, ids)),
                (false, true) => format!("{} sind gleich hoch", panels(names, ids)),
            }
        }
        Suggestion::FoldedIn { inner, .. } => {
            format!("{} ist etwas kürzer und liegt so flach", panel(*inner))
        }
        Suggestion::Leaves { gap } if gap.units() == 0 => {
            "Die Flügel treffen sich über der Mitte".to_owned()
        }
        Suggestion::Leaves { gap } => {
            format!(
                "Zwischen den Flügeln bleibt ein Spalt von {}",
                names.length(*gap)
            )
        }
        Suggestion::Sum {
            whole,
            parts: [a, b],
        } => {
            if names.runs_down() {
                format!(
                    "{} ist so hoch wie {} und {} zusammen",
                    panel(*whole),
                    panel(*a),
                    panel(*b)
                )
            } else {
                format!(
                    "{} ist so breit wie {} und {} zusammen",
                    panel(*whole),
                    panel(*a),
                    panel(*b)
                )
            }
        }
        Suggestion::Double { whole, half } => {
            if names.runs_down() {
                format!("{} ist doppelt so hoch wie {}", panel(*whole), panel(*half))
            } else {
                format!(
                    "{} ist doppelt so breit wie {}",
                    panel(*whole),
                    panel(*half)
                )
            }
        }
        Suggestion::Square(id) => format!("{} ist quadratisch", panel(*id)),
        Suggestion::Border { layer: id, .. } => match names.seat_of(*id) {
            Some(on) => format!(
                "{} lässt einen gleichen Rand auf {}",
                layer(*id),
                nouns::carrier(names, on)
            ),
            None => format!("{} lässt einen gleichen Rand", layer(*id)),
        },
        Suggestion::SameBorders(ids) => format!("{} haben denselben Rand", layers(names, ids)),
        Suggestion::SameSizes(ids) => format!("{} bleiben gleich groß", layers(names, ids)),
        Suggestion::Whole(id) => match names.seat_of(*id) {
            Some(on) => format!(
                "{} ist so groß wie {}",
                layer(*id),
                nouns::carrier(names, on)
            ),
            None => format!("{} ist so groß wie die Unterlage", layer(*id)),
        },
        Suggestion::Across {
            layer: id,
            tall: false,
        } => format!("{} ist so breit wie die geschlossene Karte", layer(*id)),
        Suggestion::Across {
            layer: id,
            tall: true,
        } => format!("{} ist so hoch wie die geschlossene Karte", layer(*id)),
        Suggestion::Envelope(envelope, _) => format!(
            "Die geschlossene Karte passt in den Umschlag {}",
            nouns::envelope(envelope)
        ),
    })
}

#[gathered]
pub(crate) fn evidence(names: &Names<'_>, evidence: &Evidence) -> String {
    let full = |length| names.short(length);
    let plain = |length| names.plain(length);
    match *evidence {
        Evidence::Times { count, each, whole } => {
            format!("{count} × {} = {}", plain(each), full(whole))
        }
        Evidence::Each(length) => format!("jedes misst {}", full(length)),
        Evidence::Less { whole, part, left } => {
            format!("{} − {} = {}", plain(whole), plain(part), full(left))
        }
        Evidence::Plus {
            parts: [a, b],
            whole,
        } => format!("{} + {} = {}", plain(a), plain(b), full(whole)),
        Evidence::Leaves {
            leaves: [a, b],
            both,
            middle,
        } => format!(
            "{} + {} = {}, und die Mitte ist {}",
            plain(a),
            plain(b),
            full(both),
            full(middle)
        ),
        Evidence::Square(side) => format!("{} × {}", plain(side), full(side)),
        Evidence::Border {
            seat,
            layer,
            border,
        } => format!(
            "{} − 2 × {} = {} und {} − 2 × {} = {}: gleicher Rand von {}",
            plain(seat.width),
            plain(border),
            plain(layer.width),
            plain(seat.height),
            plain(border),
            plain(layer.height),
            full(border)
        ),
        Evidence::Both(size) => format!("beide sind {}", names.short_size(size)),
        Evidence::BothWide(length) => format!("beide sind {} breit", full(length)),
        Evidence::BothHigh(length) => format!("beide sind {} hoch", full(length)),
        Evidence::EachBorder(length) => format!("jeder Rand ist {}", full(length)),
        Evidence::Alike { count, size } => format!("{count} von {}", names.short_size(size)),
        Evidence::Envelope {
            envelope,
            spare,
            card,
            on_marks: true,
            rule,
        } => format!(
            "{} − {} = {} und {} − {} = {}: Luft nach „{}“",
            plain(envelope.height),
            plain(spare.height),
            full(card.height),
            plain(envelope.length),
            plain(spare.width),
            full(card.width),
            paper::clearance(rule)
        ),
        Evidence::Envelope {
            envelope,
            card,
            rule,
            ..
        } => format!(
            "er misst {}, die Karte {}: Luft nach „{}“",
            names.short_size(envelope.size()),
            names.short_size(card),
            paper::clearance(rule)
        ),
    }
}
