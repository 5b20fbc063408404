//! The glue of layers, in English.

use foldwright_engine::problem::GlueFinding;
use foldwright_engine::recipe::LayerId;
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;

#[gathered]
pub(crate) fn told(names: &Names<'_>, layer: LayerId, found: GlueFinding) -> Told {
    let layer = nouns::layer(names, layer);
    match found {
        GlueFinding::NoRoom { margin } => Told::new(
            format!("{layer} has no room for glue."),
            format!(
                "Glue stays {} from every edge and crease, which leaves nothing.",
                names.length(margin)
            ),
            format!("Move {layer}, make it larger, or make the margin smaller."),
        ),
        GlueFinding::OffItsBack => Told::new(
            format!("The glue of {layer} does not lie on its back."),
            "Its distances from the edges leave nothing, or reach past the edges.",
            "Give distances that leave a part of the back.",
        ),
        GlueFinding::Across(line) => Told::new(
            format!("The glue of {layer} crosses {}.", nouns::line(names, line)),
            "Glued across, it can't fold.",
            format!("Keep the glue on the panel that carries {layer}."),
        ),
        GlueFinding::Ties { carrier, other } => {
            let (carrier, other) = (nouns::panel(names, carrier), nouns::panel(names, other));
            Told::new(
                format!("The glue of {layer} ties {carrier} to {other}."),
                format!("{carrier} and {other} part when the card opens."),
                format!("Keep the glue on {carrier}."),
            )
        }
        GlueFinding::PastItsSeat => Told::new(
            format!("The glue of {layer} reaches past what carries it."),
            "There it would stick to the table or to what is put in the card.",
            format!("Keep the glue on what carries {layer}."),
        ),
    }
}
