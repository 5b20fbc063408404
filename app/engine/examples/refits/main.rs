//! Prints refits of cards and of random systems of relations, one JSON object a
//! line, for a program that solves each anew: all that has to hold, what was
//! asked for, and what the engine came to, with the ways out where there is no
//! card. Lengths are in units of 1/72 µm, measures are told by their places in
//! the recipe. The only argument is how many cases to print.

mod cases;
#[path = "../../tests/common/naming.rs"]
mod plain;
mod systems;
mod told;

use foldwright_engine::refit::refit;

fn main() {
    let wanted = std::env::args().nth(1).and_then(|count| count.parse().ok());
    let wanted: u64 = wanted.unwrap_or(500);
    for seed in 0..wanted {
        if let Some(case) = cases::case(seed) {
            let answer = refit(&case.recipe, &case.wish);
            println!("{}", told::told(&case, &answer));
        }
    }
}
