//! Takes the recipes of a file one after the other.

use std::collections::VecDeque;

use foldwright_engine::recipe::{FileError, check_version, read_part};
use foldwright_words::file_error;

use super::print::{Known, Print};
use super::ready::Ready;
use super::split::{Head, Kind, Part};
use crate::spoken::{language, texts};
use crate::store::{Import, Salvaged, Shelf, opened, packed, salvage};

/// Files of recipes. A recipe may be as large as a slow phone reads in one go;
/// our own bound, many times a large recipe.
pub(crate) const RECIPES: Kind = Kind {
    mark: "foldwright",
    list: "recipes",
    most: 4_000_000,
};

/// How many losses are told one by one. Our own bound: what a notice holds.
const TOLD: usize = 3;

/// What is done with a recipe that can't be read whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Broken {
    /// Nothing of the file is taken.
    Refuse,
    /// What can be read of it is taken.
    Salvage,
}

/// Why nothing of a file is taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Stopped {
    /// A recipe can't be read.
    Unreadable {
        /// Why.
        why: FileError,
        /// Whether anything in the file can be.
        some: bool,
    },
    /// There is room for so many of those that are not here yet.
    Full {
        /// How many.
        room: usize,
    },
    /// Another tab has ended it.
    Ended,
}

/// Recipes of a file on their way into the store.
#[derive(Debug)]
pub(crate) struct Taking {
    version: u64,
    /// How many the file has.
    all: usize,
    /// How many are looked at, and those that are there to be looked at.
    done: usize,
    come: VecDeque<Ready>,
    broken: Broken,
    known: Known,
    here: usize,
    lost: Vec<String>,
    left_out: usize,
    import: Import,
}

/// What became of them.
#[derive(Debug)]
pub(crate) struct Taken {
    /// To be finished; nothing is there before.
    pub(crate) import: Import,
    /// How many were here already.
    pub(crate) here: usize,
    /// What could not be read, in sentences, and how many recipes not at all.
    pub(crate) lost: Vec<String>,
    pub(crate) left_out: usize,
}

impl Taking {
    /// Begins with a file of a version that has so many. `known` are those that are not
    /// taken again.
    pub(crate) fn begin(
        version: u64,
        all: usize,
        broken: Broken,
        known: Known,
        import: Import,
    ) -> Self {
        Self {
            version,
            all,
            done: 0,
            come: VecDeque::new(),
            broken,
            known,
            here: 0,
            lost: Vec::new(),
            left_out: 0,
            import,
        }
    }

    /// How many are looked at.
    pub(crate) fn done(&self) -> usize {
        self.done
    }

    /// The next have come.
    pub(crate) fn comes(&mut self, ready: VecDeque<Ready>) {
        self.come.extend(ready);
    }

    /// Takes one after the other until that is enough; `false` where no more have
    /// come. Nothing comes from another tab meanwhile, since browsers bring that
    /// between tasks.
    pub(crate) fn turn(
        &mut self,
        shelf: &Shelf,
        at: u64,
        enough: impl Fn() -> bool,
    ) -> Result<bool, Stopped> {
        if !self.import.goes_on(shelf) {
            return Err(Stopped::Ended);
        }
        while self.step(shelf, at)? {
            if enough() {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Takes the next one; `false` where there is none.
    fn step(&mut self, shelf: &Shelf, at: u64) -> Result<bool, Stopped> {
        let Some(ready) = self.come.pop_front() else {
            return Ok(false);
        };
        self.done += 1;
        let part = match ready {
            Ready::Recipe { print, packed } => {
                self.keep(shelf, print, &packed, at)?;
                return Ok(true);
            }
            Ready::Part(part) => part,
        };
        let recipe = match read_part(self.version, &part.text, self.done, part.line) {
            Ok(recipe) => recipe,
            Err(why) => match (self.broken, self.salvaged(&part)) {
                (Broken::Refuse, salvaged) => {
                    let some = salvaged.is_some() || self.all > 1;
                    return Err(Stopped::Unreadable { why, some });
                }
                (Broken::Salvage, Some(salvaged)) => {
                    self.lost.push(opened(&salvaged));
                    salvaged.recipe
                }
                (Broken::Salvage, None) => {
                    self.left_out += 1;
                    return Ok(true);
                }
            },
        };
        self.keep(shelf, Print::of(&recipe), &packed(&recipe), at)?;
        Ok(true)
    }

    /// Keeps a sound recipe that is not here yet.
    fn keep(&mut self, shelf: &Shelf, print: Print, packed: &str, at: u64) -> Result<(), Stopped> {
        if self.known.has(print) {
            self.here += 1;
            return Ok(());
        }
        let put = self.import.put(shelf, packed, at);
        put.map_err(|_| Stopped::Full {
            room: self.import.count(),
        })
    }

    /// What came of it, once there is no more to take.
    pub(crate) fn end(self) -> Taken {
        Taken {
            import: self.import,
            here: self.here,
            lost: self.lost,
            left_out: self.left_out,
        }
    }

    fn salvaged(&self, part: &Part) -> Option<Salvaged> {
        let Kind { mark, list, .. } = RECIPES;
        let file = format!("{{\"{mark}\":{},\"{list}\":[{}]}}", self.version, part.text);
        salvage(&file).into_iter().next()
    }
}

impl Taken {
    /// What is said of it once it is there.
    pub(crate) fn words(&self) -> String {
        let texts = &texts().import;
        let added = self.import.count();
        let words = match (added, self.here) {
            (added, 0) => texts.added(added),
            (0, here) => texts.all_were_here(here),
            (added, here) => texts.added_and_here(added, here),
        };
        let lost = self.lost.iter().take(TOLD).cloned();
        let more = self.lost.len().saturating_sub(TOLD);
        let more = (more > 0).then(|| texts.more_in_part(more));
        let none = (self.left_out > 0).then(|| texts.not_read_at_all(self.left_out));
        let words: Vec<_> = std::iter::once(words)
            .chain(lost)
            .chain(more)
            .chain(none)
            .collect();
        words.join(" ")
    }
}

impl Stopped {
    /// What is said of it; `all` is how many recipes the file has.
    pub(crate) fn words(&self, all: usize) -> String {
        let texts = &texts().import;
        match self {
            Self::Unreadable { why, .. } => {
                format!("{} {}", file_error(language(), why), texts.nothing_added)
            }
            Self::Full { room } => texts.room_for(*room, all),
            Self::Ended => texts.ended_by_another.to_owned(),
        }
    }
}

/// The version of a file of recipes, where it is one that can be read here.
pub(crate) fn recipes_in(head: Head) -> Result<u64, FileError> {
    if head.kind != RECIPES {
        return Err(FileError::NotOurs);
    }
    check_version(Some(head.version))?;
    Ok(head.version)
}
