//! How long one frame of an opening takes, worked out and drawn.

use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{Moment, opening};
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_server::Site;

use crate::client::told;
use crate::measure::{Figure, Trouble, Workshop, median};

const FRAMES: u32 = 200;

/// The slowest starting fold, natively.
pub(crate) fn frame(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let times = starters()
        .iter()
        .filter_map(|starter| Some((median(frames(&starter.recipe)?)?, starter.id.as_str())));
    let (value, slowest) = times
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .ok_or_else(|| Trouble(String::from("no starting fold opens")))?;
    Ok(vec![Figure {
        name: "opening_frame_ms",
        value,
        unit: "ms",
        target: Some(1.0),
        how: format!(
            "native release build: where every panel is at one moment of the opening, which hides \
             which, and the drawing of it; median of {FRAMES} moments, slowest of {} starting \
             folds ({slowest})",
            starters().len()
        ),
    }])
}

fn frames(recipe: &Recipe) -> Option<Vec<f64>> {
    let card = work_out(recipe, &Tools::default());
    let folded = card.folded.as_ref()?;
    let share = |frame: u32| (f64::from(frame) + 0.5) / f64::from(FRAMES);
    let times = (0..FRAMES).map(|frame| {
        let begin = Instant::now();
        black_box(opening(recipe, &card, Moment::at(share(frame), folded)));
        begin.elapsed().as_secs_f64() * 1000.0
    });
    Some(times.collect())
}

/// Every starting fold opened with the slider, in a browser.
pub(crate) fn animation(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut times: Vec<f64> = told("animation.js", Site::embedded())?;
    times.sort_by(f64::total_cmp);
    let place = (times.len() * 95).div_ceil(100).saturating_sub(1);
    let value = *times
        .get(place)
        .ok_or_else(|| Trouble(String::from("the browser's client timed nothing")))?;
    Ok(vec![Figure {
        name: "animation_frame_p95_ms",
        value,
        unit: "ms",
        target: Some(16.0),
        how: format!(
            "headless Chromium, 390x844, processor slowed 4 times: the opening slider moved as a \
             frame begins, until that frame is painted; 95th percentile of {} frames over every \
             starting fold, of which none has 40 panels",
            times.len()
        ),
    }])
}
