//! The printed papers of the workshop, in English.

use super::MotifTexts;

pub(in crate::texts) const TEXTS: MotifTexts = MotifTexts {
    lighthouses: "Lighthouses",
    boats: "Sailing boats",
    gulls: "Gulls",
    anchors: "Anchors",
    fish: "Fish",
    sail_stripes: "Sail stripes",
    ropes: "Ropes",
    waves: "Waves",
    planks: "Planks",
    nets: "Nets",
    bookplates: "Bookplates",
    wind_stars: "Wind stars",
    one_way: "{paper}, one way up",
    both_ways: "{paper}, reads both ways",
    no_direction: "{paper}, no direction",
    on_sheet: "{paper} 12 × 12, white back",
};
