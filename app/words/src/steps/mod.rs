//! The work step by step.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::care::Hazard;
use foldwright_engine::draw::letter;
use foldwright_engine::steps::{
    Caption, Figure, Instruction, Kind, Label, Step, Title, Tool, Value,
};

use crate::runs::is_rounded;
use crate::{Caution, Speaker};

/// Something a step states.
#[derive(Debug, Clone, Copy)]
pub enum OfStep<'a> {
    /// What it is about, in a word.
    Kind(Kind),
    /// What to do, in a few words.
    Title(&'a Title),
    /// One thing to do.
    Does(&'a Instruction),
    /// What a number is.
    Label(&'a Label),
    /// A number.
    Value(&'a Value),
    /// What a picture shows.
    Caption(&'a Caption),
    /// What to have ready.
    Tool(Tool),
}

/// A step as it is read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ToldStep {
    /// What it is about, in a word.
    pub kind: String,
    /// What to do, in a few words.
    pub title: String,
    /// What to do, sentence by sentence.
    pub does: Vec<String>,
    /// Its numbers.
    pub figures: Vec<ToldFigure>,
    /// What its pictures show.
    pub captions: Vec<String>,
    /// What to have ready.
    pub tools: Vec<String>,
}

/// A number of a step as it is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldFigure {
    /// What it is.
    pub label: String,
    /// The number, or how something folds.
    pub number: String,
    /// The unit of a number; empty where there is none.
    pub unit: String,
}

impl ToldFigure {
    /// Whether the exact number stands behind this one.
    pub fn is_rounded(&self) -> bool {
        is_rounded(&self.number)
    }

    /// The number with its unit.
    pub fn whole(&self) -> String {
        if self.unit.is_empty() {
            return self.number.clone();
        }
        format!("{}\u{a0}{}", self.number, self.unit)
    }
}

impl Speaker<'_> {
    /// A whole step.
    pub fn step(&self, step: &Step) -> ToldStep {
        // Headings and captions have no room for the exact lengths behind.
        let plain = self.without_exact();
        let of = |of| plain.of_step(of);
        let figures = step.figures.iter().map(|it| self.figure(it));
        let captions = step.pictures.iter();
        let captions = captions.map(|it| of(OfStep::Caption(&it.caption)));
        let tools = step.tools.iter();
        ToldStep {
            kind: plain.kind(step.kind),
            title: plain.title(&step.title),
            does: self.instructions(&step.does),
            figures: figures.collect(),
            captions: captions.collect(),
            tools: tools.map(|it| of(OfStep::Tool(*it))).collect(),
        }
    }

    /// What a step is about, in a word.
    pub fn kind(&self, kind: Kind) -> String {
        self.of_step(OfStep::Kind(kind))
    }

    /// What to do in a step, in a few words.
    pub fn title(&self, title: &Title) -> String {
        self.of_step(OfStep::Title(title))
    }

    /// One thing to do, in a sentence or two.
    pub fn instruction(&self, does: &Instruction) -> String {
        self.of_step(OfStep::Does(does))
    }

    /// What to do, one thing after another.
    pub fn instructions(&self, does: &[Instruction]) -> Vec<String> {
        does.iter().map(|it| self.instruction(it)).collect()
    }

    /// What a number of a step is.
    pub fn label(&self, label: &Label) -> String {
        self.of_step(OfStep::Label(label))
    }

    /// A number of a step.
    pub fn value(&self, value: &Value) -> String {
        self.of_step(OfStep::Value(value))
    }

    fn figure(&self, figure: &Figure) -> ToldFigure {
        let (names, plain) = (self.names(), self.without_exact());
        let value = plain.value(&figure.value);
        let is_number = match figure.value {
            Value::Length(_) | Value::Size(_) | Value::Sheets(Some(_)) => true,
            Value::Sheets(None) | Value::Fold(_) | Value::ThenFlat(_) => false,
        };
        // What a number is of stands last, in every language.
        let parted = value.rsplit_once([' ', '\u{a0}']).filter(|_| is_number);
        let (number, unit) = parted.unwrap_or((&value, ""));
        let exact = match figure.value {
            Value::Length(of) => names.exact(of),
            Value::Size(of) => names.exact_size(of),
            _ => None,
        };
        let label = plain.label(&figure.label);
        ToldFigure {
            label: match figure.letter {
                Some(number) => format!("{}: {label}", letter(number)),
                None => label,
            },
            number: names.rounded(number.to_owned(), exact),
            unit: unit.to_owned(),
        }
    }

    /// How to take care.
    pub fn caution(&self, hazard: Hazard) -> Caution {
        self.tongue().caution(hazard)
    }
}
