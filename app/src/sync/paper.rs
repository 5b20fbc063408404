//! Paper that is counted.

use foldwright_engine::length::Length;
use foldwright_engine::paper::Stock;
use foldwright_engine::plane::Size;

/// A paper, wherever it is used: what it is called and how large a sheet is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Paper {
    /// What the maker calls it.
    pub(crate) name: String,
    width: i64,
    height: i64,
}

impl Paper {
    /// The paper of a recipe's stock.
    pub(crate) fn of(stock: &Stock) -> Self {
        Self {
            name: stock.name.clone(),
            width: stock.width.units(),
            height: stock.height.units(),
        }
    }

    /// How large a sheet is.
    pub(crate) fn size(&self) -> Size {
        Size {
            width: Length::from_units(self.width),
            height: Length::from_units(self.height),
        }
    }

    /// Under which name it is counted.
    pub(crate) fn key(&self) -> String {
        format!("{} {} {}", self.width, self.height, self.name)
    }

    /// The paper that is counted under a name.
    pub(crate) fn parse(key: &str) -> Option<Self> {
        let mut parts = key.splitn(3, ' ');
        let width = parts.next()?.parse().ok()?;
        let height = parts.next()?.parse().ok()?;
        let name = parts.next()?.to_owned();
        Some(Self {
            name,
            width,
            height,
        })
    }
}

/// Before the key of scraps, where that of sheets has a number.
const SCRAP: &str = "scrap ";

/// Scraps of a paper, all of one size, that are counted.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Scrap {
    width: i64,
    height: i64,
    /// The paper they are left of.
    pub(crate) paper: Paper,
}

impl Scrap {
    /// What is so large of the paper of a recipe's stock, its print upright.
    pub(crate) fn of(stock: &Stock, size: Size) -> Self {
        Self {
            width: size.width.units(),
            height: size.height.units(),
            paper: Paper::of(stock),
        }
    }

    /// How large one is.
    pub(crate) fn size(&self) -> Size {
        Size {
            width: Length::from_units(self.width),
            height: Length::from_units(self.height),
        }
    }

    /// Under which name they are counted.
    pub(crate) fn key(&self) -> String {
        format!("{SCRAP}{} {} {}", self.width, self.height, self.paper.key())
    }

    /// The scraps that are counted under a name.
    pub(crate) fn parse(key: &str) -> Option<Self> {
        let mut parts = key.strip_prefix(SCRAP)?.splitn(3, ' ');
        Some(Self {
            width: parts.next()?.parse().ok()?,
            height: parts.next()?.parse().ok()?,
            paper: Paper::parse(parts.next()?)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::{Paper, Scrap};

    #[test]
    fn papers_come_back_by_their_key() {
        let paper = Paper {
            name: "Linen card 240 g".to_owned(),
            width: 15_120_000,
            height: 21_384_000,
        };
        assert_eq!(Paper::parse(&paper.key()), Some(paper));
        assert_eq!(Paper::parse("sheet"), None);
        let scrap = Scrap {
            width: 7_200_000,
            height: 15_120_000,
            paper: Paper {
                name: "Linen card 240 g".to_owned(),
                width: 15_120_000,
                height: 21_384_000,
            },
        };
        assert_eq!(Scrap::parse(&scrap.key()), Some(scrap.clone()));
        // They are no sheets, and sheets are no scraps.
        assert_eq!(Paper::parse(&scrap.key()), None);
        assert_eq!(Scrap::parse(&scrap.paper.key()), None);
    }
}
