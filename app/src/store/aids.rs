//! What somebody has beside the steps at the bench of this device.

use serde::{Deserialize, Serialize};

use super::versioned;

pub(super) const KEY: &str = "foldwright/aids";

/// How the bench of this device is set up.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Aids {
    /// Whether each step is read aloud as it opens.
    #[serde(default)]
    pub reads_aloud: bool,
    /// Whether the bench listens for words.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub listens: bool,
    /// Whether the large buttons lie at the left hand.
    #[serde(default)]
    pub left_handed: bool,
    /// How large the screen is, once somebody has measured it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub screen: Option<Screen>,
}

/// How large a screen shows things, measured with a card.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Screen {
    /// How many CSS pixels were as wide as the card.
    pub card: f64,
    /// How many pixels of the screen one of CSS had then: another number is another
    /// zoom, or another screen.
    pub ratio: f64,
}

pub(super) fn parse(text: &str) -> Option<Aids> {
    Aids::deserialize(versioned::body(text)?).ok()
}

pub(super) fn text(aids: &Aids) -> String {
    versioned::text(aids)
}

#[cfg(test)]
mod tests {
    use super::{Aids, Screen, parse, text};

    #[test]
    fn how_the_bench_is_set_up_comes_back() {
        let aids = Aids {
            reads_aloud: true,
            listens: true,
            left_handed: true,
            screen: Some(Screen {
                card: 267.25,
                ratio: 1.5,
            }),
        };
        assert_eq!(parse(&text(&aids)), Some(aids));
        // What was kept by a release that knew less.
        let less = r#"{"foldwright":1,"kept":{"left_handed":true}}"#;
        let left_handed = Aids {
            left_handed: true,
            ..Aids::default()
        };
        assert_eq!(parse(less), Some(left_handed));
        assert_eq!(parse("{}"), None);
    }
}
