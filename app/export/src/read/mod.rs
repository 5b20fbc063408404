//! A crease pattern in the FOLD format as a recipe.
//!
//! What is asked of a file are the places of its vertices and the edges between them
//! (`vertices_coords`, `edges_vertices`); what the edges are (`edges_assignment`) may be
//! left open. Faces are not needed. Fields and letters are those of the specification,
//! version 1.2 (<https://github.com/edemaine/fold/blob/main/doc/spec.md>); files of 1.1
//! and 1.0 say the same in those that are read here.

mod border;
mod file;
mod straight;
mod web;

use std::collections::BTreeMap;

use foldwright_engine::drawn::{Undrawn, recipe_of};
use foldwright_engine::length::{Length, Notation};
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::recipe::{Naming, Recipe};

pub use file::{Field, LARGEST};

use web::Web;

/// Why no recipe is made of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// It has more than [`LARGEST`] bytes.
    TooLarge,
    /// It is no JSON, or no object.
    NoFold,
    /// It is of a version of the format that is not known here.
    Version,
    /// It has more frames, vertices or edges than are read.
    TooMuch,
    /// No frame of it has both the places of vertices and edges between them.
    NoPattern,
    /// It shows how something is folded, and not the flat sheet.
    Folded,
    /// Something in one of its lists can't be read.
    Damaged {
        /// In which list.
        field: Field,
        /// Where in it, from 0; none where it is the list as a whole.
        at: Option<usize>,
    },
    /// It does not lie in a plane.
    InSpace,
    /// The sheet would be longer than a length may be.
    TooLong,
    /// The border is open, branches or touches itself here, from the left and from below,
    /// as large as the sheet would be.
    Border {
        /// Where.
        at: Point<PieceFrame>,
    },
    /// No edge is a border, and creases lie outermost.
    NoBorder,
    /// It has more sheets than one.
    Sheets,
    /// It can't be said in a recipe.
    Undrawn(Undrawn),
}

/// What of a file is otherwise in the recipe, or not in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// Creases that may be mountain or valley, and are valleys now.
    Unassigned,
    /// Creases that stay flat, left out.
    Flat,
    /// Creases that are folded part of the way, and are folded flat now.
    Partly,
    /// Edges of a kind the format does not have, left out.
    Unknown,
    /// Edges that lie on others, left out.
    Twice,
    /// Edges without length, left out.
    Point,
    /// Edges beside the paper, left out.
    Beside,
    /// Frames besides the one that is read, left out.
    Frames,
    /// Which face lies on which, left out.
    Order,
}

/// A crease pattern as it stands in a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// What it is called there; empty where it has no name.
    pub title: String,
    /// What is said about it there.
    pub about: String,
    /// How many millimetres one of its lengths is, where the file says so.
    millimetres: Option<f64>,
    web: Web,
    changes: BTreeMap<Change, usize>,
}

/// A recipe that was made of a pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Made {
    /// The recipe.
    pub recipe: Recipe,
    /// What is otherwise in it, and how often.
    pub changes: Vec<(Change, usize)>,
    /// How far points were moved at most, to make those one that nearly are and the border
    /// straight; nothing where that is no more than counts as touching.
    pub moved: Length,
}

/// Reads the text of a file.
pub fn read(text: &str) -> Result<Sheet, Refusal> {
    file::read(text)
}

impl Sheet {
    /// Whether the file says how long its lengths are.
    pub const fn tells_size(&self) -> bool {
        self.millimetres.is_some()
    }

    /// A recipe of it, called so. `longest` is how long the longer side of the sheet is,
    /// for a file that does not tell; of one that does it is not asked.
    pub fn recipe(
        &self,
        longest: Length,
        name: &str,
        notation: Notation,
        naming: &dyn Naming,
    ) -> Result<Made, Refusal> {
        let of_drawing = || longest.as_mm_f64() / self.web.longest();
        let scale = self.millimetres.unwrap_or_else(of_drawing);
        let mut changes = self.changes.clone();
        let (pattern, moved) = self.web.pattern(scale, &mut changes)?;
        let recipe = recipe_of(&pattern, name, &self.about, notation, naming);
        Ok(Made {
            recipe: recipe.map_err(Refusal::Undrawn)?,
            changes: changes.into_iter().collect(),
            moved,
        })
    }
}
