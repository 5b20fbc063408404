//! How much room an edit takes in the database.

use std::fs;

use foldwright_document::Document;
use foldwright_engine::recipe::starters;
use foldwright_sync::store::{Change, Workshop as Owner};
use foldwright_sync::{Hub, Place};
use serde_json::{Value, json};
use tokio::runtime::Runtime;

use crate::cluster::Folder;
use crate::measure::{Figure, Trouble, Workshop};

/// Edits of each recipe.
const EDITS: u32 = 200;

/// Bytes of a SQLite file after compaction, for each edit of the recipes in
/// it.
pub(crate) fn bytes_per_edit(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let folder = Folder::new();
    let copy = folder.0.join("copy.db");
    let recipes = starters().len();
    Runtime::new()?
        .block_on(async {
            let store = Place::File(folder.0.join("workshops.db")).open().await?;
            let owner = Owner {
                id: String::from("harbour"),
                name: String::from("Harbour library"),
            };
            store.add_workshop(&owner, 1).await?;
            for (number, starter) in (1_u64..).zip(starters()) {
                store.append(&edited(number, &starter.recipe)).await?;
            }
            let hub = Hub::start(store.clone()).await?;
            hub.compact(1).await?;
            // A copy has no pages that are free again.
            store.backup(&copy).await
        })
        .map_err(|why| Trouble(why.to_string()))?;
    #[expect(
        clippy::cast_precision_loss,
        reason = "sizes and counts are far below 2⁵³"
    )]
    let value = fs::metadata(&copy)?.len() as f64 / (f64::from(EDITS) * recipes as f64);
    Ok(vec![Figure {
        name: "db_bytes_per_edit",
        value,
        unit: "bytes",
        target: None,
        how: format!(
            "{recipes} recipes with {EDITS} edits each, one number an edit, in SQLite after \
             compaction, the recipes themselves included"
        ),
    }])
}

/// The changes that make a recipe and edit one number after the other.
fn edited(writer: u64, recipe: &foldwright_engine::recipe::Recipe) -> Vec<Change> {
    let mut document = Document::new(writer);
    let mut old = Value::Null;
    let mut new = serde_json::to_value(recipe).unwrap_or_default();
    let mut changes = Vec::new();
    for edit in 0..=EDITS {
        if let Some(update) = document.write(&old, &new) {
            changes.push(Change {
                workshop: String::from("harbour"),
                document: format!("recipe/{writer}"),
                update: update.into(),
            });
        }
        old.clone_from(&new);
        let measures = new.get_mut("measures").and_then(Value::as_array_mut);
        if let Some(measures) = measures {
            let at = usize::try_from(edit).unwrap_or(0) % measures.len().max(1);
            if let Some(measure) = measures.get_mut(at) {
                measure["value"] = json!(format!("{} 1/16 in", 1 + edit));
            }
        }
    }
    changes
}
