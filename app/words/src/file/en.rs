//! Faulty recipes and files, in English.

use foldwright_engine::recipe::{
    Detail, Fault, FileError, MOST_BENDS, MOST_COPIES, MOST_OF_A_KIND, MOST_TEXT, MOST_TIMES,
    MOST_TRACED, MOST_WAVES, Measured, Misread, Needed, Parts, Spot, VERSION, Written,
};
use foldwright_gathered::gathered;

use crate::Language;
use crate::names::Names;
use crate::nouns::en as nouns;
use crate::recipe::en::plural;
use crate::told::sentence;

#[gathered]
pub(super) fn fault(names: &Names<'_>, found: &Fault) -> String {
    let said = match found {
        Fault::NoPanel => "A card base, or a pop-up or pocket, has no panel.".to_owned(),
        Fault::Folds { panels, folds } => {
            format!("Panels: {panels}, folds: {folds}. There must be one fold fewer than panels.")
        }
        Fault::TooMany { parts, number } => format!(
            "It has {number} {}; {} are the most.",
            plural(*parts),
            parts.most()
        ),
        Fault::Twice(parts) => format!("Two {} go by the same number.", plural(*parts)),
        Fault::Name(parts) => format!("The {} go by numbers that are too large.", plural(*parts)),
        Fault::Missing(needed) => missing(*needed).to_owned(),
        Fault::TooLong(what) => format!("{} is more than 10 m.", measured(names, *what)),
        Fault::NotPositive(what) => {
            format!("Give {} a size above 0.", measured(names, *what))
        }
        Fault::Copies(copies) => {
            format!("It is for {copies} cards; 1 to {MOST_COPIES} can be made.")
        }
        Fault::Text(text) => match text {
            Written::Name => format!("A name is longer than {MOST_TEXT} characters."),
            Written::About => format!("The description is longer than {MOST_TEXT} characters."),
            Written::Note => format!("A note is longer than {MOST_TEXT} characters."),
        },
        Fault::Limits(id) => format!(
            "The least {} may be is more than the most.",
            nouns::measure(names, *id)
        ),
        Fault::Times(times) => {
            format!("A rule takes a measurement {times} times; 1 to {MOST_TIMES} are possible.")
        }
        Fault::Outline => format!(
            "An outline has a corner past its edges, over {MOST_BENDS} corners ({MOST_TRACED} \
             from a drawing), or over {MOST_WAVES} waves."
        ),
        Fault::Circle(id) => format!(
            "{} lies on a layer that lies on it in turn.",
            nouns::layer(names, *id)
        ),
        Fault::Supply => format!(
            "Of something besides paper it takes 1 to {MOST_OF_A_KIND}, and 0 to 10 m for a knot."
        ),
    };
    sentence(said)
}

#[gathered]
fn missing(needed: Needed) -> &'static str {
    match needed {
        Needed::Measure => "It needs a measurement that is not in it.",
        Needed::Paper => "It needs a paper that is not in it.",
        Needed::Panel => "It needs a panel that is not in it.",
        Needed::Layer => "It needs a layer that is not in it.",
        Needed::PanelToGlue => "A pop-up or pocket is glued to a panel that is not in it.",
        Needed::PanelToCut => "A window or a shaped edge is on a panel that is not in it.",
        Needed::FoldInRule => "Its rule for panels folded in is unknown.",
        Needed::ClearanceRule => "Its clearance for envelopes is unknown.",
        Needed::Envelope => "Its envelope is unknown.",
    }
}

#[gathered]
fn measured(names: &Names<'_>, what: Measured) -> String {
    match what {
        Measured::Measure(id) => nouns::measure(names, id),
        Measured::Limit(id) => format!("the limit of {}", nouns::measure(names, id)),
        Measured::Designed(id) => format!("{} as designed", nouns::measure(names, id)),
        Measured::GlueMargin => "the glue margin".to_owned(),
        Measured::Plus => "the fixed length of a rule".to_owned(),
        Measured::GlueOf(id) => {
            format!("a distance of the glue of {}", nouns::layer(names, id))
        }
        Measured::SheetWidth(id) => format!("the width of {}", nouns::stock(names, id)),
        Measured::SheetHeight(id) => format!("the height of {}", nouns::stock(names, id)),
        Measured::Caliper(id) => format!("the thickness of {}", nouns::stock(names, id)),
    }
}

#[gathered]
pub(super) fn file_error(error: &FileError) -> String {
    match error {
        FileError::NotJson { line } => format!(
            "This file can't be read: it stops making sense in line {line}. It may be incomplete; \
             fetch or save it again."
        ),
        FileError::NotOurs => {
            "This is not a file of recipes. Choose a file that was saved from Foldwright."
                .to_owned()
        }
        FileError::Newer { version } => format!(
            "This file is of version {version}; this Foldwright reads up to {VERSION}. Update \
             Foldwright and open it again."
        ),
        FileError::Misshapen {
            recipe,
            name,
            at,
            detail,
        } => {
            let what = match (at, detail) {
                (Spot::Whole, Some(what)) => format!("Its {}", said(*what)),
                (at, Some(what)) => format!("The {} of {}", said(*what), spot(*at)),
                (at, None) => format!("Something about {}", spot(*at)),
            };
            format!(
                "{} can't be read. {what} is missing or is no value Foldwright knows. Save it \
                 again where it came from.",
                called(*recipe, name)
            )
        }
        FileError::Faulty { recipe, of } => format!(
            "{} does not hold together. {} Save it again where it came from.",
            called(*recipe, &of.recipe.name),
            faults(of)
        ),
        FileError::TooLarge { recipe, of } => format!(
            "{} is too large. {} Make it smaller where it came from, or make two recipes of it.",
            called(*recipe, &of.recipe.name),
            faults(of)
        ),
    }
}

#[gathered]
fn called(number: usize, name: &str) -> String {
    match name.trim() {
        "" => format!("Recipe {number} of this file"),
        name => format!("Recipe {number} of this file, “{name}”,"),
    }
}

fn faults(of: &Misread) -> String {
    let names = Names::of(Language::English, &of.recipe);
    let told: Vec<_> = of.faults.iter().map(|it| fault(&names, it)).collect();
    told.join(" ")
}

#[gathered]
fn spot(at: Spot) -> String {
    match at {
        Spot::Of(Parts::Measures, Some(number)) => format!("measurement {number}"),
        Spot::Of(Parts::Relations, Some(number)) => format!("rule {number}"),
        Spot::Of(Parts::Papers, Some(number)) => format!("paper {number}"),
        Spot::Of(Parts::Layers, Some(number)) => format!("layer {number}"),
        Spot::Of(Parts::Supplies, Some(number)) => format!("supply {number}"),
        Spot::Of(Parts::Pieces, Some(number)) => format!("pop-up or pocket {number}"),
        Spot::Of(Parts::Panels, Some(number)) => format!("panel {number}"),
        Spot::Of(Parts::Lines, Some(number)) => format!("crease or cut {number}"),
        Spot::Of(Parts::Cutouts, Some(number)) => format!("window or edge {number}"),
        Spot::Of(Parts::Answers, Some(number)) => {
            format!("answer {number} about what lies on top")
        }
        Spot::Of(parts, _) => format!("its {}", plural(parts)),
        Spot::Base => "its card base".to_owned(),
        Spot::Posting => "its envelope".to_owned(),
        Spot::FoldingIn => "its folds".to_owned(),
        Spot::Copies => "the number of cards".to_owned(),
        Spot::Whole => "the recipe as a whole".to_owned(),
    }
}

/// What of a part, after "the".
#[gathered]
fn said(detail: Detail) -> &'static str {
    match detail {
        Detail::Number => "number",
        Detail::Name => "name",
        Detail::Description => "description",
        Detail::Length => "length",
        Detail::Limits => "least or greatest length",
        Detail::Pin => "pin",
        Detail::Designed => "length as designed",
        Detail::Terms => "list of measurements",
        Detail::Comparison => "comparison",
        Detail::Fixed => "fixed length",
        Detail::Holds => "word whether it must hold",
        Detail::Width => "width",
        Detail::Height => "height",
        Detail::Weight => "weight",
        Detail::Thickness => "thickness (caliper)",
        Detail::Look => "look of a side",
        Detail::Grain => "grain",
        Detail::Paper => "paper",
        Detail::Side => "side that shows",
        Detail::Seat => "piece under it",
        Detail::Place => "place",
        Detail::Outline => "outline",
        Detail::Glue => "glue",
        Detail::Kind => "kind",
        Detail::Ends => "place of an end",
        Detail::Panels => "list of panels",
        Detail::Lines => "list of creases and cuts",
        Detail::Cutouts => "list of windows and edges",
        Detail::Folds => "list of folds",
        Detail::Rests => "panel that rests on the table",
        Detail::Opens => "way to open",
        Detail::Rule => "rule",
        Detail::Envelope => "name of the envelope",
        Detail::Allowance => "allowance for panels folded in",
        Detail::Units => "unit of length",
        Detail::Scoring => "way to score",
        Detail::Lay => "way to lay the paper",
    }
}
