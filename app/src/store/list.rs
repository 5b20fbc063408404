//! The list of measures the maker is typing.

use serde::Deserialize as _;

use super::versioned;

pub(super) const KEY: &str = "foldwright/list";

pub(super) fn parse(text: &str) -> Option<String> {
    String::deserialize(versioned::body(text)?).ok()
}

pub(super) fn text(typed: &str) -> String {
    versioned::text(&typed)
}

#[cfg(test)]
mod tests {
    use super::{parse, text};

    #[test]
    fn what_is_typed_comes_back() {
        let typed = "base 5 1/2 x 8 1/2\n\"score\" at 4¼\n";
        assert_eq!(parse(&text(typed)).as_deref(), Some(typed));
        assert_eq!(parse("[]"), None);
    }
}
