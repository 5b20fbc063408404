//! Envelopes by name and by size, in five languages. Their sizes are ISO 269's
//! and those of published charts.

use foldwright_engine::length::Length;
use foldwright_engine::reading::{Evidence, Meaning, OfSize, Read, Suggestion};

use super::{inches, known, made, metric};

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
        let told = line.understood.iter().all(|it| {
            matches!(
                it.is,
                Meaning::Envelope(_) | Meaning::Size(OfSize::Envelope, _)
            )
        });
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
    assert!(known(&list, 0).contains(&"cut from A6".to_owned()));
    let list = metric("A4 sheet\nbase 210 x 148 mm, score at 105 mm");
    assert!(known(&list, 0).contains(&"cut from A4".to_owned()));
}

#[test]
fn what_a_metric_envelope_leaves_round_a_card_in_inches_is_told_in_both() {
    let list = inches("base 8 1/2 x 5 1/2, score at 4 1/4\nenv c6");
    let proposal = list
        .proposals
        .iter()
        .find(|it| matches!(it.is, Suggestion::Envelope(envelope, _) if envelope.id == "iso-c6"));
    // It is sold as 162 × 114 mm, and the card is 5 1/2 × 4 1/4 in.
    let Evidence::Envelope { card, on_marks, .. } = proposal.expect("an envelope").evidence else {
        panic!("an envelope is suggested by its size");
    };
    assert!(!on_marks);
    let quarters = |count: i64| Length::sixty_fourths(16 * count);
    assert_eq!((card.width, card.height), (quarters(22), quarters(17)));
}
