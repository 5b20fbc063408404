//! Lists of measures as people write them, read into pieces and relations.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod any;
mod cards;
mod envelopes;
mod folds;
mod notations;
mod places;
#[path = "../common/naming.rs"]
mod plain;
mod shapes;
mod units;
mod written;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::reading::{Meaning, OfLength, OfSize, Read, Way, read};
use foldwright_engine::recipe::{Fold, Layer, PanelId, Recipe};
use plain::Plain;

/// Somebody who works in inches.
const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};

/// Somebody who works in millimetres.
const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Comma,
};

fn inches(text: &str) -> Read {
    read(text, INCHES, &Plain)
}

fn metric(text: &str) -> Read {
    read(text, METRIC, &Plain)
}

/// The recipe with the proposals usually taken, seen to hold together.
fn made(read: &Read) -> Recipe {
    let recipe = read.into_recipe(&read.usual(), &Plain).expect("a card");
    sound(&recipe);
    recipe
}

fn sound(recipe: &Recipe) {
    assert_eq!(recipe.check(), []);
    assert_eq!(recipe.broken(), []);
    let card = work_out(recipe, &Tools::default());
    assert!(card.folded.is_some(), "{}", recipe.name);
}

fn layer<'a>(recipe: &'a Recipe, name: &str) -> &'a Layer {
    let mut layers = recipe.layers.iter();
    layers.find(|it| it.name == name).expect(name)
}

/// What a panel is called.
fn panel_name(recipe: &Recipe, id: PanelId) -> String {
    let (_, panel) = recipe.panel(id).expect("it is there");
    panel.name.clone()
}

/// What was understood of a line, in the shorthand of these tests.
fn known(read: &Read, line: usize) -> Vec<String> {
    let line = read.lines.get(line).expect("a line");
    let each = line.understood.iter();
    each.map(|it| shorthand(it.is, read.notation)).collect()
}

fn shorthand(is: Meaning, notation: Notation) -> String {
    let what = match is {
        Meaning::Name => "the name of the recipe",
        Meaning::Pieces(1) => return "1 piece".to_owned(),
        Meaning::Pieces(number) => return format!("{number} pieces"),
        Meaning::Way(Way::Zigzag) => "folded to and fro",
        Meaning::Way(Way::Roll) => "one panel folded into the others",
        Meaning::Way(Way::Gate) => "a gate",
        Meaning::Way(Way::DoubleParallel) => "a double parallel fold",
        Meaning::Half => "a score in the middle",
        Meaning::Envelope(envelope) => return format!("envelope {}", envelope.name),
        Meaning::CutFrom(sheet) => return format!("cut from {}", sheet.name),
        Meaning::Length(of, length) => {
            let what = match of {
                OfLength::Diameter => "circle of diameter",
                OfLength::Border => "border",
                OfLength::Score(None) => "score at",
                OfLength::Score(Some(Fold::Mountain)) => "mountain score at",
                OfLength::Score(Some(Fold::Valley)) => "valley score at",
                OfLength::Every => "a score every",
                OfLength::Panel => "panel",
            };
            return format!("{what} {}", notation.exact(length));
        }
        Meaning::Size(of, size) => {
            let what = match of {
                OfSize::Piece => "piece",
                OfSize::Round => "round piece",
                OfSize::Oval => "oval",
                OfSize::Square => "square",
                OfSize::Closed => "closed card",
                OfSize::Envelope => "envelope",
                OfSize::Sheet => "cut from a sheet of",
            };
            return format!("{what} {}", notation.size_in_names(size.width, size.height));
        }
    };
    what.to_owned()
}
