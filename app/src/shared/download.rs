//! A shared recipe as files, from the server.

use foldwright_api::Shared;
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::Side;
use foldwright_print::Paper;
use foldwright_words::Language;

use super::read::recipe;
use super::written::{MOST_BYTES, is_too_large};
use crate::download::{Download, Source};
use crate::spoken::speak;
use crate::store::file_name;

/// A file to keep.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Downloaded {
    /// What it is called.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

impl Download {
    /// The one whose address that is, without the question mark.
    pub fn of_query(query: &str) -> Option<Self> {
        Self::all_for(Paper::A4).find(|it| it.query() == query)
    }

    /// What is asked for at the address of the shared recipe.
    pub fn query(self) -> String {
        let mirrored = |side: Side| match side {
            Side::A => "",
            Side::B => "&mirrored",
        };
        match self {
            Self::Sheet(paper) => format!("sheet={}", paper.name()),
            Self::Cards(paper) => format!("cards={}", paper.name()),
            Self::Templates(paper, side) => {
                format!("template={}{}", paper.name(), mirrored(side))
            }
            Self::Outlines(side) => format!("template=svg{}", mirrored(side)),
            Self::CreasePattern => "data=fold".to_owned(),
            Self::Table => "data=csv".to_owned(),
        }
    }
}

/// A file of what a link opens, in a language, with those of its photographs that are
/// at hand; `None` where that is no recipe this
/// Foldwright can show, or one too large to be written out.
pub fn downloaded(
    shared: &Shared,
    link: &str,
    language: Language,
    what: Download,
    photos: &[(PhotoId, Vec<u8>)],
) -> Option<Downloaded> {
    speak(language);
    let recipe = recipe(shared).ok()?;
    if is_too_large(&recipe) {
        return None;
    }
    let card = work_out(&recipe, &Tools::default());
    let source = Source {
        from: &shared.from,
        link,
        photos,
    };
    let bytes = what.made((&recipe, &card), source);
    let bytes = bytes.filter(|bytes| bytes.len() <= MOST_BYTES)?;
    let name = file_name(&recipe.name, what.ending());
    Some(Downloaded { name, bytes })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use foldwright_print::Paper;

    use crate::download::Download;

    #[test]
    fn each_file_has_an_address_of_its_own() {
        let all: Vec<_> = Download::all_for(Paper::Letter).collect();
        let addresses: BTreeSet<_> = all.iter().map(|it| it.query()).collect();
        assert_eq!((all.len(), addresses.len()), (12, 12));
        for it in all {
            assert_eq!(Download::of_query(&it.query()), Some(it));
        }
        for nothing in [
            "",
            "sheet=svg",
            "template=a4&mirrored=1",
            "sheet=a4&sheet=a4",
        ] {
            assert_eq!(Download::of_query(nothing), None, "{nothing}");
        }
    }
}
