//! Prints cards that stand, one JSON object a line, for a program that checks
//! their balance: the starting folds, each open by several random shares, put
//! down on their foot or flat. Of each paper its outline and holes in its own
//! plane, its weight, and where it is on the table; and what the engine finds:
//! the centre of mass, what the card rests on, and how far within that the centre
//! lies. Lengths are in millimetres, weights in milligrams a square metre. The
//! only argument is how many shares.

use foldwright_engine::card::{Card, Tools, all_together, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::motion::Rigid;
use foldwright_engine::paper::StockId;
use foldwright_engine::plane::{PieceFrame, Point, Region};
use foldwright_engine::posed::{Footing, Posed, Standing, set_down};
use foldwright_engine::recipe::{Recipe, starters};
use serde_json::{Value, json};

fn main() {
    let asked = std::env::args().nth(1).and_then(|count| count.parse().ok());
    let shares: u32 = asked.unwrap_or(8);
    let inches = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    let mut seed = 1_u64;
    let mut random = || {
        // The multiplier of Knuth's MMIX generator.
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let [high, low, ..] = seed.to_be_bytes().map(f64::from);
        (high + low / 256.0) / 256.0
    };
    for starter in starters() {
        let recipe = starter.recipe_in(inches);
        let card = work_out(&recipe, &Tools::default());
        let Some(whole) = all_together(&recipe, &card) else {
            continue;
        };
        for _ in 0..shares {
            let posed = Posed::of_whole(&whole, 0.05 + 0.9 * random());
            let up = if random() < 0.75 {
                [0.0, 1.0, 0.0]
            } else {
                [0.0, 0.0, 1.0]
            };
            if let Some(standing) = set_down(&recipe, &card, &posed, up) {
                let leaves = leaves(&recipe, &card, &posed.moved(&standing.place));
                println!("{}", told(&starter.id, &leaves, &standing));
            }
        }
    }
}

fn told(id: &str, leaves: &[Value], standing: &Standing) -> Value {
    let margin = match standing.footing {
        Footing::Firm(margin) | Footing::Uncertain(margin) => margin,
        Footing::Tips(beyond) => -beyond,
    };
    json!({
        "id": id,
        "leaves": leaves,
        "centre": standing.centre,
        "rests_on": standing.rests_on,
        "margin": margin,
        "firm": matches!(standing.footing, Footing::Firm(_)),
    })
}

fn leaves(recipe: &Recipe, card: &Card, posed: &Posed) -> Vec<Value> {
    let leaf = |place: &Rigid, region: &Region<PieceFrame>, stock: StockId| {
        let weight = recipe.stock(stock)?.weight.milligrams_per_square_metre();
        let at = |at: &Point<PieceFrame>| [at.x.as_mm_f64(), at.y.as_mm_f64()];
        let rings = region.contours();
        let rings: Vec<Vec<_>> = rings.map(|ring| ring.iter().map(at).collect()).collect();
        Some(json!({
            "rings": rings,
            "weight": weight,
            "turn": place.turn,
            "shift": place.shift,
        }))
    };
    let panels = card.laid.panels.iter().enumerate();
    let panels = panels.filter_map(|(number, panel)| {
        let place = posed.panels.get(number)?.as_ref()?;
        let stock = card.laid.piece_with(number)?.stock;
        leaf(place, &panel.facet.region(), stock)
    });
    let layers = card.laid.layers.iter().filter_map(|layer| {
        let panel = card.laid.index_of(layer.face.panel)?;
        let place = posed.panels.get(panel)?.as_ref()?;
        let mut readings = card.readings.iter();
        let reading = readings.find(|reading| reading.face == layer.face)?;
        let region = reading.place.back().region(&layer.region());
        leaf(place, &region, layer.stock)
    });
    panels.chain(layers).collect()
}
