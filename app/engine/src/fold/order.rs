//! Which panel lies on which: every order the paper allows.
//!
//! Panels of a strip overlap where their stretches do. An order is allowed
//! when nothing passes through a crease: a panel that reaches past a crease
//! lies on one side of both panels the crease joins, two creases at one place
//! nest or stay apart, and "above" is transitive. (The first two are the
//! taco–tortilla and taco–taco conditions of flat folding.)

use crate::length::Length;

/// The panels of a folded strip, by the ends of each along the line they are
/// folded on.
#[derive(Debug, Clone)]
pub struct Stack {
    spans: Vec<(Length, Length)>,
    /// For each two panels, smaller first: overlapping or not.
    pairs: Vec<Pair>,
    rules: Vec<Rule>,
    /// For each pair, the rules it takes part in.
    rules_of: Vec<Vec<usize>>,
}

#[derive(Debug, Clone, Copy)]
struct Pair {
    a: usize,
    b: usize,
}

/// An even number of these pairs have their first panel on top.
#[derive(Debug, Clone)]
struct Rule(Vec<usize>);

/// What is known of each pair: whether its first panel is the upper one.
type Known = Vec<Option<bool>>;

impl Stack {
    /// `ends` are the two ends of each panel along the folded line, in the
    /// order of the strip, so that panel i ends where panel i + 1 begins.
    pub fn new(ends: &[(Length, Length)]) -> Self {
        let spans: Vec<_> = ends.iter().map(|(a, b)| (*a.min(b), *a.max(b))).collect();
        let mut pairs = Vec::new();
        for b in 0..spans.len() {
            for a in 0..b {
                if overlap(spans[a], spans[b]) {
                    pairs.push(Pair { a, b });
                }
            }
        }
        let mut stack = Self {
            rules_of: vec![Vec::new(); pairs.len()],
            spans,
            pairs,
            rules: Vec::new(),
        };
        let creases: Vec<_> = ends.windows(2).map(|two| two[0].1).collect();
        stack.forbid_crossing(&creases);
        stack
    }
}
