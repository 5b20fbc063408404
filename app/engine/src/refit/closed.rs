//! How long the closed strip is, as sums of its panels.
//!
//! Each fold turns the strip round, so the folds lie at alternating sums of the
//! widths, and the closed strip reaches from the least of them to the most.

use crate::recipe::MeasureId;

/// Widths with their signs, from one fold of the strip to another: they start
/// and end with a plus.
pub(super) type Run = Vec<(i64, MeasureId)>;

/// From which fold to which fold the closed strip reaches, with widths as they
/// are given.
pub(super) fn longest(widths: &[(MeasureId, i128)]) -> (Run, i128) {
    let (mut low, mut high) = ((0, 0), (0, 0));
    let (mut at, mut out) = (0, true);
    for (fold, (_, width)) in (1..).zip(widths) {
        at += if out { *width } else { -*width };
        out = !out;
        if at < low.1 {
            low = (fold, at);
        }
        if at > high.1 {
            high = (fold, at);
        }
    }
    let (from, to) = (low.0.min(high.0), low.0.max(high.0));
    let run = widths.iter().take(to).skip(from);
    let signs = [1, -1].into_iter().cycle();
    let run = run.zip(signs).map(|((id, _), sign)| (sign, *id)).collect();
    (run, high.1 - low.1)
}
