//! A card of many panels, as a document that is shared.

use foldwright_document::Document;
use serde_json::{Value, json};

/// An accordion of so many panels of 4 mm, which is all that it has.
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
            { "id": 1, "name": "panel width", "value": "4 mm" },
            { "id": 2, "name": "card height", "value": "100 mm" },
            { "id": 3, "name": "strip length", "value": format!("{} mm", 4 * panels) },
            { "id": 4, "name": "fold-in allowance", "value": "1 mm" },
        ],
        "relations": [],
        "stocks": [{
            "id": 1, "name": "Cream card", "width": "9000 mm", "height": "210 mm",
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
        "folding_in": { "rule": "sixteenth", "allowance": 4 },
        "posting": { "rule": "eighth-round" },
    })
}

/// The change that makes it a document.
pub(crate) fn as_change(recipe: &Value) -> Option<Vec<u8>> {
    Document::new(7).write(&Value::Null, recipe)
}
