//! How soon a change of a number is painted.

use foldwright_server::Site;

use crate::client::told;
use crate::measure::{Figure, Trouble, Workshop};

/// The time from a key to the new figure painted, over every starting fold.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut times: Vec<f64> = told("redraw.js", Site::embedded())?;
    times.sort_by(f64::total_cmp);
    let place = (times.len() * 95).div_ceil(100).saturating_sub(1);
    let value = *times
        .get(place)
        .ok_or_else(|| Trouble(String::from("the browser's client timed nothing")))?;
    Ok(vec![Figure {
        name: "edit_redraw_p95_ms",
        value,
        unit: "ms",
        target: Some(16.0),
        how: format!(
            "headless Chromium, 390x844, processor slowed 4 times: a score, or an end of a \
             line, moved by its key as a frame begins, until that frame is painted; 95th percentile of {} edits over every \
             starting fold",
            times.len()
        ),
    }])
}
