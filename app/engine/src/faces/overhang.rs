//! Which layers reach past the panel they lie on.

use super::Reading;
use super::shown::layer_cover;
use crate::fold::{Folded, Overhang};
use crate::laid::{LaidLayer, LaidOut};
use crate::plane::{FaceFrame, Region, SAME_WITHIN};

/// The layers that reach past their panels, in the order they are put on.
pub fn overhanging(laid: &LaidOut, folded: &Folded, readings: &[Reading]) -> Vec<Overhang> {
    let Some(closed) = folded.states.first() else {
        return Vec::new();
    };
    let layers = laid.layers.iter().filter_map(|layer| {
        let mut readings = readings.iter();
        let reading = readings.find(|reading| reading.face == layer.face)?;
        let place = reading.in_card(closed)?;
        beyond_panel(laid, reading, layer)?;
        Some(Overhang {
            layer: layer.id,
            panel: laid.index_of(layer.face.panel)?,
            side: layer.face.side,
            area: layer_cover(layer, &place).region(),
        })
    });
    layers.collect()
}

/// What of a layer lies past its panel, or over a hole in it, by more than a
/// line; `None` where the panel holds it whole.
pub(crate) fn beyond_panel(
    laid: &LaidOut,
    reading: &Reading,
    layer: &LaidLayer,
) -> Option<Region<FaceFrame>> {
    let panel = laid.panels.get(laid.index_of(layer.face.panel)?)?;
    let outline = reading.place.polygon(&panel.facet.outline);
    if panel.facet.holes.is_empty()
        && let Some(within) = outline.as_rectangle()
        && within.common(&layer.at) == Some(layer.at)
    {
        return None;
    }
    let seat = reading.place.region(&panel.facet.region());
    let beyond = layer.region().minus(&seat).inset(SAME_WITHIN);
    (!beyond.is_empty()).then_some(beyond)
}
