//! Measures the project's figures.

fn main() {}
