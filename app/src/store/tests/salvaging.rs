//! What can't be read whole is set aside, opened as far as it can be, and its
//! file can be taken back in.

use foldwright_engine::recipe::{Face, LayerKind, MOST_TEXT, Recipe, Seat, Side, write};

use super::super::record::file_in;
use super::super::salvage::{Salvaged, salvage};
use super::super::shelf::{Aside, NotLoaded, recipe_key};
use super::{some_recipe, tabs};
use crate::spoken::naming;

/// A text as an earlier version kept it: no limit was looked at before.
fn kept(recipe: &Recipe) -> String {
    format!("4 1 5\n{}", write(std::slice::from_ref(recipe)))
}

fn aside(text: &str) -> Aside {
    let (shelf, other) = tabs::two();
    shelf
        .port()
        .write(&recipe_key("a1"), text)
        .expect("there is room");
    let Err(NotLoaded::Broken(Some(aside))) = shelf.load("a1") else {
        panic!("it can't be read");
    };
    assert_eq!(aside.text, text);
    // It is found again by whoever asks for the recipe.
    assert_eq!(
        other.load("a1"),
        Err(NotLoaded::Broken(Some(aside.clone())))
    );
    // The list is shown for it, though no other recipe is there.
    assert!(other.ids().is_empty() && other.has_recipes());
    aside
}

fn only(text: &str) -> Salvaged {
    let [salvaged] = <[Salvaged; 1]>::try_from(salvage(text)).expect("one recipe");
    salvaged
}

#[test]
fn a_note_that_is_too_long_is_cut() {
    let mut recipe = some_recipe();
    let note = "n".repeat(MOST_TEXT + 1);
    recipe.notes.insert(String::from("gather"), note);
    recipe.name = String::from("Quay");
    let aside = aside(&kept(&recipe));
    assert_eq!(aside.title().as_deref(), Some("Quay"));
    let salvaged = only(&aside.text);
    recipe
        .notes
        .insert(String::from("gather"), "n".repeat(MOST_TEXT));
    assert_eq!(salvaged.recipe, recipe);
    assert_eq!(
        salvaged.lost,
        ["A text is cut after 4000 characters; it had 4001."]
    );
    // So is what is in the file that the maker downloads of it.
    assert!(file_in(&aside.text).starts_with('{'));
    assert_eq!(only(file_in(&aside.text)), salvaged);
}

#[test]
fn what_speaks_of_nothing_is_left_out_and_named() {
    let mut recipe = some_recipe();
    let face = Seat::Face(Face {
        panel: recipe.base.panels[0].id,
        side: Side::A,
    });
    let whole = recipe.clone();
    let mat = recipe
        .add_layer(face, LayerKind::Mat, naming())
        .expect("a mat");
    let mat = recipe.layers.iter_mut().find(|layer| layer.id == mat.id);
    let mat = mat.expect("it is there");
    mat.name = String::from("Inner mat");
    mat.stock = foldwright_engine::paper::StockId(99);
    let salvaged = only(&aside(&kept(&recipe)).text);
    assert_eq!(salvaged.recipe.layers, whole.layers);
    assert_eq!(salvaged.recipe.check(), []);
    assert_eq!(salvaged.lost, ["A layer, “Inner mat”, is left out."]);
}

#[test]
fn what_makes_no_sense_is_only_set_aside() {
    for text in [
        "",
        "no recipe at all",
        "4 1 5\n{\"foldwright\":3",
        "4 1 5\n{\"foldwright\":3,\"recipes\":[{}]}",
        "{\"foldwright\":99,\"recipes\":[]}",
    ] {
        assert_eq!(salvage(text), [], "{text}");
    }
}
