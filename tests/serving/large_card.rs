//! A card of many panels, as a document that is shared.

use foldwright_document::Document;
use serde_json::{Value, json};

/// An accordion of so many panels of 15 mm, which is all that it has.
pub(crate) fn accordion(panels: u32) -> Value {
    let strip: Vec<_> = (1..=panels)
        .map(|id| json!({ "id": id, "name": format!("panel {id}"), "width": 1 }))
        .collect();
    let folds: Vec<_> = (1..panels)
        .map(|fold| if fold % 2 == 0 { "mountain" } else { "valley" })
        .collect();
    json!({
        "format": 1,
        "name": "Quay wall",
        "about": "",
        "notation": { "step": "millimetre", "decimal": "point" },
        "measures": [
            { "id": 1, "name": "panel width", "value": "15 mm" },
            { "id": 2, "name": "card height", "value": "100 mm" },
            { "id": 3, "name": "strip length", "value": format!("{} mm", 15 * panels) },
        ],
        "relations": [
            { "left": [{ "of": 3 }], "right": [{ "of": 1, "times": panels }] },
        ],
        "stocks": [{
            "id": 1, "name": "Cream card", "width": "4000 mm", "height": "210 mm",
            "weight": { "grammage": { "tenths": 2500 } }, "caliper": "0.26 mm",
            "face": { "colour": "#f7f4ec", "print": "plain" },
            "back": { "colour": "#f7f4ec", "print": "plain" },
        }],
        "base": {
            "stock": 1, "length": 3, "height": 2, "panels": strip, "folds": folds,
            "rests": panels, "runs": "across", "on_top": [],
        },
        "layers": [],
        "upright": [],
        "glue_margin": "3 mm",
        "posting": { "rule": "eighth-round" },
    })
}

/// The change that makes it a document.
pub(crate) fn as_change(recipe: &Value) -> Option<Vec<u8>> {
    Document::new(7).write(&Value::Null, recipe)
}
