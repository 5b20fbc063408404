//! What reaches too far, or into a fold, in English.

use foldwright_engine::length::ceil;
use foldwright_engine::problem::{Contents, Cramped, Past, Reach, ReachFinding, Reacher};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;

#[gathered]
pub(crate) fn told(names: &Names<'_>, found: &ReachFinding) -> Told {
    let reach = &found.reach;
    let name = nouns::reacher(names, reach.of);
    let far = nouns::far(names, &reach.edges, reach.most);
    let size = names.short_size(found.finished);
    let panel = found.on.map_or_else(
        || "its panel".to_owned(),
        |face| nouns::panel(names, face.panel),
    );
    let lines: Vec<_> = reach
        .across
        .iter()
        .map(|id| nouns::line(names, *id))
        .collect();
    let lines_named = nouns::list(&lines);
    match (reach.of, reach.past) {
        (Reacher::Panel(_), _) => Told::new(
            format!("{name} sticks out of the closed card: {far}."),
            format!(
                "That is seen from the front. With all that sticks out the closed card measures \
                 {size}."
            ),
            or_fits(
                names,
                reach,
                "Move it. Leave it so where it is meant to stick out.",
                "Or move it. Leave it so where it is meant to stick out.",
            ),
        ),
        (Reacher::Layer(_), Past::Card) => Told::new(
            format!("{name} sticks out of the closed card: {far}."),
            match found.on {
                Some(face) => format!(
                    "That is as you look at {}. With all that sticks out the closed card measures \
                     {size}.",
                    nouns::face(names, face)
                ),
                None => format!("With all that sticks out the closed card measures {size}."),
            },
            or_fits(
                names,
                reach,
                "Move it. Leave it so where it is meant to stick out.",
                "Or move it. Leave it so where it is meant to stick out.",
            ),
        ),
        (Reacher::Layer(_), Past::Fold) => match lines.len() {
            0 => Told::new(
                format!("{name} keeps the card from closing."),
                format!(
                    "It reaches past {panel}, {far}. There it would have to pass through other \
                     panels or a fold."
                ),
                or_stays(
                    names,
                    reach,
                    &panel,
                    &format!("Move it back onto {panel}."),
                    &format!("Or move it back onto {panel}."),
                ),
            ),
            _ => Told::new(
                format!("{name} reaches past {lines_named}: {far}."),
                format!(
                    "There the card folds shut over {name}, and paper can't pass through a fold."
                ),
                or_stays(
                    names,
                    reach,
                    &panel,
                    "Move it away from the fold.",
                    "Or move it away from the fold.",
                ),
            ),
        },
        (Reacher::Layer(_), Past::Panel) => Told::new(
            format!("{name} reaches past {panel}: {far}."),
            if lines.is_empty() {
                "There it stays without glue, which would hold other paper.".to_owned()
            } else {
                format!(
                    "It lies across {lines_named}. There it stays without glue, which would hold \
                     other paper."
                )
            },
            or_stays(
                names,
                reach,
                &panel,
                "Leave it so where it is meant to reach that far.",
                "Leave it so where it is meant to reach that far.",
            ),
        ),
    }
}

/// A remedy after the size at which it would fit the card, where there is one.
#[gathered]
fn or_fits(names: &Names<'_>, reach: &Reach, alone: &str, after: &str) -> String {
    match reach.fits.map(|size| names.short_size(size)) {
        None => alone.to_owned(),
        Some(size) if reach.in_rectangle => format!("The largest that fits is {size}. {after}"),
        Some(size) => format!("At {size} it fits. {after}"),
    }
}

/// The same for what is to stay on its panel.
#[gathered]
fn or_stays(names: &Names<'_>, reach: &Reach, panel: &str, alone: &str, after: &str) -> String {
    match reach.fits.map(|size| names.short_size(size)) {
        None => alone.to_owned(),
        Some(size) if reach.in_rectangle => {
            format!("The largest that stays on {panel} is {size}. {after}")
        }
        Some(size) => format!("At {size} it stays on {panel}. {after}"),
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
            let remedy = format!("Make {name} shorter, or choose a rule that asks for less.");
            (name, remedy)
        }
        Contents::Layer(id) => {
            let name = nouns::layer(names, id);
            let remedy = format!("Move {name} away from the fold, or make it smaller.");
            (name, remedy)
        }
    };
    Told::new(
        format!("{name} leaves {gap} at the fold between {a} and {b}."),
        format!("With less than {asked} it pushes into the fold and buckles."),
        remedy,
    )
}
