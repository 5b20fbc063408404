//! The log of a recipe: when cards were made by it, and what they took.

use serde::{Deserialize, Serialize};

use super::edit::Edited;
use super::{Recipe, shortened};
use crate::paper::PhotoId;
use crate::plane::Size;

/// A run's lasting name: the moment it was finished, in milliseconds since 1970 by the
/// clock of the device, or the next one that names no other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct RunId(pub u64);

/// Paper that was booked with a run, as it was called then: the recipe may have other
/// papers by now.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Spent {
    /// What the maker called the paper.
    pub paper: String,
    /// The size of a scrap of it, its print upright; none for whole sheets.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Size>,
    /// How many.
    pub count: u32,
    /// Whether it was left over, rather than used.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub left: bool,
}

/// Cards that were made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Run {
    /// When, which is its name.
    pub id: RunId,
    /// How many.
    pub cards: u32,
    /// What they took.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spent: Vec<Spent>,
    /// A line of the maker's.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub text: String,
    /// A photograph of them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<PhotoId>,
}

impl Recipe {
    /// Keeps a run that was finished `at` a moment, in milliseconds since 1970. Refuses
    /// more than a recipe can have.
    pub fn finish_run(&mut self, at: u64, cards: u32, spent: Vec<Spent>) -> Edited<RunId> {
        self.whole(|recipe| {
            let mut id = RunId(at);
            while recipe.run(id).is_some() {
                id.0 = id.0.wrapping_add(1);
            }
            let (text, photo) = (String::new(), None);
            recipe.runs.push(Run {
                id,
                cards,
                spent,
                text,
                photo,
            });
            Ok(id)
        })
    }

    /// The run of that name.
    pub fn run(&self, id: RunId) -> Option<&Run> {
        self.runs.iter().find(|run| run.id == id)
    }

    /// Says of a run that it made so many cards, and what they took.
    pub fn recount_run(&mut self, id: RunId, cards: u32, spent: Vec<Spent>) {
        if let Some(run) = self.run_mut(id) {
            (run.cards, run.spent) = (cards, spent);
        }
    }

    /// Writes the line of a run.
    pub fn write_run(&mut self, id: RunId, text: &str) {
        if let Some(run) = self.run_mut(id) {
            shortened(text).clone_into(&mut run.text);
        }
    }

    /// Puts a photograph to a run, or takes it off.
    pub fn picture_run(&mut self, id: RunId, photo: Option<PhotoId>) {
        if let Some(run) = self.run_mut(id) {
            run.photo = photo;
        }
    }

    /// Takes a run out of the log.
    pub fn remove_run(&mut self, id: RunId) {
        self.runs.retain(|run| run.id != id);
    }

    /// Puts a run back that was taken out.
    pub fn put_back_run(&mut self, run: Run) {
        if self.run(run.id).is_none() {
            self.runs.push(run);
        }
    }

    /// The photograph of the run finished last that has one.
    pub fn last_picture(&self) -> Option<PhotoId> {
        let pictured = self.runs.iter();
        let pictured = pictured.filter_map(|run| Some((run.id, run.photo?)));
        pictured.max().map(|(_, photo)| photo)
    }

    fn run_mut(&mut self, id: RunId) -> Option<&mut Run> {
        self.runs.iter_mut().find(|run| run.id == id)
    }
}
