//! Measures keep the name of the part they belong to.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;

use foldwright_engine::card::add_piece;
use foldwright_engine::recipe::{
    EditError, Face, LayerId, LayerKind, MeasureOf, Naming, New, Owner, PanelId, Recipe, Role,
    Seat, Side, VERSION, read, starters, write,
};
use plain::Plain;

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
    recipe
        .rename_panel(id, "cover", &Plain)
        .expect("it is there");
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
        recipe.rename_panel(PanelId(99), "x", &Plain),
        Err(EditError::NoPanel)
    );
}

#[test]
fn a_layer_takes_all_its_measures_with_it() {
    let mut recipe = book();
    let id = recipe.layers[0].id;
    recipe.rename_layer(id, "sea", &Plain).expect("it is there");
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
        book().rename_layer(LayerId(99), "x", &Plain),
        Err(EditError::NoLayer)
    );
}

/// Another language, in which what a measure is of a part stands first.
struct Other;

impl Naming for Other {
    fn name(&self, new: New<'_>) -> String {
        match new {
            New::Layer(_) => "Auflage".to_owned(),
            New::Measure(part, role) => format!("{role:?} von {part}"),
            New::WidthOn(piece, panel) => format!("Breite {panel}, {piece}"),
            other => Plain.name(other),
        }
    }
}

/// Names are made in the maker's language, and a rename finds the measures of a
/// part whatever they are called.
#[test]
fn measures_follow_their_part_in_any_language() {
    let mut recipe = book();
    let before: Vec<_> = recipe.measures.iter().map(|it| it.id).collect();
    let on = Face {
        panel: recipe.base.panels[0].id,
        side: Side::A,
    };
    let layer = recipe.add_layer(Seat::Face(on), LayerKind::Mat, &Other);
    let layer = layer.expect("there is room").id;
    let of = |is| {
        let part = Owner::Layer(layer);
        Some(MeasureOf { part, is })
    };
    let named = |recipe: &Recipe, is| {
        let measure = recipe.measures.iter().find(|it| it.of == of(is));
        measure.expect("it knows its part").name.clone()
    };
    assert_eq!(recipe.layer(layer).expect("it is there").name, "Auflage");
    assert_eq!(named(&recipe, Role::Width), "Width von Auflage");
    recipe
        .rename_layer(layer, "Meer", &Other)
        .expect("it is there");
    for is in [
        Role::Width,
        Role::Height,
        Role::Left,
        Role::Bottom,
        Role::Border,
    ] {
        assert_eq!(named(&recipe, is), format!("{is:?} von Meer"));
    }
    // What was called in English stays as it was.
    let old = recipe.measures.iter().filter(|it| before.contains(&it.id));
    let old: Vec<_> = old.map(|it| it.name.as_str()).collect();
    assert_eq!(old, names(&book()));
    // The panels of a piece carry its name in their widths.
    let piece = add_piece(&mut recipe, on, &Other)
        .expect("there is room")
        .id;
    recipe
        .rename_piece(piece, "Boot", &Other)
        .expect("it is there");
    assert!(names(&recipe).contains(&"Breite tab, Boot"));
    assert!(names(&recipe).contains(&"Height von Boot"));
}

/// A file of version 3, written before measures knew their part. The maker has
/// called one measure of the mat by a name of its own.
const VERSION_3: &str = r##"{"foldwright": 3, "recipes": [{
    "name": "Quay",
    "notation": {"step": "millimetre", "decimal": "point"},
    "measures": [
        {"id": 1, "name": "card height", "value": "148 mm"},
        {"id": 2, "name": "fold-in allowance", "value": "1 mm"},
        {"id": 3, "name": "front width", "value": "105 mm"},
        {"id": 4, "name": "back width", "value": "105 mm"},
        {"id": 5, "name": "mat border", "value": "3 mm"},
        {"id": 6, "name": "mat width", "value": "99 mm"},
        {"id": 7, "name": "height of the sea", "value": "142 mm"},
        {"id": 8, "name": "mat from the left", "value": "3 mm"},
        {"id": 9, "name": "mat from the bottom", "value": "3 mm"},
        {"id": 10, "name": "strip length", "value": "210 mm"}
    ],
    "relations": [],
    "stocks": [{
        "id": 1, "name": "Cream card", "width": "210 mm", "height": "297 mm",
        "weight": {"grammage": {"tenths": 2500}}, "caliper": "0.26 mm",
        "face": {"colour": "#f7f4ec", "print": "plain"},
        "back": {"colour": "#f7f4ec", "print": "plain"}
    }],
    "base": {
        "stock": 1, "length": 10, "height": 1,
        "panels": [
            {"id": 1, "name": "front", "width": 3},
            {"id": 2, "name": "back", "width": 4}
        ],
        "folds": ["valley"],
        "rests": 2,
        "runs": "across",
        "on_top": []
    },
    "layers": [{
        "id": 1, "name": "mat", "stock": 1, "shows": "face",
        "on": {"face": {"panel": 1, "side": "b"}},
        "width": 6, "height": 7, "left": 8, "bottom": 9,
        "place": {"border": 5}
    }],
    "upright": [],
    "glue_margin": "3 mm",
    "folding_in": {"rule": "three-mm", "allowance": 2},
    "posting": {"rule": "iso-pairs"}
}]}"##;

#[test]
fn measures_of_an_older_file_know_their_part_by_their_names() {
    let read_one = |text: &str| {
        let recipes = read(text).expect("it is a file");
        let [recipe] = <[Recipe; 1]>::try_from(recipes).expect("it has one recipe");
        recipe
    };
    let mut recipe = read_one(VERSION_3);
    let known = |recipe: &Recipe| {
        let measures = recipe.measures.iter();
        measures.map(|it| it.of).collect::<Vec<_>>()
    };
    let of = |part, is| Some(MeasureOf { part, is });
    let (mat, panel) = (Owner::Layer(LayerId(1)), |id| Owner::Panel(PanelId(id)));
    let expected = [
        None,
        None,
        of(panel(1), Role::Width),
        of(panel(2), Role::Width),
        of(mat, Role::Border),
        of(mat, Role::Width),
        None,
        of(mat, Role::Left),
        of(mat, Role::Bottom),
        None,
    ];
    assert_eq!(known(&recipe), expected);
    // So do files of the versions before.
    for version in [1, 2] {
        let version = format!("\"foldwright\": {version}");
        let older = VERSION_3.replace("\"foldwright\": 3", &version);
        assert_eq!(read_one(&older), recipe);
    }
    // The name of its own stays, the others follow.
    recipe
        .rename_layer(LayerId(1), "sea", &Plain)
        .expect("it is there");
    assert_eq!(
        names(&recipe)[4..9],
        [
            "sea border",
            "sea width",
            "height of the sea",
            "sea from the left",
            "sea from the bottom",
        ]
    );
    // Written anew, the file says which part each is of, and no name is asked.
    let text = write(std::slice::from_ref(&recipe));
    assert!(
        text.contains(&format!("\"foldwright\": {VERSION}")),
        "{text}"
    );
    assert_eq!(read_one(&text), recipe);
    let misled = text.replace("\"height of the sea\"", "\"sea height\"");
    assert_eq!(known(&read_one(&misled)), expected, "names say nothing now");
}
