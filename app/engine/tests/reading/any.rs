//! No text makes the reader fail, and whatever it makes holds together.

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
            prop_assert_eq!(read.lines.len(), text.lines().count());
            for line in &read.lines {
                let known = line.understood.iter().map(|it| it.at.clone());
                let unread = line.unread.iter().map(|it| it.at.clone());
                for at in known.chain(unread) {
                    prop_assert!(line.text.get(at.clone()).is_some(), "{at:?} of {:?}", line.text);
                }
            }
            for taken in [read.usual(), vec![true; read.proposals.len()], Vec::new()] {
                if let Some(recipe) = read.into_recipe(&taken) {
                    prop_assert_eq!(recipe.broken(), vec![]);
                    prop_assert_eq!(recipe.check(), vec![]);
                }
            }
        }
    }
}
