//! How long a photograph of paper takes.

use foldwright_server::Site;

use crate::client::told;
use crate::measure::{Figure, Trouble, Workshop};

/// The worst of a few photographs.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let times: Vec<f64> = told("photo-times.js", Site::embedded())?;
    let value = times.iter().copied().reduce(f64::max);
    let value = value.ok_or_else(|| Trouble(String::from("the browser's client timed nothing")))?;
    Ok(vec![Figure {
        name: "photo_ms",
        value,
        unit: "ms",
        target: Some(1500.0),
        how: format!(
            "headless Chromium, 390x844, processor slowed 4 times: a photograph of 12 megapixels \
             from its choice to the card that shows it, without what people do between; worst of {}",
            times.len()
        ),
    }])
}
