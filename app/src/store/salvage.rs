//! Recipes that can't be read whole, opened as far as they can be.

use foldwright_document::{Document, Oddity};
use foldwright_engine::recipe::{MOST_TEXT, Recipe, VERSION, shortened};
use foldwright_words::LeftOut;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use serde_json::Value;

use super::record::file_in;
use crate::spoken::first;
use crate::sync::merged;

/// A recipe as far as it could be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Salvaged {
    /// What could be read.
    pub recipe: Recipe,
    /// What could not, in sentences.
    pub lost: Vec<String>,
}

/// The recipes in a kept text, or in a file, each as far as it can be read.
/// None where there is nothing to be read in it, or where a later Foldwright
/// wrote it.
pub fn salvage(text: &str) -> Vec<Salvaged> {
    let file: Value = serde_json::from_str(file_in(text)).unwrap_or_default();
    let version = file.get("foldwright").and_then(Value::as_u64);
    if version.is_none_or(|version| version > VERSION) {
        return Vec::new();
    }
    let recipes = file.get("recipes").and_then(Value::as_array);
    recipes.into_iter().flatten().filter_map(one).collect()
}

/// The same where the code for it, which merges too, may have to be fetched first.
/// None where it can't be.
pub(crate) async fn salvaged(text: &str) -> Vec<Salvaged> {
    let salvage = salvaging().await;
    salvage.map(|salvage| salvage(text)).unwrap_or_default()
}

#[allow(
    clippy::unnecessary_wraps,
    reason = "the call can fail, since it fetches the code first"
)]
#[wasm_split(syncing, wasm_split_path = leptos::wasm_split, fallible)]
fn salvaging() -> Result<fn(&str) -> Vec<Salvaged>, SplitLoaderError> {
    Ok(salvage)
}

fn one(recipe: &Value) -> Option<Salvaged> {
    let mut recipe = recipe.clone();
    let mut lost = Vec::new();
    shorten(&mut recipe, &mut lost);
    if recipe.get("copies").and_then(Value::as_u64) == Some(0) {
        recipe["copies"] = Value::from(1);
        lost.push(first().was_for_no_card.to_owned());
    }
    // What does not go together after a merge is left out; so is it here.
    let mut document = Document::new(0);
    document.write(&Value::Null, &recipe);
    let merged = merged::recipe(&document).ok()?;
    lost.extend(merged.oddities.iter().filter_map(words));
    Some(Salvaged {
        recipe: merged.recipe,
        lost,
    })
}

/// Leaves as much of each text as may be.
fn shorten(value: &mut Value, lost: &mut Vec<String>) {
    match value {
        Value::String(text) => {
            let kept = shortened(text);
            if kept.len() < text.len() {
                let had = text.chars().count();
                lost.push(first().text_is_cut(MOST_TEXT, had));
                *text = kept.to_owned();
            }
        }
        Value::Array(items) => items.iter_mut().for_each(|item| shorten(item, lost)),
        Value::Object(fields) => fields
            .iter_mut()
            .for_each(|(_, field)| shorten(field, lost)),
        _ => {}
    }
}

fn words(oddity: &Oddity) -> Option<String> {
    match oddity {
        Oddity::LeftOut { list, item } => {
            let name = item.get("name").and_then(Value::as_str);
            Some(first().left_out(LeftOut::of(list), name))
        }
        Oddity::Fitted { .. } => Some(first().folds_did_not_go.to_owned()),
        Oddity::Renumbered { .. } | Oddity::Revived { .. } | Oddity::Unsound => None,
    }
}
