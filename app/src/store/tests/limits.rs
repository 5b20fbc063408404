//! Whatever a maker can come to at the limits is kept, opened again and taken
//! in on another device; whatever is past them is not kept over what is there.

use foldwright_document::Document;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    Face, LayerKind, MOST_TEXT, Parts, Recipe, Seat, Side, read, starters, write,
};

use super::super::port::Refused;
use super::super::shelf::{Saved, recipe_key};
use super::{never, tabs};
use crate::spoken::naming;
use crate::sync::merged;

/// Texts as long as may be: of one byte a character, of two and of four.
fn longest() -> [String; 3] {
    ["a", "ß", "🂡"].map(|letter| letter.repeat(MOST_TEXT))
}

/// Everything that takes a text, with how it is given one.
const TEXTS: [fn(&mut Recipe, &str); 9] = [
    |recipe, text| text.clone_into(&mut recipe.name),
    |recipe, text| text.clone_into(&mut recipe.about),
    |recipe, text| drop(recipe.notes.insert(String::from("gather"), text.to_owned())),
    |recipe, text| drop(recipe.notes.insert(text.to_owned(), String::from("here"))),
    |recipe, text| text.clone_into(&mut recipe.measures[0].name),
    |recipe, text| text.clone_into(&mut recipe.stocks[0].name),
    |recipe, text| text.clone_into(&mut recipe.base.panels[0].name),
    |recipe, text| {
        if let Some(layer) = recipe.layers.first().map(|layer| layer.id) {
            recipe
                .rename_layer(layer, text, naming())
                .expect("it is there");
        }
    },
    |recipe, text| {
        recipe.name = text.to_owned();
        recipe.add_to_name(" (copy)");
    },
];

/// Numbers at the ends of what they may be.
const NUMBERS: [fn(&mut Recipe); 6] = [
    |recipe| recipe.copies = 1,
    |recipe| recipe.copies = 9999,
    |recipe| recipe.glue_margin = Length::LIMIT,
    |recipe| recipe.stocks[0].width = Length::LIMIT,
    |recipe| recipe.stocks[0].caliper = Length::from_units(1),
    |recipe| {
        for measure in recipe.measures.clone() {
            // What does not go with the rest is refused and changes nothing.
            for length in [Length::LIMIT, Length::from_units(1), Length::ZERO] {
                let _ = recipe.set(measure.id, length);
            }
        }
    },
];

/// What comes back of a recipe: from a tab's storage, from a file, and out of a
/// document another device wrote.
fn comes_back(recipe: &Recipe, what: &str) {
    assert_eq!(recipe.check(), [], "{what}");
    let (shelf, other) = tabs::two();
    shelf.put("a1", recipe, 1).expect(what);
    let opened = other.load("a1").map(|record| record.recipe);
    assert_eq!(opened.as_ref(), Ok(recipe), "{what}");
    assert_eq!(shelf.asides(), [], "{what}");
    let file = read(&write(std::slice::from_ref(recipe)));
    assert_eq!(file.as_deref(), Ok(std::slice::from_ref(recipe)), "{what}");
    let mut document = Document::new(7);
    let object = merged::object(recipe);
    document.write(&serde_json::Value::Null, &object);
    let merged = merged::recipe(&document).map(|merged| merged.recipe);
    assert_eq!(merged.as_ref(), Ok(recipe), "{what}");
}

#[test]
fn every_value_at_its_limit_comes_back() {
    for starter in starters() {
        let recipe = starter.recipe_in(super::METRIC);
        for (number, give) in TEXTS.into_iter().enumerate() {
            for text in longest() {
                let mut recipe = recipe.clone();
                give(&mut recipe, &text);
                comes_back(&recipe, &format!("{}: text {number}", starter.id));
            }
        }
        let mut all = recipe.clone();
        for (number, give) in NUMBERS.into_iter().enumerate() {
            let mut recipe = recipe.clone();
            give(&mut recipe);
            comes_back(&recipe, &format!("{}: number {number}", starter.id));
            give(&mut all);
        }
        comes_back(&all, &format!("{}: all numbers", starter.id));
    }
}

#[test]
fn as_many_parts_as_may_be_come_back() {
    let mut recipe = super::some_recipe();
    let face = Seat::Face(Face {
        panel: recipe.base.panels[0].id,
        side: Side::A,
    });
    while recipe.layers.len() < Parts::Layers.most() {
        recipe
            .add_layer(face, LayerKind::Mat, naming())
            .expect("a mat");
    }
    assert!(recipe.add_layer(face, LayerKind::Mat, naming()).is_err());
    for number in recipe.notes.len()..Parts::Notes.most() {
        recipe
            .notes
            .insert(number.to_string(), String::from("here"));
    }
    comes_back(&recipe, "all layers and notes");
}

#[test]
fn what_is_past_a_limit_is_not_kept_over_what_is_there() {
    let before = super::some_recipe();
    let past = format!("{}a", "a".repeat(MOST_TEXT));
    for (number, give) in TEXTS.into_iter().enumerate().take(7) {
        let (shelf, _) = tabs::two();
        shelf.put("a1", &before, 1).expect("there is room");
        let mut held = shelf.open("a1").expect("it is there");
        let kept = shelf.port().read(&recipe_key("a1"));
        let mut recipe = before.clone();
        give(&mut recipe, &past);
        let saved = shelf.save(&mut held, &recipe, never, 2);
        assert_eq!(saved, Err(Refused::Unreadable), "text {number}");
        assert_eq!(shelf.port().read(&recipe_key("a1")), kept, "text {number}");
        // A change that takes it back is kept as ever.
        before.clone_into(&mut recipe);
        recipe.copies = 3;
        assert_eq!(shelf.save(&mut held, &recipe, never, 3), Ok(Saved::Kept));
    }
}
