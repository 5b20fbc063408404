//! The instances in `tests/data/cutting`, as jobs. The figures read them too.

#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a check may stop where its own data do not fit"
)]

use std::num::NonZeroU32;
use std::path::Path;

use foldwright_cutting::{Job, Lie, OneSheet, Piece, Progress, Size, Source, Stock, Trimmer};
use serde_json::Value;

/// A file of the folder, whole.
pub(crate) fn read(name: &str) -> Value {
    let above = Path::new(env!("CARGO_MANIFEST_DIR")).ancestors();
    let mut places = above.map(|folder| folder.join("tests/data/cutting").join(name));
    let path = places.find(|path| path.exists());
    let text = std::fs::read_to_string(path.expect("the instances are there"));
    serde_json::from_str(&text.expect("they can be read")).expect("they are JSON")
}

/// The entries under a name.
pub(crate) fn list<'a>(value: &'a Value, name: &str) -> &'a [Value] {
    value[name].as_array().expect("a list")
}

/// A whole number.
pub(crate) fn number(value: &Value) -> u32 {
    let number = value.as_u64().expect("a whole number");
    u32::try_from(number).expect("a small one")
}

/// A width, a height and how many.
pub(crate) type Wanted = (u32, u32, u32);

/// Pieces from one stock of which there is any number, each new sheet costing 1.
pub(crate) fn job(sheet: (u32, u32), wanted: &[Wanted], lie: impl Fn(usize) -> Lie) -> Job {
    let stock = Stock {
        size: Size::new(sheet.0, sheet.1).expect("a sheet"),
        supply: None,
        cost: 1,
        margin: 0,
    };
    let piece = |(at, (width, height, count)): (usize, &Wanted)| Piece {
        size: Size::new(*width, *height).expect("a piece"),
        count: NonZeroU32::new(*count).expect("some"),
        sources: vec![Source {
            stock: 0,
            lie: lie(at),
            area: None,
        }],
    };
    let pieces = wanted.iter().enumerate().map(piece).collect();
    Job::new(vec![stock], pieces, Trimmer::PLAIN).expect("it holds together")
}

/// A bin-packing instance with what is known of it.
pub(crate) struct Packing {
    pub(crate) name: String,
    pub(crate) sheet: (u32, u32),
    pub(crate) wanted: Vec<Wanted>,
    /// The best lower bound and the fewest sheets known, as the pieces lie and
    /// with all of them free to turn.
    pub(crate) known: [(u64, u64); 2],
    /// The fewest sheets of the baselines in the folder, likewise.
    pub(crate) baseline: [u64; 2],
}

/// The two variants of which optima are known.
pub(crate) const VARIANTS: [(&str, Lie); 2] =
    [("oriented", Lie::Upright), ("rotation", Lie::Either)];

/// All bin-packing instances.
pub(crate) fn packings() -> Vec<Packing> {
    let (instances, baselines) = (
        read("binpacking_bw_mv.json"),
        read("rectpack_baseline.json"),
    );
    let both = list(&instances, "instances")
        .iter()
        .zip(list(&baselines, "instances"));
    let packing = |(instance, baseline): (&Value, &Value)| {
        assert_eq!(instance["name"], baseline["name"]);
        let methods = [
            "rectpack",
            "shelf",
            "greedy252",
            "multistart4000",
            "guillotiere",
        ];
        Packing {
            name: instance["name"].as_str().expect("a name").to_owned(),
            sheet: (
                number(&instance["sheet"]["w"]),
                number(&instance["sheet"]["h"]),
            ),
            wanted: list(instance, "items")
                .iter()
                .map(|it| (number(&it[0]), number(&it[1]), number(&it[2])))
                .collect(),
            known: VARIANTS.map(|(variant, _)| {
                let known = &instance["known"][variant];
                (
                    number(&known["lower"]).into(),
                    number(&known["upper"]).into(),
                )
            }),
            baseline: VARIANTS.map(|(variant, _)| {
                let sheets = methods.map(|method| number(&baseline[variant][method]));
                sheets.into_iter().min().unwrap_or(0).into()
            }),
        }
    };
    both.map(packing).collect()
}

/// The files of one-sheet instances.
pub(crate) const ONE_SHEET: [&str; 4] = [
    "knapsack_cgcut.json",
    "knapsack_classic.json",
    "knapsack_gcut.json",
    "knapsack_ngcut.json",
];

/// A question about one sheet of which the answer is proven.
pub(crate) struct Question {
    pub(crate) name: String,
    pub(crate) sheet: (u32, u32),
    pub(crate) wanted: Vec<Wanted>,
    pub(crate) worths: Vec<u64>,
    pub(crate) lie: Lie,
    pub(crate) answer: Answer,
}

/// What is proven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Answer {
    /// The most that a layout is worth.
    Worth(u64),
    /// Whether all pieces, each worth its area, come from the sheet.
    All(bool),
}

impl Question {
    /// What all pieces are worth together.
    pub(crate) fn all(&self) -> u64 {
        let each = self.wanted.iter().zip(&self.worths);
        each.map(|(it, worth)| u64::from(it.2) * worth).sum()
    }

    /// Works on an answer, with so much work at most.
    pub(crate) fn asked(&self, work: u64) -> OneSheet {
        let job = job(self.sheet, &self.wanted, |_| self.lie);
        let mut sheet = OneSheet::new(&job, 0, &self.worths).expect("a stock with room");
        let mut left = work;
        while left > 0
            && !self.is_answered(&sheet)
            && sheet.improve(left.min(10_000_000), || false) != Progress::Done
        {
            left = left.saturating_sub(10_000_000);
        }
        sheet
    }

    /// Whether a search has come to the answer.
    pub(crate) fn is_answered(&self, sheet: &OneSheet) -> bool {
        match self.answer {
            Answer::Worth(worth) => sheet.worth() == worth,
            Answer::All(true) => sheet.worth() == self.all(),
            Answer::All(false) => sheet.bound() < self.all(),
        }
    }
}

/// The proven worths with edge-to-edge cuts.
pub(crate) fn worths() -> Vec<Question> {
    let files = ONE_SHEET.into_iter();
    files.flat_map(|file| questions(file, worth_of)).collect()
}

/// Whether all pieces come from one sheet: Clautiaux, Carlier and Moukrim 2007.
pub(crate) fn fits() -> Vec<Question> {
    questions("feasibility_cjcm.json", fits_of)
}

fn worth_of(known: &Value) -> Option<Answer> {
    let asked = known["problem"] == "knapsack-unbounded" || known["problem"] == "knapsack-bounded";
    let proven = asked && known["status"] == "optimal";
    proven.then(|| Answer::Worth(number(&known["value"]).into()))
}

fn fits_of(known: &Value) -> Option<Answer> {
    let asked = known["problem"] == "all-fit-one-sheet";
    asked.then(|| Answer::All(known["value"].as_bool().expect("yes or no")))
}

fn questions(file: &str, answer: fn(&Value) -> Option<Answer>) -> Vec<Question> {
    let mut questions = Vec::new();
    for instance in list(&read(file), "instances") {
        let sheet = (
            number(&instance["sheet"]["w"]),
            number(&instance["sheet"]["h"]),
        );
        for known in list(instance, "known") {
            if known["cuts"] != "guillotine" {
                continue;
            }
            let Some(answer) = answer(known) else {
                continue;
            };
            // More than any sheet holds.
            let endless = known["problem"] == "knapsack-unbounded";
            let count = |it: &Value| if endless { 900 } else { number(&it["demand"]) };
            let items = list(instance, "items");
            let wanted: Vec<Wanted> = items
                .iter()
                .map(|it| (number(&it["w"]), number(&it["h"]), count(it)))
                .collect();
            let worths = items.iter().zip(&wanted).map(|(it, wanted)| match answer {
                Answer::Worth(_) => number(&it["value"]).into(),
                Answer::All(_) => u64::from(wanted.0) * u64::from(wanted.1),
            });
            let turns = known["rotation"].as_bool().expect("yes or no");
            questions.push(Question {
                name: format!(
                    "{}, {}, {}",
                    instance["name"].as_str().expect("a name"),
                    known["problem"].as_str().expect("a problem"),
                    if turns { "turning" } else { "upright" }
                ),
                sheet,
                worths: worths.collect(),
                wanted,
                lie: if turns { Lie::Either } else { Lie::Upright },
                answer,
            });
        }
    }
    questions
}
