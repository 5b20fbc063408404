//! What the numbers of a list suggest, in English.

use foldwright_engine::reading::{Evidence, Suggestion};
use foldwright_engine::recipe::{LayerId, PanelId};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::en as nouns;
use crate::paper::en as paper;
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
                (true, false) => format!("All {} panels are equally wide", ids.len()),
                (true, true) => format!("All {} panels are equally high", ids.len()),
                (false, false) => format!("{} are equally wide", panels(names, ids)),
                (false, true) => format!("{} are equally high", panels(names, ids)),
            }
        }
        Suggestion::FoldedIn { inner, .. } => {
            format!(
                "{} is a little shorter, so that it lies flat",
                panel(*inner)
            )
        }
        Suggestion::Leaves { gap } if gap.units() == 0 => {
            "The leaves meet over the middle".to_owned()
        }
        Suggestion::Leaves { gap } => {
            format!(
                "There is a gap of {} between the leaves",
                names.length(*gap)
            )
        }
        Suggestion::Sum {
            whole,
            parts: [a, b],
        } => {
            if names.runs_down() {
                format!(
                    "{} is as high as {} and {} together",
                    panel(*whole),
                    panel(*a),
                    panel(*b)
                )
            } else {
                format!(
                    "{} is as wide as {} and {} together",
                    panel(*whole),
                    panel(*a),
                    panel(*b)
                )
            }
        }
        Suggestion::Double { whole, half } => {
            if names.runs_down() {
                format!("{} is twice as high as {}", panel(*whole), panel(*half))
            } else {
                format!("{} is twice as wide as {}", panel(*whole), panel(*half))
            }
        }
        Suggestion::Square(id) => format!("{} is square", panel(*id)),
        Suggestion::Border { layer: id, .. } => match names.seat_of(*id) {
            Some(on) => format!(
                "{} leaves an even border on {}",
                layer(*id),
                nouns::carrier(names, on)
            ),
            None => format!("{} leaves an even border", layer(*id)),
        },
        Suggestion::SameBorders(ids) => format!("{} have the same border", layers(names, ids)),
        Suggestion::SameSizes(ids) => format!("{} are the same size", layers(names, ids)),
        Suggestion::Whole(id) => match names.seat_of(*id) {
            Some(on) => format!(
                "{} is as large as {}",
                layer(*id),
                nouns::carrier(names, on)
            ),
            None => format!("{} is as large as what it lies on", layer(*id)),
        },
        Suggestion::Across {
            layer: id,
            tall: false,
        } => format!("{} is as wide as the closed card", layer(*id)),
        Suggestion::Across {
            layer: id,
            tall: true,
        } => format!("{} is as high as the closed card", layer(*id)),
        Suggestion::Envelope(envelope, _) => {
            format!(
                "The closed card goes into envelope {}",
                nouns::envelope(envelope)
            )
        }
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
        Evidence::Each(length) => format!("each of them is {}", full(length)),
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
            "{} + {} = {}, and the middle is {}",
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
            "{} − 2 × {} = {}, and {} − 2 × {} = {}: an even border of {}",
            plain(seat.width),
            plain(border),
            plain(layer.width),
            plain(seat.height),
            plain(border),
            plain(layer.height),
            full(border)
        ),
        Evidence::Both(size) => format!("both are {}", names.short_size(size)),
        Evidence::BothWide(length) => format!("both are {} wide", full(length)),
        Evidence::BothHigh(length) => format!("both are {} high", full(length)),
        Evidence::EachBorder(length) => format!("each border is {}", full(length)),
        Evidence::Alike { count, size } => format!("{count} of {}", names.short_size(size)),
        Evidence::Envelope {
            envelope,
            spare,
            card,
            on_marks: true,
            rule,
        } => format!(
            "{} − {} = {}, and {} − {} = {}: room by the rule “{}”",
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
            "it measures {}, the card {}: room by the rule “{}”",
            names.short_size(envelope.size()),
            names.short_size(card),
            paper::clearance(rule)
        ),
    }
}
