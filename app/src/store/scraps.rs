//! Scraps the maker has measured and means to use.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use serde::{Deserialize, Serialize};

use super::versioned;

pub(super) const KEY: &str = "foldwright/scraps";

/// How many scraps are kept. Our own bound: a list to choose from at a glance.
pub const MOST_SCRAPS: usize = 12;

#[derive(Serialize, Deserialize)]
struct Kept {
    width: Length,
    height: Length,
}

pub(super) fn parse(text: &str) -> Option<Vec<Size>> {
    let kept = Vec::<Kept>::deserialize(versioned::body(text)?).ok()?;
    let sizes = kept.into_iter().map(|kept| Size {
        width: kept.width,
        height: kept.height,
    });
    Some(sizes.collect())
}

pub(super) fn text(scraps: &[Size]) -> String {
    let kept = scraps.iter().take(MOST_SCRAPS).map(|size| Kept {
        width: size.width,
        height: size.height,
    });
    versioned::text(&kept.collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use foldwright_engine::length::Length;
    use foldwright_engine::plane::Size;

    use super::{parse, text};

    #[test]
    fn scraps_come_back() {
        let scraps = [Size {
            width: Length::mm(148),
            height: Length::sixty_fourths(33),
        }];
        assert_eq!(parse(&text(&scraps)), Some(scraps.to_vec()));
        assert_eq!(parse("{}"), None);
    }
}
