//! What something was before: whole objects kept beside each other, fewer of
//! them the longer ago. They are kept in a document of their own, so that the
//! present one stays small.

use serde_json::Value;
use yrs::{Any, Map as _, Out, Transact as _};

use crate::document::Document;

pub(crate) const PAST: &str = "past";

/// How many states of the last day are kept. Our own bound.
const OF_TODAY: usize = 8;
/// How many days before are kept, one state each. Our own bound.
const DAYS: usize = 14;
/// How many bytes all states take together; the latest is kept whatever it
/// takes. Our own bound, below what is sent at once.
const MOST_BYTES: usize = 8_000_000;
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
        let surplus = surplus(&self.sizes(), text.len());
        let past = self.doc.get_or_insert_map(PAST);
        self.encoded(|transaction| {
            let entry = [Any::from(by), Any::from(text)];
            past.insert(transaction, key, Any::from(entry.to_vec()));
            for key in &surplus {
                past.remove(transaction, key);
            }
        })
    }

    /// The states of former times, the latest first.
    pub fn past(&self) -> Vec<Past> {
        let mut all = self.states(|key, by, text| {
            Some(Past {
                key: key.to_owned(),
                at: when(key)?,
                by: by.to_owned(),
                object: serde_json::from_str(text).ok()?,
            })
        });
        all.sort_by(|one, other| other.key.cmp(&one.key));
        all
    }

    /// The keys of these states and how many bytes each takes, the latest
    /// first.
    fn sizes(&self) -> Vec<(String, usize)> {
        let mut all = self.states(|key, _, text| Some((key.to_owned(), text.len())));
        all.sort_by(|one, other| other.cmp(one));
        all
    }

    /// What is made of the key, the device and the text of each state.
    fn states<T>(&self, of: impl Fn(&str, &str, &str) -> Option<T>) -> Vec<T> {
        let map = self.doc.get_or_insert_map(PAST);
        let transaction = self.doc.transact();
        map.iter(&transaction)
            .filter_map(|(key, out)| {
                let Out::Any(Any::Array(parts)) = out else {
                    return None;
                };
                let [Any::String(by), Any::String(text), ..] = &parts[..] else {
                    return None;
                };
                of(key, by, text)
            })
            .collect()
    }
}

/// When a state was, as its key says.
fn when(key: &str) -> Option<u64> {
    key.split_once('~')?.0.parse().ok()
}

/// The keys of the states that are no longer kept beside a new one of so many
/// bytes. No clock is asked: the latest state says what today is.
fn surplus(past: &[(String, usize)], new: usize) -> Vec<String> {
    let at = |key: &str| when(key).unwrap_or_default();
    let Some(last) = past.first().map(|(key, _)| at(key)) else {
        return Vec::new();
    };
    let mut bytes = new;
    let mut today = 0;
    let mut days = Vec::new();
    let mut surplus = Vec::new();
    for (key, size) in past {
        let keep = if last.saturating_sub(at(key)) < DAY {
            today += 1;
            today < OF_TODAY
        } else {
            let day = at(key) / DAY;
            let new = !days.contains(&day) && days.len() < DAYS;
            days.push(day);
            new
        };
        let fits = bytes + size <= MOST_BYTES;
        if keep && fits {
            bytes += size;
        } else {
            surplus.push(key.clone());
        }
    }
    surplus
}
