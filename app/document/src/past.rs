//! What something was before: whole objects kept beside each other, fewer of
//! them the longer ago. They are kept in a document of their own, so that the
//! present one stays small.

use serde_json::Value;
use yrs::{Any, Map as _, Out, Transact as _};

use crate::document::{Document, encoded};

pub(crate) const PAST: &str = "past";

/// How many states of the last day are kept. Our own bound.
const OF_TODAY: usize = 8;
/// How many days before are kept, one state each. Our own bound.
const DAYS: usize = 14;
const DAY: u64 = 24 * 60 * 60 * 1000;

/// A state of former times.
#[derive(Debug, Clone, PartialEq)]
pub struct Past {
    /// Its name among the others.
    pub key: String,
    /// When, in milliseconds since 1970 by the clock of the device; for people
    /// to read, and to sort by.
    pub at: u64,
    /// The device's name.
    pub by: String,
    /// The object as it was.
    pub object: Value,
}

impl Document {
    /// Keeps a state of former times, and drops those too many. Returns the
    /// change to send.
    pub fn remember(&mut self, at: u64, by: &str, object: &Value) -> Option<Vec<u8>> {
        let key = format!("{at:013}~{}", self.draw.unique());
        let text = object.to_string();
        let surplus: Vec<String> = surplus(&self.past());
        let past = self.doc.get_or_insert_map(PAST);
        encoded(&self.doc, |transaction| {
            let entry = [Any::from(by), Any::from(text)];
            past.insert(transaction, key, Any::from(entry.to_vec()));
            for key in &surplus {
                past.remove(transaction, key);
            }
        })
    }

    /// The states of former times, the latest first.
    pub fn past(&self) -> Vec<Past> {
        let map = self.doc.get_or_insert_map(PAST);
        let transaction = self.doc.transact();
        let mut all: Vec<Past> = map
            .iter(&transaction)
            .filter_map(|(key, out)| {
                let Out::Any(Any::Array(parts)) = out else {
                    return None;
                };
                let [Any::String(by), Any::String(text), ..] = &parts[..] else {
                    return None;
                };
                Some(Past {
                    key: key.to_owned(),
                    at: key.split_once('~')?.0.parse().ok()?,
                    by: (**by).to_owned(),
                    object: serde_json::from_str(text).ok()?,
                })
            })
            .collect();
        all.sort_by(|one, other| other.key.cmp(&one.key));
        all
    }
}

/// The keys of the states that are no longer kept. No clock is asked: the
/// latest state says what today is.
fn surplus(past: &[Past]) -> Vec<String> {
    let Some(last) = past.first() else {
        return Vec::new();
    };
    let mut today = 0;
    let mut days = Vec::new();
    let mut surplus = Vec::new();
    for state in past {
        let keep = if last.at.saturating_sub(state.at) < DAY {
            today += 1;
            today < OF_TODAY
        } else {
            let day = state.at / DAY;
            let new = !days.contains(&day) && days.len() < DAYS;
            days.push(day);
            new
        };
        if !keep {
            surplus.push(state.key.clone());
        }
    }
    surplus
}
