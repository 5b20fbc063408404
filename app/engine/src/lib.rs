//! The fold engine of Foldwright.

pub mod length;
