//! No text makes the reader fail, and whatever it makes holds together.

use crate::plain::Plain;
use foldwright_engine::problem::{Finding, Trouble};
use foldwright_engine::reading::MOST_LINES;
use proptest::prelude::*;

use super::{inches, metric};

fn word() -> impl Strategy<Value = String> {
    let words = [
        "base",
        "mat",
        "score at",
        "falzen bei",
        "x",
        "×",
        "by",
        "and",
        ",",
        ".",
        ";",
        "\n",
        "2 @",
        "in",
        "cm",
        "mm",
        "\"",
        "'",
        "fold in half",
        "every",
        "panels",
        "border",
        "from",
        "A4",
        "C6",
        "envelope",
        "finished",
        "on the front",
        "inside",
        "tent",
        "mountain",
        "1/2",
        "3/4",
        "½",
        "/",
        "-",
        "0",
        "1",
        "4 1/4",
        "8 1/2",
        "5,5",
        "105",
        "148",
        "29,7",
        "99999999999",
        "1/0",
        "$",
        "€",
        ":",
        "(",
        ")",
        "#",
        "ß",
        "é",
        "\u{200b}",
        "🂡",
        "(2)",
        "A:",
        "deux",
        "en",
    ];
    prop_oneof![
        prop::sample::select(words.to_vec()).prop_map(str::to_owned),
        (1..400_u32).prop_map(|number| number.to_string()),
        ".{0,6}",
    ]
}

fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        prop::collection::vec(word(), 0..60).prop_map(|words| words.join(" ")),
        prop::collection::vec(word(), 0..40).prop_map(|words| words.concat()),
        "\\PC{0,200}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn nothing_typed_breaks_it(text in text()) {
        for read in [inches(&text), metric(&text)] {
            prop_assert_eq!(read.lines.len(), text.lines().count().min(MOST_LINES + 1));
            for line in &read.lines {
                let known = line.understood.iter().map(|it| it.at.clone());
                let unread = line.unread.iter().map(|it| it.at.clone());
                for at in known.chain(unread) {
                    prop_assert!(line.text.get(at.clone()).is_some(), "{at:?} of {:?}", line.text);
                }
            }
            for taken in [read.usual(), vec![true; read.proposals.len()], Vec::new()] {
                if let Some(recipe) = read.into_recipe(&taken, &Plain) {
                    prop_assert_eq!(recipe.broken(), vec![]);
                    prop_assert_eq!(recipe.check(), vec![]);
                }
            }
        }
    }
}

#[test]
fn a_list_longer_than_is_read_says_where_reading_ends() {
    let line = |number: usize| match number {
        0 => "base 5 1/2 x 8 1/2, score at 4 1/4".to_owned(),
        _ => format!("mat {} x 5", 1 + number % 4),
    };
    let list = |lines: usize| (0..lines).map(line).collect::<Vec<_>>().join("\n");
    let problems = |text: &str| -> Vec<Finding> {
        let read = inches(text);
        let last = read.lines.last().expect("a line");
        last.problems.iter().map(|it| it.finding.clone()).collect()
    };
    let ends = Finding::List(Trouble::TooLong);
    assert!(!problems(&list(MOST_LINES)).contains(&ends));
    let long = inches(&list(2000));
    assert_eq!(problems(&list(2000)), [ends]);
    assert_eq!(long.lines.len(), MOST_LINES + 1);
    // What comes before is read as ever.
    let short = inches(&list(MOST_LINES));
    assert_eq!(long.lines[..MOST_LINES], short.lines);
    assert_eq!(long.foldings, short.foldings);
}
