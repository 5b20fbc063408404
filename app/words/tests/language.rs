//! Which language a reader asks for (RFC 9110 §12.5.4, RFC 4647 §3.4).

use foldwright_words::Language::{self, English, German};

#[test]
fn a_tag_is_looked_up_from_special_to_general() {
    for (tag, language) in [
        ("de", Some(German)),
        ("DE", Some(German)),
        ("de-CH", Some(German)),
        ("de-CH-1996", Some(German)),
        ("en-GB-oxendict", Some(English)),
        // RFC 4647 §3.4: with a subtag goes the single letter that introduced it.
        ("de-x-private", Some(German)),
        ("den", None),
        ("fr", None),
        ("", None),
        ("*", None),
    ] {
        assert_eq!(Language::of_tag(tag), language, "{tag}");
    }
    for language in Language::ALL {
        assert_eq!(Language::of_tag(language.tag()), Some(language));
        assert_eq!(language.tongue().language(), language);
    }
}

#[test]
fn the_heaviest_range_of_a_list_decides() {
    for (list, language) in [
        // The example of RFC 9110 §12.5.4: Danish first, then British English.
        ("da, en-gb;q=0.8, en;q=0.7", Some(English)),
        ("de-DE,de;q=0.9,en-US;q=0.8,en;q=0.7", Some(German)),
        ("en;q=0.5, de", Some(German)),
        ("en;q=0.5 , de;q=0.501", Some(German)),
        ("en, de", Some(English)),
        ("de;Q=1.000, en", Some(German)),
        // A weight of 0 says that it is not acceptable.
        ("de;q=0, en;q=0.1", Some(English)),
        ("de;q=0", None),
        // "*" stands for every language that no other range names.
        ("*", Some(English)),
        ("en;q=0, *", Some(German)),
        ("fr, *;q=0.1", Some(English)),
        ("de;q=0.2, *;q=0.5", Some(English)),
        ("en;q=0.2, de;q=0.1, *;q=0.5", Some(English)),
        ("fr", None),
        ("", None),
    ] {
        assert_eq!(Language::accepted(list), language, "{list:?}");
    }
}

#[test]
fn what_is_no_range_is_passed_over() {
    for list in [
        "de;q=2",
        "de;q=1.5",
        "de;q=0.1234",
        "de;q=-1",
        "de;q=",
        "de;level=1",
        "d e",
        "-de",
        "deutschland",
        "ä",
        ";",
        ",,,",
    ] {
        let and_english = format!("{list}, en;q=0.001");
        assert_eq!(Language::accepted(&and_english), Some(English), "{list}");
    }
    // However long.
    let many = "xx,".repeat(100_000) + "de";
    assert_eq!(Language::accepted(&many), Some(German));
}
