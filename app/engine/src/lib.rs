//! The fold engine of Foldwright.
