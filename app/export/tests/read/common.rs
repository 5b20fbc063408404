//! What the tests share.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::recipe::{Recipe, read as kept, write};
use foldwright_export::read::{Made, Refusal, read};
use foldwright_words::Language;
use serde_json::{Value, json};

pub(crate) const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

/// A file of vertices and of edges with their letters, in millimetres.
pub(crate) fn file(vertices: &[[f64; 2]], edges: &[(usize, usize, &str)]) -> Value {
    json!({
        "file_spec": 1.2,
        "frame_classes": ["creasePattern"],
        "frame_unit": "mm",
        "vertices_coords": vertices,
        "edges_vertices": edges.iter().map(|(a, b, _)| [a, b]).collect::<Vec<_>>(),
        "edges_assignment": edges.iter().map(|(_, _, letter)| letter).collect::<Vec<_>>(),
    })
}

/// The recipe of a file; the longer side of one that tells no size is 150 mm.
pub(crate) fn made(file: &Value) -> Result<Made, Refusal> {
    let naming = Language::English.tongue();
    let sheet = read(&file.to_string())?;
    sheet.recipe(Length::mm(150), "Quay", METRIC, naming)
}

pub(crate) fn sound(file: &Value) -> Made {
    let made = made(file).unwrap_or_else(|why| panic!("{why:?}: {file}"));
    assert_eq!(made.recipe.check(), []);
    // It is kept as any recipe is.
    let file = write(std::slice::from_ref(&made.recipe));
    assert_eq!(kept(&file).as_deref(), Ok(&[made.recipe.clone()][..]));
    made
}

/// The width and the height of the sheet of a recipe.
pub(crate) fn size(recipe: &Recipe) -> [Length; 2] {
    let base = &recipe.base;
    [base.length, base.height].map(|side| recipe.value(side))
}

/// Numbers from a seed (Steele, Lea, Flood: "Fast splittable pseudorandom number
/// generators", 2014).
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % most
    }

    pub(crate) fn one<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        let count = u64::try_from(of.len()).expect("few");
        &of[usize::try_from(self.below(count)).expect("few")]
    }
}

/// A number that the environment sets, or another.
pub(crate) fn set(name: &str, or: u64) -> u64 {
    let set = std::env::var(name).ok();
    set.map_or(or, |set| set.parse().expect("a number"))
}
