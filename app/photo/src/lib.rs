//! Photographs of paper: a sheet that was photographed aslant is laid flat, and
//! tells its colour and how its print runs.
//!
//! Places in a photograph are in its pixels, x to the right and y down, from the
//! upper left corner of the first pixel; its middle is at a half.

mod corners;
mod flatten;
mod pixels;
mod tell;

pub use corners::{Askew, Corners, Spot};
pub use flatten::{Flattening, LARGEST};
pub use pixels::Pixels;
pub use tell::{Told, tell};
