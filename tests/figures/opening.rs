//! How long one frame of an opening takes, worked out and drawn.

use std::fs;
use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{Moment, opening};
use foldwright_engine::recipe::{Recipe, starters, write};
use foldwright_server::Site;
use foldwright_words::English;
use serde::Deserialize;

use crate::client::told_with;
use crate::ladder::ladder;
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

/// Every starting fold, and a card of forty panels, opened with the slider in a
/// browser.
pub(crate) fn animation(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let forty = ladder(&English).map_err(|error| Trouble(format!("no ladder: {error:?}")))?;
    let name = format!("foldwright-forty-panels-{}.json", std::process::id());
    let path = std::env::temp_dir().join(name);
    fs::write(&path, write(&[forty]))?;
    let told: Result<Frames, Trouble> =
        told_with("animation.js", Site::embedded(), &[path.as_os_str()]);
    fs::remove_file(&path)?;
    let told = told?;
    let figure = |name, mut times: Vec<f64>, of: &str| -> Result<Figure, Trouble> {
        times.sort_by(f64::total_cmp);
        let place = (times.len() * 95).div_ceil(100).saturating_sub(1);
        let value = *times
            .get(place)
            .ok_or_else(|| Trouble(String::from("the browser's client timed nothing")))?;
        Ok(Figure {
            name,
            value,
            unit: "ms",
            target: Some(16.0),
            how: format!(
                "headless Chromium, 390x844, processor slowed 4 times: the opening slider moved \
                 as a frame begins, until that frame is painted; 95th percentile of {} frames {of}",
                times.len()
            ),
        })
    };
    Ok(vec![
        figure(
            "animation_frame_p95_ms",
            told.starters,
            "over every starting fold",
        )?,
        figure(
            "animation_40_p95_ms",
            told.forty,
            "of a card of 40 panels that all move at once",
        )?,
    ])
}

/// What the browser's client timed, in milliseconds.
#[derive(Deserialize)]
struct Frames {
    starters: Vec<f64>,
    forty: Vec<f64>,
}
