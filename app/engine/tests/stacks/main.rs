//! Stacks of folded sheets of any shape.

mod by_hand;
mod counts;
mod orders;
mod sheet;
mod stray;
mod vertices;
