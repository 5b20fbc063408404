//! The fold engine of Foldwright.

pub mod care;
pub mod length;
pub mod paper;
