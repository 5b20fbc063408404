//! Envelopes by name and by size, in five languages. Their sizes are ISO 269's
//! and those of published charts.

use foldwright_engine::reading::Read;

use super::{inches, made, metric};

fn stocks(read: &Read) -> Vec<String> {
    let recipe = made(read);
    recipe.stocks.iter().map(|it| it.name.clone()).collect()
}

#[test]
fn an_envelope_is_the_envelope_of_the_recipe_and_never_a_paper() {
    // A6 closed is 105 × 148, C6 162 × 114: room by the metric pairs.
    let base = "210 x 148 mm, score at 105 mm";
    let plain = stocks(&metric(base));
    for words in [
        "env c6",
        "env. C6",
        "C6 env",
        "C6",
        "envelope C6",
        "Umschlag C6",
        "Umschlag: C6",
        "Briefumschlag in C6",
        "C6-Umschlag",
        "enveloppe C6",
        "pour enveloppe C6",
        "envelop C6",
        "sobre C6",
        "para sobre C6",
        "fits C6",
        "fits into C6",
        "passt in C6",
        "past in C6",
        "for a C6 envelope",
        "Umschlag 162 x 114 mm",
        "enveloppe 11,4 x 16,2 cm",
    ] {
        let list = metric(&format!("{base}\n{words}"));
        let recipe = made(&list);
        assert_eq!(
            recipe.posting.envelope.as_deref(),
            Some("iso-c6"),
            "{words}"
        );
        assert_eq!(stocks(&list), plain, "{words}");
        let line = list.lines.get(1).expect("the envelope");
        let told = line
            .understood
            .iter()
            .all(|it| it.words.starts_with("envelope"));
        assert!(told && !line.understood.is_empty(), "{words}");
    }
}

#[test]
fn north_american_names_and_sizes() {
    for (base, words, id) in [
        ("base 8 1/2 x 5 1/2, score at 4 1/4", "envelope A2", "na-a2"),
        ("base 8 1/2 x 5 1/2, score at 4 1/4", "A2 env", "na-a2"),
        ("base 10 x 7, score at 5", "fits A7", "na-a7"),
        (
            "base 10 x 7, score at 5",
            "envelope: A7 (5 1/4 x 7 1/4)",
            "na-a7",
        ),
        (
            "base 9 x 6 1/4, score at 4 1/2",
            "for an A6 envelope",
            "na-a6",
        ),
        (
            "base 11 x 5 1/2, score at 5 1/2",
            "for a 6 x 6 envelope",
            "na-square-6",
        ),
        (
            "base 11 x 5 1/2, score at 5 1/2",
            "6 in square envelope",
            "na-square-6",
        ),
        ("base 8 x 9, score at 4", "#10 envelope", "na-no-10"),
        ("base 8 x 9, score at 4", "envelope No. 10", "na-no-10"),
    ] {
        let list = inches(&format!("{base}\n{words}"));
        let recipe = made(&list);
        assert_eq!(recipe.posting.envelope.as_deref(), Some(id), "{words}");
        assert_eq!(recipe.layers.len(), 0, "{words}");
    }
}

#[test]
fn a_name_that_papers_have_too_stays_a_paper_where_the_list_says_so() {
    let list = metric("Grundkarte 148 x 105 mm aus A6\nUmschlag C6");
    let line = list.lines.first().expect("a line");
    assert!(line.understood.iter().any(|it| it.words == "cut from A6"));
    let list = metric("A4 sheet\nbase 210 x 148 mm, score at 105 mm");
    let line = list.lines.first().expect("a line");
    assert!(line.understood.iter().any(|it| it.words == "cut from A4"));
}

#[test]
fn what_a_metric_envelope_leaves_round_a_card_in_inches_is_told_in_both() {
    let list = inches("base 8 1/2 x 5 1/2, score at 4 1/4\nenv c6");
    let proposal = list
        .proposals
        .iter()
        .find(|it| it.relation == "The closed card goes into envelope C6");
    let evidence = &proposal.expect("an envelope").evidence;
    assert!(
        evidence.starts_with("it measures 162 × 114 mm, the card 5 1/2 × 4 1/4 in"),
        "{evidence}"
    );
}
