//! Tells recipes apart by a number made of their text.

use std::collections::HashSet;
use std::collections::hash_map::DefaultHasher;
use std::hash::Hasher;
use std::io;

use foldwright_engine::recipe::{Recipe, write_to};
use serde::{Deserialize, Serialize};

/// A number that two recipes share only if they are the same to the last
/// detail: 128 bits, so that among the recipes of a browser none is taken for
/// another by chance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub(crate) struct Print([u64; 2]);

/// Hashes what is written, twice.
struct Hashing([DefaultHasher; 2]);

impl io::Write for Hashing {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        for hasher in &mut self.0 {
            hasher.write(bytes);
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Print {
    /// The print of a recipe.
    pub(crate) fn of(recipe: &Recipe) -> Self {
        let mut hashing = Hashing([DefaultHasher::new(), DefaultHasher::new()]);
        // So that the two differ.
        hashing.0[1].write_u8(1);
        // A recipe is plain data, and the hasher takes everything.
        let _ = write_to(recipe, &mut hashing);
        Self(hashing.0.map(|hasher| hasher.finish()))
    }
}

/// The recipes that are here already.
#[derive(Debug, Default)]
pub(crate) struct Known(HashSet<Print>);

impl Known {
    /// Adds one that is here.
    pub(crate) fn add(&mut self, recipe: &Recipe) {
        self.0.insert(Print::of(recipe));
    }

    /// Whether the one of that print is here.
    pub(crate) fn has(&self, print: Print) -> bool {
        self.0.contains(&print)
    }
}
