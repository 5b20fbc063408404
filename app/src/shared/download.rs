//! A shared recipe as files that leave the app: its sheet and its templates to print,
//! and its parts and lists for other programs.

use foldwright_api::Shared;
use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::recipe::{Recipe, Side};
use foldwright_export::{csv, fold, svg};
use foldwright_print::{Paper, Sheet, sheet, template};
use foldwright_words::Language;

use super::read::recipe;
use super::written::{MOST_BYTES, is_too_large};
use crate::spoken::speak;
use crate::store::file_name;

/// A kind of file that is made of a shared recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Download {
    /// The sheet to print.
    Sheet(Paper),
    /// Its parts true to scale to print, seen from a side.
    Templates(Paper, Side),
    /// The same as outlines, SVG.
    Outlines(Side),
    /// The crease patterns of what is folded, FOLD.
    CreasePattern,
    /// What to cut and what it takes, CSV.
    Table,
}

/// A file to keep.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Downloaded {
    /// What it is called.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

impl Download {
    /// All of them, those first that a reader who prints on that paper asks for first.
    pub(super) fn all_for(paper: Paper) -> impl Iterator<Item = Self> {
        let others = Paper::ALL.into_iter().filter(move |other| *other != paper);
        let papers: Vec<_> = std::iter::once(paper).chain(others).collect();
        let sheets = papers.clone().into_iter().map(Self::Sheet);
        let sides = [Side::A, Side::B];
        let templates = sides.into_iter().flat_map(move |side| {
            let papers = papers.clone().into_iter();
            papers.map(move |paper| Self::Templates(paper, side))
        });
        let data = [Self::CreasePattern, Self::Table];
        let outlines = sides.map(Self::Outlines);
        sheets.chain(templates).chain(outlines).chain(data)
    }

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
            Self::Templates(paper, side) => {
                format!("template={}{}", paper.name(), mirrored(side))
            }
            Self::Outlines(side) => format!("template=svg{}", mirrored(side)),
            Self::CreasePattern => "data=fold".to_owned(),
            Self::Table => "data=csv".to_owned(),
        }
    }

    /// Its media type. FOLD has none of its own and is JSON.
    pub const fn media_type(self) -> &'static str {
        match self {
            Self::Sheet(_) | Self::Templates(..) => "application/pdf",
            Self::Outlines(_) => "image/svg+xml",
            Self::CreasePattern => "application/json",
            // RFC 7111 and RFC 4180, 3.
            Self::Table => "text/csv; charset=utf-8; header=present",
        }
    }

    /// What its link says.
    pub(super) fn label(self, language: Language) -> &'static str {
        let (printed, taken) = (language.printed(), language.taken());
        match self {
            Self::Sheet(Paper::A4) => printed.sheet_on_a4,
            Self::Sheet(Paper::Letter) => printed.sheet_on_letter,
            Self::Templates(Paper::A4, Side::A) => taken.templates_on_a4,
            Self::Templates(Paper::Letter, Side::A) => taken.templates_on_letter,
            Self::Templates(Paper::A4, Side::B) => taken.mirrored_on_a4,
            Self::Templates(Paper::Letter, Side::B) => taken.mirrored_on_letter,
            Self::Outlines(Side::A) => taken.outlines,
            Self::Outlines(Side::B) => taken.mirrored_outlines,
            Self::CreasePattern => taken.crease_pattern,
            Self::Table => taken.tables,
        }
    }

    const fn ending(self) -> &'static str {
        match self {
            Self::Sheet(_) => "pdf",
            Self::Templates(_, Side::A) => "templates.pdf",
            Self::Templates(_, Side::B) => "mirrored.pdf",
            Self::Outlines(Side::A) => "svg",
            Self::Outlines(Side::B) => "mirrored.svg",
            Self::CreasePattern => "fold",
            Self::Table => "csv",
        }
    }

    fn made(
        self,
        (recipe, card): (&Recipe, &Card),
        from: &str,
        language: Language,
    ) -> Option<Vec<u8>> {
        let on = |paper| Sheet {
            recipe,
            card,
            from,
            language,
            paper,
        };
        match self {
            Self::Sheet(paper) => sheet(&on(paper)).ok(),
            Self::Templates(paper, side) => template(&on(paper), side).ok(),
            Self::Outlines(side) => Some(svg(recipe, card, language, side).into_bytes()),
            Self::CreasePattern => Some(fold(recipe, card, language).into_bytes()),
            Self::Table => Some(csv(recipe, card, language).into_bytes()),
        }
    }
}

/// A file of what a link opens, in a language; `None` where that is no recipe this
/// Foldwright can show, or one too large to be written out.
pub fn downloaded(shared: &Shared, language: Language, what: Download) -> Option<Downloaded> {
    speak(language);
    let recipe = recipe(shared).ok()?;
    if is_too_large(&recipe) {
        return None;
    }
    let card = work_out(&recipe, &Tools::default());
    let bytes = what.made((&recipe, &card), &shared.from, language);
    let bytes = bytes.filter(|bytes| bytes.len() <= MOST_BYTES)?;
    let name = file_name(&recipe.name, what.ending());
    Some(Downloaded { name, bytes })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use foldwright_print::Paper;

    use super::Download;

    #[test]
    fn each_file_has_an_address_of_its_own() {
        let all: Vec<_> = Download::all_for(Paper::Letter).collect();
        let addresses: BTreeSet<_> = all.iter().map(|it| it.query()).collect();
        assert_eq!((all.len(), addresses.len()), (10, 10));
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
