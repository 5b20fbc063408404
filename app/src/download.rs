//! A recipe as files that leave the app: its sheet, its recipe cards and its templates to
//! print, its parts and lists for other programs, and kits for a class.

use std::sync::Arc;

use foldwright_engine::card::Card;
use foldwright_engine::cut_plan::CutPlan;
use foldwright_engine::length::Unit;
use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::{Recipe, Side};
use foldwright_export::{csv, fold, svg};
use foldwright_print::{Kits, Paper, Photos, Sheet, cards, kits, sheet, template};

use crate::reachable::is_this_computer;
use crate::spoken::{language, tongue};

/// Who shares a recipe, where, and what of it is kept elsewhere.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Source<'a> {
    /// What they are called; empty where nobody shares it.
    pub(crate) from: &'a str,
    /// The address of its live page; empty where it has none.
    pub(crate) link: &'a str,
    /// The files of its photographs that are at hand.
    pub(crate) photos: &'a [(PhotoId, Vec<u8>)],
}

impl Source<'_> {
    fn pictures(&self) -> Photos {
        Photos::new(self.photos.iter().cloned())
    }
}

/// A kind of file that is made of a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Download {
    /// The sheet to print.
    Sheet(Paper),
    /// All of it in short to print, four to a page.
    Cards(Paper),
    /// Its parts true to scale to print, seen from a side.
    Templates(Paper, Side),
    /// The same as outlines, SVG.
    Outlines(Side),
    /// The crease patterns of what is folded, FOLD.
    CreasePattern,
    /// What to cut and what it takes, CSV.
    Table,
}

impl Download {
    /// All of them, those first that a reader who prints on that paper asks for first.
    pub(crate) fn all_for(paper: Paper) -> impl Iterator<Item = Self> {
        let papers: Vec<_> = own_first(paper).collect();
        let sheets = papers.clone().into_iter().map(Self::Sheet);
        let cards = papers.clone().into_iter().map(Self::Cards);
        let sides = [Side::A, Side::B];
        let templates = sides.into_iter().flat_map(move |side| {
            let papers = papers.clone().into_iter();
            papers.map(move |paper| Self::Templates(paper, side))
        });
        let data = [Self::CreasePattern, Self::Table];
        let outlines = sides.map(Self::Outlines);
        sheets
            .chain(cards)
            .chain(templates)
            .chain(outlines)
            .chain(data)
    }

    /// Its media type. FOLD has none of its own and is JSON.
    pub const fn media_type(self) -> &'static str {
        match self {
            Self::Sheet(_) | Self::Cards(_) | Self::Templates(..) => "application/pdf",
            Self::Outlines(_) => "image/svg+xml",
            Self::CreasePattern => "application/json",
            // RFC 7111 and RFC 4180, 3.
            Self::Table => "text/csv; charset=utf-8; header=present",
        }
    }

    /// What its link says.
    pub(crate) fn label(self) -> &'static str {
        let (printed, taken) = (language().printed(), language().taken());
        match self {
            Self::Sheet(Paper::A4) => printed.sheet_on_a4,
            Self::Sheet(Paper::Letter) => printed.sheet_on_letter,
            Self::Cards(Paper::A4) => printed.cards_on_a4,
            Self::Cards(Paper::Letter) => printed.cards_on_letter,
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

    /// What the name of its file ends in.
    pub(crate) const fn ending(self) -> &'static str {
        match self {
            Self::Sheet(_) => "pdf",
            Self::Cards(_) => "cards.pdf",
            Self::Templates(_, Side::A) => "templates.pdf",
            Self::Templates(_, Side::B) => "mirrored.pdf",
            Self::Outlines(Side::A) => "svg",
            Self::Outlines(Side::B) => "mirrored.svg",
            Self::CreasePattern => "fold",
            Self::Table => "csv",
        }
    }

    /// Whether the address of the live page stands in it.
    #[cfg(feature = "ssr")]
    pub const fn has_link(self) -> bool {
        matches!(self, Self::Sheet(_) | Self::Cards(_))
    }

    /// What is in it, in the language that is spoken. `None` where it cannot be made,
    /// which is a mistake of ours.
    pub(crate) fn made(
        self,
        (recipe, card): (&Recipe, &Card),
        source: Source<'_>,
    ) -> Option<Vec<u8>> {
        let tongue = tongue();
        let photos = source.pictures();
        let on = |paper| sheet_on(paper, (recipe, card), source, &photos);
        match self {
            Self::Sheet(paper) => sheet(&on(paper)).ok(),
            Self::Cards(paper) => cards(&on(paper)).ok(),
            Self::Templates(paper, side) => template(&on(paper), side).ok(),
            Self::Outlines(side) => Some(svg(recipe, card, tongue, side).into_bytes()),
            Self::CreasePattern => Some(fold(recipe, card, tongue).into_bytes()),
            Self::Table => Some(csv(recipe, card, tongue).into_bytes()),
        }
    }
}

fn sheet_on<'a>(
    paper: Paper,
    (recipe, card): (&'a Recipe, &'a Card),
    source: Source<'a>,
    photos: &'a Photos,
) -> Sheet<'a> {
    // Whoever holds the sheet is on another device.
    let link = source.link;
    let link = if is_this_computer(link) { "" } else { link };
    Sheet {
        recipe,
        card,
        from: source.from,
        link,
        tongue: tongue(),
        paper,
        photos,
    }
}

/// The paper that is likely printed on where lengths are in a unit.
pub(crate) const fn usual_paper(unit: Unit) -> Paper {
    match unit {
        Unit::Millimetre => Paper::A4,
        Unit::Inch => Paper::Letter,
    }
}

/// The papers to print on, the reader's own first.
pub(crate) fn own_first(own: Paper) -> impl Iterator<Item = Paper> {
    let others = Paper::ALL.into_iter().filter(move |other| *other != own);
    std::iter::once(own).chain(others)
}

/// Cards for a class.
#[derive(Debug, Clone)]
pub(crate) struct Batch {
    /// How many makers there are.
    pub(crate) makers: u32,
    /// How many kits there are besides.
    pub(crate) spare: u32,
    /// How their sheets are cut; without it each part is cut from sheets of its own.
    pub(crate) plan: Option<Arc<CutPlan>>,
}

/// A file to be made, with what it takes besides the recipe.
#[derive(Debug, Clone)]
pub(crate) enum Wanted {
    /// One that takes nothing else.
    OfRecipe(Download),
    /// What is printed for a class.
    Kits(Paper, Batch),
}

impl Wanted {
    /// Its media type.
    pub(crate) const fn media_type(&self) -> &'static str {
        match self {
            Self::OfRecipe(what) => what.media_type(),
            Self::Kits(..) => "application/pdf",
        }
    }

    /// What the name of its file ends in.
    pub(crate) const fn ending(&self) -> &'static str {
        match self {
            Self::OfRecipe(what) => what.ending(),
            Self::Kits(..) => "kits.pdf",
        }
    }
}

/// Makes a file of a recipe, whose card is worked out; `None` where it cannot be made.
pub(crate) type Maker = fn(&Wanted, &Recipe, &Card, Source<'_>) -> Option<Vec<u8>>;

/// Makes one.
pub(crate) fn make(
    what: &Wanted,
    recipe: &Recipe,
    card: &Card,
    source: Source<'_>,
) -> Option<Vec<u8>> {
    match what {
        Wanted::OfRecipe(what) => what.made((recipe, card), source),
        Wanted::Kits(paper, batch) => kits(&Kits {
            of: sheet_on(*paper, (recipe, card), source, &source.pictures()),
            makers: batch.makers,
            spare: batch.spare,
            plan: batch.plan.as_deref(),
        })
        .ok(),
    }
}

/// What makes them, fetched where it is not here yet; `None` where it cannot be.
#[cfg(feature = "csr")]
pub(crate) async fn maker() -> Option<Maker> {
    crate::fetched::making_files().await.ok()
}

/// The same where all of it is here.
#[cfg(not(feature = "csr"))]
pub(crate) fn maker() -> std::future::Ready<Option<Maker>> {
    std::future::ready(Some(make))
}
