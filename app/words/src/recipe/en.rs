//! The recipe as a whole, in English.

use foldwright_engine::recipe::{Parts, Relation};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;

#[gathered]
pub(crate) fn broken(names: &Names<'_>, relation: &Relation) -> Told {
    Told::new(
        format!("This rule is broken: {}.", nouns::relation(names, relation)),
        "The lengths in the recipe say otherwise.",
        "Change one of these lengths, or remove the rule.",
    )
}

#[gathered]
pub(crate) fn too_many(parts: Parts, number: usize) -> Told {
    let (many, most) = (plural(parts), parts.most());
    Told::new(
        format!("The recipe has {number} {many}. Now {most} are the most."),
        "It was made before there was this limit, or came together on several devices. All of it \
         is kept, but each change may take a while.",
        format!("Remove some {many}, or make two recipes of it."),
    )
}

#[gathered]
pub(crate) fn plural(parts: Parts) -> &'static str {
    match parts {
        Parts::Measures => "measurements",
        Parts::Relations => "rules",
        Parts::Terms => "measurements in one rule",
        Parts::Papers => "papers",
        Parts::Panels => "panels",
        Parts::Answers => "answers about what lies on top",
        Parts::Lines => "creases and cuts besides the scores",
        Parts::Cutouts => "windows and shaped edges",
        Parts::Pieces => "pop-ups and pockets",
        Parts::Joins => "places where pop-ups and pockets are glued",
        Parts::Layers => "layers",
        Parts::Supplies => "supplies",
        Parts::Upright => "sides to be upright",
        Parts::Notes => "notes",
        Parts::OwnSteps => "steps of your own",
        Parts::Ordered => "steps in the chosen order",
    }
}
