//! Measures keep the name of the part they belong to.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

use foldwright_engine::recipe::{EditError, LayerId, PanelId, Recipe, starters};

fn book() -> Recipe {
    let starter = starters().iter().find(|starter| starter.id == "book");
    starter.expect("there is a book").recipe.clone()
}

fn names(recipe: &Recipe) -> Vec<&str> {
    recipe
        .measures
        .iter()
        .map(|measure| measure.name.as_str())
        .collect()
}

#[test]
fn a_panel_takes_its_width_with_it() {
    let mut recipe = book();
    let id = recipe.base.panels[0].id;
    recipe.rename_panel(id, "cover").expect("it is there");
    assert_eq!(recipe.base.panels[0].name, "cover");
    assert!(
        names(&recipe).contains(&"cover width"),
        "{:?}",
        names(&recipe)
    );
    assert!(
        !names(&recipe).contains(&"front width"),
        "{:?}",
        names(&recipe)
    );
    assert!(
        names(&recipe).contains(&"back width"),
        "{:?}",
        names(&recipe)
    );
    assert_eq!(
        recipe.rename_panel(PanelId(99), "x"),
        Err(EditError::NoPanel)
    );
}

#[test]
fn a_layer_takes_all_its_measures_with_it() {
    let mut recipe = book();
    let id = recipe.layers[0].id;
    recipe.rename_layer(id, "sea").expect("it is there");
    let names = names(&recipe);
    for name in [
        "sea width",
        "sea height",
        "sea border",
        "sea from the left",
        "sea from the bottom",
    ] {
        assert!(names.contains(&name), "{name} in {names:?}");
    }
    assert_eq!(
        book().rename_layer(LayerId(99), "x"),
        Err(EditError::NoLayer)
    );
}
