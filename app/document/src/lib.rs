//! Recipes, paper counts and bench progress as documents that merge.
//!
//! A [`Document`] holds one JSON object, field by field, so that changes made
//! on several devices at once come together without asking. It knows nothing
//! of what the object means: the shape of the JSON tells what merges how (see
//! [`shape`]), and what neither writer touched stays as it is, fields of later
//! versions included. Changes travel as updates of the Yjs protocol; they may
//! arrive twice, late and in any order.

pub mod address;
mod count;
mod document;
mod erase;
pub mod frame;
mod grave;
mod lost;
mod mend;
mod order;
mod past;
mod path;
pub mod pieces;
mod read;
mod said;
mod sane;
pub mod shape;
mod text;
mod write;

pub use document::{Document, Malformed, check, together};
pub use grave::{Grave, Seen};
pub use mend::{Mended, mend};
pub use past::Past;
pub use read::Oddity;
pub use said::{Hand, Said};
pub use text::typed_into;
