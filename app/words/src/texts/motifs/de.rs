//! The printed papers of the workshop, in German.

use super::MotifTexts;

pub(in crate::texts) const TEXTS: MotifTexts = MotifTexts {
    lighthouses: "Leuchttürme",
    boats: "Segelboote",
    gulls: "Möwen",
    anchors: "Anker",
    fish: "Fische",
    sail_stripes: "Segelstreifen",
    ropes: "Taue",
    waves: "Wellen",
    planks: "Planken",
    nets: "Netze",
    bookplates: "Exlibris",
    wind_stars: "Windrosen",
    one_way: "{paper}, mit oben und unten",
    both_ways: "{paper}, beidseitig lesbar",
    no_direction: "{paper}, ohne Richtung",
    on_sheet: "{paper} 12 × 12, Rückseite weiß",
};
