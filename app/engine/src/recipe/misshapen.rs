//! Where in a recipe something is missing or out of place.

use serde::Deserialize;
use serde_json::Value;
use serde_path_to_error::{Path, Segment};

use super::{Parts, Recipe, Strip, plain};

/// Where in a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say where")]
pub enum Spot {
    /// One of a kind, counted from 1, or all of them.
    Of(Parts, Option<usize>),
    Base,
    Posting,
    FoldingIn,
    Copies,
    Whole,
}

/// What of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say what")]
pub enum Detail {
    /// The number by which other parts speak of it.
    Number,
    Name,
    Description,
    Length,
    Limits,
    Pin,
    /// What a measure was before a refit.
    Designed,
    /// The measures in a rule, how they compare, what is added to them, and
    /// whether it must hold.
    Terms,
    Comparison,
    Fixed,
    Holds,
    Width,
    Height,
    Weight,
    Thickness,
    /// What a side of a paper looks like.
    Look,
    Grain,
    Paper,
    /// Which side of a paper shows.
    Side,
    /// What it lies on, or is cut out of.
    Seat,
    Place,
    Outline,
    Glue,
    Kind,
    Ends,
    Panels,
    Lines,
    Cutouts,
    Folds,
    /// Which panel rests on the table.
    Rests,
    /// Which way the card opens.
    Opens,
    Rule,
    Envelope,
    Allowance,
    Units,
    Scoring,
    /// How the paper is laid.
    Lay,
}

impl Detail {
    /// Every detail.
    pub const ALL: [Self; 37] = [
        Self::Number,
        Self::Name,
        Self::Description,
        Self::Length,
        Self::Limits,
        Self::Pin,
        Self::Designed,
        Self::Terms,
        Self::Comparison,
        Self::Fixed,
        Self::Holds,
        Self::Width,
        Self::Height,
        Self::Weight,
        Self::Thickness,
        Self::Look,
        Self::Grain,
        Self::Paper,
        Self::Side,
        Self::Seat,
        Self::Place,
        Self::Outline,
        Self::Glue,
        Self::Kind,
        Self::Ends,
        Self::Panels,
        Self::Lines,
        Self::Cutouts,
        Self::Folds,
        Self::Rests,
        Self::Opens,
        Self::Rule,
        Self::Envelope,
        Self::Allowance,
        Self::Units,
        Self::Scoring,
        Self::Lay,
    ];

    /// What a field of a part is.
    fn of(at: Spot, field: &str) -> Option<Self> {
        let is_rule = matches!(at, Spot::Of(Parts::Relations, _));
        Some(match field {
            "left" | "right" if is_rule => Self::Terms,
            "id" => Self::Number,
            "name" => Self::Name,
            "about" => Self::Description,
            "value" | "length" => Self::Length,
            "least" | "most" => Self::Limits,
            "pinned" => Self::Pin,
            "designed" => Self::Designed,
            "is" => Self::Comparison,
            "plus" => Self::Fixed,
            "holds" => Self::Holds,
            "width" => Self::Width,
            "height" => Self::Height,
            "weight" => Self::Weight,
            "caliper" => Self::Thickness,
            "face" | "back" | "heads" => Self::Look,
            "grain" => Self::Grain,
            "stock" => Self::Paper,
            "shows" => Self::Side,
            "on" | "panel" => Self::Seat,
            "left" | "bottom" | "place" => Self::Place,
            "outline" | "cut" => Self::Outline,
            "bond" | "glue_margin" | "joins" => Self::Glue,
            "kind" | "takes" => Self::Kind,
            "from" | "to" => Self::Ends,
            "panels" => Self::Panels,
            "lines" => Self::Lines,
            "cutouts" => Self::Cutouts,
            "folds" => Self::Folds,
            "rests" => Self::Rests,
            "runs" => Self::Opens,
            "rule" => Self::Rule,
            "envelope" => Self::Envelope,
            "allowance" => Self::Allowance,
            "notation" => Self::Units,
            "scoring" => Self::Scoring,
            "lay" => Self::Lay,
            _ => return None,
        })
    }
}

/// A step from a value into one of its parts.
#[derive(Debug, PartialEq)]
enum Step {
    Field(String),
    /// Counted from 1.
    Item(usize),
}

/// The recipe in a value, or else where it can't be read, and what of that.
pub(super) fn read(value: &Value) -> Result<Recipe, (Spot, Option<Detail>)> {
    let (mut steps, mut missing) = match attempt::<Recipe>(value) {
        Ok(recipe) => return Ok(recipe),
        Err(why) => why,
    };
    // The fields of a strip stand among those of what it belongs to, so that
    // the way ends there.
    let strip = match &steps[..] {
        [Step::Field(base)] if base == "base" => value.get(base),
        [Step::Field(pieces), Step::Item(number)] if pieces == "pieces" => {
            let at = number.saturating_sub(1);
            value.get(pieces).and_then(|pieces| pieces.get(at))
        }
        _ => None,
    };
    if let Some(Err((further, missed))) = strip.map(attempt::<Strip>) {
        steps.extend(further);
        missing = missed;
    }
    steps.extend(missing.map(Step::Field));
    Err(place(&steps))
}

/// Which steps lead to what can't be read, and the field that is missing there.
type Unread = (Vec<Step>, Option<String>);

/// Reads a value, or says why not.
fn attempt<'a, T: Deserialize<'a>>(value: &'a Value) -> Result<T, Unread> {
    let read = plain::read(value);
    read.map_err(|(path, error)| (steps(&path), missing(&error.to_string())))
}

fn steps(path: &Path) -> Vec<Step> {
    let steps = path.iter().filter_map(|step| match step {
        Segment::Map { key } => Some(Step::Field(key.clone())),
        Segment::Seq { index } => Some(Step::Item(index + 1)),
        Segment::Enum { .. } | Segment::Unknown => None,
    });
    steps.collect()
}

/// The name of a field that is missing. Only the words of the error tell it.
fn missing(words: &str) -> Option<String> {
    let name = words.strip_prefix("missing field `")?;
    Some(name.split('`').next()?.to_owned())
}

fn place(steps: &[Step]) -> (Spot, Option<Detail>) {
    let (at, rest) = spot(steps);
    let mut fields = rest.iter().filter_map(|step| match step {
        Step::Field(name) => Some(name.as_str()),
        Step::Item(_) => None,
    });
    (at, fields.next().and_then(|field| Detail::of(at, field)))
}

/// The part to which steps lead, and those that go on from there.
fn spot(steps: &[Step]) -> (Spot, &[Step]) {
    let Some((Step::Field(field), rest)) = steps.split_first() else {
        return (Spot::Whole, steps);
    };
    let of = |parts| match rest {
        [Step::Item(number), rest @ ..] => (Spot::Of(parts, Some(*number)), rest),
        _ => (Spot::Of(parts, None), rest),
    };
    match field.as_str() {
        "measures" => of(Parts::Measures),
        "relations" => of(Parts::Relations),
        "stocks" => of(Parts::Papers),
        "layers" => of(Parts::Layers),
        "pieces" => of(Parts::Pieces),
        "supplies" => of(Parts::Supplies),
        "upright" => (Spot::Of(Parts::Upright, None), rest),
        "notes" | "photos" | "runs" => (Spot::Of(Parts::Notes, None), rest),
        "own_steps" => (Spot::Of(Parts::OwnSteps, None), rest),
        "order" => (Spot::Of(Parts::Ordered, None), rest),
        "base" => in_base(rest),
        "posting" => (Spot::Posting, rest),
        "folding_in" => (Spot::FoldingIn, rest),
        "copies" | "class" => (Spot::Copies, rest),
        _ => (Spot::Whole, steps),
    }
}

fn in_base(steps: &[Step]) -> (Spot, &[Step]) {
    let [Step::Field(list), Step::Item(number), rest @ ..] = steps else {
        return (Spot::Base, steps);
    };
    let parts = match list.as_str() {
        "panels" => Parts::Panels,
        "lines" => Parts::Lines,
        "cutouts" => Parts::Cutouts,
        "on_top" => Parts::Answers,
        _ => return (Spot::Base, steps),
    };
    (Spot::Of(parts, Some(*number)), rest)
}
