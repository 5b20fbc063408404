//! The recipe as a whole, in German.

use foldwright_engine::recipe::{Parts, Relation};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de as nouns;

#[gathered]
pub(crate) fn broken(names: &Names<'_>, relation: &Relation) -> Told {
    Told::new(
        format!(
            "Diese Regel ist verletzt: {}.",
            nouns::relation(names, relation)
        ),
        "Die Längen im Rezept sind andere.",
        "Ändere eine dieser Längen, oder entferne die Regel.",
    )
}

#[gathered]
pub(crate) fn too_many(parts: Parts, number: usize) -> Told {
    let (many, most) = (plural(parts), parts.most());
    Told::new(
        format!("Das Rezept hat {number} {many}. Höchstens {most} sind jetzt möglich."),
        "Es ist älter als diese Grenze oder kam auf mehreren Geräten zusammen. Alles bleibt, nur \
         dauert jede Änderung länger.",
        format!("Entferne einige {many}, oder mach zwei Rezepte daraus."),
    )
}

#[gathered]
pub(crate) fn plural(parts: Parts) -> &'static str {
    match parts {
        Parts::Measures => "Maße",
        Parts::Relations => "Regeln",
        Parts::Terms => "Maße in einer Regel",
        Parts::Papers => "Papiere",
        Parts::Panels => "Felder",
        Parts::Answers => "Angaben dazu, was oben liegt",
        Parts::Lines => "Falzlinien und Schnitte neben den Rillen",
        Parts::Cutouts => "Fenster und Formkanten",
        Parts::Pieces => "Pop-ups und Taschen",
        Parts::Joins => "Klebestellen von Pop-ups und Taschen",
        Parts::Layers => "Auflagen",
        Parts::Supplies => "Zutaten",
        Parts::Upright => "Seiten, die aufrecht sein sollen",
        Parts::Notes => "Notizen",
        Parts::OwnSteps => "eigene Schritte",
        Parts::Ordered => "Schritte in gewählter Reihenfolge",
    }
}
